"""A calculator: a typed function with a name of the trade, what it takes, and what comes out.

The annotations of the function say everything: `length_m: LengthM` is an input `length` in metres with a
range, a `Size` is a conductor's, a `Literal` one of some words. `About` adds what a name leaves open.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Literal, NamedTuple, cast, get_args, get_origin

from ferrule.calculators.coefficient import Coefficient
from ferrule.clauses import Code, bind
from ferrule.fact import Missing
from ferrule.grade import Grade
from ferrule.quantity import QuantityError, Size, Unit, bare_name
from ferrule.rules import editions
from ferrule.rules import load as load_rulebook
from ferrule.working import NotPrinted, Read, Step, Tables, Trace

EDITION = "iec-2024"

_NO_TABLES = cast(Tables, None)  # for a working that reads none


class About(NamedTuple):
    """What an input or a result means, and the side to which rounding a result is safe."""

    meaning: str
    toward: Literal["nearest", "down", "up"] = "nearest"


class Field(NamedTuple):
    """An input or a result: how a person writes it, and what the function calls it."""

    key: str
    name: str
    kind: Literal["quantity", "size", "word", "yes or no", "coefficient"]
    type: Any
    unit: Unit
    words: tuple[str, ...]
    about: About
    required: bool
    default: Any

    def parse(self, text: str) -> Any:
        """The value of what a person wrote. Raises `QuantityError` saying what is allowed."""
        if self.kind == "quantity":
            return self.unit.parse(text)
        if self.kind == "size":
            return Size.parse(text)
        if self.kind == "coefficient":
            return self.type.parse(text)
        words = {word.casefold(): word for word in self.words}
        if text.strip().casefold() not in words:
            raise QuantityError(f"one of {', '.join(self.words)}")
        word = words[text.strip().casefold()]
        return word == "yes" if self.kind == "yes or no" else word

    def allowed(self) -> str:
        """What may be written, in words."""
        return {
            "quantity": self.unit.allowed(),
            "size": "a conductor size such as '4 mm²' or 'AWG 10'",
            "coefficient": getattr(self.type, "allowed", ""),
        }.get(self.kind, f"one of {', '.join(self.words)}")


class Result(NamedTuple):
    """One result with its unit; a value of None says that there is none."""

    field: Field
    value: Any

    @property
    def impossible(self) -> bool:
        """Whether it lies below the range of its unit: a formula has left the inputs it was made for."""
        return self.field.kind == "quantity" and self.value is not None and self.value < self.field.unit.low

    @property
    def told(self) -> str:
        """The result as a sentence names it."""
        return f"{self.field.key.replace('_', ' ')} of {self.value:.4g} {self.field.unit.symbol}".rstrip()


@dataclass(frozen=True)
class Outcome:
    """What came out of one calculation, from which inputs, by which working."""

    calculator: "Calculator"
    given: Mapping[str, str]
    inputs: Mapping[str, Any]
    results: tuple[Result, ...]
    steps: tuple[Step, ...]

    @property
    def reads(self) -> Iterator[Read]:
        return (step for step in self.steps if isinstance(step, Read))

    @property
    def sources(self) -> list[str]:
        """The formula's source, then those of the figures read."""
        return list(dict.fromkeys([self.calculator.source, *(str(read.source) for read in self.reads)]))

    @property
    def grade(self) -> Grade | None:
        """The weakest grade among the figures read; None where none was."""
        return min((read.grade for read in self.reads), default=None)


class BadInput(Exception):
    """Inputs that cannot be taken, a line for each."""

    def __init__(self, *lines: str) -> None:
        super().__init__("\n".join(lines))
        self.lines = lines


class NoAnswer(Exception):
    """Inputs from which nothing follows; says what stands against it."""


