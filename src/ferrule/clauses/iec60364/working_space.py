"""Room to work at a device, after the gangways of IEC 60364-7-729."""

from collections.abc import Iterator

from ferrule.clauses.procedures.place import Opposite, Room
from ferrule.constraint import Constraint, at_least
from ferrule.working import Tables, Trace


class Gangway:
    """IEC 60364-7-729 is for operating areas of larger plants: in a house its gangway is a convention."""

    needs = ("gangway_depth", "gangway_headroom")
    by_voltage = False

    def depth_mm(self, t: Trace, *, to_earth_v: float, opposite: Opposite) -> float:
        return t.figure("gangway_depth")

    def room(
        self, tables: Tables, *, to_earth_v: float, opposite: Opposite, room: Room
    ) -> Iterator[Constraint]:
        before = "Before it {value} are free; a person who works there needs {limit}"
        above = "The ceiling is {value} high; a person who stands there needs {limit}"
        wanted = (("depth", room.depth_mm, before), ("headroom", room.headroom_mm, above))
        for name, value_mm, text in wanted:
            if value_mm is not None:
                t = Trace(tables)
                yield at_least(
                    name, text, t, value=value_mm, limit=t.figure(f"gangway_{name}"), unit="mm", binding=False
                )
