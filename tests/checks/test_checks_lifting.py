"""Who lifts a device into its place, through whole houses.

INV1 of the meter-led house weighs 26 kg, is 190 mm deep and is held by handles 150 mm above its lower edge,
which comes to 1250 mm: the hands end at 1400 mm and are 200 + 95 = 295 mm out.
"""

from typing import Any

import pytest

from ferrule.answering import Answer
from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from ferrule.display import filled
from ferrule.document import Unreadable
from houses import REMOVED, answered, constraint, finding

LIGHT = {"parts.example-hybrid-6k-single.body.mass": "8 kg"}
BENCH = {"devices.INV1.lift.from": "700 mm"}


def lift(edits: dict[str, Any] | None = None, device: str = "inverter/INV1") -> Finding:
    return finding(answered(edits), "device.lift", device)


def told(found: Finding) -> dict[str, Verdict]:
    """What is said of the lift itself."""
    return {c.name: c.verdict for c in found.constraints if c.name != "crew"}


def chosen(result: Answer, device: str = "INV1") -> Any:
    choice = next(c for c in result.choices if c.decided == Decided("lifting", device))
    return choice.value, [short.value for short in choice.lacked]


def test_what_is_too_heavy_for_all_who_are_there_needs_an_aid() -> None:
    result = answered()
    assert chosen(result) == ("aid", ["one", "two"])
    found = finding(result, "device.lift", "inverter/INV1")
    assert found.verdict is Verdict.PASS
    assert [(c.name, c.value) for c in found.constraints] == [("lift_aid", 26), ("lift_aid_reach", 1_250)]


@pytest.mark.parametrize(
    ("aid", "failing"),
    [
        ({"load": "26 kg", "reach": "1250 mm"}, set()),
        ({"load": "25.9 kg", "reach": "1250 mm"}, {"lift_aid"}),
        ({"load": "26 kg", "reach": "1249 mm"}, {"lift_aid_reach"}),
    ],
)
def test_an_aid_lifts_its_rated_load_as_high_as_it_reaches(aid: dict[str, str], failing: set[str]) -> None:
    found = lift({"aids": [{"name": "frame", **aid}], "devices.INV1.lift.by": "aid"})
    assert {c.name for c in found.constraints if c.verdict is Verdict.FAIL} == failing


def test_an_aid_reaches_up_to_where_a_piece_waits_as_well() -> None:
    frame = {"name": "frame", "load": "90 kg", "reach": "1300 mm"}
    for waits, expected in (("1300 mm", Verdict.PASS), ("1301 mm", Verdict.FAIL)):
        found = lift({"aids": [frame], "devices.INV1.lift.by": "aid", "devices.INV1.lift.from": waits})
        assert constraint(found, "lift_aid_reach").verdict is expected


def test_of_several_aids_the_one_that_does_counts() -> None:
    low = {"name": "stair climber", "load": "200 kg", "reach": "0 mm"}
    weak = {"name": "hoist", "load": "20 kg", "reach": "3 m"}
    fit = {"name": "frame", "load": "50 kg", "reach": "1.5 m"}
    found = lift({"aids": [low, weak, fit]})
    assert found.verdict is Verdict.PASS
    assert dict(constraint(found, "lift_aid").words)["aid"] == "frame"
    assert lift({"aids": [low, weak], "devices.INV1.lift.by": "aid"}).verdict is Verdict.FAIL


def test_where_no_aid_is_there_none_lifts() -> None:
    found = lift({"aids": []})
    assert [(c.name, c.verdict) for c in found.constraints] == [("lift_aid", Verdict.FAIL)]
    assert found.remedies


@pytest.mark.parametrize(
    ("edits", "ask"),
    [
        ({"aids": REMOVED}, "what lifts in place of people"),
        ({"aids": [{"name": "frame", "reach": "2 m"}]}, "frame: rated load"),
        ({"aids": [{"name": "frame", "load": "90 kg"}]}, "frame: how high"),
        ({"devices.INV1.at.bottom": REMOVED}, "lower edge of the device"),
    ],
)
def test_what_the_aid_can_do_has_to_be_known(edits: dict[str, Any], ask: str) -> None:
    found = lift({"devices.INV1.lift.by": "aid", **edits})
    assert found.verdict is Verdict.UNKNOWN
    assert any(ask in each for c in found.constraints for each in c.find_out)


