"""The order list, counted again straight from the files; boxes, spares, the van; what a change changes."""

import math
from collections import Counter
from functools import cache
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from ferrule.answering import Answer, answer
from ferrule.fact import Unknown
from ferrule.job.load import load
from ferrule.sheets import van
from ferrule.sheets.difference import difference
from ferrule.sheets.goods import GROUPS, Kind
from ferrule.sheets.order import Line, listed, order
from houses import EXAMPLES, REMOVED, answered

HOUSES = ("meter-led", "controller-led", "changeover-led")


@cache
def made(house: str) -> Answer:
    return answer(load(EXAMPLES / house / "job.yaml"))


@cache
def job_of(house: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load((EXAMPLES / house / "job.yaml").read_text())
    return found


@cache
def part(name: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load((EXAMPLES / "parts" / f"{name}.yaml").read_text())["part"]
    return found


def needed(result: Answer, *kinds: Kind) -> Counter[str]:
    """How many of each item of some kinds; fails where one is not known."""
    found = Counter[str]()
    for line in order(result):
        if line.kind in kinds:
            assert not isinstance(line.needed, Unknown), line
            found[line.item] += int(line.needed)
    return found


def line_of(result: Answer, item: str) -> Line:
    return next(line for line in order(result) if line.item == item)


def _mm(text: str) -> float:
    number, unit = str(text).split()
    return float(number) * {"mm": 1, "m": 1000}[unit]


@pytest.mark.parametrize("house", HOUSES)
def test_modules_devices_and_boards_are_those_of_the_file(house: str) -> None:
    job, counted = job_of(house), Counter[str]()
    for string in job["strings"]:
        counted[part(string["module"])["name"]] += string["modules"]
    for device in job["devices"]:
        counted[part(device["part"])["name"]] += device.get("packs", 1)
    for board in job["boards"]:
        counted[part(board["part"])["name"]] += 1
    assert needed(made(house), "module", "device", "board") == counted


@pytest.mark.parametrize("house", HOUSES)
def test_every_circuit_has_one_breaker_of_as_many_poles_as_lines(house: str) -> None:
    circuits = [circuit for board in job_of(house)["boards"] for circuit in board["circuits"]]
    fused = [each for each in circuits if each["device"].get("kind") == "fuse-gG"]
    poles = Counter(len(each["phases"]) for each in circuits if each not in fused)
    assert sum(needed(made(house), "fuse").values()) == sum(len(each["phases"]) for each in fused)
    found = Counter[int]()
    for item, count in needed(made(house), "breaker").items():
        found[int(item.partition("-pole")[0].rpartition(" ")[2])] += count
    assert found == poles


@pytest.mark.parametrize("house", HOUSES)
def test_each_string_takes_a_plug_half_a_pole_and_the_inverters_bring_theirs(house: str) -> None:
    strings = len(job_of(house)["strings"])
    assert needed(made(house), "contact") == {
        "DC plug half EX-P4, plus": strings,
        "DC plug half EX-P4, minus": strings,
    }


@pytest.mark.parametrize("house", HOUSES)
def test_anchors_are_the_holes_of_all_that_hangs(house: str) -> None:
    holes = 0
    for device in job_of(house)["devices"]:
        body = part(device["part"]).get("body", {})
        if "at" in device and body["mount"] == "wall":
            holes += len(body["mounting"]["holes"]) * device.get("packs", 1)
    assert sum(needed(made(house), "anchor").values()) == holes > 0


@pytest.mark.parametrize("house", HOUSES)
def test_rails_and_clamps_follow_from_rows_and_columns(house: str) -> None:
    job, counted = job_of(house), Counter[str]()
    modules = {string["face"]: part(string["module"]) for string in job["strings"]}
    for face in (each for each in job["faces"] if each["id"] in modules):
        mount = part(face["mount"])
        for block in face["blocks"]:
            side = "width" if block["orientation"] == "portrait" else "length"
            rail_mm = block["columns"] * _mm(modules[face["id"]][side])
            rail_mm += (block["columns"] - 1) * _mm(mount["gap"]) + 2 * _mm(mount["rail_end"])
            lines = 2 * block["rows"]
            pieces = lines * math.ceil(rail_mm / _mm(mount["rail"]))
            counted[f"rail, {mount['name']}"] += pieces
            counted[f"rail splice, {mount['name']}"] += pieces - lines
            counted[f"mid clamp, {mount['name']}"] += lines * (block["columns"] - 1)
            counted[f"end clamp, {mount['name']}"] += lines * 2
    assert needed(made(house), "rail", "splice", "mid_clamp", "end_clamp") == counted


@pytest.mark.parametrize(
    ("house", "lugs"),
    [  # by hand: both battery poles at each stud, and the earth of each battery case and surge device
        ("meter-led", {"pressed lug 50 mm², M8": 4, "pressed lug 10 mm², M6": 1}),
        ("controller-led", {"pressed lug 10 mm², M6": 2}),
        ("changeover-led", {"pressed lug 10 mm², M6": 1, "pressed lug 6 mm², M6": 2}),
    ],
)
def test_a_lug_for_each_conductor_on_a_stud(house: str, lugs: dict[str, int]) -> None:
    assert needed(made(house), "lug") == lugs
    assert sum(needed(made(house), "shrink").values()) == sum(lugs.values())


def test_ferrules_where_fine_strands_land_on_screws_with_their_colour_by_system() -> None:
    """Two leads of each of three current transformers; one end of each comes made up."""
    clamps = job_of("controller-led")["devices"]
    count = sum(2 * len(each.get("transformers", {}).get("clamps", [])) for each in clamps)
    ferrule = "ferrule 1.5 mm² × 8 mm, insulated (DIN black, older German red, French black)"
    assert needed(made("controller-led"), "ferrule") == {ferrule: count} == {ferrule: 6}
    assert sum(needed(made("controller-led"), "transformer").values()) == 3


@pytest.mark.parametrize("house", HOUSES)
def test_every_line_is_bought_as_needed_less_the_boxes_with_its_spares(house: str) -> None:
    lines = order(made(house))
    assert len({(line.kind, line.item) for line in lines}) == len(lines)
    for line in lines:
        assert not isinstance(line.needed, Unknown)
        assert not isinstance(line.buy, Unknown)
        assert line.kind in GROUPS[line.group]
        assert line.buy == line.needed - line.boxed + line.spare
        bought = line.needed - line.boxed
        if line.spare:
            assert line.spare == max(math.ceil(bought / 10), 2)
        counts = [count for _, count in line.places if count is not None]
        assert not counts or sum(counts) == pytest.approx(line.needed)


def test_what_lies_in_the_boxes_is_not_bought() -> None:
    line = line_of(made("meter-led"), "terminating resistor 120 Ω")
    assert (line.needed, line.boxed, line.buy) == (1, 1, 0)
    gland = line_of(
        made("meter-led"), "gland M20, 5 to 13 mm"
    )  # one cable, three in one box and one in another
    assert (gland.needed, gland.boxed, gland.spare, gland.buy) == (1, 1, 0, 0)


def test_an_unknown_box_is_said_and_nothing_taken_off_for_it() -> None:
    result = answered({"parts.example-meter-direct.box": REMOVED})
    assert line_of(result, "terminating resistor 120 Ω").buy == 1
    assert any("not known of EM:" in note for note in listed(result).notes)
    assert any(check.detail.startswith("in its box: not known") for check in van.checks(result))


def test_an_unknown_family_of_plugs_is_asked_for() -> None:
    result = answered({"parts.example-mono-430.plugs": REMOVED})
    lines = [line for line in order(result) if line.kind == "contact"]
    assert [isinstance(line.buy, Unknown) for line in lines] == [True]
    assert lines[0].of == ("R-S1", "R-S2")


def test_what_ties_a_standing_device_is_counted_or_asked_for() -> None:
    tie = "screw with plug to tie a standing device to the wall"
    spots = [{"left": "2.3 m", "bottom": "700 mm"}, {"left": "2.8 m", "bottom": "700 mm"}]
    tied = answered({"devices.BAT.fixing": {"tied": "yes", "ties": spots}})
    assert (line_of(tied, tie).needed, line_of(tied, tie).places) == (2, (("battery", 2),))
    bolted = answered({"devices.BAT.fixing": {"tied": "yes", "ties": []}})
    (line,) = (line for line in order(bolted) if isinstance(line.needed, Unknown))
    assert line.of == ("BAT",)


@settings(max_examples=6, deadline=None)
@given(
    modules=st.integers(1, 20),
    tenths=st.integers(10, 400),
    at=st.sampled_from(["INV1.PV1", "INV2.PV1", "INV2.PV2"]),
)
def test_one_string_more_never_takes_less_of_anything(modules: int, tenths: int, at: str) -> None:
    before = _by_kind("controller-led", {})
    string = {"id": "S9", "module": "example-mono-410", "modules": modules, "face": "east", "input": at}
    string["face"] = job_of("controller-led")["faces"][0]["id"]
    run = {
        "id": "R-S9", "from": "S9", "to": at, "cable": "pv-single", "size": "6 mm²",
        "stretches": [{"length": f"{tenths / 10} m", "method": "F", "ambient": "60 °C", "circuits": 1}],
    }  # fmt: skip
    after = _by_kind("controller-led", {"strings.+": string, "runs.+": run})
    assert [kind for kind, count in before.items() if after[kind] < count - 1e-9] == []
    assert after["module"] == before["module"] + modules
    assert after["contact"] >= before["contact"] + 2


def _by_kind(house: str, edits: dict[str, Any]) -> Counter[str]:
    """Needed of each kind; the sizes of all strings' cables given, so that none moves to another."""
    sized = {
        f"runs.{run['id']}.size": "6 mm²" for run in job_of(house)["runs"] if run["from"].startswith("S")
    }
    found = Counter[str]()
    for line in order(answered({**sized, **edits}, house)):
        if not isinstance(line.needed, Unknown):
            found[line.kind] += line.needed  # type: ignore[assignment]  # metres are no whole numbers
    return found


@pytest.mark.parametrize("house", HOUSES)
def test_a_job_does_not_differ_from_itself(house: str) -> None:
    assert difference(made(house), answer(load(EXAMPLES / house / "job.yaml"))) == []


def test_a_change_is_told_alone_and_the_way_back_is_its_mirror() -> None:
    old, new = answered(), answered({"runs.R-cooker.stretches.0.length": "29 m"})
    there, back = difference(old, new), difference(new, old)
    assert [(each.sheet, each.what, each.before, each.now) for each in there] == [
        ("order", "changed", "25 m", "50 m"),
        ("cuts", "changed", "pvc-multicore 3 × 4 mm², 20.5 m", "pvc-multicore 3 × 4 mm², 30.5 m"),
    ]
    assert [(each.item, each.now, each.before) for each in back] == [
        (each.item, each.before, each.now) for each in there
    ]


def test_what_comes_and_goes_is_told() -> None:
    old, new = answered(), answered({"earth.bonding.B-array.id": "B-roof"})
    found = {(each.what, each.item) for each in difference(old, new)}
    assert found == {("gone", "B-array"), ("added", "B-roof")}


@pytest.mark.parametrize("house", HOUSES)
def test_the_van_has_every_box_with_room_for_its_serial_and_every_good(house: str) -> None:
    found = van.checks(made(house))
    boxes = [check.what.partition(":")[0].split()[0] for check in found if check.sort == "box"]
    assert Counter(boxes) == {each["id"]: each.get("packs", 1) for each in job_of(house)["devices"]}
    bought = [line.item for line in order(made(house)) if line.buy and line.kind != "device"]
    assert [check.what for check in found if check.sort == "delivered"] == bought
    rows = van.listed(made(house)).rows
    assert all((row[-1] is None) == (row[0] == "box") for row in rows)


def test_tools_dies_and_drills_are_in_the_van() -> None:
    found = {(each.sort, each.what): each for each in van.checks(made("meter-led"))}
    assert found["die", "press for lugs, die 14"].detail == "for 50 mm²"  # DIN 46235
    assert ("tool", "socket 13 mm") in found
    assert ("tool", "torque wrench") in found
    (drill,) = (each for (sort, _), each in found.items() if sort == "drill")
    assert drill.what == "drill 8 mm, for solid brick"
    assert "clean the hole: blow twice" in drill.detail
