"""Room to work at a device, after the gangways of IEC 60364-7-729."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least
from ferrule.working import Tables, Trace


class Gangway:
    """IEC 60364-7-729 is for operating areas of larger plants: in a house its gangway is a convention."""

    needs = ("gangway_depth", "gangway_headroom")

    def depth_mm(self, tables: Tables) -> float:
        return Trace(tables).figure("gangway_depth")

    def room(
        self, tables: Tables, *, depth_mm: float | None, width_mm: float, headroom_mm: float | None
    ) -> Iterator[Constraint]:
        wanted = (
            ("depth", depth_mm, "Before it {value} are free; a person who works there needs {limit}"),
            ("headroom", headroom_mm, "The ceiling is {value} high; a person who stands there needs {limit}"),
        )
        for name, value_mm, text in wanted:
            if value_mm is not None:
                t = Trace(tables)
                yield at_least(
                    name, text, t, value=value_mm, limit=t.figure(f"gangway_{name}"), unit="mm", binding=False
                )
