"""What the things of a house are called on drawings: short, with units; an asterisk on what was chosen, a
question mark for what nobody has found out.
"""

from collections.abc import Callable, Iterable, Mapping

from ferrule.answering import Answer
from ferrule.checks.paths import length_m
from ferrule.checks.string_voltage import cold_voltage_v
from ferrule.clauses.procedures import Unasked
from ferrule.design import Decided
from ferrule.display import number, quantity
from ferrule.fact import Fact, Missing, known
from ferrule.job.array import SurgeDevice
from ferrule.job.boards import Rcd
from ferrule.job.devices import BatteryProtection
from ferrule.sheets.schedule import Row, schedule
from ferrule.sheets.texts import say

UNKNOWN, CHOSEN = "?", "*"


class Said:
    """The words for one drawing of an answered job. `asks` gathers what its question marks stand for, and
    `starred` whether any asterisk was set.
    """

    def __init__(self, result: Answer) -> None:
        self.result, self.design, self.house = result, result.design, result.design.house
        self.leads: Mapping[str, Row] = {row.lead: row for row in schedule(result)}
        self.asks: dict[str, None] = {}
        self.starred = False
        self._chosen = {choice.decided for choice in result.choices}

    def words(self, find: Callable[[], str]) -> str:
        """What `find` says, or the mark for what is not known."""
        try:
            return find()
        except Missing as missing:
            self.asks.update(dict.fromkeys(missing.asks))
            return UNKNOWN
        except Unasked:
            return ""

    def fact(self, fact: Fact[object], unit: str = "") -> str:
        """A fact with its unit."""
        return self.words(lambda: quantity(known(fact), unit))

    def star(self, kinds: Iterable[str], owner: str) -> str:
        """The asterisk, where one of these was chosen."""
        if any(Decided(kind, owner) in self._chosen for kind in kinds):
            self.starred = True
            return CHOSEN
        return ""

    # Cables

    def cable(self, lead: str) -> tuple[str, str]:
        """Its type, and its conductors with their size and the length: `5 × 4 mm²*, 14 m`."""
        row = self.leads[lead]
        counts: dict[str, int] = {}
        for conductor in row.conductors:
            size = self._size(conductor.size)
            counts[size] = counts.get(size, 0) + 1
        star = self.star(("conductor", "neutral", "protective", "bonding", "earthing"), _owner(lead))
        cores = " + ".join(f"{count} × {size}{star}" for size, count in counts.items())
        part = row.cable.partition(" ")[0]
        return part, ", ".join(filter(None, (cores, self.length(row.length_m))))

    def sizes(self, lead: str, cores: Iterable[str]) -> str:
        """The sizes of some of its conductors: `2.5 mm²*`."""
        asked = set(cores)
        sizes = [self._size(each.size) for each in self.leads[lead].conductors if each.name in asked]
        star = self.star(("protective", "bonding", "earthing"), _owner(lead))
        return " + ".join(f"{size}{star}" for size in sizes)

    def count(self, lead: str) -> int:
        """How many conductors it has."""
        return len(self.leads[lead].conductors)

    def length(self, length: Fact[float]) -> str:
        """A length in m."""
        return self.words(lambda: f"{number(known(length))} m")

    def run_length(self, run: str) -> str:
        return self.words(lambda: f"{number(length_m(self.house, run))} m")

    def _size(self, size: Fact[object] | None) -> str:
        return "" if size is None else self.words(lambda: str(known(size)))

    # Protection

    def overcurrent(self, circuit: str) -> str:
        """The device of a circuit: `B16 A 1P L3`."""
        given = self.house.circuits[circuit]
        kind = given.device.kind
        curve = "gG " if kind == "fuse-gG" else self.words(lambda: self.design.curve(circuit))
        rating = self.words(lambda: f"{number(self.design.rating_a(circuit))} A")
        star = self.star(("rating", "curve"), circuit)
        lines = "" if len(given.phases) == len(self.house.voltages_v) else f" {' '.join(given.phases)}"
        return f"{curve}{rating}{star} {len(given.phases)}P{lines}"

    def rcd(self, circuit: str) -> str:
        """Its residual current device, empty where it has none."""
        return self.words(lambda: self._rcd(self.design.rcd(circuit), self.star(("rcd",), circuit)))

    def board_rcd(self, board: str) -> str:
        return self._rcd(self.house.boards[board].rcd, "")

    def _rcd(self, rcd: Rcd | None, star: str) -> str:
        if rcd is None:
            return ""
        delayed = say("drawn.selective") if rcd.selective else ""
        residual, rating = f"{number(rcd.residual_a * 1000)} mA", quantity(rcd.rating_a, "A")
        return say("drawn.rcd", type=rcd.type, residual=residual, rating=rating) + delayed + star

    def protection(self, battery: str) -> str:
        """The overcurrent device of a battery: `fuse gBat 125 A`."""

        def found() -> str:
            device: BatteryProtection = self.design.battery_protection(battery)
            kind = device.kind.replace("-", " ")
            return f"{kind} {number(device.rating_a)} A{self.star(('battery_protection',), battery)}"

        return self.words(found)

    def main_fuse(self) -> str:
        def found() -> str:
            fuse = known(self.house.job.supply.main_fuse)
            return f"{'gG' if fuse.kind == 'fuse-gG' else 'MCB'} {number(fuse.rating_a)} A"

        return self.words(found)

    # Direct current

    def cold_voltage(self, string: str) -> str:
        """The open-circuit voltage on the coldest morning."""
        return self.words(
            lambda: quantity(
                cold_voltage_v(self.design, self.result.code, string, self.result.code.trace()),
                "V",
                toward="up",
            )
        )

    def string_fuse(self, string: str) -> str:
        def found() -> str:
            fuse = self.design.fuse(string)
            return f"gPV {number(fuse.rating_a)} A{self.star(('string_fuse',), string)}" if fuse else ""

        return self.words(found)

    def isolator(self, terminal: str) -> str:
        """The isolator before an input, empty where the inverter has its own."""

        def found() -> str:
            isolator = self.design.isolator(terminal)
            if isolator == "built-in":
                return ""
            return f"{self.fact(isolator.current_max_a, 'A')}{self.star(('dc_isolator',), terminal)}"

        return self.words(found)

    def dc_surge(self, terminal: str) -> str:
        def found() -> str:
            surge = self.design.dc_surge(terminal)
            return (
                f"{say('drawn.type', type=surge.type)}{self.star(('dc_surge',), terminal)}" if surge else ""
            )

        return self.words(found)

    def ac_surge(self, board: str) -> str:
        def found() -> str:
            surge = self.design.ac_surge(board)
            return self._surge(surge, self.star(("ac_surge",), board))

        return self.words(found)

    def _surge(self, device: SurgeDevice | None, star: str) -> str:
        return say("drawn.type", type=device.type) + star if device else ""

    def load(self, circuit: str) -> str:
        """The power of what hangs on a circuit, together."""
        powers = [load.power_w for load in self.house.circuits[circuit].loads]
        if not powers:
            return ""
        return self.words(lambda: quantity(sum(known(each) for each in powers), "W"))

    def notes(self) -> list[str]:
        """What the marks on the drawing mean, and what is to be found out."""
        starred = [say("drawn.starred")] if self.starred else []
        return [*starred, *(say("drawn.find_out", ask=ask) for ask in self.asks)]


def _owner(lead: str) -> str:
    return "earth" if lead == "earthing" else lead
