"""`ferrule rules`: what a rulebook holds, and what a person confirmed of it."""

import json
from pathlib import Path

import pytest

from cli.command import Ferrule
from ferrule.rules import load


def test_the_list_has_a_line_for_everything_the_rulebook_holds(ferrule: Ferrule) -> None:
    lines = ferrule("rules", "list").out.splitlines()
    assert [line.split()[0] for line in lines] == list(load("iec-2024").names())
    assert any(line.split()[1:3] == ["table", "verified"] for line in lines)


def test_for_another_program_it_is_json(ferrule: Ferrule) -> None:
    entries = json.loads(ferrule("rules", "list", "--json", "--rulebook", "us-2023").out)
    assert [entry["name"] for entry in entries] == list(load("us-2023").names())
    shown = json.loads(ferrule("rules", "show", "links_per_state", "--json").out)
    assert (shown["name"], shown["kind"], shown["values"][0]["value"]) == ("links_per_state", "figure", 1)


def test_a_table_shows_its_cells_with_how_sure_each_is(ferrule: Ferrule) -> None:
    lines = ferrule("rules", "show", "grouping_factor").out.splitlines()
    assert lines[0] == "grouping_factor: Factor for several circuits or multi-core cables together"
    row = next(line.split() for line in lines if line.split()[:1] == ["2"])
    assert row[:3] == ["2", "0.8", "0.85"]
    assert lines[-1].startswith("behind a figure: s from one source, m from memory, c confirmed")
    assert not any(line != line.rstrip() for line in lines)


def test_a_series_shows_its_values(ferrule: Ferrule) -> None:
    name = next(name for name in load("iec-2024").names() if _kind(name) == "Series")
    lines = ferrule("rules", "show", name).out.splitlines()
    assert lines[-1] == ", ".join(str(value) for value in load("iec-2024").series(name).values)


def _kind(name: str) -> str:
    return type(load("iec-2024").entry(name)).__name__


def test_what_a_person_confirms_is_shown_as_confirmed(ferrule: Ferrule, tmp_path: Path) -> None:
    said = ferrule(
        "rules", "confirm", "links_per_state", "--by", "A. Reader", "--page", "p. 21", "--date", "2026-03-31",
        "--firm", tmp_path,
    )  # fmt: skip
    kept = tmp_path / "confirmed.yaml"
    assert said == (0, f"links_per_state: read by A. Reader on 2026-03-31, p. 21; kept in {kept}\n", "")
    shown = ferrule("rules", "show", "links_per_state", "--firm", tmp_path).out
    assert "read by A. Reader on 2026-03-31, p. 21; confirmed" in shown
    assert "confirmed" not in ferrule("rules", "show", "links_per_state").out


EDITIONS = ("aunz-2024", "iec-2024", "uk-2022", "us-2023")


def test_every_rulebook_is_sound(ferrule: Ferrule) -> None:
    ended = ferrule("rules", "check")
    assert (ended.code, ended.err) == (0, "")
    sound = "sound, every figure with source and grade"
    assert ended.out.splitlines() == [f"{edition}: {sound}" for edition in EDITIONS]


def test_a_faulty_rulebook_ends_with_1(ferrule: Ferrule, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ferrule.cli.rules.problems", lambda edition: [f"{edition}/x.yaml:3: no source"])
    ended = ferrule("rules", "check")
    assert (ended.code, ended.err) == (1, "")
    assert ended.out.splitlines() == [f"{edition}/x.yaml:3: no source" for edition in EDITIONS]
