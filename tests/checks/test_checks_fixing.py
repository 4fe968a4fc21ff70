"""What holds a device to its wall, through the demo houses with a few things changed."""

from pathlib import Path
from typing import Any

import pytest

from ferrule.answering import Answer, answer
from ferrule.choose import Choice
from ferrule.constraint import Verdict
from ferrule.display import filled
from ferrule.document import Unreadable
from ferrule.job.load import load
from houses import EXAMPLES, REMOVED, answered, constraint, finding, loaded

WALL = "places.utility.walls.U-north"
SHEET = "parts.example-hybrid-6k-single.body"
MOUNTING = f"{SHEET}.mounting"
PLUG = {"devices.INV1.fixing": {"anchor": "example-plug-8"}}
RESIN = {"devices.INV1.fixing": {"anchor": "example-resin-m8"}}
FRAMED = {
    f"{WALL}.material": "timber-frame",
    f"{WALL}.lining": "plasterboard",
    f"{WALL}.studs": {"first": "380 mm", "spacing": "600 mm", "width": "60 mm"},
    f"{WALL}.thickness": "120 mm",
}
SCREW = {
    "id": "screw-6",
    "kind": "anchor",
    "name": "Screw 6 × 80",
    "source": "invented",
    "family": "metal",
    "holds_by": "thread",
    "diameter": "6 mm",
    "clamps": "25 mm",
    "interaction": "timber",
    "bases": [
        {
            "base": base,
            "permissible": {"tension": "600 N", "shear": "500 N"},
            "hole": "4 mm",
            "depth": "55 mm",
            "thickness_least": "18 mm",
        }
        for base in ("timber", "plywood")
    ],
}


def inverter(edits: dict[str, Any], house: str = "meter-led") -> Any:
    return finding(answered(edits, house), "device.fixing", "inverter/INV1")


def chosen(result: Answer, device: str = "INV1") -> Choice | None:
    return next((c for c in result.choices if c.decided == ("anchor", device)), None)


# The choice


@pytest.mark.parametrize(
    ("house", "device", "anchor"),
    [
        ("meter-led", "INV1", "example-plug-8"),
        ("controller-led", "INV1", "example-bolt-8"),
        ("controller-led", "SC", "example-plug-8"),
        ("changeover-led", "INV1", "example-resin-m8"),
    ],
)
def test_brick_concrete_and_perforated_brick_each_get_their_anchor(
    house: str, device: str, anchor: str
) -> None:
    choice = chosen(answered({}, house, firm=True), device)
    assert choice is not None
    assert (choice.value, choice.passes, choice.carried) == (anchor, True, True)


def test_the_next_smaller_one_lacks_something_that_is_named() -> None:
    """In perforated brick the plugs bear the inverter, not somebody leaning on it."""
    choice = chosen(answered({}, "changeover-led"))
    assert choice is not None
    assert [each.value for each in choice.lacked] == ["example-plug-8", "example-plug-10"]
    lacked = choice.governed_by
    assert lacked is not None
    assert (lacked.question, lacked.constraint.name) == ("device.fixing", "hung")
    found = inverter({"devices.INV1.fixing": {"anchor": lacked.value}}, "changeover-led")
    assert (found.verdict, found.governed_by.name) == (Verdict.CAUTION, "hung")


def test_without_anchors_at_hand_the_choice_is_open() -> None:
    house = loaded()
    parts = [part for part in house.job.parts if part.kind != "anchor"]
    result = answer(house._replace(job=house.job.model_copy(update={"parts": parts})))
    assert chosen(result) is None
    found = finding(result, "device.fixing", "inverter/INV1")
    assert found.verdict is Verdict.UNKNOWN
    assert {ask for each in found.constraints for ask in each.find_out} == {
        "which anchors are at hand: their ids under 'anchors' in the firm's file"
    }


# Loads