def test_an_aid_nobody_needs_may_stay_unknown() -> None:
    assert lift({**BENCH, **LIGHT, "aids": REMOVED}).verdict is Verdict.PASS
    fit = [{"name": "frame", "load": "90 kg", "reach": "2 m"}, {"name": "hoist"}]
    assert lift({"aids": fit}).verdict is Verdict.PASS


def test_what_one_less_would_lack_is_told() -> None:
    """From the floor the hands begin at 150 mm and 250 + 95 mm out, where a man's box holds 10 × 250/345 kg.
    Two lift two thirds of twice that; it is less than by the shoulder.
    """
    choice = next(c for c in answered().choices if c.decided == Decided("lifting", "INV1"))
    short = choice.governed_by
    assert short is not None
    assert short.constraint.name == "lift_filter"
    assert short.constraint.limit == pytest.approx(0.6666 * 2 * 10 * 250 / 345)


def test_from_a_bench_two_men_lift_more() -> None:
    """Origin 850 mm, 295 mm out; at 1400 mm 12.49 kg are left of a man's box: two lift 16.65 kg."""
    found = lift({**BENCH, "devices.INV1.lift.by": "two"})
    assert found.verdict is Verdict.FAIL
    alone_kg = (20 - 10 * (1_400 - 1_230) / (1_553 - 1_230)) * 250 / 295
    assert constraint(found, "lift_filter").limit == pytest.approx(0.6666 * 2 * alone_kg)
    limit_kg = 0.6666 * 2 * alone_kg
    for mass_kg, verdict in ((limit_kg - 0.01, Verdict.PASS), (limit_kg + 0.01, Verdict.FAIL)):
        mass = {"parts.example-hybrid-6k-single.body.mass": f"{mass_kg} kg"}
        found = lift({**BENCH, **mass, "devices.INV1.lift.by": "two"})
        assert constraint(found, "lift_filter").verdict is verdict


def test_the_equation_stands_beside_the_filter() -> None:
    """At the destination: 23 × 250/295 × (1 − 0.3 × 0.65) × (0.82 + 45/550) for good handles."""
    found = lift({**BENCH, **LIGHT, "devices.INV1.lift.by": "one"})
    limit_kg = 23 * 250 / 295 * (1 - 0.3 * 0.65) * (0.82 + 45 / 550)
    assert constraint(found, "lift_equation").limit == pytest.approx(limit_kg)
    assert found.verdict is Verdict.PASS


def test_one_person_is_enough_for_what_is_light() -> None:
    assert chosen(answered({**BENCH, **LIGHT})) == ("one", [])


def test_what_weighs_next_to_nothing_is_no_question() -> None:
    result = answered({"parts.example-hybrid-6k-single.body.mass": "2.9 kg"})
    assert "inverter/INV1" not in {str(f.subject) for f in result.findings if f.id == "device.lift"}
    assert lift({"parts.example-hybrid-6k-single.body.mass": "3 kg"}).verdict is Verdict.PASS


def test_it_does_not_matter_who_of_the_crew_takes_hold() -> None:
    """Of a man and a woman one may be the woman: 13 to 7 kg by the shoulder, 250/295 of it."""
    mixed = {**BENCH, **LIGHT, "crew": ["man", "woman"], "devices.INV1.lift.by": "one"}
    woman_kg = (13 - 6 * (1_400 - 1_230) / (1_553 - 1_230)) * 250 / 295
    assert constraint(lift(mixed), "lift_filter").limit == pytest.approx(woman_kg)
    swapped = {**mixed, "crew": ["woman", "man"]}
    assert constraint(lift(swapped), "lift_filter").limit == pytest.approx(woman_kg)


def test_more_than_are_there_cannot_lift() -> None:
    found = lift({**LIGHT, "crew": ["man"], "devices.INV1.lift.by": "two"})
    assert [(c.name, c.verdict) for c in found.constraints] == [("crew", Verdict.FAIL)]
    assert found.remedies
    assert chosen(answered({"crew": ["man"]})) == ("aid", ["one"])


