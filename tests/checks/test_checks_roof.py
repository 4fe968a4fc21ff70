"""Whether the roof takes the array."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.document import Unreadable
from houses import REMOVED, answered, constraint, finding, loaded

ROOF = "faces.south.roof"
BLOCK = "faces.south.blocks.S"
MOUNT = "parts.example-hook-rail"
ELSEWHERE = {"left": "0 mm", "bottom": "0 mm", "width": "100 mm", "height": "4500 mm"}
MARKED = {f"{ROOF}.services": "marked", f"{ROOF}.keep_clear": [ELSEWHERE]}
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
        ("structure", {f"{ROOF}.services": "marked"}, "services", Verdict.UNKNOWN),
        ("structure", MARKED, "services", Verdict.PASS),
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
    found = {
        f.id
        for f in answered({"faces.south.roof": "none", "faces.south.mounting": "rack"}).findings
        if str(f.subject) == "face/south"
    }
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
    (ask,) = constraint(found, "edges").find_out
    assert ask.startswith("how face south is divided: it holds example-mono-410 and example-mono-430")


def test_each_hook_is_held_against_what_lies_under_the_covering() -> None:
    """A cable under the first hook of the lower rail is met; a hand beside it it is not."""
    (block,) = answered().design.laid("south")
    rail = block.rails[0]
    x_mm, up_mm = rail.hooks_mm[0], rail.height_mm
    for left_mm, expected in ((x_mm - 50, Verdict.FAIL), (x_mm + 100, Verdict.PASS)):
        spot = {"left": f"{left_mm} mm", "bottom": f"{up_mm - 20} mm", "width": "80 mm", "height": "40 mm"}
        found = asked("hooks", {**MARKED, f"{ROOF}.keep_clear": [spot]})
        assert constraint(found, "hidden").verdict is expected


@pytest.mark.parametrize(("every", "expected"), [(2, Verdict.PASS), (1, Verdict.FAIL)])
def test_a_cable_under_a_rafter_without_a_hook_is_met_by_none(every: int, expected: Verdict) -> None:
    spans = {f"{MOUNT}.spans": [{"wind": "1", "snow": "2", "hooks": "1600 mm"}]}
    hooks_mm = answered(spans).design.laid("south")[0].rails[0].hooks_mm
    between_mm = hooks_mm[0] + 800
    assert between_mm not in hooks_mm
    spot = {"left": f"{between_mm - 1} mm", "bottom": "0 mm", "width": "2 mm", "height": "4500 mm"}
    edits = {**spans, **MARKED, f"{ROOF}.keep_clear": [spot], "faces.south.hooks_every": every}
    assert constraint(asked("hooks", edits), "hidden").verdict is expected


def test_hooks_that_may_begin_at_another_rafter_keep_off_what_is_marked() -> None:
    """Every second rafter from 1200 mm on meets a cable at 2800 mm; from 2000 mm on, with the outermost as
    well, none does. Where each rafter takes a hook, the finding says what can be moved.
    """
    spans = {f"{MOUNT}.spans": [{"wind": "1", "snow": "2", "hooks": "1600 mm"}]}
    spot = {"left": "2790 mm", "bottom": "0 mm", "width": "20 mm", "height": "4500 mm"}
    edits = {**spans, **MARKED, f"{ROOF}.keep_clear": [spot]}
    kept_off = answered({**edits, "faces.south.hooks_every": 2})
    assert constraint(finding(kept_off, "face.hooks", "face/south"), "hidden").verdict is Verdict.PASS
    assert kept_off.design.laid("south")[0].rails[0].hooks_mm == (1200, 2000, 3600, 5200, 6800, 7600)
    met = constraint(asked("hooks", {**edits, "faces.south.hooks_every": 1}), "hidden")
    assert met.verdict is Verdict.FAIL
    assert "move the rails of block {blocks}" in met.mend
    assert dict(met.words)["blocks"] == "S"


def test_services_that_are_there_and_are_not_are_refused() -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({f"{ROOF}.keep_clear": [ELSEWHERE]})
    (problem,) = refused.value.problems
    assert problem.found == "'clear' and something to keep clear"


def test_concrete_takes_a_hook_wherever_one_is_planned() -> None:
    concrete = {f"{ROOF}.structure": "concrete", f"{MOUNT}.structures": ["concrete"]}
    assert asked("hooks", concrete).verdict is Verdict.PASS


@pytest.mark.parametrize(("structure", "expected"), [("rafters", Verdict.PASS), ("trusses", Verdict.FAIL)])
def test_a_table_for_each_structure(structure: str, expected: Verdict) -> None:
    row = {"wind": "1", "snow": "2"}
    spans = [
        {**row, "structure": "rafters", "hooks": "800 mm"},
        {**row, "structure": "trusses", "hooks": "700 mm"},
    ]
    found = asked("hooks", {f"{MOUNT}.spans": spans, f"{ROOF}.structure": structure})
    assert constraint(found, "span").verdict is expected


def test_a_row_for_all_structures_stands_alone() -> None:
    row = {"wind": "1", "snow": "2", "hooks": "800 mm"}
    with pytest.raises(Unreadable):
        loaded({f"{MOUNT}.spans": [row, {**row, "structure": "rafters"}]})


@pytest.mark.parametrize(
    ("rulebook", "laid_year", "expected"),
    [
        ("uk-2022", 2000, Verdict.PASS), ("uk-2022", 1999, Verdict.FAIL),
        ("aunz-2024", 2017, Verdict.PASS), ("aunz-2024", 2016, Verdict.FAIL),
        ("us-2023", 2025, Verdict.FAIL),
    ],
)  # fmt: skip
def test_each_country_banned_asbestos_in_its_own_year_or_never(
    rulebook: str, laid_year: int, expected: Verdict
) -> None:
    edits = {"rulebook": rulebook, **FIBRE_CEMENT, f"{ROOF}.laid_year": laid_year}
    assert constraint(asked("covering", edits), "asbestos").verdict is expected
