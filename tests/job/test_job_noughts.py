"""A nought that stands for "not known" is refused where it is written, with what is allowed."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from houses import loaded

RCD = {"type": "A", "residual": "30 mA", "rating": "40 A"}
FUSE = {"rating": "20 A", "voltage_max": "1000 V", "breaking_capacity": "10 kA"}
CABLE = "runs.R-inverter.stretches.0"
COOKER = "boards.MB.circuits.C-cooker"


@pytest.mark.parametrize(
    "edits",
    [
        {f"{CABLE}.circuits": 0},
        {f"{CABLE}.circuits": -3},
        {f"{CABLE}.length": "0 m"},
        {f"{CABLE}.soil": "0 K·m/W"},
        {"supply.main_fuse.rating": "0 A"},
        {"supply.demand_max": "0 A"},
        {"supply.utility.rise_max": "0 %"},
        {"supply.utility.rise_max": "-3 %"},
        {"boards.MB.rating": "0 A"},
        {f"{COOKER}.device.rating": "0 A"},
        {f"{COOKER}.device.breaking_capacity": "0 A"},
        {f"{COOKER}.device.let_through": "0 A²s"},
        {f"{COOKER}.loads.0.power": "0 W"},
        {f"{COOKER}.loads.0.current": "0 A"},
        {f"{COOKER}.rcd": RCD | {"residual": "0 mA"}},
        {f"{COOKER}.rcd": RCD | {"rating": "0 A"}},
        {"strings.S1.fuse": FUSE | {"rating": "0 A"}},
        {"strings.S1.fuse": FUSE | {"voltage_max": "0 V"}},
        {"devices.INV1.inputs": [{"id": "PV1", "isolator": {"voltage_max": "0 V"}}]},
        {"devices.INV1.inputs": [{"id": "PV1", "isolator": {"current_max": "0 A"}}]},
        {"devices.BAT.protection": FUSE | {"kind": "fuse-gBat", "breaking_capacity": "0 A"}},
        {"earth.electrode": {"kind": "rod", "resistance": "0 Ω"}},
        {"parts.example-lfp-10k.internal": "0 Ω"},
    ],
    ids=lambda edits: "".join(edits),
)
def test_a_nought_is_refused(edits: dict[str, Any]) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits)
    (problem,) = refused.value.problems
    assert "not below" in problem.allowed
    assert problem.line > 1


def test_an_inverter_may_be_set_to_charge_nothing() -> None:
    assert loaded({"devices.INV1.charge_set": "0 A"}).job.devices


@pytest.mark.parametrize(
    "path",
    [
        f"{CABLE}.circuits",
        "strings.S1.modules",
        "devices.BAT.packs",
        "parts.example-lfp-10k.body.pieces.0.count",
        "parts.example-mono-430.bypass_diodes",
        "faces.0.blocks.0.columns",
        "faces.0.blocks.0.rows",
    ],
)
def test_an_underscore_is_no_part_of_a_number(path: str) -> None:
    """A slip in `1.0` or `10`; some languages read `1_0` as ten."""
    with pytest.raises(Unreadable) as refused:
        loaded({path: "1_0"})
    (problem,) = refused.value.problems
    assert problem.found == "'1_0'"
    assert "whole number" in problem.allowed