@pytest.mark.parametrize(
    ("mass", "verdict"),
    [("26 kg", Verdict.PASS), ("60 kg", Verdict.CAUTION), ("90 kg", Verdict.FAIL)],
)
def test_what_hangs_on_plugs_gets_too_heavy(mass: str, verdict: Verdict) -> None:
    """At 60 kg there is no room for somebody leaning on it, at 90 kg none for itself."""
    assert inverter({**PLUG, f"{SHEET}.mass": mass}).verdict is verdict


def test_at_the_limit_and_just_beyond() -> None:
    """300 N on four fixings and no pull to speak of: 122.366 kg."""
    edits: dict[str, Any] = {**PLUG, f"{MOUNTING}.gravity_out": "0 mm"}
    at_limit_kg = 4 * 300 / 9.80665
    at_limit = inverter({**edits, f"{SHEET}.mass": f"{at_limit_kg:.9f} kg"})
    beyond = inverter({**edits, f"{SHEET}.mass": f"{at_limit_kg + 0.001:.3f} kg"})
    assert constraint(at_limit, "shear").verdict is Verdict.PASS
    assert constraint(beyond, "shear").verdict is Verdict.FAIL


def test_by_hand() -> None:
    """26 kg, 92 mm off the wall, rows 60 and 410 mm above the edge that presses."""
    found = inverter(PLUG)
    weight_n = 26 * 9.80665
    assert constraint(found, "shear").value == pytest.approx(weight_n / 4)
    assert constraint(found, "pull").value == pytest.approx(weight_n * 92 * 410 / (2 * 60**2 + 2 * 410**2))


def test_a_weight_beside_the_middle_bears_on_one_side() -> None:
    middle, aside = inverter(PLUG), inverter({**PLUG, f"{MOUNTING}.gravity_across": "330 mm"})
    assert (constraint(aside, "shear").value or 0) > 1.2 * (constraint(middle, "shear").value or 0)


# Wall, lining, distances


@pytest.mark.parametrize(
    ("edits", "name", "verdict"),
    [
        ({"devices.INV1.fixing": {"anchor": "example-bolt-8"}}, "made_for", Verdict.FAIL),
        ({**PLUG, f"{WALL}.thickness": "110 mm"}, "thick_enough", Verdict.PASS),
        ({**PLUG, f"{WALL}.thickness": "109 mm"}, "thick_enough", Verdict.FAIL),
        ({**PLUG, f"{WALL}.lining_depth": "17 mm"}, "reaches", Verdict.PASS),
        ({**PLUG, f"{WALL}.lining_depth": "18 mm"}, "reaches", Verdict.FAIL),
        ({**PLUG, f"{MOUNTING}.hole": "6 mm"}, "fits_the_hole", Verdict.PASS),
        ({**PLUG, f"{MOUNTING}.hole": "5.5 mm"}, "fits_the_hole", Verdict.FAIL),
        ({**PLUG, "devices.INV1.at.left": "3470 mm"}, "edge", Verdict.PASS),
        ({**PLUG, "devices.INV1.at.left": "3471 mm"}, "edge", Verdict.FAIL),
        ({**PLUG, f"{MOUNTING}.holes.0": {"x": "80 mm", "y": "220 mm"}}, "spacing", Verdict.PASS),
        ({**PLUG, f"{MOUNTING}.holes.0": {"x": "80 mm", "y": "219 mm"}}, "spacing", Verdict.FAIL),
    ],
)
def test_each_limit_at_it_and_just_beyond(edits: dict[str, Any], name: str, verdict: Verdict) -> None:
    """The door begins at 3950 mm, the fixings reach 380 mm from the inverter's left edge."""
    assert constraint(inverter(edits), name).verdict is verdict