def test_a_platform_brings_the_hands_lower() -> None:
    """From a bench of 1100 mm beside a platform of 500 mm: 750 to 900 mm, where a man lifts 25 kg close by;
    it begins in the border of the knuckles from 660 to 825 mm.
    """
    high = {
        "devices.INV1.lift": {
            "from": "1100 mm", "stands": "platform", "platform": "500 mm", "cramped": False, "by": "two",
        }
    }  # fmt: skip
    alone_kg = (20 + 5 * (750 - 660) / (825 - 660)) * 250 / 295
    found = lift(high)
    assert constraint(found, "lift_filter").limit == pytest.approx(0.6666 * 2 * alone_kg)
    low = lift({**high, "devices.INV1.lift.from": "300 mm"})
    assert told(low) == {"lift_low": Verdict.FAIL}


def test_a_platform_needs_its_height() -> None:
    found = lift({"devices.INV1.lift.stands": "platform", "devices.INV1.lift.by": "two"})
    assert found.verdict is Verdict.UNKNOWN
    assert "platform" in str(found.governed_by.find_out)


def test_from_a_ladder_nothing_heavy_is_hung_even_with_an_aid() -> None:
    for by in ("one", "two", "aid"):
        found = lift({"devices.INV1.lift.by": by, "devices.INV1.lift.stands": "ladder"})
        assert constraint(found, "ladder_load").verdict is Verdict.FAIL
    light = lift({**LIGHT, "devices.INV1.lift.by": "one", "devices.INV1.lift.stands": "ladder"})
    assert light.verdict is Verdict.PASS


def test_a_cramped_place_is_beyond_both_methods() -> None:
    found = lift({**BENCH, **LIGHT, "devices.INV1.lift.by": "one", "devices.INV1.lift.cramped": True})
    assert told(found) == {"lift_space": Verdict.FAIL}
    assert chosen(answered({**BENCH, **LIGHT, "devices.INV1.lift.cramped": True}))[0] == "aid"


def test_hands_above_the_highest_reach_are_beyond_both_methods() -> None:
    found = lift({**LIGHT, "devices.INV1.at.bottom": "1700 mm", "devices.INV1.lift.by": "one"})
    assert told(found) == {"lift_high": Verdict.FAIL}


@pytest.mark.parametrize(
    ("path", "ask"),
    [
        ("crew", "who lifts"),
        ("devices.INV1.lift.from", "lifted from"),
        ("devices.INV1.lift.stands", "stands on"),
        ("devices.INV1.lift.cramped", "too little room"),
        ("devices.INV1.at.bottom", "lower edge"),
        ("parts.example-hybrid-6k-single.body.pieces", "pieces"),
        ("parts.example-hybrid-6k-single.body.mass", "mass"),
        ("parts.example-hybrid-6k-single.body.depth", "depth"),
    ],
)
def test_what_is_not_known_is_asked_for_and_nothing_is_chosen(path: str, ask: str) -> None:
    result = answered({path: REMOVED})
    found = finding(result, "device.lift", "inverter/INV1")
    assert found.verdict is Verdict.UNKNOWN
    assert any(ask in each for c in found.constraints for each in c.find_out)
    assert Decided("lifting", "INV1") not in {choice.decided for choice in result.choices}


@pytest.mark.parametrize(("key", "ask"), [("grip", "held"), ("hold", "hands")])
def test_how_a_piece_is_held_has_to_be_known(key: str, ask: str) -> None:
    piece = {"name": "inverter", "grip": "good", "hold": "150 mm"}
    del piece[key]
    found = lift({"parts.example-hybrid-6k-single.body.pieces": [piece]})
    assert found.verdict is Verdict.UNKNOWN
    assert any(ask in each for c in found.constraints for each in c.find_out)


# Batteries in modules

MODULE = {"name": "module", "count": 4, "mass": "21 kg", "grip": "good", "hold": "100 mm", "seat": "600 mm"}
PIECES = "parts.example-lfp-10k.body.pieces"


