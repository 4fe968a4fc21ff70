"""What hangs on nothing is asked for, instead of being passed over."""

from ferrule.constraint import Verdict
from houses import REMOVED, answered, finding


def test_a_board_whose_feed_is_left_out_is_asked_for() -> None:
    found = finding(answered({"runs.R-main": REMOVED}), "supply.connected", "board/MB")
    assert found.verdict is Verdict.UNKNOWN
    assert "what feeds MB" in found.governed_by.find_out[0]


def test_an_inverter_wired_to_nothing_is_asked_for() -> None:
    lone = {"id": "INV9", "kind": "inverter", "part": "example-hybrid-6k-single", "link": "enabled"}
    found = finding(answered({"devices.+": lone}), "supply.connected", "inverter/INV9")
    assert found.verdict is Verdict.UNKNOWN


def test_what_is_joined_makes_no_finding() -> None:
    for house in ("meter-led", "controller-led", "changeover-led"):
        assert not [f for f in answered(house=house).findings if f.id == "supply.connected"]