def test_near_an_edge_in_concrete_less_is_held() -> None:
    """The bolt may sit 50 mm from an edge and holds all from 70 mm on."""
    wall = "places.workshop.walls.G-north"
    far = inverter({}, "controller-led")
    near = inverter({f"{wall}.openings": [_door("960 mm", "220 mm")]}, "controller-led")
    assert constraint(near, "edge").value == pytest.approx(60)
    assert constraint(near, "edge").verdict is Verdict.PASS
    whole, part = constraint(far, "pull").limit, constraint(near, "pull").limit
    assert whole is not None
    assert part == pytest.approx(whole * 60 / 70)


def _door(top: str, left: str) -> dict[str, str]:
    return {
        "kind": "window",
        "to": "outdoors",
        "left": left,
        "bottom": "1400 mm",
        "width": "415 mm",
        "height": top,
    }


def test_expansion_in_hollow_block_fails_even_where_a_sheet_has_figures() -> None:
    hollow = {
        "base": "hollow-block",
        "characteristic": {"tension": "9 kN", "shear": "9 kN"},
        "hole": "8 mm",
        "depth": "65 mm",
        "edge": "70 mm",
        "spacing": "140 mm",
        "thickness_least": "100 mm",
    }
    found = inverter(
        {
            "parts.example-bolt-8.bases.+": hollow,
            f"{WALL}.material": "hollow-block",
            "devices.INV1.fixing": {"anchor": "example-bolt-8"},
        }
    )
    assert [c.name for c in found.constraints if c.verdict is Verdict.FAIL] == ["expands_in_voids"]


# Framed walls


def framed(**edits: Any) -> Any:
    return inverter({**FRAMED, "parts.+": SCREW, "devices.INV1.fixing": {"anchor": "screw-6"}, **edits})


def test_between_the_studs_nothing_holds() -> None:
    """Holes at 980 and 1280 mm; studs at 980 and 1580 mm."""
    found = framed()
    assert constraint(found, "in_studs").verdict is Verdict.FAIL
    assert "miss the studs: 2 of 4" in filled(constraint(found, "in_studs"))


def test_in_the_middle_of_two_studs_it_holds() -> None:
    found = framed(**{f"{WALL}.studs": {"first": "380 mm", "spacing": "300 mm", "width": "60 mm"}})
    assert found.verdict is Verdict.PASS
    assert constraint(found, "edge").value == 30
    assert constraint(found, "edge").limit == 24


@pytest.mark.parametrize(
    ("plate", "verdict"),
    [
        ({"thickness": "21 mm", "studs": 3}, Verdict.PASS),
        ({"thickness": "21 mm", "studs": 2}, Verdict.CAUTION),
        ({"thickness": "15 mm", "studs": 3}, Verdict.FAIL),
    ],
)
def test_a_plate_of_plywood_carries_it(plate: dict[str, Any], verdict: Verdict) -> None:
    found = framed(**{"devices.INV1.fixing": {"anchor": "screw-6", "backing": plate}})
    assert found.verdict is verdict


# What is not known


@pytest.mark.parametrize(
    ("path", "ask"),
    [
        (f"{MOUNTING}.gravity_out", "how far its centre of gravity lies off the wall"),
        (f"{MOUNTING}.gravity_across", "its centre of gravity from its left edge"),
        (f"{MOUNTING}.holes", "where its fixing holes are"),
        (f"{MOUNTING}.presses", "height above its lower edge at which bracket or case presses"),
        (f"{MOUNTING}.bracket", "thickness of bracket and washer"),
        (f"{MOUNTING}.hole", "diameter of its fixing holes"),
        (f"{MOUNTING}.securing", "the screws that secure it on its bracket"),
        (f"{MOUNTING}.theft_lock", "whether a lock against theft can be fitted"),
        (f"{SHEET}.mass", "mass of the device as it hangs"),
        (f"{SHEET}.mount", "whether it hangs on a wall or stands on the floor"),
        (f"{WALL}.material", "what the wall is built of"),
        (f"{WALL}.thickness", "thickness of the wall without its lining"),
        (f"{WALL}.lining", "what covers the wall"),
        (f"{WALL}.lining_depth", "thickness of what covers the wall"),
        (f"{WALL}.openings", "doors, windows and vents in the wall"),
        ("devices.INV1.at.left", "left edge of the device"),
        ("devices.INV1.at", "the wall it hangs on"),
    ],
)
def test_each_missing_fact_is_asked_for_and_holds_up_the_choice(path: str, ask: str) -> None:
    result = answered({path: REMOVED})
    found = finding(result, "device.fixing", "inverter/INV1")
    assert found.verdict is Verdict.UNKNOWN
    assert any(ask in each for c in found.constraints for each in c.find_out)
    assert chosen(result) is None


