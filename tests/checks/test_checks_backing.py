"""A plate of plywood behind a device, through a demo house whose wall is framed.

INV1 hangs 900 to 1360 mm from the left end and 1250 mm up; its fixings sit at 980 and 1280 mm, 1370 and
1720 mm up. The studs stand at 150, 450, 750, 1050, 1350 mm and so on.
"""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.display import filled
from ferrule.document import Unreadable
from houses import REMOVED, answered, constraint, finding, loaded

WALL = "places.utility.walls.U-north"
BODY = "parts.example-hybrid-6k-single.body"
FRAMED = {
    f"{WALL}.material": "timber-frame",
    f"{WALL}.lining": "plasterboard",
    f"{WALL}.studs": {"first": "150 mm", "spacing": "300 mm", "width": "80 mm"},
    f"{WALL}.thickness": "120 mm",
}


def screw(diameter_mm: int, clamps_mm: int, **bases: tuple[int, int]) -> dict[str, Any]:
    """A sheet; each base with the depth of the thread and the least thickness."""
    return {
        "id": f"screw-{diameter_mm}", "kind": "anchor", "name": "Screw", "source": "invented",
        "family": "metal", "holds_by": "thread", "diameter": f"{diameter_mm} mm", "clamps": f"{clamps_mm} mm",
        "interaction": "timber",
        "bases": [
            {
                "base": base, "permissible": {"tension": "600 N", "shear": "500 N"}, "hole": "4 mm",
                "depth": f"{depth_mm} mm", "thickness_least": f"{least_mm} mm",
            }
            for base, (depth_mm, least_mm) in bases.items()
        ],
    }  # fmt: skip


def at(*x_mm: int) -> list[dict[str, str]]:
    """Two screws on each of these uprights of the plate."""
    return [{"x": f"{x} mm", "y": f"{y} mm"} for x in x_mm for y in (50, 550)]


PLATE = {
    "thickness": "21 mm", "left": "700 mm", "bottom": "1250 mm", "width": "700 mm", "height": "600 mm",
    "screw": "screw-8", "screws": at(50, 350, 650),
}  # fmt: skip


def job(plate: dict[str, Any], edits: dict[str, Any]) -> dict[str, Any]:
    given = {key: value for key, value in {**PLATE, **plate}.items() if value is not REMOVED}
    return {
        **FRAMED,
        "parts.+": screw(6, 25, plywood=(55, 18)),
        "parts.+2": screw(8, 40, timber=(60, 80)),
        "devices.INV1.fixing": {"anchor": "screw-6", "backing": given},
        **edits,
    }


def backed(plate: dict[str, Any] | None = None, **edits: Any) -> Finding:
    return finding(answered(job(plate or {}, edits)), "device.fixing", "inverter/INV1")


def missed(found: Finding) -> dict[str, Verdict]:
    return {c.name: c.verdict for c in found.constraints if c.verdict is not Verdict.PASS}


def test_a_plate_on_three_studs_carries_it() -> None:
    assert missed(backed()) == {}


@pytest.mark.parametrize(
    ("plate", "edits", "misses"),
    [
        ({"screws": at(50, 650)}, {}, {"backing_studs": Verdict.CAUTION}),
        ({"thickness": "15 mm"}, {}, {"thick_enough": Verdict.FAIL, "backing": Verdict.CAUTION}),
        ({"left": "1000 mm", "screws": at(50, 350, 650)}, {}, {"plate_lies": Verdict.FAIL}),
        ({"height": "460 mm", "screws": at(50, 350, 650)[::2]}, {}, {"plate_lies": Verdict.FAIL}),
        ({"screws": at(50, 350, 600)}, {}, {"plate_edge": Verdict.FAIL, "plate_in_studs": Verdict.FAIL}),
        ({"screw": "screw-6"}, {}, {"plate_made_for": Verdict.FAIL}),
        ({"left": "400 mm", "width": "1000 mm"}, {}, {"plate_free": Verdict.FAIL}),
        ({}, {f"{WALL}.lining_depth": "19 mm"}, {}),
        ({}, {f"{WALL}.lining_depth": "20 mm"}, {"plate_reaches": Verdict.FAIL}),
        ({}, {f"{WALL}.thickness": "79 mm"},
         {"plate_thick_enough": Verdict.FAIL, "plate_hole_behind": Verdict.CAUTION}),
    ],
)  # fmt: skip
def test_each_limit_of_a_plate(
    plate: dict[str, Any], edits: dict[str, Any], misses: dict[str, Verdict]
) -> None:
    found = missed(backed(plate, **edits))
    assert misses.items() <= found.items()
    if not misses:
        assert found == {}


