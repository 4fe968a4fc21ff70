"""The cut list: its pieces counted once more straight from the files, its plans held to what they cover."""

import math
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from ferrule.answering import Answer, answer
from ferrule.job.load import load
from ferrule.sheets.cutlist import CutList, cut_list, cuts, lengths
from houses import EXAMPLES, REMOVED, answered

HOUSES = ("meter-led", "controller-led", "changeover-led")

#: by hand, from the drawings of the houses: the leads that no entry of their files is the route of
BOXED = {
    "meter-led": {
        "R-battery": ("BAT-box", "INV1", 2.5), "BAT.poles": ("BAT", "BAT-box", 0.15),
    },
    "controller-led": {
        "R-battery": ("BAT-box", "INV1", 3), "BAT.poles:1": ("BAT", "BAT-box", 1),
        "BAT.poles:2": ("BAT", "BAT-box", 1), "INV1.PV1-box.out": ("INV1.PV1-box", "INV1", 0.5),
        "R-S1": ("S1", "INV1.PV1-box", 14), "R-S2": ("S2", "INV1.PV1-box", 14),
        "R-S3": ("S3", "INV1.PV1-box", 14),
    },
    "changeover-led": {
        "R-battery": ("BAT-box", "INV1", 2), "BAT.poles": ("BAT", "BAT-box", 0.15),
        "INV1.PV1-box.out": ("INV1.PV1-box", "INV1", 0.6), "INV1.PV2-box.out": ("INV1.PV2-box", "INV1", 0.6),
        "R-S1": ("S1", "INV1.PV1-box", 22), "R-S2": ("S2", "INV1.PV2-box", 26),
    },
}  # fmt: skip


@cache
def made(house: str) -> Answer:
    return answer(load(EXAMPLES / house / "job.yaml"))


def _m(text: str) -> float:
    number, unit = str(text).split()
    assert unit == "m"
    return float(number)


def _end_m(job: dict[str, Any], thing: str) -> float:
    thing = thing.split(".")[0] if not thing.endswith("-box") else thing
    if thing.endswith("-box"):
        return 0.4
    if thing in [board["id"] for board in job["boards"]]:
        return 1.0
    if thing in [string["id"] for string in job["strings"]]:
        return 0.5
    return 0.6 if thing in [device["id"] for device in job["devices"]] else 0.3


def _routes(job: dict[str, Any], house: str) -> Iterator[tuple[str, str, str, float, int]]:
    """Every lead that is cut: its name, its ends, its route, in how many stretches."""
    board = job["boards"][0]["id"]
    for run in job["runs"]:
        route = sum(_m(stretch["length"]) for stretch in run["stretches"])
        start, end, _ = BOXED[house].get(run["id"], (run["from"], run["to"], 0))
        yield run["id"], start, end, route, len(run["stretches"])
    for name, (start, end, route) in BOXED[house].items():
        if name not in [run["id"] for run in job["runs"]]:
            yield name, start, end, route, 1
    for bus in job["buses"]:
        if bus["kind"] == "rs485":
            for link in bus["links"]:
                name = f"{bus['id']}:{link['from']}:{link['to']}"
                yield name, link["from"], link["to"], _m(link["length"]), 1
    for contact in job.get("contacts", []):
        yield contact["id"], contact["from"], contact["to"], _m(contact["length"]), 1
    yield "earthing", "electrode", board, _m(job["earth"]["conductor_length"]), 1
    for bond in job["earth"]["bonding"]:
        yield bond["id"], board, bond["to"], _m(bond["length"]), 1
    for lead in job["earth"]["leads"]:
        packs = next(device.get("packs", 1) for device in job["devices"] if device["id"] == lead["to"])
        for pack in range(1, packs + 1):  # each has a case of its own
            name = lead["id"] if packs == 1 else f"{lead['id']}:{pack}"
            yield name, lead["at"], lead["to"], _m(lead["length"]), 1


def _counted(house: str) -> dict[str, float]:
    """The length of each piece by its mark; a pair of single cores is two pieces."""
    job = yaml.safe_load((EXAMPLES / house / "job.yaml").read_text())
    pairs = {run["id"] for run in job["runs"] if run["cable"] in ("pv-single", "battery-flex")} | {
        *BOXED[house]
    }
    found = {}
    for name, start, end, route, stretches in _routes(job, house):
        tenths = round((route + 0.2 * stretches + _end_m(job, start) + _end_m(job, end)) * 1000) / 100
        for conductor in (" plus", " minus") if name in pairs else ("",):
            found[name + conductor] = math.ceil(tenths) / 10
    for device in job["devices"]:
        for clamp in device.get("transformers", {}).get("clamps", []):
            for conductor in ("S1", "S2"):
                found[f"{device['id']}.CT-{clamp['channel']} {conductor}"] = 2.9  # 1.5 m, 0.2 m, 0.6 m, 0.6 m
    return found