@dataclass(frozen=True)
class Calculator:
    """One calculator.

    `function` is a physics function, then `result` names what it returns; or it takes a `Trace` first, and a
    `code` if it asks a standard's procedures, and returns a NamedTuple of results. `tables` says that it
    reads a rulebook without them. `example` is how a person would call it.
    """

    name: str
    function: Callable[..., Any]
    source: str
    example: Mapping[str, str]
    result: str = ""
    tables: bool = False
    about: Mapping[str, About] = field(default_factory=dict)

    @property
    def title(self) -> str:
        """The first paragraph of the function's docstring."""
        return " ".join((self.function.__doc__ or "").split("\n\n")[0].split())

    @cached_property
    def inputs(self) -> tuple[Field, ...]:
        taken = {n: a for n, a in self.function.__annotations__.items() if n not in {"t", "code", "return"}}
        defaults = self.function.__kwdefaults__ or {}
        fields = [
            _field(name, annotation, self.about.get(name), name not in defaults, defaults.get(name))
            for name, annotation in taken.items()
        ]
        if self.reads_rulebook:
            words = tuple(editions())
            about = About("the rulebook's edition")
            fields.append(Field("edition", "edition", "word", str, Unit(""), words, about, False, EDITION))
        return tuple(fields)

    @cached_property
    def outputs(self) -> tuple[Field, ...]:
        returned = self.function.__annotations__["return"]
        if self.result:
            return (_field(self.result, returned, self.about.get("return"), True, None),)
        return tuple(_field(name, each, None, True, None) for name, each in returned.__annotations__.items())

    @property
    def reads_rulebook(self) -> bool:
        return self.tables or "code" in self.function.__annotations__

    def read(self, given: Mapping[str, str]) -> dict[str, Any]:
        """The values of what a person wrote, by key, defaults included.

        Raises `BadInput` telling everything that is wrong at once.
        """
        wrong, values = [], {}
        known = {each.key: each for each in self.inputs}
        for key, text in given.items():
            if key not in known:
                wrong.append(_unknown(key, list(known)))
                continue
            try:
                values[key] = known[key].parse(text)
            except QuantityError as error:
                wrong.append(f"{key} = '{text[:60]}': allowed is {error}")
        for key, each in known.items():
            if key not in given:
                if each.required:
                    wrong.append(f"{key} is missing: {_wanted(each)}")
                else:
                    values[key] = each.default
        if wrong:
            raise BadInput(*wrong)
        return values

    def work(self, given: Mapping[str, str]) -> Outcome:
        """Calculate from what a person wrote. Raises `BadInput` and `NoAnswer`."""
        values = self.read(given)
        named = {each.name: values[each.key] for each in self.inputs if each.key != "edition"}
        try:
            results, steps = self._worked(named, values.get("edition", EDITION))
        except Missing as error:
            raise NoAnswer(_look_for(error)) from None
        for each in results:
            if each.impossible:
                raise NoAnswer(f"{each.told} would follow, which cannot be: look at what is given once more")
        return Outcome(self, dict(given), values, results, steps)

    def _worked(self, named: Mapping[str, Any], edition: str) -> tuple[tuple[Result, ...], tuple[Step, ...]]:
        code = bind(load_rulebook(edition)) if self.reads_rulebook else None
        t = code.trace() if code else Trace(_NO_TABLES)
        if self.result:
            returned: tuple[Any, ...] = (t.calculate(self.function, **named),)
        elif "code" in self.function.__annotations__:
            returned = self.function(t, code=cast(Code, code), **named)
        else:
            returned = self.function(t, **named)
        results = tuple(Result(each, value) for each, value in zip(self.outputs, returned, strict=True))
        return results, tuple(t.steps)


def _field(name: str, annotation: Any, about: About | None, required: bool, default: Any) -> Field:
    metadata = getattr(annotation, "__metadata__", ())
    plain = get_args(annotation)[0] if metadata else annotation
    options = [each for each in get_args(plain) if each is not type(None)]
    if options and get_origin(plain) is not Literal:  # X | None: one that may be left out, or may not exist
        inner = _field(name, options[0], about, required, default)
        return inner._replace(about=_about(metadata) or inner.about)
    about = about or _about(metadata) or About("")
    unit = next((each for each in metadata if isinstance(each, Unit)), Unit(""))
    if get_origin(plain) is Literal:
        return Field(name, name, "word", plain, unit, get_args(plain), about, required, default)
    if plain is bool:
        return Field(name, name, "yes or no", bool, unit, ("yes", "no"), about, required, default)
    if plain is Size:
        return Field(name, name, "size", Size, unit, (), about, required, default)
    if isinstance(plain, type) and issubclass(plain, Coefficient):
        return Field(name, name, "coefficient", plain, unit, (), about, required, default)
    return Field(bare_name(name), name, "quantity", plain, unit, (), about, required, default)


def _about(metadata: tuple[Any, ...]) -> About | None:
    return next((each for each in metadata if isinstance(each, About)), None)


def _look_for(error: Missing) -> str:
    return str(error) if isinstance(error, NotPrinted) else f"no answer yet; look for {error}"


def _wanted(each: Field) -> str:
    meaning = f"{each.about.meaning}; " if each.about.meaning else ""
    return f"{meaning}allowed is {each.allowed()}"


def _unknown(key: str, known: list[str]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(key, known, n=1)
    hint = f"did you mean '{near[0]}'? " if near else ""
    return f"it takes no '{key[:60]}'; {hint}it takes {', '.join(known)}"
