"""The labels of a house: which the rulebook asks for, with what on them, where, and how many."""

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import NamedTuple

from ferrule import display
from ferrule.answering import Answer
from ferrule.checks.paths import length_m
from ferrule.checks.subjects import place_of_device
from ferrule.checks.wired import fitted, wired
from ferrule.clauses.procedures import covered
from ferrule.clauses.procedures.labels import AskedLabel, On
from ferrule.design import House
from ferrule.fact import Fact, Unknown
from ferrule.grade import Grade, Source
from ferrule.job.devices import BatteryDevice
from ferrule.sheets.schedule import BOUGHT, fact, place_of_end
from ferrule.sheets.texts import catalogue
from ferrule.wiring.leads import box_of
from ferrule.wiring.terminal import Lead

LANGUAGES = ("en", "de")
"""Those in which there are texts for labels."""
_THERE_IS = " and ".join(LANGUAGES)


class Label(NamedTuple):
    """One label: its text, the thing it is on and the place of that, how many, its look and its source.

    `find_out` says what keeps its text or count from being whole; the text is empty then, or has a gap.
    """

    name: str
    text: str
    language: str
    at: str
    place: str
    copies: int | None
    height_mm: float
    ink: str
    ground: str
    sign: str
    source: Source
    grade: Grade
    find_out: tuple[str, ...]


class _Spot(NamedTuple):
    """A thing that bears a label, with the words for its text."""

    at: str
    place: str
    words: Mapping[str, Fact[str]]
    copies: Fact[int] = 1


def labels(answer: Answer, language: str = "en") -> list[Label]:
    """Every label of a house, in the rulebook's order. Raises `Missing` where the rulebook has no labels."""
    procedure, house = covered(answer.code.procedures.labels), _House(answer)
    asked = list(procedure.asked(answer.code.rulebook))
    return [_label(each, spot, language) for each in asked for spot in house.spots(each.on, language)]


def _label(asked: AskedLabel, spot: _Spot, language: str) -> Label:
    texts = catalogue(f"labels-{language}") if language in LANGUAGES else {}
    find_out = [each.ask for each in (*spot.words.values(), spot.copies) if isinstance(each, Unknown)]
    words = {name: "…" if isinstance(each, Unknown) else each for name, each in spot.words.items()}
    text = ""
    if asked.name in texts:
        text = texts[asked.name].format_map(words)
    else:
        find_out.append(f"the text of label {asked.name} in language {language!r}; there is {_THERE_IS}")
    count = None if isinstance(spot.copies, Unknown) else spot.copies
    return Label(
        asked.name, text, language, spot.at, spot.place, count, asked.height_mm, asked.ink, asked.ground,
        asked.sign, asked.source, asked.grade, tuple(dict.fromkeys(find_out)),
    )  # fmt: skip


