"""DXF: read back by the library that others read it with."""

import hashlib
import io
import os
import subprocess
import sys

import ezdxf
import pytest
from ezdxf import entities
from ezdxf.document import Drawing
from hypothesis import example, given, settings
from hypothesis import strategies as st

from ferrule.sheets.dxf import dxf
from ferrule.sheets.scene import (
    LAYERS,
    Arc,
    Item,
    Pen,
    Point,
    Scene,
    Text,
    line,
)
from ferrule.sheets.svg import svg
from ferrule.sheets.words import plain
from sheets.everything import EVERYTHING
from sheets.hostile import words


def read(*items: Item) -> Drawing:
    written = dxf(Scene(210.0, 297.0, items, "a page"))
    return ezdxf.read(io.StringIO(written.decode("utf-8")))


def test_the_audit_finds_nothing_and_mends_nothing() -> None:
    audit = read(*EVERYTHING).audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_it_is_in_mm_and_bounds_the_page() -> None:
    document = read(*EVERYTHING)
    assert document.units == ezdxf.units.MM
    assert tuple(document.header["$EXTMAX"]) == (210.0, 297.0, 0.0)


def test_every_layer_is_there_by_name() -> None:
    document = read(*(line((0, 0), (9, 9), layer=layer) for layer in LAYERS))
    assert {layer.upper() for layer in LAYERS} <= {layer.dxf.name for layer in document.layers}
    assert [entity.dxf.layer for entity in document.modelspace()] == [layer.upper() for layer in LAYERS]


def test_the_page_stands_upright() -> None:
    (entity,) = read(line((10, 20), (50, 30))).modelspace()
    assert (entity.dxf.start.vec2, entity.dxf.end.vec2) == ((10, 277), (50, 267))


@given(st.floats(0, 359), st.floats(1, 359))
@settings(max_examples=20)
def test_an_arc_has_its_ends_and_middle_where_the_scene_has_them(start: float, span: float) -> None:
    arc = Arc(Point(60, 120), 10, start, start + span)
    (entity,) = read(arc).modelspace()
    assert isinstance(entity, entities.Arc)
    turned = (entity.dxf.end_angle - entity.dxf.start_angle) % 360
    (middle,) = entity.vertices([entity.dxf.start_angle + turned / 2])
    for found, share in ((entity.end_point, 0.0), (middle, 0.5), (entity.start_point, 1.0)):
        x, y = arc.at(start + share * span)
        assert (found.x, found.y) == pytest.approx((x, 297 - y), abs=1e-5)


def test_strokes_keep_their_weight_and_their_dashes() -> None:
    (entity,) = read(line((0, 0), (9, 9), pen=Pen(0.18, dashed=True))).modelspace()
    assert (entity.dxf.lineweight, entity.dxf.linetype) == (18, "DASHED")


@given(words)
@example("^")
@example("a^ b^")
@settings(max_examples=30)
def test_words_come_out_as_words_whatever_they_are(text: str) -> None:
    document = read(Text(Point(10, 10), text))
    found = [entity.plain_text() for entity in document.modelspace() if isinstance(entity, entities.Text)]
    letters = plain(text).replace(" ", "")
    assert "".join(found).replace(" ", "") == letters
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_text_is_text_at_the_height_of_its_capitals() -> None:
    (entity,) = read(Text(Point(20, 200), "Inverter", 3.5, "middle", upright=True, bold=True)).modelspace()
    assert isinstance(entity, entities.Text)
    assert (entity.dxf.height, entity.dxf.rotation, entity.dxf.style) == (3.5, 90, "BOLD")
    alignment, at, _ = entity.get_placement()
    assert (alignment.name, at.vec2) == ("CENTER", (20, 97))


def test_the_same_scene_gives_the_same_bytes_in_every_process() -> None:
    program = (
        "import hashlib, sys; sys.path[:0] = ['tests']; from sheets.everything import EVERYTHING; "
        "from ferrule.sheets.dxf import dxf; from ferrule.sheets.svg import svg; "
        "from ferrule.sheets.scene import Scene; scene = Scene(210.0, 297.0, EVERYTHING, 'a page'); "
        "print(hashlib.sha256(dxf(scene) + svg(scene).encode()).hexdigest())"
    )
    scene = Scene(210.0, 297.0, EVERYTHING, "a page")
    here = hashlib.sha256(dxf(scene) + svg(scene).encode()).hexdigest()
    elsewhere = {**os.environ, "PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo"}
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, env=elsewhere
    )
    assert done.stdout.strip() == here
