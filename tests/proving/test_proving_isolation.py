"""Isolation records: every source that reaches a place is in its record, with what is opened against it."""

from collections.abc import Iterable

import pytest

from arrangements import RUNS, job
from ferrule.answering import Answer
from ferrule.design import Design, House
from ferrule.fact import Unknown
from ferrule.proving.isolation import Record, isolation
from ferrule.wiring.recipes import topology
from ferrule.wiring.topology import Position, Topology
from houses import REMOVED, answered

HOUSES = ("meter-led", "controller-led", "changeover-led")
BARE = [(arrangement, inverters) for arrangement in RUNS for inverters in (1, 2)]


def records(result: Answer) -> dict[str, Record]:
    return {str(record.area): record for record in isolation(result.design)}


def bare(arrangement: str, inverters: int, generator: bool) -> Design:
    built = job(
        arrangement,
        inverters=inverters,
        generator={"transfer": "all-live", "link": "fixed"} if generator else None,
    )
    return Design(House(built, topology(built)))


def reached(found: Topology, start: str, position: Position) -> set[str]:
    """All that closed lines join to a terminal, by widening a set until it stays as it is."""
    met: set[str] = {start}
    while True:
        more = {
            end
            for link in found.links
            if position in link.line and {link.a, link.b} & met
            for end in (link.a, link.b)
        }
        if more <= met:
            return met
        met |= more


def owner(terminal: str) -> str:
    return terminal.partition(".")[0]


def missed(design: Design, listed: Iterable[Record]) -> list[tuple[str, str, str]]:
    """Every source that reaches an area in some position without standing in its record."""
    house = design.house
    found: list[tuple[str, str, str]] = []
    for record in listed:
        terminals = {pair.terminal for pair in record.pairs}
        for position, sources in house.topology.sources.items():
            if position == "transit":
                continue
            live = set(sources) | set(house.topology.sources.get("island", ()))
            if position != "island":
                live |= {
                    end for run in house.job.runs for end in (run.start, run.end) if end.endswith(".grid")
                    and house.devices[owner(end)].kind == "inverter"
                }  # fmt: skip
            for source in live:
                told = [feed for feed in record.feeds if feed.source == owner(source)]
                if terminals & reached(house.topology, source, position) and not any(
                    position in feed.positions for feed in told
                ):
                    found.append((str(record.area), source, position))
    return found


@pytest.mark.parametrize("house", HOUSES)
def test_every_source_of_a_demo_house_is_in_the_record_of_what_it_reaches(house: str) -> None:
    design = answered({}, house, firm=True).design
    assert missed(design, isolation(design)) == []


@pytest.mark.parametrize("generator", [False, True])
@pytest.mark.parametrize(("arrangement", "inverters"), BARE)
def test_every_source_of_every_arrangement_is_in_the_record(
    arrangement: str, inverters: int, generator: bool
) -> None:
    design = bare(arrangement, inverters, generator)
    listed = isolation(design)
    assert missed(design, listed) == []
    assert {owner(end) for run in design.house.job.runs for end in (run.start, run.end)} == {
        record.area.id for record in listed
    }


@pytest.mark.parametrize("house", HOUSES)
def test_with_every_point_open_no_source_reaches_the_place(house: str) -> None:
    """Take the runs of opened circuits away, and the sources that are opened themselves: nothing is left."""
    design = answered({}, house, firm=True).design
    circuits, topology_ = design.house.circuits, design.house.topology
    grid = [f"{d.id}.grid" for d in design.house.job.devices if d.kind == "inverter"]
    for record in isolation(design):
        opened = {circuits[point.of].run for point in record.points if point.kind in {"breaker", "fuse"}}
        dead = {point.of for point in record.points if point.kind == "service-fuse"}
        dead |= _without_direct_current(design, record)
        links = tuple(link for link in topology_.links if link.by[4:] not in opened)
        terminals = {pair.terminal for pair in record.pairs}
        for position in set(topology_.positions) - {"transit"}:
            live = {*topology_.sources[position], *(grid if position != "island" else ())}
            for source in live:
                if owner(source) not in dead:
                    met = reached(Topology(links, (), {}), source, position)
                    assert not terminals & met, (record.area, source, position)


def _without_direct_current(design: Design, record: Record) -> set[str]:
    """The inverters of which every string and every battery is switched off in a record."""
    opened = {(point.kind, point.of) for point in record.points}
    joined: dict[str, list[bool]] = {}
    for string in design.house.job.strings:
        joined.setdefault(owner(string.input), []).append(("dc-switch", string.input) in opened)
    for run, battery in design.house.battery_runs.items():
        off = ("battery-isolator", battery) in opened
        joined.setdefault(owner(design.house.runs[run].end), []).append(off)
    return {inverter for inverter, off in joined.items() if all(off)}


