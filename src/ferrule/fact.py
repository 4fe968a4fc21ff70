"""Facts that may be unknown and decisions that may be open."""

from collections.abc import Callable, Iterable
from functools import partial
from typing import TYPE_CHECKING, Annotated, Any, TypeVar, Union, get_args

from ferrule.quantity import Unit

if TYPE_CHECKING:
    from pydantic.fields import FieldInfo

T = TypeVar("T")


class Unknown:
    """A fact nobody has found out yet; `ask` says what to find out."""

    __slots__ = ("ask",)

    def __init__(self, ask: str) -> None:
        self.ask = ask

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Unknown) and other.ask == self.ask

    def __hash__(self) -> int:
        return hash(self.ask)

    def __repr__(self) -> str:
        return f"Unknown({self.ask!r})"


class Open:
    """A decision the job leaves to be chosen; `OPEN` is the one there is."""

    __slots__ = ()

    def __repr__(self) -> str:
        return "OPEN"


OPEN = Open()


class Missing(Exception):
    """Raised where a calculation meets unknown facts; carries what is to be found out.

    `waits` is true where no fact about the house is missing, so that choosing may go on without an answer.
    """

    waits = False

    def __init__(self, *asks: str) -> None:
        super().__init__("; ".join(asks))
        self.asks = asks


class Undecided(Missing):
    """Raised where a calculation meets a decision that has not been made."""

    waits = True


def known(fact: T | Unknown) -> T:
    """The fact itself. Raises `Missing` if it is unknown."""
    if isinstance(fact, Unknown):
        raise Missing(fact.ask)
    return fact


def all_known(*facts: Any) -> None:
    """Raise one `Missing` naming every unknown among `facts`, so that a person looks only once."""
    asks = [fact.ask for fact in facts if isinstance(fact, Unknown)]
    if asks:
        raise Missing(*dict.fromkeys(asks))


def unknown_of(things: Iterable[tuple[str, Any]], *facts: str) -> list[Unknown]:
    """What is not known of several things with names, each ask led by its thing's name, for `all_known`."""
    found = [(name, getattr(thing, fact)) for name, thing in things for fact in facts]
    return [Unknown(f"{name}: {fact.ask}") for name, fact in found if isinstance(fact, Unknown)]


class _Stands:
    """Tells pydantic that an instance of `stand_in` may stand in a field's place; all else is validated."""

    def __init__(self, stand_in: type[Unknown] | type[Open]) -> None:
        self.stand_in = stand_in

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        serialization = core_schema.plain_serializer_function_ser_schema(_plain)
        kinds = tuple(kind for kind in get_args(source) if kind is not self.stand_in)
        unit = _unit_of(*kinds)
        if unit is None:
            inner = handler.generate_schema(Union[kinds])  # noqa: UP007 (a union built from a tuple)
            return core_schema.no_info_wrap_validator_function(self._read, inner, serialization=serialization)
        # Most facts are quantities, and a start-up has hundreds of them to prepare.
        return core_schema.no_info_plain_validator_function(
            partial(self._read, read_other=unit.parse),
            serialization=serialization,
            metadata={"unit": unit},
        )

    def _read(self, given: Any, read_other: Callable[[Any], Any]) -> Any:
        if self.stand_in is Open and given == "open":
            return OPEN
        return given if isinstance(given, self.stand_in) else read_other(given)

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> Any:
        inner = handler(schema)
        if self.stand_in is Open:
            return {"anyOf": [inner, {"const": "open"}]}
        unknown = {
            "type": "object",
            "properties": {"unknown": {"type": "string", "description": "what to find out"}},
            "required": ["unknown"],
            "additionalProperties": False,
        }
        return {"anyOf": [inner, unknown]}


def _unit_of(kind: Any, *others: Any) -> Unit | None:
    """The unit of a quantity that stands alone."""
    metadata = () if others else getattr(kind, "__metadata__", ())
    return next((each for each in metadata if isinstance(each, Unit)), None)


def _plain(value: Any) -> Any:
    if isinstance(value, Unknown):
        return {"unknown": value.ask}
    return "open" if isinstance(value, Open) else value


Fact = Annotated[T | Unknown, _Stands(Unknown)]
Decision = Annotated[T | Open, _Stands(Open)]


def missing(ask: str) -> Any:
    """The default of a fact left out: unknown, with what to find out (see `meaning`)."""
    return Unknown(ask)


def to_choose(what: str) -> Any:
    """The default of a decision left out: open, to be chosen."""
    from pydantic import Field

    return Field(default=OPEN, description=what)


def meaning(field: "FieldInfo") -> str:
    """What a field of a record stands for, or what to find out for it."""
    return field.default.ask if isinstance(field.default, Unknown) else field.description or ""


def assumed(default: Any, text: str) -> Any:
    """A default that is listed among the assumptions wherever the job leaves the field out."""
    from pydantic import Field

    return Field(default=default, description=text, json_schema_extra={"assumed": text})
