"""Where a battery may stand: one procedure for every country, for they differ in their tables only."""

from collections.abc import Iterable, Iterator

from ferrule.clauses.procedures.base import Uncovered
from ferrule.clauses.procedures.battery_place import Neighbour, Rule
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.working import NotPrinted, Tables, Trace

_INDOORS = "indoors"
_RULES: dict[Rule, str] = {
    "opens_to": "doors", "separation": "fire separation", "alarm": "alarms", "cars": "cars", "wall": "walls",
    "finish": "the lining of walls and ceiling",
}  # fmt: skip
_OWN_COLUMN = frozenset({"garage", "outbuilding", "outdoors"})
_NEIGHBOURS: dict[Neighbour, str] = {
    "opening": "the nearest door, window or vent",
    "opening_above": "the opening above it",
    "escape": "the nearest escape route",
    "flammables": "stored flammables",
    "battery": "the next battery",
    "above": "what is above it",
    "appliance": "the nearest heater or appliance",
}


class PlaceTables:
    """The tables of an edition, each rule with its clause there. A cell that is not printed asks nothing.

    `binding` is False where an edition has only a convention; a place of -1 is refused even then.
    """

    needs = ("battery_place", "battery_distance", "battery_rules")

    def __init__(self, *, binding: bool = True) -> None:
        self._binding = binding

    def use(self, tables: Tables, *, use: str) -> Iterator[Constraint]:
        t = Trace(tables)
        allowed = t.read("battery_place", use)
        yield is_so(
            "place",
            "A battery may stand in a place of this kind: {use}" if allowed > 0
            else "No battery may stand in a place of this kind: {use}",
            t, allowed > 0, binding=self._binding or allowed < 0,
            mend="stand it outdoors, in a garage or an outbuilding",
            use=use.replace("-", " "),
        )  # fmt: skip

    def asks(self, tables: Tables, rule: Rule, *, use: str) -> bool:
        holds = self._rule(Trace(tables), rule, use)
        if holds < 0:  # not having found a rule is not having none
            raise Uncovered(
                f"the rules on {_RULES[rule]} near a battery, which this rulebook has not got yet"
            )
        return holds > 0

    def _rule(self, t: Trace, rule: Rule, use: str) -> float:
        return t.read("battery_rules", rule, use if use in _OWN_COLUMN else _INDOORS)

    def opens_to(self, tables: Tables, *, use: str, uses: Iterable[str]) -> Iterator[Constraint]:
        t = Trace(tables)
        self._rule(t, "opens_to", use)
        good = "sleeping" not in uses
        yield is_so(
            "opens_to",
            "It opens into no room for sleeping" if good else "It opens into a room for sleeping",
            t, good, binding=self._binding, mend="stand it in a place that opens elsewhere",
        )  # fmt: skip

    def separation(self, tables: Tables, *, use: str, separated: bool) -> Iterator[Constraint]:
        t = Trace(tables)
        self._rule(t, "separation", use)
        yield is_so(
            "separation",
            "Fire-resisting walls, ceiling and doors part it from rooms lived in and from escape routes"
            if separated else "Nothing fire-resisting parts it from rooms lived in and from escape routes",
            t, separated, binding=self._binding, mend="line the room fire-resisting, with a door of its own",
        )  # fmt: skip

    def alarm(self, tables: Tables, *, use: str, alarm: str) -> Iterator[Constraint]:
        t = Trace(tables)
        self._rule(t, "alarm", use)
        good = alarm == "linked"
        yield is_so(
            "alarm", "The room has an alarm linked with those of the house" if good
            else "The room has no alarm linked with those of the house",
            t, good, binding=self._binding, mend="fit a heat or smoke alarm there, linked with the others",
        )  # fmt: skip

    def cars(self, tables: Tables, *, use: str, cars: str) -> Iterator[Constraint]:
        t = Trace(tables)
        self._rule(t, "cars", use)
        good = cars in {"none", "guarded"}
        yield is_so(
            "cars", "No car can hit it" if good else "A car can hit it",
            t, good, binding=self._binding, mend="set posts or a rail before it",
        )  # fmt: skip

    def wall(self, tables: Tables, *, use: str, behind: str, combustible: bool) -> Iterator[Constraint]:
        """A wall with a habitable room behind it must not burn through."""
        t = Trace(tables)
        self._rule(t, "wall", use)
        if behind not in {"habitable", "sleeping"}:
            return
        yield is_so(
            "wall",
            "The wall to the room behind it burns" if combustible
            else "The wall to the room behind it does not burn",
            t, not combustible, binding=self._binding,
            mend="put a board that does not burn behind it, wider and higher than the battery",
        )  # fmt: skip

    def finish(self, tables: Tables, *, use: str, finished: bool) -> Iterator[Constraint]:
        t = Trace(tables)
        self._rule(t, "finish", use)
        yield is_so(
            "finish",
            "Its walls and ceiling are lined or do not burn" if finished
            else "Its walls or ceiling are bare and burn",
            t, finished, binding=self._binding,
            mend="line bare studs and joists with fire-resisting board",
        )  # fmt: skip

    def keeps_from(self, tables: Tables, neighbour: Neighbour, *, use: str) -> bool:
        try:
            self._distance_mm(Trace(tables), neighbour, use)
        except NotPrinted:
            return False
        return True

    def distance(
        self, tables: Tables, neighbour: Neighbour, *, use: str, distance_mm: float
    ) -> Iterator[Constraint]:
        t = Trace(tables)
        yield at_least(
            neighbour,
            "{value} to {what}; {limit} are asked for",
            t,
            value=t.given("distance_mm", distance_mm, "measured, or from the layout"),
            limit=self._distance_mm(t, neighbour, use),
            unit="mm",
            binding=self._binding,
            mend="stand it further away",
            what=_NEIGHBOURS[neighbour],
        )

    def _distance_mm(self, t: Trace, neighbour: Neighbour, use: str) -> float:
        return t.read("battery_distance", neighbour, "outdoors" if use == "outdoors" else _INDOORS)


class EnergyTables:
    """The energy an edition allows in one unit and in each kind of place; a kind not listed has no limit."""

    needs = ("battery_energy",)

    def stored(self, tables: Tables, *, use: str, unit_wh: float, place_wh: float) -> Iterator[Constraint]:
        amounts = (
            ("unit", unit_wh, "One unit holds {value}"),
            (use, place_wh, "All units there hold {value}"),
        )
        for row, energy_wh, text in amounts:
            t = Trace(tables)
            try:
                limit_wh = t.read("battery_energy", row)
            except NotPrinted:
                continue
            yield at_most(
                "unit_energy" if row == "unit" else "place_energy",
                f"{text}; {{limit}} may be stored",
                t,
                value=energy_wh,
                limit=limit_wh,
                unit="Wh",
                mend="take fewer or smaller units, or spread them over several places",
            )
