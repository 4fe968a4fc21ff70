"""What may be backed up, and how loads count (IEC 60364-5-53, BS 7671 regulation 314.4; else practice)."""

from collections.abc import Iterator, Sequence

from ferrule.constraint import Constraint, is_so
from ferrule.working import Tables, Trace

#: rows of the table of starting loads; a motor and a charger must be asked
_LOADS = {
    "lighting": "lighting",
    "resistive": "resistive",
    "electronic": "electronic",
    "sockets": "universal",
}


class ChosenCircuits:
    """Circuits that an inverter feeds by itself in an outage."""

    needs = (
        "backup_phase_share",
        "load_start_multiple",
        "start_time",
        "shared_neutral_across_backup",
        "backup_heater_most",
        "contactor_as_isolator",
    )

    def phase_share(self, t: Trace) -> float:
        return t.figure("backup_phase_share")

    def start_multiple(self, t: Trace, *, kind: str) -> float | None:
        """The upper end of what printed tables give."""
        row = _LOADS.get(kind)
        return t.read("load_start_multiple", row, "high") if row else None

    def start_time_s(self, t: Trace) -> float:
        """The longest: a short-time rating must last until the motor runs."""
        return t.figure("start_time", "high")

    def shared_neutral(self, tables: Tables, *, others: Sequence[str]) -> Iterator[Constraint]:
        """BS 7671 314.4: a neutral stays live from the other source, and the RCD of either trips."""
        t = Trace(tables)
        forbidden = t.term("shared_neutral_across_backup") == "forbidden"
        yield is_so(
            "shared_neutral",
            "Its neutral is shared with {others}, which the network alone feeds"
            if others
            else "Nothing on the network's side shares its neutral",
            t,
            not (others and forbidden),
            mend="back up {others} as well, or run a neutral for each side",
            others=", ".join(others),
        )

    def heater_most_w(self, t: Trace) -> float:
        return t.figure("backup_heater_most")

    def isolating_contacts(self, tables: Tables, *, declared: bool) -> Iterator[Constraint]:
        """IEC 60364-5-53 annex B: whether a plain contactor separates is disputed; a maker may declare it."""
        t = Trace(tables)
        disputed = t.term("contactor_as_isolator") == "disputed"
        yield is_so(
            "isolating_contacts",
            "Its contacts are declared fit for isolation"
            if declared
            else "Its contacts are not declared fit for isolation; whether they may separate is disputed",
            t,
            declared or not disputed,
            binding=False,
            mend="add a switch-disconnector on its network side, or take a unit declared fit for isolation",
        )
