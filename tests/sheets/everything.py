"""One of each thing that can be drawn."""

from ferrule.sheets.scene import HEAVY, Arc, Box, Circle, Item, Point, Polygon, Rectangle, Text, line

EVERYTHING: tuple[Item, ...] = (
    line((10, 10), (50, 10)),
    line((10, 20), (50, 20), (50, 40), pen=HEAVY.dash(), layer="signal"),
    Rectangle(Box(60, 60, 90, 80)),
    Circle(Point(30, 100), 5),
    Circle(Point(30, 120), 1, filled=True),
    Arc(Point(60, 120), 10, 270, 45),
    Polygon((Point(1, 1), Point(5, 1), Point(3, 4)), accent=True),
    Text(Point(20, 200), "Inverter", 3.5, "middle", "middle", bold=True),
    Text(Point(100, 200), "up", upright=True),
)