def test_what_the_anchors_sheet_leaves_out_is_asked_for() -> None:
    found = inverter({**PLUG, "parts.example-plug-8.bases.1.thickness_least": REMOVED})
    assert constraint(found, "thick_enough").find_out == (
        "least thickness of the base, from the anchor's sheet",
    )
    curing = inverter({**RESIN, "parts.example-resin-m8.curing": REMOVED})
    assert constraint(curing, "cures").find_out == (
        "curing times of the resin by temperature, from the cartridge",
    )


def test_a_hole_below_the_edge_that_presses_is_doubted() -> None:
    found = inverter({**PLUG, f"{MOUNTING}.presses": "200 mm"})
    assert constraint(found, "holds").find_out == (
        "fixing holes once more: one lies below the edge that presses on the wall",
    )


# Setting


@pytest.mark.parametrize(
    ("edits", "verdict", "told"),
    [
        ({}, Verdict.PASS, "180 min, in a wet hole 360 min"),
        ({"site.work_day": "22 °C"}, Verdict.PASS, "90 min, in a wet hole 180 min"),
        ({"site.work_day": "5 °C"}, Verdict.PASS, "360 min, in a wet hole 720 min"),
        ({"site.work_day": "4.9 °C"}, Verdict.FAIL, ""),
    ],
)
def test_resin_by_the_temperature_of_the_day(edits: dict[str, Any], verdict: Verdict, told: str) -> None:
    """The coldest of the place, 12 °C here, where nobody says."""
    found = inverter({**RESIN, "places.utility.coldest": "12 °C", **edits})
    assert constraint(found, "cures").verdict is verdict
    text = filled(constraint(found, "set_so"))
    assert "Drill 10 mm, 80 mm deep; clean: blow, brush and blow" in text
    assert told in text


def test_torque_in_brick_is_half_of_that_in_concrete() -> None:
    """The rod has 10 N·m in concrete and no figure of its own in solid brick."""
    assert "tighten to 5 N·m" in filled(constraint(inverter(RESIN), "set_so"))
    own = {f"parts.{part}.bases.1.torque": "8 N·m" for part in ("example-resin-m8",)}
    assert "tighten to 8 N·m" in filled(constraint(inverter({**RESIN, **own}), "set_so"))


# Where it does not apply; what stands


def test_what_stands_is_not_asked_for_anchors_nor_what_hangs_whether_it_tips() -> None:
    told = {(f.id, str(f.subject)) for f in answered().findings}
    assert ("device.fixing", "battery/BAT") not in told
    assert ("device.stands", "inverter/INV1") not in told
    assert {("device.fixing", "inverter/INV1"), ("device.stands", "battery/BAT")} <= told


@pytest.mark.parametrize(
    ("edits", "verdict"),
    [
        ({"gravity_up": "748 mm"}, Verdict.PASS),
        ({"gravity_up": "749 mm"}, Verdict.FAIL),
        ({"gravity_across": "20 mm"}, Verdict.FAIL),
        ({"gravity_up": REMOVED}, Verdict.UNKNOWN),
        ({"gravity_out": "300 mm"}, Verdict.UNKNOWN),
    ],
)
def test_what_stands_bears_ten_degrees(edits: dict[str, Any], verdict: Verdict) -> None:
    """132 mm from its centre of gravity to its front: 132 / tan 10° = 748.6 mm high."""
    paths = {f"parts.example-lfp-10k.body.mounting.{key}": value for key, value in edits.items()}
    assert finding(answered(paths), "device.stands", "battery/BAT").verdict is verdict