def test_the_screws_of_the_plate_bear_device_and_plate() -> None:
    """26 kg and 0.7 × 0.6 × 0.021 m³ × 700 kg/m³, 113 mm off the studs; 80 mm beside the middle of six."""
    found = backed()
    weight_n = (26 + 6.174) * 9.80665
    pull_n = weight_n * 113 * 550 / (3 * (50**2 + 550**2))
    assert constraint(found, "plate_pull").value == pytest.approx(pull_n)
    polar_mm2 = 4 * 300**2 + 6 * 250**2
    mass_mm = (26 * 1_130 + 6.174 * 1_130) / 32.174 - 1_050  # the plate is taken where the device hangs
    down_n = weight_n / 6 + weight_n * mass_mm * 300 / polar_mm2
    across_n = weight_n * mass_mm * 250 / polar_mm2
    assert constraint(found, "plate_shear").value == pytest.approx((down_n**2 + across_n**2) ** 0.5)


def test_what_the_plate_cannot_hold_fails() -> None:
    """Six screws of 500 N; the four of the device hold it by themselves."""
    strong = screw(6, 25, plywood=(55, 18))
    strong["bases"][0]["permissible"] = {"tension": "9 kN", "shear": "9 kN"}
    found = missed(backed({}, **{"parts.+": strong, f"{BODY}.mass": "280 kg"}))
    assert found["plate_shear"] is Verdict.FAIL
    assert "shear" not in found


@pytest.mark.parametrize(
    ("key", "ask"),
    [
        ("left", "left edge of the plate"),
        ("bottom", "lower edge of the plate"),
        ("width", "width of the plate"),
        ("height", "height of the plate"),
        ("screw", "the screws that hold the plate"),
        ("screws", "where the screws that hold the plate"),
    ],
)
def test_what_is_not_known_of_a_plate_is_asked_for(key: str, ask: str) -> None:
    found = backed({key: REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert any(ask in each for c in found.constraints for each in c.find_out)


@pytest.mark.parametrize(("width", "verdict"), [("49 mm", Verdict.PASS), ("50 mm", Verdict.FAIL)])
def test_hidden_services_behind_the_screws_of_a_plate(width: str, verdict: Verdict) -> None:
    """A cable from 700 mm on; the first screws of the plate sit at 750 mm, those of the device further on."""
    cable = {"left": "700 mm", "bottom": "0 mm", "width": width, "height": "2400 mm"}
    edits = {f"{WALL}.services": "marked", f"{WALL}.keep_clear": [cable]}
    found = finding(answered(job({}, edits)), "wall.hidden_services", "wall/U-north")
    assert found.verdict is verdict
    assert ("the plate of INV1" in filled(found.governed_by)) is (verdict is Verdict.FAIL)


@pytest.mark.parametrize(
    ("plate", "found", "allowed"),
    [
        ({"left": "4.5 m"}, "5200 mm from the left end", "which is 5000 mm wide"),
        ({"bottom": "2 m"}, "2600 mm from the floor", "which is 2400 mm high"),
        ({"screw": "screw-9"}, "screw-9", "an anchor in parts"),
        ({"thickness": "0 mm"}, "0 mm", "not below 6"),
        ({"screws": at(50)[:1]}, "a list of 1", "at least 2"),
    ],
)
def test_a_plate_that_cannot_be_is_refused(plate: dict[str, Any], found: str, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(job(plate, {}))
    (problem,) = refused.value.problems
    assert found in problem.found
    assert allowed in problem.allowed
