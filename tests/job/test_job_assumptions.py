"""What is taken for granted is told."""

from typing import Any

import pytest

from houses import REMOVED, answered, finding


@pytest.mark.parametrize(
    ("edits", "house", "text"),
    [
        (
            {"runs.R-garage.stretches.1.soil": "2.5 K·m/W"},
            "controller-led",
            "soil around cables in the ground",
        ),
        ({"earth.bonding.B-water.protected": "yes"}, "meter-led", "bonding conductors are protected"),
    ],
)
def test_a_default_is_told_until_the_job_states_it(edits: dict[str, Any], house: str, text: str) -> None:
    def told(result: Any) -> list[str]:
        return [each.path for each in result.assumptions if each.text.startswith(text)]

    before, after = told(answered(house=house)), told(answered(edits, house))
    path = next(iter(edits))
    assert path in before
    assert path not in after


def test_a_house_without_any_ac_cable_is_asked_for_its_cables() -> None:
    """Bonding rests on the protective conductors; with none there is a question, not a crash."""
    edits = {f"runs.{run}": REMOVED for run in ("R-tails", "R-main", "R-backup")}
    result = answered({**edits, "boards.MB.circuits": [], "boards.BB.circuits": []} | _other_ac_runs())
    found = finding(result, "bonding.main", "bonding/B-water")
    assert any("the cables of the house" in ask for c in found.constraints for ask in c.find_out)


def _other_ac_runs() -> dict[str, Any]:
    job = answered().loaded.job
    kept = {run.id for run in job.runs if run.start in {s.id for s in job.strings} | {"BAT"}}
    gone = [run.id for run in job.runs if run.id not in kept]
    return {f"runs.{run}": REMOVED for run in gone}
