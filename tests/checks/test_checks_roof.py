"""Whether the roof takes the array."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding

ROOF = "faces.south.roof"
BLOCK = "faces.south.blocks.S"
MOUNT = "parts.example-hook-rail"
FIBRE_CEMENT = {f"{ROOF}.covering": "fibre-cement"}


def asked(question: str, edits: dict[str, Any]) -> Finding:
    return finding(answered(edits), f"face.{question}", "face/south")


@pytest.mark.parametrize(
    ("question", "edits", "name", "expected"),
    [
        ("covering", {f"{ROOF}.asbestos": "suspected"}, "asbestos", Verdict.FAIL),
        ("covering", {f"{ROOF}.asbestos": "tested-clear"}, "asbestos", Verdict.PASS),
        # fibre cement from before the ban is asbestos until a laboratory says otherwise
        ("covering", FIBRE_CEMENT, "asbestos", Verdict.FAIL),
        ("covering", {**FIBRE_CEMENT, f"{ROOF}.laid_year": 2005}, "asbestos", Verdict.PASS),
        ("covering", {**FIBRE_CEMENT, f"{ROOF}.laid_year": 2004}, "asbestos", Verdict.FAIL),
        ("covering", {**FIBRE_CEMENT, f"{ROOF}.asbestos": "tested-clear"}, "asbestos", Verdict.PASS),
        ("covering", {f"{ROOF}.laid_year": 1986}, "age", Verdict.PASS),
        ("covering", {f"{ROOF}.laid_year": 1985}, "age", Verdict.CAUTION),
        ("covering", {f"{ROOF}.condition": "repair"}, "condition", Verdict.FAIL),
        ("structure", {f"{ROOF}.structure": "purlins"}, "structure", Verdict.FAIL),
        ("structure", {f"{ROOF}.covering": "slates"}, "covering", Verdict.FAIL),
        ("structure", {"faces.south.tilt": "14°"}, "tilt", Verdict.FAIL),
        ("structure", {"faces.south.tilt": "15°"}, "tilt", Verdict.PASS),
        ("structure", {f"{ROOF}.services": "marked"}, "services", Verdict.CAUTION),
        ("hooks", {f"{ROOF}.structure": "purlins"}, "overhang", Verdict.UNKNOWN),
        ("blocks", {f"{BLOCK}.columns": 5}, "count", Verdict.FAIL),
        ("blocks", {f"{BLOCK}.left": "300 mm"}, "edges", Verdict.PASS),
        ("blocks", {f"{BLOCK}.left": "299 mm"}, "edges", Verdict.FAIL),
        ("blocks", {f"{ROOF}.height": "4463 mm"}, "edges", Verdict.FAIL),
        ("hooks", {f"{MOUNT}.spans": [{"wind": "1", "snow": "2", "hooks": "800 mm"}]}, "span", Verdict.PASS),
        ("hooks", {f"{MOUNT}.spans": [{"wind": "1", "snow": "2", "hooks": "799 mm"}]}, "span", Verdict.FAIL),
        ("hooks", {f"{ROOF}.snow_zone": "3"}, "span", Verdict.FAIL),  # not in the table
        ("hooks", {f"{MOUNT}.overhang_max": "334 mm"}, "overhang", Verdict.PASS),
        ("hooks", {f"{MOUNT}.overhang_max": "333 mm"}, "overhang", Verdict.FAIL),
        ("hooks", {f"{ROOF}.spacing": "5 m"}, "two_hooks", Verdict.FAIL),
        ("clamps", {f"{BLOCK}.low_rail": "250 mm"}, "clamps", Verdict.PASS),
        ("clamps", {f"{BLOCK}.low_rail": "249 mm"}, "clamps", Verdict.FAIL),
        ("clamps", {f"{BLOCK}.high_rail": "1271 mm"}, "clamps", Verdict.FAIL),  # 451 mm from its corner
        ("clamps", {f"{BLOCK}.orientation": "landscape"}, "clamps", Verdict.FAIL),  # by its long side
        ("entry", {f"{ROOF}.entry": "none"}, "entry", Verdict.FAIL),
        ("access", {f"{ROOF}.fall_protection": "none"}, "falls", Verdict.FAIL),
        ("access", {f"{ROOF}.access": "ladder"}, "access", Verdict.CAUTION),
    ],
)  # fmt: skip
def test_a_roof(question: str, edits: dict[str, Any], name: str, expected: Verdict) -> None:
    assert constraint(asked(question, edits), name).verdict is expected


@pytest.mark.parametrize(
    ("question", "path"),
    [
        ("covering", f"{ROOF}.asbestos"), ("covering", f"{ROOF}.laid_year"),
        ("structure", f"{ROOF}.services"),
        ("hooks", f"{ROOF}.wind_zone"), ("hooks", f"{ROOF}.snow_zone"), ("hooks", f"{MOUNT}.spans"),
        ("hooks", f"{ROOF}.spacing"), ("blocks", f"{ROOF}.width"), ("blocks", "faces.south.blocks"),
        ("clamps", "parts.example-mono-430.clamps"), ("access", f"{ROOF}.fall_protection"),
        ("entry", f"{ROOF}.entry"), ("covering", "faces.south.roof"), ("structure", "faces.south.mount"),
    ],
)  # fmt: skip
def test_what_was_not_surveyed_is_asked_for_and_never_assumed(question: str, path: str) -> None:
    assert asked(question, {path: REMOVED}).verdict is Verdict.UNKNOWN


def test_a_frame_on_the_ground_has_no_roof_to_look_at() -> None:
    found = {f.id for f in answered({"faces.south.roof": "none"}).findings if str(f.subject) == "face/south"}
    assert found.isdisjoint({"face.covering", "face.structure", "face.entry", "face.access", "face.hooks"})


@pytest.mark.parametrize(
    ("allowed", "every"), [("799 mm", 1), ("800 mm", 1), ("1600 mm", 2), ("2399 mm", 2), ("2400 mm", 3)]
)
def test_the_fewest_hooks_that_the_table_allows_are_chosen(allowed: str, every: int) -> None:
    spans = [{"wind": "1", "snow": "2", "hooks": allowed}]
    assert answered({f"{MOUNT}.spans": spans}).design.hooks_every("south") == every


def test_with_one_hook_fewer_the_named_limit_fails() -> None:
    """Two apart passes; three apart fails the span."""
    spans = {f"{MOUNT}.spans": [{"wind": "1", "snow": "2", "hooks": "1600 mm"}]}
    assert asked("hooks", {**spans, "faces.south.hooks_every": 2}).verdict is Verdict.PASS
    assert asked("hooks", {**spans, "faces.south.hooks_every": 3}).governed_by.name == "span"


def test_two_kinds_of_module_on_one_face_are_asked_about() -> None:
    found = asked("blocks", {"strings.S2.face": "south", "strings.S2.module": "example-mono-410"})
    assert constraint(found, "edges").verdict is Verdict.UNKNOWN