@pytest.mark.parametrize("house", HOUSES)
def test_strings_and_batteries_are_told_wherever_they_reach(house: str) -> None:
    result = answered({}, house, firm=True)
    found = records(result)
    for string in result.loaded.job.strings:
        for area in (f"face/{string.face}", f"inverter/{owner(string.input)}"):
            feed = next(feed for feed in found[area].feeds if feed.source == string.id)
            assert set(feed.positions) == set(result.design.house.topology.positions)
            assert ("string-in-light", string.id) in {(each.kind, each.of) for each in found[area].remains}
    for run, battery in result.design.house.battery_runs.items():
        inverter = owner(result.design.house.runs[run].end)
        for area in (f"battery/{battery}", f"inverter/{inverter}"):
            assert battery in {feed.source for feed in found[area].feeds}
            assert ("battery-posts", battery) in {(each.kind, each.of) for each in found[area].remains}
        assert inverter in {feed.source for feed in found[f"battery/{battery}"].feeds}


def test_where_the_crew_can_open_nothing_upstream_the_supplier_is_booked() -> None:
    booked = {area for area, record in records(answered()).items() if record.book_supplier}
    assert booked == {"supply/supply", "meter/EM", "board/MB", "bus/RS"}
    main = records(answered())["board/MB"]
    assert [point.id for point in main.points if point.who == "supplier"] == ["service-fuse/supply"]
    assert "supply-side" in {each.kind for each in main.remains}


def test_behind_a_breaker_of_the_house_the_crew_needs_nobody() -> None:
    backup = records(answered())["board/BB"]
    network = next(feed for feed in backup.feeds if feed.source == "supply")
    assert [point.id for point in network.points] == ["breaker/C-inverter"]
    inverter = next(feed for feed in backup.feeds if feed.source == "INV1")
    assert inverter.positions == ("grid", "island")
    assert {point.kind for point in inverter.points} == {
        "dc-switch", "battery-switch", "battery-isolator",
    }  # fmt: skip


def test_a_bus_between_houses_of_several_devices_has_the_sources_of_each() -> None:
    found = records(answered({}, "controller-led", firm=True))["bus/RS"]
    assert {feed.source for feed in found.feeds} == {
        "supply", "INV1", "INV2", "S1", "S2", "S3", "S4", "S5", "BAT",
    }  # fmt: skip
    assert len({feed.source for feed in found.feeds}) == len(found.feeds)


def test_pairs_are_all_pairs_of_the_live_conductors_neutral_and_earth() -> None:
    single, three = records(answered())["board/MB"], records(answered({}, "changeover-led"))["board/MB"]
    assert {(pair.a, pair.b) for pair in single.pairs} == {("L1", "N"), ("L1", "PE"), ("N", "PE")}
    assert len(three.pairs) == 10
    battery = records(answered())["battery/BAT"]
    assert {(pair.a, pair.b) for pair in battery.pairs} == {("+", "−"), ("+", "PE"), ("−", "PE")}


def test_how_long_to_wait_is_the_sheets_or_unknown() -> None:
    part = "parts.example-hybrid-6k-single"
    told = records(answered({f"{part}.discharge_time": "7 min"}))["inverter/INV1"]
    assert [each.wait_s for each in told.remains if each.kind == "capacitors"] == [420.0]
    silent = records(answered({f"{part}.discharge_time": REMOVED}))["inverter/INV1"]
    (wait,) = [each.wait_s for each in silent.remains if each.kind == "capacitors"]
    assert isinstance(wait, Unknown)
    assert wait.ask in silent.find_out


def test_a_switch_nobody_knows_the_lock_of_is_asked_about() -> None:
    part = "parts.example-hybrid-6k-single"
    silent = records(answered({f"{part}.dc_switch_lockable": REMOVED}))["inverter/INV1"]
    switches = [point for point in silent.points if point.kind == "dc-switch"]
    assert switches
    assert all(isinstance(point.lock, Unknown) for point in switches)
    assert {point.lock.ask for point in switches if isinstance(point.lock, Unknown)} <= set(silent.find_out)
    without = records(answered({f"{part}.dc_switch_lockable": "no"}))["inverter/INV1"]
    assert {point.lock for point in without.points if point.kind == "dc-switch"} == {"guarded"}


def test_a_battery_without_any_switch_is_parted_at_its_fuse() -> None:
    edits = {"devices.BAT.isolator": "none", "parts.example-lfp-10k.isolates": "none"}
    kinds = {point.kind for point in records(answered(edits, firm=True))["battery/BAT"].points}
    assert "battery-fuse" in kinds
    assert not kinds & {"battery-switch", "battery-isolator"}