def test_a_tie_to_the_wall_keeps_it_upright() -> None:
    high = {"parts.example-lfp-10k.body.mounting.gravity_up": "760 mm", "devices.BAT.fixing": {"tied": "yes"}}
    found = finding(answered(high), "device.stands", "battery/BAT")
    assert [(c.name, c.verdict) for c in found.constraints] == [("tied", Verdict.PASS)]


# Hidden services


@pytest.mark.parametrize(
    ("edits", "verdict", "told"),
    [
        ({f"{WALL}.services": "clear"}, Verdict.PASS, "searched"),
        ({f"{WALL}.services": REMOVED}, Verdict.UNKNOWN, "before any drilling"),
        ({f"{WALL}.services": "marked"}, Verdict.UNKNOWN, "hidden cables and pipes run"),
        (
            {f"{WALL}.services": "marked", f"{WALL}.keep_clear": [
                {"left": "900 mm", "width": "79 mm", "height": "2400 mm"}]},
            Verdict.PASS,
            "No fixing meets",
        ),
        (
            {f"{WALL}.services": "marked", f"{WALL}.keep_clear": [
                {"left": "900 mm", "width": "80 mm", "height": "2400 mm"}]},
            Verdict.FAIL,
            "behind the fixings of INV1",
        ),
    ],
)  # fmt: skip
def test_drilling_waits_for_the_search(edits: dict[str, Any], verdict: Verdict, told: str) -> None:
    """The inverter's outer fixings sit 980 mm from the left end."""
    found = finding(answered(edits), "wall.hidden_services", "wall/U-north")
    assert found.verdict is verdict
    assert found.place == "wall"
    assert told in filled(found.governed_by)


# Reading


def test_an_anchor_that_nobody_has_is_refused_where_it_stands() -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({"devices.INV1.fixing": {"anchor": "example-plug-9"}})
    (problem,) = refused.value.problems
    assert "example-plug-9" in problem.found
    assert "a anchor" not in problem.allowed
    assert "example-plug-8" in f"{problem.allowed} {problem.hint}"


def test_an_anchor_of_the_firm_without_a_sheet_is_refused_in_the_firms_file(tmp_path: Path) -> None:
    (tmp_path / "firm.yaml").write_text("ferrule: 1\nname: F\nanchors: [no-such-anchor]\n")
    job = (EXAMPLES / "meter-led" / "job.yaml").read_text().replace("../firm.yaml", "firm.yaml")
    (tmp_path / "job.yaml").write_text(job)
    (tmp_path / "parts").symlink_to(EXAMPLES / "parts")
    with pytest.raises(Unreadable) as refused:
        load(tmp_path / "job.yaml")
    (problem,) = refused.value.problems
    assert (Path(problem.source).name, problem.line) == ("firm.yaml", 3)
    assert "no-such-anchor" in problem.found


def test_two_styles_on_one_anchor_are_refused_in_the_job_too() -> None:
    base = {
        "base": "timber",
        "design": {"tension": "1 kN", "shear": "1 kN"},
        "hole": "8 mm",
        "depth": "60 mm",
    }
    with pytest.raises(Unreadable) as refused:
        loaded({"parts.example-plug-8.bases.+": base})
    (problem,) = refused.value.problems
    assert "design" in problem.found
    assert "'permissible' alone" in problem.allowed


@pytest.mark.parametrize(
    ("key", "value", "told"), [("gravity_out", "-5 mm", "-5 mm"), ("holes", [], "a list of 0")]
)
def test_what_no_device_can_have_is_refused(key: str, value: Any, told: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({f"{MOUNTING}.{key}": value})
    (problem,) = refused.value.problems
    assert told in problem.found