class _House:
    """What there is in a house to bear a label."""

    def __init__(self, answer: Answer) -> None:
        self.answer = answer
        self.house: House = answer.design.house

    def spots(self, on: On, language: str) -> Iterator[_Spot]:
        """The things of a kind."""
        match on:
            case "supply":
                yield _Spot("supply", "meter", {})
            case "rapid-switch":
                ask = "where the switch for rapid shutdown is, for its label"
                yield _Spot("supply", "meter", {"at": Unknown(ask)})
            case "supply-points":
                yield from self._supply_points()
            case "dc-access":
                yield from self._dc_access()
            case "dc-isolator":
                yield from self._dc_isolators()
            case "dc-plug":
                yield from (_Spot(s.id, "roof", {"of": s.id}, 2) for s in self.house.strings.values())
            case "dc-cable":
                yield from (self._along(run) for run in self.house.string_runs)
            case "inverter":
                yield from map(self._inverter, self._of_kind("inverter"))
            case "inverter-circuit":
                yield from self._inverter_circuits()
            case "backup-board":
                boards = dict.fromkeys(self.house.board_of[each].id for each in self.house.backed_up)
                yield from (_Spot(board, "board", {"of": board}) for board in boards)
            case "changeover":
                yield from (_Spot(each, "wall", {"of": each}) for each in self._of_kind("changeover"))
            case "bond":
                yield from self._bonds()
            case "earth":
                yield from self._earths()
            case "battery":
                yield from (self._battery(each, language) for each in self._batteries)
            case "battery-isolator":
                yield from (
                    _Spot(each.id, "battery", {"of": each.id})
                    for each in self._batteries
                    if each.isolator != "none"
                )
            case "circuit":
                yield from self._circuits()
            case "cable-end":
                yield from self._cable_ends()
            case "bus-end":
                for bus, line in self.house.lines.items():
                    yield from (_Spot(end, self._place(end), {"of": bus}) for end in line.ends)

    def _of_kind(self, kind: str) -> list[str]:
        return [device.id for device in self.house.job.devices if device.kind == kind]

    @property
    def _batteries(self) -> list[BatteryDevice]:
        return [device for device in self.house.job.devices if isinstance(device, BatteryDevice)]

    def _place(self, terminal: str) -> str:
        return place_of_device(self.house, terminal.partition(".")[0])

    @cached_property
    def _fed_in(self) -> list[tuple[str, str]]:
        """The inverters that the network reaches, each with the run that lands on it."""
        ups = ((each, self.house.upstream(f"{each}.grid")) for each in self._of_kind("inverter"))
        return [(each, up[-1]) for each, up in ups if up]

    def _supply_points(self) -> Iterator[_Spot]:
        """Origin, meters, and the boards between the network and the inverters."""
        ends = [
            end for each, _ in self._fed_in for run in self.house.upstream(f"{each}.grid") or ()
            for end in (self.house.runs[run].start, self.house.runs[run].end)
        ]  # fmt: skip
        boards = [end for end in dict.fromkeys(ends) if end in self.house.boards]
        where = ", ".join(self.answer.design.house.circuit_of_run[run].id if run in self.house.circuit_of_run
                          else run for _, run in self._fed_in)  # fmt: skip
        words: dict[str, Fact[str]] = {"disconnects": where}
        for at in ("supply", *self._of_kind("meter"), *boards):
            yield _Spot(at, "meter" if at == "supply" else self._place(at), words)

    def _dc_access(self) -> Iterator[_Spot]:
        boxed = fitted(self.answer.design).boxed
        for terminal in self.house.inputs:
            if terminal in boxed:
                yield _Spot(box_of(terminal), "wall", {})
        yield from (_Spot(inverter, "wall", {}) for inverter in self.house.strings_of)

    def _dc_isolators(self) -> Iterator[_Spot]:
        for terminal, strings in self.house.inputs.items():
            highest_v = [self._cold_v(string.id) for string in strings]
            known_v = [each for each in highest_v if isinstance(each, float)]
            voltage: Fact[str] = (
                display.quantity(max(known_v), "V", toward="up")
                if len(known_v) == len(strings)
                else Unknown(f"the highest voltage of the strings on {terminal}")
            )
            yield _Spot(terminal, "wall", {"of": terminal, "voltage": voltage})

    def _cold_v(self, string: str) -> Fact[float]:
        """The highest voltage of a string, as the question on the coldest morning found it."""
        for finding in self.answer.findings:
            if finding.id == "string.cold_voltage" and finding.subject.id == string:
                values = [each.value for each in finding.constraints if each.unit == "V"]
                found = [float(each) for each in values if isinstance(each, int | float)]
                if found:
                    return max(found)
        return Unknown(f"the highest voltage of string {string}")

    def _along(self, run: str) -> _Spot:
        def count() -> int:
            procedure = covered(self.answer.code.procedures.labels)
            return procedure.count_along(self.answer.code.trace(), length_m=length_m(self.house, run))

        return _Spot(run, "roof", {"of": run}, fact(count))

    def _inverter(self, inverter: str) -> _Spot:
        wait_s = getattr(self.house.parts[self.house.devices[inverter].part], "discharge_time_s", None)
        wait: Fact[str] = (
            display.word("wait_s", wait_s) if isinstance(wait_s, float)
            else Unknown(f"{inverter}: how long its capacitors stay charged, from its manual")
        )  # fmt: skip
        return _Spot(inverter, "wall", {"of": inverter, "wait": wait})

    def _inverter_circuits(self) -> Iterator[_Spot]:
        for inverter, run in self._fed_in:
            circuit = self.house.circuit_of_run.get(run)
            if circuit is not None:
                at = f"{self.house.board_of[circuit.id].id}.{circuit.id}"
                yield _Spot(at, "board", {"of": inverter, "circuit": circuit.id})

    def _bonds(self) -> Iterator[_Spot]:
        for bond in self.house.topology.bonds:
            if bond.by != "supply" and (bond.contact.closed or bond.contact.unsure):
                named: Fact[str] = Unknown(bond.contact.ask) if bond.contact.unsure else bond.at
                yield _Spot(bond.at, self._place(bond.at), {"of": named})

    def _earths(self) -> Iterator[_Spot]:
        """Where a protective conductor can be reached and taken off: both ends of earthing and bonding."""
        for lead in wired(self.answer.design).leads.values():
            if lead.role in {"earthing", "bonding"}:
                for at in lead.places:
                    if at in self.house.boards:
                        continue
                    yield _Spot(at, place_of_end(self.house, at), {"of": lead.id})
        if board := fitted(self.answer.design).main_board:
            yield _Spot(f"{board}.bars PE", "board", {"of": board})

    def _battery(self, battery: BatteryDevice, language: str) -> _Spot:
        part = self.house.parts[battery.part]
        texts = catalogue(f"labels-{language if language in LANGUAGES else 'en'}")

        def told(name: str, value: Fact[float]) -> Fact[str]:
            return value if isinstance(value, Unknown) else display.word(name, value)

        def of_all(each: Fact[float]) -> Fact[float]:
            return each if isinstance(each, Unknown) else each * battery.packs

        words: dict[str, Fact[str]] = {
            "of": battery.id,
            "chemistry": part.chemistry
            if isinstance(part.chemistry, Unknown)
            else texts[f"word.{part.chemistry}"],
            "voltage": told("voltage_v", part.voltage_nominal_v),
            "energy": told("energy_wh", of_all(part.energy_wh)),
            "current": told("current_a", of_all(part.short_circuit_a)),
        }
        return _Spot(battery.id, "battery", words)

    def _circuits(self) -> Iterator[_Spot]:
        for circuit in self.house.circuits.values():
            board, end = self.house.board_of[circuit.id].id, self.house.runs[circuit.run].end
            yield _Spot(f"{board}.{circuit.id}", "board", {"of": circuit.id, "feeds": end})

    def _cable_ends(self) -> Iterator[_Spot]:
        for lead in wired(self.answer.design).leads.values():
            if lead.role not in BOUGHT and lead.cores:
                for side in (0, 1):
                    at = lead.places[side]
                    words = {"of": lead.id, "at": _terminal(lead, side)}
                    yield _Spot(at, place_of_end(self.house, at), words)


def _terminal(lead: Lead, side: int) -> str:
    """Where the first of its cores lands that lands anywhere at this end."""
    landed = [core.end if side else core.start for core in lead.cores]
    at = next(each for each in landed if each is not None)
    return f"{at.device}.{at.port}" if at.port else at.device
