"""Room to work at a device (NFPA 70, 110.26(A))."""

from collections.abc import Iterator

from ferrule.clauses.procedures.place import Opposite, Room
from ferrule.constraint import Constraint, at_least
from ferrule.working import Tables, Trace

_FACES: dict[Opposite, str] = {
    "clear": "nothing live or earthed",
    "earthed": "something earthed",
    "live": "something live",
}


class ClearWorkingSpace:
    """Depth, width and height of the space before equipment that may be worked on while live."""

    needs = ("working_depth", "working_width", "working_headroom")
    by_voltage = True

    def depth_mm(self, t: Trace, *, to_earth_v: float, opposite: Opposite) -> float:
        """Table 110.26(A)(1). Raises `NotPrinted` above 600 V."""
        return t.read("working_depth", to_earth_v, opposite)

    def room(
        self, tables: Tables, *, to_earth_v: float, opposite: Opposite, room: Room
    ) -> Iterator[Constraint]:
        if room.depth_mm is not None:
            t = Trace(tables)
            yield at_least(
                "depth",
                "Before it {value} are free; at {to_earth_v} to earth it needs {limit} if {faces} faces it",
                t,
                value=room.depth_mm,
                limit=self.depth_mm(t, to_earth_v=to_earth_v, opposite=opposite),
                unit="mm",
                mend="hang it where more is free before it",
                faces=_FACES[opposite],
                to_earth_v=to_earth_v,
            )
        wanted = (
            ("width", room.width_mm, "Before it {value} are free from side to side; it needs {limit}"),
            ("headroom", room.headroom_mm, "The ceiling is {value} high; the space needs {limit}"),
        )
        for name, value_mm, text in wanted:
            if value_mm is not None:
                t = Trace(tables)
                yield at_least(name, text, t, value=value_mm, limit=t.figure(f"working_{name}"), unit="mm")
