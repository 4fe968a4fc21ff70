"""`ferrule explain`: the whole working of one finding."""

import re

import pytest

from cli.command import Ferrule
from ferrule.checks.question import Finding, Remedy, Subject
from ferrule.cli.explain import explained
from ferrule.cli.paint import Paint
from ferrule.constraint import Constraint, at_most, not_known
from ferrule.fact import Missing
from ferrule.physics import module
from ferrule.rules import load
from ferrule.working import Trace
from houses import EXAMPLES

JOB = EXAMPLES / "meter-led" / "job.yaml"


def voltage(name: str, limit_v: float) -> Constraint:
    t = Trace(load("iec-2024"))
    t.given("coldest_c", -16.0, "site")
    value_v = 10 * t.calculate(module.voltage_at_cell, stc_v=40.0, coefficient_v_per_k=-0.1, cell_c=-16.0)
    t.given("limit_v", limit_v)
    return at_most(name, "{value} of {limit}", t, value=value_v, limit=limit_v, unit="V")


FINDING = Finding(
    "string.cold",
    Subject("string", "S1"),
    "Is it cold?",
    "roof",
    (voltage("wide", 1000.0), not_known("lost", Missing("where it went")), voltage("narrow", 430.0)),
    (Remedy("take {modules} modules", {"modules": 9}),),
)


def test_the_deciding_limit_first_each_step_once_and_what_would_mend_it() -> None:
    assert list(explained(FINDING, Paint())) == [
        "string.cold  string/S1",
        "Is it cold?",
        "",
        "━╱╱ stop  narrow, which governs",
        "  441 V of 430 V (3 % over)",
        "    coldest = −16 °C  (site)",
        "    voltage at cell = stc + coefficient × (cell − 25)",
        "                    = 40 V + (−0.1 V/K) × ((−16 °C) − 25) = 44.1 V",
        "    limit = 430 V",
        "",
        "┅┅┅ find out  lost",
        "  Find out: where it went",
        "",
        "━●━ good  wide",
        "  441 V of 1000 V (55 % margin)",
        "    limit = 1000 V",
        "    the rest of the working as above",
        "",
        "→ take 9 modules",
    ]


@pytest.mark.parametrize("subject", ["S1", "string/S1"])
def test_a_subject_is_known_with_and_without_its_kind(ferrule: Ferrule, subject: str) -> None:
    ended = ferrule("explain", JOB, "string.cold_voltage", subject)
    assert (ended.code, ended.err) == (0, "")
    assert ended.out.startswith("string.cold_voltage  string/S1\n")
    assert "string voltage = module × count\n" in ended.out


def test_every_finding_can_be_explained(ferrule: Ferrule) -> None:
    """By the words of the report itself: the question and the subject as they stand in it."""
    told, question = [], ""
    for line in ferrule("check", JOB).out.partition("\nchosen")[0].splitlines():
        if not line:
            question = ""
        elif re.fullmatch(r"    [a-z]+\.[a-z_]+", line):
            question = line.strip()
        elif question and re.match(r"      [A-Z]", line):
            told.append((question, re.split(r",|\s", line.strip())[0]))
        elif not line.startswith("      "):
            question = ""
    assert len(told) > 50
    for question, subject in told[::5]:
        ended = ferrule("explain", JOB, question, subject)
        assert (ended.code, ended.err) == (0, "")
        assert ended.out.startswith(f"{question}  ")
