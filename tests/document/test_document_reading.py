"""A good file: what its values become, and where they stand."""

import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from document.toy import SAMPLE, Battery, Inverter, Rcd, Site, Toy
from ferrule.document import Document, Record, Unreadable, parse, read, tree
from ferrule.fact import OPEN, Unknown
from ferrule.quantity import Size

HEAD = "ferrule: 1\nname: A\nsite: {place: B}\n"


@pytest.fixture(params=["CSafeLoader", "SafeLoader"])
def _events(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both of PyYAML's parsers: the one in C, and the one that is always there."""
    monkeypatch.setattr(tree, "_Events", getattr(yaml, request.param))


@pytest.mark.usefixtures("_events")
def test_sample_becomes_typed_values() -> None:
    toy = parse(SAMPLE, Toy).value
    assert toy.name == "A house: with garage"
    assert toy.site == Site.model_construct(
        place="Somewhere",
        altitude_m=98 * 0.3048,
        coldest_c=Unknown("ask the weather service"),
        building=Unknown("what kind of building it is"),
    )
    inverter, battery = toy.devices
    assert isinstance(inverter, Inverter)
    assert isinstance(battery, Battery)
    assert (inverter.phases, inverter.current_max_a) == ("3", 16.0)
    assert (battery.packs, battery.place_coldest_c) == (2, -5.0)
    first, second = toy.runs
    assert (first.start, first.end, first.lengths_m) == ("INV1", "BAT1", [30.0, 4.0])
    assert (first.size, first.rcd, first.buried) == (OPEN, "none", True)
    assert isinstance(second.rcd, Rcd)
    assert (second.size, second.rcd.rating_a, second.buried) == (Size("AWG", "10"), 40.0, False)
    assert toy.loads_a == {"C1": 10.0, "C2": 500.0}
    assert toy.circuits == 12


def test_origins_are_kept_by_dotted_path() -> None:
    assert parse(SAMPLE, Toy).origins == {
        "site.altitude": "map; sheet 12",
        "runs.0.lengths.0": "measured with a tape",
    }


def test_an_origin_may_stand_at_any_value_and_inside_another() -> None:
    text = HEAD + "loads: {value: {C1: {value: 3 A, from: plate}}, note: by ear}\n"
    document = parse(text, Toy)
    assert document.value.loads_a == {"C1": 3.0}
    assert document.origins == {"loads": "by ear", "loads.C1": "plate"}


@pytest.mark.parametrize("nothing", ["", "~", "null", "unknown", "{unknown: }", "{value: unknown, from: x}"])
def test_nothing_and_unknown_are_as_good_as_left_out(nothing: str) -> None:
    left_out = parse(HEAD, Toy).value
    assert parse(f"{HEAD}circuits: {nothing}\nruns: {nothing}\n", Toy).value == left_out
    assert left_out.circuits == Unknown("how many circuits there are")


def test_quoted_words_stay_words() -> None:
    assert parse(HEAD.replace("name: A", "name: 'unknown'"), Toy).value.name == "unknown"
    assert parse(HEAD.replace("name: A", "name: '~'"), Toy).value.name == "~"


@pytest.mark.parametrize("text", ["012", "1e3", "yes", "1_000", "0x10", "2026-01-02", "1:30"])
def test_scalars_reach_the_model_as_they_were_written(text: str) -> None:
    assert parse(HEAD.replace("name: A", f"name: {text}"), Toy).value.name == text


@pytest.mark.parametrize(
    "spelled",
    [SAMPLE.replace("\n", "\r\n"), SAMPLE.replace("\n", "\r"), "\ufeff" + SAMPLE, "---\n" + SAMPLE + "...\n"],
)
def test_line_ends_and_marks_of_other_editors_are_accepted(spelled: str) -> None:
    expected = parse(SAMPLE, Toy).value
    assert parse(spelled.encode(), Toy).value == expected
    assert parse(spelled, Toy).value == expected


def _nodes(node: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    """Every value of a composed tree with its path; a fact stands for its value."""
    inner: list[tuple[str | int, Any]] = []
    if isinstance(node, yaml.MappingNode):
        inner = [(key.value, value) for key, value in node.value]
        if "value" in dict(inner):
            yield from _nodes(dict(inner)["value"], path)
            return
        inner = [] if [key for key, _ in inner] == ["unknown"] else inner
    elif isinstance(node, yaml.SequenceNode):
        inner = list(enumerate(node.value))
    yield path, node
    for key, value in inner:
        yield from _nodes(value, (*path, key))


@pytest.mark.usefixtures("_events")
def test_every_value_stands_where_another_reader_sees_it() -> None:
    document = parse(SAMPLE, Toy)
    nodes = dict(_nodes(yaml.compose(SAMPLE, yaml.SafeLoader)))
    assert len(nodes) > 40
    assert {path: document.at(path) for path in nodes} == {
        path: (node.start_mark.line + 1, node.start_mark.column + 1) for path, node in nodes.items()
    }


def test_what_is_not_there_is_placed_at_what_is_nearest_above() -> None:
    document = parse(HEAD, Toy)
    assert document.at(("site", "altitude")) == (3, 7)
    assert document.at(("nowhere", 3)) == (1, 1)


@settings(max_examples=60, deadline=None)
@given(metres=st.integers(1, 900))
def test_units_spelled_differently_give_the_same_model(metres: int) -> None:
    spellings = [
        f"{metres} m",
        f"{metres}m",
        f"{metres * 1000} mm",
        f"{metres * 100} cm",
        f"{metres / 1000} km",
    ]
    run = "runs: [{{id: R, from: A, to: B, lengths: [{}]}}]"
    lengths = [parse(HEAD + run.format(each), Toy).value.runs[0].lengths_m[0] for each in spellings]
    assert all(math.isclose(length, metres, rel_tol=1e-12) for length in lengths)


def test_a_file_is_read_from_disk(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(SAMPLE, encoding="utf-8")
    document = read(tmp_path / "job.yaml", Toy)
    assert document == Document(str(tmp_path / "job.yaml"), parse(SAMPLE, Toy).value, document.root)


def test_later_checks_point_at_the_same_lines() -> None:
    document = parse(SAMPLE, Toy, "job.yaml")
    known = [device.id for device in document.value.devices]
    wrong = document.mistyped(("runs", 1, "to"), "INV2", "the id of a device", known)
    assert str(wrong) == (
        "job.yaml:27:9: found 'INV2'; allowed: the id of a device: INV1, BAT1; did you mean 'INV1'?"
    )
    cycle = document.problem(("runs", 0), "a cycle R1, R2, R1", "runs without a cycle")
    assert str(cycle) == "job.yaml:16:5: found a cycle R1, R2, R1; allowed: runs without a cycle"
    ids = [(("runs", 0, "id"), "R"), (("runs", 1, "id"), "R"), (("devices", 0, "id"), "INV1")]
    assert [str(each) for each in document.repeated(ids)] == [
        "job.yaml:25:9: found id 'R' again; allowed: another id (first on line 16)"
    ]


def test_two_attributes_never_share_a_key() -> None:
    with pytest.raises(TypeError, match="Slip: two attributes with one key"):

        class Slip(Record):
            rise_v: str
            rise_pct: str


def test_attribute_names_are_no_keys() -> None:
    with pytest.raises(Unreadable, match="unknown key 'lengths_m'"):
        parse(HEAD + "runs: [{id: R, from: A, to: B, lengths_m: [1 m]}]", Toy)
