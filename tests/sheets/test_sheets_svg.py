"""SVG: true size, real words, nothing that a reader could take for markup."""

import math
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule.sheets.scene import (
    FINE,
    LAYERS,
    Arc,
    Box,
    Circle,
    Item,
    Point,
    Polygon,
    Rectangle,
    Scene,
    Text,
    line,
)
from ferrule.sheets.svg import svg
from ferrule.sheets.words import plain
from sheets.hostile import words

NAMESPACE = "{http://www.w3.org/2000/svg}"
KNOWN = {"svg", "title", "desc", "g", "path", "rect", "circle", "polygon", "text"}


def drawn(*items: Item, title: str = "a page") -> ElementTree.Element:
    return ElementTree.fromstring(svg(Scene(210.0, 297.0, items, title)))


def the(root: ElementTree.Element, name: str) -> ElementTree.Element:
    (found,) = root.iter(NAMESPACE + name)
    return found


def test_the_page_has_its_size_in_mm() -> None:
    root = drawn()
    assert (root.get("width"), root.get("height")) == ("210mm", "297mm")
    assert root.get("viewBox") == "0 0 210 297"


@given(words, words, words)
def test_words_come_out_as_words_whatever_they_are(title: str, description: str, text: str) -> None:
    items = (Text(Point(10, 10), text), Text(Point(10, 30), text, upright=True, bold=True))
    root = ElementTree.fromstring(svg(Scene(210, 297, items, title, description)).encode())
    assert {each.tag for each in root.iter()} <= {NAMESPACE + name for name in KNOWN}
    assert (the(root, "title").text or "") == plain(title)
    assert [each.text or "" for each in root.iter(NAMESPACE + "text")] == [plain(text)] * 2


def test_each_layer_is_one_group() -> None:
    items = [line((0, 0), (at, 5), layer=layer) for at, layer in enumerate((*LAYERS, *LAYERS), start=1)]
    groups = [each.get("id") for each in drawn(*items) if each.tag == NAMESPACE + "g"]
    assert groups == list(LAYERS)


def test_a_group_without_content_is_left_out() -> None:
    assert list(drawn())[1:] == []


@given(st.floats(-180, 540), st.floats(-180, 540), st.floats(0.5, 50))
def test_an_arc_runs_through_its_middle_point(start: float, end: float, radius: float) -> None:
    """The flags of the path choose, of four arcs between two ends, the one meant: W3C SVG 1.1, F.6.5."""
    arc = Arc(Point(100, 100), radius, start, end, FINE)
    path = the(drawn(arc), "path").get("d") or ""
    pieces = re.findall(r"[MA][^MA]*", path)
    at = tuple(map(float, pieces[0][1:].split()))
    turned = 0.0
    for piece in pieces[1:]:
        r, r2, tilt, large, sweep, x, y = map(float, piece[1:].split())
        assert (r, tilt, sweep) == (r2, 0, 1)
        assert math.dist((100, 100), (x, y)) == pytest.approx(radius, abs=2e-3)
        step = math.degrees(math.atan2(y - 100, x - 100) - math.atan2(at[1] - 100, at[0] - 100)) % 360
        # Ends closer than the rounding of the file may read as a full turn or as none.
        assert large == (step > 180) or min(step, 360 - step, abs(step - 180)) < math.degrees(0.01 / radius)
        turned, at = turned + step, (x, y)
    slack = math.degrees(0.01 / radius)
    assert min((turned - arc.span_deg) % 360, (arc.span_deg - turned) % 360) <= slack


def test_numbers_are_short_and_never_minus_nought() -> None:
    root = drawn(Rectangle(Box(-0.0001, 1 / 3, 10.123456, 20)))
    box = the(root, "rect").attrib
    assert box == {"x": "0", "y": "0.333", "width": "10.124", "height": "19.667"}


def test_a_filled_shape_is_filled_and_an_open_one_is_not() -> None:
    text = svg(Scene(10, 10, (Circle(Point(5, 5), 1, filled=True),), "dot"))
    assert 'fill="#16191c"' in text
    assert 'fill="#16191c"' not in svg(Scene(10, 10, (Circle(Point(5, 5), 1),), "ring"))
    polygon = the(drawn(Polygon((Point(0, 0), Point(1, 0), Point(0, 1)))), "polygon")
    assert polygon.get("points") == "0,0 1,0 0,1"