def test_every_module_counts_at_its_lowest_and_its_highest_seat() -> None:
    """From a bench at 600 mm down to 0 and up to 600 mm: the lowest seat, hands at 100 mm and 250 + 125 mm
    out, is the worst, 10 × 250/375 kg for a man.
    """
    edits = {PIECES: [MODULE], "devices.BAT.lift.from": "600 mm", "devices.BAT.lift.by": "two"}
    found = lift(edits, "battery/BAT")
    assert constraint(found, "lift_filter").limit == pytest.approx(0.6666 * 2 * 10 * 250 / 375)
    one = {**MODULE, "count": 1}
    high = lift({**edits, PIECES: [one], "parts.example-lfp-10k.body.mass": "25 kg"}, "battery/BAT")
    assert (constraint(high, "lift_filter").limit or 0) > 0.6666 * 2 * 10 * 250 / 375


def test_the_worst_piece_is_told() -> None:
    base = {"name": "base", "mass": "4 kg", "grip": "good", "hold": "100 mm"}
    edits = {PIECES: [base, MODULE], "devices.BAT.lift.by": "two"}
    found = constraint(lift(edits, "battery/BAT"), "lift_filter")
    assert found.value == 21
    assert dict(found.words)["load"] == "Each module"


@pytest.mark.parametrize(("key", "ask"), [("mass", "mass of the module"), ("seat", "seat of the highest")])
def test_several_alike_state_their_mass_and_their_seat(key: str, ask: str) -> None:
    found = lift({PIECES: [{k: v for k, v in MODULE.items() if k != key}]}, "battery/BAT")
    assert found.verdict is Verdict.UNKNOWN
    assert any(ask in each for c in found.constraints for each in c.find_out)


# What cannot be

INVERTER = "parts.example-hybrid-6k-single.body.pieces"


@pytest.mark.parametrize(
    ("edits", "message"),
    [
        ({INVERTER: []}, "at least one piece"),
        ({PIECES: [MODULE, dict(MODULE, seat="0 mm")]}, "each with a name of its own"),
        ({PIECES: [{**MODULE, "mass": "0 kg"}]}, "not below 0.1 and"),
        ({PIECES: [{**MODULE, "count": 0}]}, "not below 1"),
        ({"devices.INV1.lift.platform": "500 mm"}, "no platform where they stand on a floor"),
        ({"devices.INV1.lift.from": "-1 m"}, "not below 0"),
        ({"crew": ["man", "robot"]}, "woman"),
        ({"crew": []}, "at least 1"),
        ({"crew": ["man"] * 21}, "at most 20"),
        ({"aids": [{"name": "frame", "load": "0 kg", "reach": "1 m"}]}, "not below 1 and"),
        ({"aids": [{"name": "frame", "load": "90 kg", "reach": "-1 m"}]}, "not below 0 and"),
        ({"devices.INV1.at.bottom": "99 m"}, "not above 15,000 mm"),
        ({"devices.INV1.at.bottom": "-1 mm"}, "not below 0 and"),
        ({"devices.INV1.lift.from": "99 m"}, "not above 3,000 mm"),
        ({"devices.INV1.lift": {"stands": "platform", "platform": "99 m"}}, "not above 10,000 mm"),
        ({"devices.INV1.lift": {"stands": "platform", "platform": "0 mm"}}, "not below 50 and"),
        ({INVERTER: [{"name": "inverter", "grip": "good", "hold": "99 m"}]}, "not above 5,000 mm"),
        ({"devices.INV1.lift.by": "four"}, "three"),
    ],
)
def test_what_cannot_be_is_refused_at_its_place(edits: dict[str, Any], message: str) -> None:
    with pytest.raises(Unreadable) as refused:
        answered(edits)
    assert message in "\n".join(str(problem) for problem in refused.value.problems)


def test_who_lifts_is_said_in_words_for_everybody_and_in_figures_that_mean_something() -> None:
    """Two thirds of twice 10 × 250/345 kg are 9.66 kg, told as 9.6 kg."""
    said = filled(constraint(lift({"devices.INV1.lift.by": "two"}), "lift_filter"))
    assert (
        said
        == "The inverter weighs 26 kg; up to 9.6 kg two people may lift so without an assessment in writing"
    )
