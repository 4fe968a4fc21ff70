"""What strings, their runs and their gear refer to must exist and agree."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from houses import loaded


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [
        ({"runs.R-S1.to": "INV1.PV2"}, "INV1.PV2", "INV1.PV1"),
        ({"devices.INV1.inputs": [{"id": "PV9", "isolator": "built-in"}]}, "PV9", "PV1"),
        ({"site.cold_factor": 0.9}, "0.9", "not below 1"),
        ({"devices.INV1.inputs": [{"id": "PV1", "isolator": "none"}]}, "none", "built-in"),
    ],
    ids=["run to another input", "no such input", "factor below one", "no isolator"],
)
def test_a_contradiction_is_refused_where_it_stands(edits: dict[str, Any], found: str, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits)
    (problem,) = refused.value.problems
    assert found in problem.found
    assert allowed in problem.allowed
    assert problem.line > 1


@pytest.mark.parametrize("odd", ["INV.1", ""])
def test_an_id_that_could_not_be_told_from_a_port_is_refused(odd: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({"devices.NET.id": odd})
    (problem,) = refused.value.problems
    assert problem.found == f"'{odd}'"
    assert "without a dot" in problem.allowed


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [
        ({"runs.R-battery.to": "MB"}, "'MB', a terminal of alternating", "as 'BAT' is: INV1.battery"),
        ({"runs.R-battery.to": "INV1.PV1"}, "'INV1.PV1', a terminal of the array", "INV1.battery"),
        (
            {"runs.R-backup.to": "S1"},
            "'S1', a terminal of the array",
            "alternating current, as 'INV1.backup'",
        ),
        ({"runs.R-S1.from": "INV1.PV1", "runs.R-S1.to": "S1"}, "'INV1.PV1'", "the string first: 'S1'"),
        ({"runs.R-inverter.to": "INV1"}, "'INV1'", "one of its terminals: INV1.grid, INV1.backup"),
        ({"boards.MB.circuits.C-cooker.loads": []}, "'hob and oven'", "loads of circuit 'C-cooker', or"),
    ],
    ids=["battery to board", "battery to input", "backup to string", "string last", "no port", "no loads"],
)
def test_a_run_to_where_it_cannot_go_is_refused_with_where_it_can(
    edits: dict[str, Any], found: str, allowed: str
) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits)
    (problem,) = refused.value.problems
    assert found in problem.found
    assert allowed in problem.allowed
    assert not problem.hint


@pytest.mark.parametrize("run", ["R-battery", "R-backup", "R-tails"])
def test_other_runs_may_be_told_from_either_end(run: str) -> None:
    there = next(each for each in loaded().job.runs if each.id == run)
    assert loaded({f"runs.{run}.from": there.end, f"runs.{run}.to": there.start}).job.runs


def test_runs_from_a_board_that_is_not_there_are_told_once() -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({"boards.BB.id": "backup board"})
    assert all(
        "'BB'" in problem.found and "terminal" in problem.allowed for problem in refused.value.problems
    )
