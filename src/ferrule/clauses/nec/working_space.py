"""Room to work at a device (NFPA 70, 110.26(A))."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least
from ferrule.working import Tables, Trace


class ClearWorkingSpace:
    """Depth, width and height of the space before equipment that may be worked on while live.

    The depth is that for up to 150 V to earth.
    """

    needs = ("working_depth", "working_width", "working_headroom")

    def depth_mm(self, tables: Tables) -> float:
        return Trace(tables).figure("working_depth")

    def room(
        self, tables: Tables, *, depth_mm: float | None, width_mm: float, headroom_mm: float | None
    ) -> Iterator[Constraint]:
        wanted = (
            ("depth", depth_mm, "Before it {value} are free; it needs {limit}"),
            ("width", width_mm, "Before it {value} are free from side to side; it needs {limit}"),
            ("headroom", headroom_mm, "The ceiling is {value} high; the space needs {limit}"),
        )
        for name, value_mm, text in wanted:
            if value_mm is not None:
                t = Trace(tables)
                yield at_least(name, text, t, value=value_mm, limit=t.figure(f"working_{name}"), unit="mm")
