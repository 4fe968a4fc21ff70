"""A device as a plain rectangle that grows with the names of its terminals."""

from collections.abc import Iterable, Mapping, Sequence

from ferrule.sheets.scene import (
    GRID_MM,
    NAME_MM,
    SMALL_MM,
    Anchor,
    Box,
    Facing,
    Item,
    Point,
    Rectangle,
    Text,
)
from ferrule.sheets.symbol import Port, Symbol
from ferrule.sheets.words import shortened, width_mm

TITLE_ROOM_MM, LABEL_ROOM_MM = 60.0, 30.0
"""What a name and a port's label may take; longer ones are shortened."""

_INSET_MM = GRID_MM / 2


def device(
    name: str,
    ports: Mapping[Facing, Sequence[str]],
    *,
    note: str = "",
    labels: Mapping[str, str] | None = None,
    pitch_mm: float = 2 * GRID_MM,
) -> Symbol:
    """A device with its top left at (0, 0), its name and a note in the middle, and its ports on the sides
    given, from the left or from the top, labelled where the conductors meet them. A port is labelled as it is
    called, unless `labels` says otherwise. Raises `ValueError` for two ports of one name.
    """
    shown = {
        port: shortened((labels or {}).get(port, port), SMALL_MM, LABEL_ROOM_MM)
        for side in ports.values()
        for port in side
    }
    if len(shown) < sum(map(len, ports.values())):
        raise ValueError(f"two ports of {name} have one name")
    name = shortened(name, NAME_MM, TITLE_ROOM_MM, bold=True)
    note = shortened(note, SMALL_MM, TITLE_ROOM_MM)

    def depth(facing: Facing) -> float:
        return _depth(shown[port] for port in ports.get(facing, ()))

    def count(*facings: Facing) -> int:
        return max(len(ports.get(facing, ())) for facing in facings)

    titles = max(width_mm(name, NAME_MM, bold=True), width_mm(note, SMALL_MM)) + 2 * GRID_MM
    width = max(depth("left") + titles + depth("right"), pitch_mm * (count("up", "down") + 1))
    rows = max(10.0 if note else 7.5, pitch_mm * count("left", "right"))
    box = Box(0.0, 0.0, _on_grid(width), _on_grid(depth("up") + rows + depth("down")))
    middle = Point(
        (depth("left") + box.width_mm - depth("right")) / 2, (depth("up") + box.height_mm - depth("down")) / 2
    )
    found: dict[str, Port] = {}
    items: list[Item] = [Rectangle(box), *_titles(middle, name, note)]
    for facing, side in ports.items():
        about = box.width_mm / 2 if facing in ("up", "down") else middle.y_mm
        first = round((about - (len(side) - 1) * pitch_mm / 2) / GRID_MM) * GRID_MM
        for at, port in enumerate(side):
            found[port], text = _terminal(box, facing, first + at * pitch_mm, shown[port])
            items.append(text)
    return Symbol(tuple(items), found, box)


def _depth(labels: Iterable[str]) -> float:
    """What the labels of a side take, from the edge inwards."""
    return max((width_mm(each, SMALL_MM) + 2 * _INSET_MM for each in labels), default=0.0)


def _on_grid(size_mm: float) -> float:
    """Rounded up to two steps, so that the middle lies on the grid as well."""
    return -(-size_mm // (2 * GRID_MM)) * 2 * GRID_MM


def _titles(middle: Point, name: str, note: str) -> tuple[Text, ...]:
    x, y = middle
    if not note:
        return (Text(middle, name, NAME_MM, "middle", "middle", bold=True),)
    return (
        Text(Point(x, y - 1.75), name, NAME_MM, "middle", "middle", bold=True),
        Text(Point(x, y + 2.75), note, SMALL_MM, "middle", "middle"),
    )


def _terminal(box: Box, facing: Facing, along_mm: float, label: str) -> tuple[Port, Text]:
    anchor: Anchor
    match facing:
        case "up":
            at, inward, anchor = Point(along_mm, box.top_mm), (0.0, _INSET_MM), "end"
        case "down":
            at, inward, anchor = Point(along_mm, box.bottom_mm), (0.0, -_INSET_MM), "start"
        case "left":
            at, inward, anchor = Point(box.left_mm, along_mm), (_INSET_MM, 0.0), "start"
        case "right":
            at, inward, anchor = Point(box.right_mm, along_mm), (-_INSET_MM, 0.0), "end"
    labelled = Point(at.x_mm + inward[0], at.y_mm + inward[1])
    upright = facing in ("up", "down")
    return Port(at, facing), Text(labelled, label, SMALL_MM, anchor, "middle", upright)
