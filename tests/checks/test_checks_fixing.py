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
TIE = {"left": "2.5 m", "bottom": "1 m"}
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
            "thickness_least": least,
        }
        for base, least in (("timber", "60 mm"), ("plywood", "18 mm"))
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
    edits: dict[str, Any] = {**PLUG, f"{MOUNTING}.gravity_out": "1 mm"}
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


# Where it does not apply


def test_what_stands_is_not_asked_for_anchors_nor_what_hangs_whether_it_tips() -> None:
    told = {(f.id, str(f.subject)) for f in answered().findings}
    assert ("device.fixing", "battery/BAT") not in told
    assert ("device.stands", "inverter/INV1") not in told
    assert {("device.fixing", "inverter/INV1"), ("device.stands", "battery/BAT")} <= told


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
    ("key", "value", "told"),
    [
        ("gravity_out", "-5 mm", "-5 mm"),
        ("gravity_out", "0 mm", "0 mm"),
        ("gravity_out", "190 mm", "190 mm"),
        ("gravity_out", "2 m", "2000 mm"),
        ("gravity_across", "460 mm", "460 mm"),
        ("gravity_up", "600 mm", "600 mm"),
        ("holes", [], "a list of 0"),
    ],
)
def test_what_no_device_can_have_is_refused(key: str, value: Any, told: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({f"{MOUNTING}.{key}": value})
    (problem,) = refused.value.problems
    assert told in problem.found


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [
        ({f"{SHEET}.mass": "0 kg"}, "0 kg", "not below 0.05"),
        ({f"{WALL}.lining_depth": "0 mm"}, "0 mm", "not below 1 "),
        ({f"{WALL}.lining": "none"}, "12 mm", "no depth where nothing covers the wall"),
        ({f"{WALL}.studs": {"spacing": "0 mm"}}, "0 mm", "not below 100"),
        ({f"{WALL}.studs": {"first": "5.1 m"}}, "5100 mm", "which is 5000 mm wide"),
        (
            {"devices.INV1.fixing": {"backing": {"thickness": "21 mm"}}},
            "a plate on a wall of solid brick",
            "of a framed wall only",
        ),
        ({"devices.INV1.fixing": {"plinth": "100 mm"}}, "hangs on a wall", "no plinth"),
        ({"devices.INV1.fixing": {"tied": "yes"}}, "hangs on a wall", "no tied"),
        ({"devices.BAT.fixing": {"ties": [TIE]}}, "ties of a device that is not tied", "tied: yes"),
        (
            {"devices.BAT.fixing": {"tied": "yes", "ties": [{**TIE, "left": "6 m"}]}},
            "6000 mm",
            "5000 mm wide",
        ),
        ({"devices.BAT.fixing": {"anchor": "example-plug-8"}}, "stands on the floor", "no anchor"),
        ({"devices.BAT.fixing": {"backing": {"thickness": "21 mm"}}}, "stands on the floor", "no backing"),
    ],
)
def test_what_cannot_be_or_would_be_ignored_is_refused(
    edits: dict[str, Any], found: str, allowed: str
) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits)
    (problem,) = refused.value.problems
    assert found in problem.found
    assert allowed in problem.allowed


@pytest.mark.parametrize(("mass", "names"), [("400 kg", ["shear", "together"]), ("90 kg", [])])
def test_where_no_anchor_holds_the_one_that_fits_best_says_why(mass: str, names: list[str]) -> None:
    """Of those made for brick the resin lacks least: 1324 of 1100 N of shear, 581 of 900 N of pull. A bolt
    that is not made for brick is no candidate.
    """
    result = answered({f"{SHEET}.mass": mass})
    choice = chosen(result)
    assert choice is not None
    assert choice.value == "example-resin-m8"
    assert choice.passes is (not names)
    found = finding(result, "device.fixing", "inverter/INV1")
    assert constraint(found, "made_for").verdict is Verdict.PASS
    assert [c.name for c in found.constraints if c.verdict is Verdict.FAIL] == names
