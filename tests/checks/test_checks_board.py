"""What the boards bear."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from houses import REMOVED, answered, constraint, finding


def asked(edits: dict[str, Any], house: str = "meter-led", of: str = "board/MB") -> Finding:
    return finding(answered(edits, house), "board.ratings", of)


@pytest.mark.parametrize(("rating", "verdict"), [("90.3 A", Verdict.PASS), ("90.2 A", Verdict.FAIL)])
def test_busbars_carry_both_sources_at_once(rating: str, verdict: Verdict) -> None:
    """63 A of the main fuse and 27.3 A of the inverter."""
    found = constraint(asked({"boards.MB.rating": rating}), "busbar")
    assert found.value == pytest.approx(90.3)
    assert found.verdict is verdict


def test_busbars_of_a_board_without_a_source_are_not_asked() -> None:
    found = asked({}, of="board/BB")
    assert [c.name for c in found.constraints] == ["order"]
    assert asked({"boards.MB.rating": REMOVED}).verdict is Verdict.UNKNOWN


def test_a_sub_board_is_fed_by_its_own_feeder() -> None:
    """40 A before the garage and twice 16 A in it."""
    edits = {"boards.MB.circuits.C-garage.device.rating": "40 A"}
    found = constraint(asked(edits, "controller-led", "board/GB"), "busbar")
    assert found.value == pytest.approx(72)


@pytest.mark.parametrize(("rating", "verdict"), [("63 A", Verdict.PASS), ("40 A", Verdict.FAIL)])
def test_a_boards_rcd_carries_what_feeds_the_board(rating: str, verdict: Verdict) -> None:
    rcd = {"type": "A", "residual": "300 mA", "rating": rating, "direction": "both", "all_poles": True}
    found = asked({"boards.MB.rcd": rcd})
    assert constraint(found, "board_rcd").verdict is verdict


@pytest.mark.parametrize(("rating", "verdict"), [("32 A", Verdict.PASS), ("40 A", Verdict.CAUTION)])
def test_a_device_should_not_be_larger_than_the_one_before_it(rating: str, verdict: Verdict) -> None:
    edits = {
        "boards.MB.circuits.C-inverter.device.rating": "32 A",
        "boards.BB.circuits.C-fridge.device.rating": rating,
    }
    assert constraint(asked(edits, of="board/BB"), "order").verdict is verdict
