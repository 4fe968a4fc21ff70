"""Every cable end of a house, once, with what its maker says before what is usual."""

from collections import Counter
from typing import Any

import pytest

import houses
from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.fact import Unknown
from ferrule.sheets import endsheet
from ferrule.sheets.csvfile import csv_bytes
from ferrule.sheets.ends import CoreEnd, End, Piece, ends
from ferrule.sheets.paper import Grouped
from sheets.hostile import HOSTILE

HOUSES = ("meter-led", "controller-led", "changeover-led")


@pytest.fixture(scope="module", params=HOUSES)
def house(request: pytest.FixtureRequest) -> Answer:
    return houses.answered({}, request.param, firm=True)


def end_of(result: Answer, lead: str, at: str) -> End:
    return next(end for end in ends(result) if (end.lead, end.at) == (lead, at))


def core_of(end: End, name: str) -> CoreEnd:
    return next(core for core in end.cores if core.core == name)


def test_every_lead_has_two_ends_but_for_bought_plugs(house: Answer) -> None:
    made = Counter(end.lead for end in ends(house))
    leads = wired(house.design).leads.values()
    bought = {lead.id for lead in leads if lead.role in {"plug", "patch"}}
    assert made == {lead.id: 2 for lead in leads if lead.id not in bought}
    assert len(made) >= 19


def test_every_terminal_of_every_conductor_is_named_once(house: Answer) -> None:
    named = Counter((end.lead, core.core, core.lands) for end in ends(house) for core in end.cores)
    expected = Counter(
        (lead.id, core.name, str(at) if at else "")
        for lead in wired(house.design).leads.values()
        if lead.role not in {"plug", "patch"}
        for core in lead.cores
        for at in (core.start, core.end)
    )
    assert named == expected


def test_every_end_is_on_paper_once_at_its_place_and_every_core_in_the_list(house: Answer) -> None:
    blocks = [block for _, block in endsheet.ends_by_place(house) if isinstance(block, Grouped)]
    titles = Counter(group.title for block in blocks for group in block.groups)
    assert sum(titles.values()) == len(ends(house))
    assert len(endsheet.listed(house).rows) == sum(len(end.cores) for end in ends(house))


def test_what_ends_unused_is_cut_back_and_insulated(house: Answer) -> None:
    unused = [core for end in ends(house) for core in end.cores if not core.lands]
    assert unused
    assert all(core.piece == Piece("insulated") and core.torque_n_m is None for core in unused)


def test_the_makers_order_comes_first_and_his_entry_before_a_usual_gland() -> None:
    end = end_of(houses.answered(), "R-inverter", "INV1")
    assert end.threads == ("cap", "seal", "clamp", "shell")
    assert end.entry is not None
    assert end.gland is None
    first, second, *_ = endsheet.before(end)
    assert first == "Thread on before stripping, in this order: cap, seal, clamp, shell."
    assert (
        second
        == "Enters by plug, which holds 8 to 21 mm; tighten its cap to 4 N·m; the cable is 16.5 mm thick."
    )


def test_without_a_makers_entry_there_is_the_usual_gland_for_the_cable() -> None:
    gland = end_of(houses.answered(), "R-inverter", "MB").gland
    assert not isinstance(gland, Unknown)
    assert gland is not None
    assert (gland.thread_mm, gland.from_mm, gland.to_mm, gland.hole_mm) == (25, 11, 17, 25.5)


def test_a_cable_that_fits_no_gland_is_told() -> None:
    outers = [{"cores": 3, "size": "10 mm²", "outer": "70 mm"}]
    gland = end_of(houses.answered({"parts.pvc-multicore.outers": outers}), "R-inverter", "MB").gland
    assert isinstance(gland, Unknown)
    assert "70 mm" in gland.ask


def _block(result: Answer, device: str, port: str) -> tuple[str, int]:
    part = result.design.house.devices[device].part
    blocks = result.design.house.parts[part].terminals
    return part, next(at for at, block in enumerate(blocks) if block.port == port)


@pytest.mark.parametrize(("key", "fact"), [("strip", "strip_mm"), ("torque", "torque_n_m"), ("tool", "tool")])
def test_what_its_maker_does_not_say_stays_unknown(key: str, fact: str) -> None:
    part, at = _block(houses.answered(), "BAT", "poles")
    result = houses.answered({f"parts.{part}.terminals.{at}.{key}": houses.REMOVED})
    end = end_of(result, "BAT.poles", "BAT")
    assert all(isinstance(getattr(core, fact), Unknown) for core in end.cores)
    assert end.find_out
    said = [row for group in _groups(result) for row in group if row[2] == "poles plus"]
    assert "?" in said[0]


def _groups(result: Answer) -> list[tuple[tuple[str | None, ...], ...]]:
    blocks = [block for _, block in endsheet.ends_by_place(result) if isinstance(block, Grouped)]
    return [group.rows for block in blocks for group in block.groups]


def _shared(twin: bool) -> CoreEnd:
    """The plus core of the first bus lead of a house where two leads meet at one terminal."""
    part, at = _block(houses.answered({}, "controller-led"), "INV1", "BUS")
    edits: dict[str, Any] = {"parts.signal-2x2.strands": "class5", "parts.signal-2x2.core": "0.5 mm²"}
    port = f"parts.{part}.terminals.{at}"
    edits |= {f"{port}.conductors": 1, f"{port}.twin": twin}
    return core_of(end_of(houses.answered(edits, "controller-led"), "RS:SC.BUS:INV1.BUS", "INV1"), "plus")


def test_two_fine_conductors_under_a_terminal_for_one_share_a_twin_sleeve() -> None:
    core = _shared(twin=True)
    assert isinstance(core.piece, Piece)
    assert (core.piece.kind, core.piece.length_mm, dict(core.piece.colours)["din"]) == ("twin", 8, "white")
    assert core.strip_mm == 10  # the barrel and what the collar takes
    assert endsheet.piece(core).startswith("twin ferrule 2 × 0.5 mm², barrel 8 mm: white (DIN 46228; French)")


def test_without_leave_for_a_twin_sleeve_it_is_asked_how_they_share() -> None:
    core = _shared(twin=False)
    assert isinstance(core.piece, Unknown)
    assert "share INV1.BUS plus" in core.piece.ask


def test_a_colour_is_never_told_without_its_size(house: Answer) -> None:
    cores = [core for end in ends(house) for core in end.cores]
    sleeved = [core for core in cores if isinstance(core.piece, Piece) and core.piece.colours]
    assert all(str(core.size) in endsheet.piece(core) for core in sleeved)


@pytest.mark.parametrize("name", [each for each in HOSTILE if each.strip() and each.isascii()][:6])
def test_hostile_names_of_things_stay_in_their_cells(name: str) -> None:
    listed = endsheet.listed(houses.answered({"runs.R-cooker.to": name}))
    assert name in {row[1] for row in listed.rows}
    assert name.encode().replace(b'"', b'""') in csv_bytes(listed)