@pytest.mark.parametrize("house", HOUSES)
def test_every_piece_is_there_once_with_its_length(house: str) -> None:
    counted = _counted(house)
    if (
        house == "changeover-led"
    ):  # the earth of the surge devices in both enclosures: 0.6 m, 0.2 m, 0.6 m, 0.4 m
        counted |= {"INV1.PV1-box.PE": 1.8, "INV1.PV2-box.PE": 1.8}
    found = cut_list(made(house))
    assert found.asks == ()
    pieces = list(found.pieces())
    assert len(pieces) == len(counted)
    assert {piece.mark: piece.length_m for piece in pieces} == pytest.approx(counted)


@pytest.mark.parametrize("house", HOUSES)
def test_what_joins_two_sockets_is_bought_with_its_plugs_on(house: str) -> None:
    found = [(each.lead, each.length_m) for each in cut_list(made(house)).patches]
    bus = ("CAN:INV1.BMS:BAT.BMS", 5.0)  # 2 or 3 m and 1.4 m beside it: the next is 5 m
    assert found == [bus, ("NET.router", 20.0)] if house == "meter-led" else [bus]


def covers(found: CutList) -> None:
    for cutting in found.cuttings:
        marks = [mark for each in cutting.plan.cuts for mark in each.pieces]
        assert sorted(marks) == sorted(piece.mark for piece in cutting.pieces)
        long = {piece.mark: piece.length_m for piece in cutting.pieces}
        for each in cutting.plan.cuts:
            used_mm = sum(long[mark] * 1000 for mark in each.pieces) + 10 * (len(each.pieces) - 1)
            assert used_mm <= each.length_mm + 1e-6
        assert cutting.cut_m <= cutting.least_bought_m <= cutting.bought_m + 1e-9
        assert cutting.bought_m == pytest.approx(sum(each.length_mm for each in cutting.plan.cuts) / 1000)


@pytest.mark.parametrize("house", HOUSES)
def test_every_plan_covers_its_pieces_and_is_the_least(house: str) -> None:
    found = cut_list(made(house))
    covers(found)
    assert all(cutting.bought_m == pytest.approx(cutting.least_bought_m) for cutting in found.cuttings)


@settings(max_examples=15, deadline=None)
@given(tenths=st.lists(st.integers(1, 600), min_size=1, max_size=4))
def test_any_lengths_are_covered(tenths: list[int]) -> None:
    runs = ("R-fridge", "R-light", "R-sockets", "R-upstairs")
    edits = {
        f"runs.{run}.stretches.0.length": f"{each / 10} m" for run, each in zip(runs, tenths, strict=False)
    }
    covers(cut_list(answered(edits)))


def test_the_firm_s_own_lengths_come_first() -> None:
    """Three pieces of 15.8, 14.4 and 3.8 m."""
    job = load(EXAMPLES / "changeover-led" / "job.yaml")
    cable = "pvc-multicore 5 × 4 mm²"

    def bought_m(sold: dict[str, list[float]]) -> float:
        firm = job.firm.model_copy(update={"lengths": sold})
        found = {each.cable: each for each in cut_list(answer(job._replace(firm=firm))).cuttings}
        return found[cable].bought_m

    assert bought_m({}) == 50  # the usual ones: 50 m
    assert bought_m({cable: [16.0, 20.0]}) == 36
    assert bought_m({cable: []}) == 35  # by the metre


def test_what_is_not_known_is_said_and_the_rest_is_listed() -> None:
    found = cut_list(answered({"earth.bonding.B-water.length": REMOVED}))
    assert found.asks == (("B-water", "length of the bonding conductor"),)
    assert "E-BAT" in {piece.mark for piece in found.pieces()}
    notes = cuts(answered({"earth.bonding.B-water.length": REMOVED})).notes
    assert any("B-water: length of the bonding conductor" in note for note in notes)


def test_a_piece_longer_than_any_length_on_sale_is_said() -> None:
    found = cut_list(answered({"runs.R-light.stretches.0.length": "120 m"}))
    assert [of for of, _ in found.asks] == ["pvc-multicore 3 × 1.5 mm²"]
    assert "R-light of 121.5 m is longer" in found.asks[0][1]


def test_single_cores_of_alternating_current_are_told_apart_by_their_colour() -> None:
    edits = {"runs.R-cooker.cable": "earth-single"}
    found = {p.mark: p.cable for p in cut_list(answered(edits)).pieces() if p.lead == "R-cooker"}
    assert found == {
        "R-cooker L1": "earth-single 1 × 4 mm², brown",
        "R-cooker N": "earth-single 1 × 4 mm², blue",
        "R-cooker PE": "earth-single 1 × 4 mm²",
    }


@pytest.mark.parametrize("house", HOUSES)
def test_both_lists_tell_the_same_length(house: str) -> None:
    pieces, bought = cuts(made(house)), lengths(made(house))
    cut_m: dict[Any, float] = {}
    for row in pieces.rows:
        if row[1] != "bought whole":
            assert isinstance(row[3], float)
            cut_m[row[0]] = cut_m.get(row[0], 0.0) + row[3]
    assert {row[0]: row[3] for row in bought.rows} == pytest.approx(cut_m)
    assert all("memory" in note for note in pieces.notes[:1])
