"""The findings as a person reads them: by place, worst first, good ones brief."""

import io
import re
import sys
from itertools import pairwise
from typing import Any

import pytest

import houses
from ferrule.answering import Answer
from ferrule.checks.question import Finding, Remedy, Subject
from ferrule.checks.subjects import PLACES
from ferrule.choose import Choice
from ferrule.choose.engine import Lacked
from ferrule.cli.paint import Paint
from ferrule.cli.report import report
from ferrule.constraint import Constraint, at_least, at_most, is_so, not_known
from ferrule.design import Decided
from ferrule.fact import Missing
from ferrule.quantity import Size
from ferrule.rules import load
from ferrule.working import Trace


@pytest.fixture(scope="module")
def demo() -> Answer:
    return houses.answered()


def t() -> Trace:
    return Trace(load("iec-2024"))


def found(
    question: str, subject: str, place: str, *constraints: Constraint, remedies: tuple[Remedy, ...] = ()
) -> Finding:
    kind, _, rest = subject.partition("/")
    owner, _, position = rest.partition("@")
    return Finding(question, Subject(kind, owner, position), "Is it so?", place, constraints, remedies)


GOOD = found(
    "string.cold_voltage",
    "string/S1",
    "roof",
    at_most("x", "{value}", t(), value=516.6, limit=600.0, unit="V"),
)
GOOD_LOW = found(
    "string.hot", "string/S22", "roof", at_least("x", "{value}", t(), value=1020.0, limit=90.0, unit="V")
)
GOOD_WORDS = found(
    "earth.bond",
    "installation/house@grid",
    "board",
    is_so("x", "{closed} bond, as must be", t(), True, closed=1),
)
LOOK = found(
    "run.drop", "run/R1", "roof",
    at_most("x", "{value} is lost; {limit} is usual", t(), value=1.38, limit=1.0, unit="%", binding=False),
    at_most("y", "{value} is lost; {limit} is allowed", t(), value=1.38, limit=3.0, unit="%"),
    remedies=(Remedy("{value} passes with {margin} margin", {"value": "6 mm²", "margin": 0.083}),),
)  # fmt: skip
STOP = found(
    "circuit.overload", "circuit/C1", "board",
    at_most("x", "It carries {value}; it is rated {limit}", t(), value=32.0, limit=25.0, unit="A"),
    not_known("capacity", Missing("length of this stretch")),
)  # fmt: skip
ASK = found(
    "circuit.fault",
    "circuit/C2",
    "board",
    not_known("x", Missing("length of this stretch", "the earthing system")),
)


def told(
    demo: Answer, *findings: Finding, code: int = 0, paint: Paint | None = None, **changes: Any
) -> list[str]:
    return list(
        report(demo._replace(findings=findings, **{"choices": (), **changes}), paint or Paint(), code)
    )


def after(lines: list[str], heading: str) -> list[str]:
    """The lines of one block."""
    start = lines.index(heading) + 1
    return lines[start : lines.index("", start)]


def test_good_findings_stand_by_question_with_their_figures_in_line(demo: Answer) -> None:
    lines = told(demo, GOOD, GOOD_LOW, GOOD_WORDS)
    assert after(lines, "roof") == [
        "  ━●━ good        margin",
        "    string.cold_voltage",
        "      S1            13 %   517 V ≤ 600 V",
        "    string.hot",
        "      S22          ample  1020 V ≥ 90 V",
    ]
    assert after(lines, "board") == [
        "  ━●━ good",
        "    earth.bond",
        "      house@grid  1 bond, as must be",
    ]


def test_the_limit_is_named_where_a_question_has_several(demo: Answer) -> None:
    """The figures belong to the limit that governs: here to the meter, and not to the fuse."""
    several = found(
        "supply.main_fuse", "supply/supply", "meter",
        at_most("fed_in", "{value}", t(), value=26.0, limit=63.0, unit="A"),
        at_least("meter_max", "{value}", t(), value=80.0, limit=63.0, unit="A"),
    )  # fmt: skip
    assert after(told(demo, several), "meter")[-1] == "      supply    26 %  80 A ≥ 63 A  meter max"
    narrow = Paint(width=36)
    assert after(told(demo, several, paint=narrow), "meter")[-2:] == [
        "      supply    26 %  80 A ≥ 63 A",
        "                      meter max",
    ]


def test_good_findings_alike_are_told_together(demo: Answer) -> None:
    others = [GOOD._replace(subject=Subject("string", f"S{at}")) for at in range(2, 8)]
    words = GOOD_WORDS._replace(subject=Subject("installation", "house", "island"))
    lines = told(demo, GOOD, *others, words, GOOD_WORDS, paint=Paint(width=60))
    assert after(lines, "roof")[2:] == ["      S1, S2, S3, S4,       13 %  517 V ≤ 600 V", "      S5, S6, S7"]
    assert after(lines, "board")[2:] == ["      house@grid,         1 bond, as must be", "      house@island"]


def test_a_miss_tells_every_limit_missed_and_what_would_mend_it(demo: Answer) -> None:
    assert after(told(demo, LOOK), "roof") == [
        "  ━○━ look      run.drop  R1",
        "      1.38 % is lost; 1 % is usual (38 % over)",
        "      → 6 mm² passes with 8 % margin",
    ]


def test_misses_alike_are_told_together(demo: Answer) -> None:
    other = LOOK._replace(subject=Subject("run", "R2"))
    unlike = found("run.drop", "run/R3", "roof", LOOK.constraints[0])
    assert after(told(demo, LOOK, unlike, other), "roof") == [
        "  ━○━ look      run.drop  R1, R2",
        "      1.38 % is lost; 1 % is usual (38 % over)",
        "      → 6 mm² passes with 8 % margin",
        "  ━○━ look      run.drop  R3",
        "      1.38 % is lost; 1 % is usual (38 % over)",
    ]


def test_what_is_to_be_found_out_is_told_once_with_all_that_waits_for_it(demo: Answer) -> None:
    lines = told(demo, ASK, STOP)
    assert after(lines, "board") == [
        "  ━╱╱ stop      circuit.overload  C1",
        "      It carries 32 A; it is rated 25 A (28 % over)",
        "  ┅┅┅ find out  1 waits for facts, see below",
    ]
    assert after(lines, "to find out, by where you stand") == [
        "  at the board",
        "    length of this stretch",
        "      for circuit.fault C2; circuit.overload C1",
        "    the earthing system",
        "      for circuit.fault C2",
    ]


def test_the_worst_comes_first_at_each_place_and_places_go_from_roof_to_grid(demo: Answer) -> None:
    lines = told(demo, GOOD, GOOD_WORDS, LOOK, ASK, STOP)
    words = [line.split()[1] for line in lines if line.startswith(("  ━", "  ┅"))]
    assert words == ["look", "good", "stop", "find", "good"]
    assert [line for line in lines if line in PLACES] == ["roof", "board"]
    assert [line for line in lines if line.startswith("roof ")] == ["roof ━○━  board ━╱╱"]


@pytest.mark.parametrize(
    ("findings", "step"),
    [
        ((GOOD,), "build it as described here"),
        ((GOOD, LOOK), "mend what is marked look, or write down why it may stay"),
        ((LOOK, ASK), "find out, at the board: length of this stretch (1 finding waits)"),
        ((LOOK, ASK, STOP), "mend circuit.overload C1 (board); why: ferrule explain JOB circuit.overload C1"),
    ],
)
def test_the_next_thing_to_do(demo: Answer, findings: tuple[Finding, ...], step: str) -> None:
    assert f"Next: {step}" in told(demo, *findings)


@pytest.mark.parametrize(
    ("findings", "code", "counts", "meaning"),
    [
        ((GOOD,), 0, "0 stop, 0 find out, 0 look, 1 good", "nothing fails and nothing is unknown"),
        ((GOOD, LOOK), 0, "0 stop, 0 find out, 1 look, 1 good", "nothing fails and nothing is unknown"),
        ((GOOD, ASK), 3, "0 stop, 1 find out, 0 look, 1 good", "nothing fails, but something is unknown"),
        ((STOP, ASK, LOOK), 1, "1 stop, 1 find out, 1 look, 0 good", "something fails"),
    ],
)
def test_the_last_line_counts_and_says_what_the_exit_code_means(
    demo: Answer, findings: tuple[Finding, ...], code: int, counts: str, meaning: str
) -> None:
    lines = told(demo, *findings, code=code)
    cleared = "Not cleared" if code else "Cleared"
    assert lines[-1] == f"{cleared} to build: {counts}. Exit {code}: {meaning}."
    assert lines[-2] == "This advises. A licensed person decides, and local rules prevail."


def from_memory() -> Finding:
    trace = t()
    trace.figure("battery_drop_should")
    return found(
        "run.battery_drop",
        "run/R9",
        "battery",
        at_most("x", "{value}", trace, value=0.5, limit=1.0, unit="%"),
    )


def test_a_figure_from_memory_keeps_a_job_from_being_cleared(demo: Answer) -> None:
    lines = told(demo, from_memory(), code=3)
    assert "Exit 3: nothing fails, but it rests on figures nobody here has seen printed." in " ".join(lines)
    assert "Next: read battery_drop_should in your own copy and confirm it" in lines
    assert after(lines, "figures nobody here has seen printed")[0] == "  battery_drop_should"
    both = " ".join(told(demo, from_memory(), ASK, code=3))
    assert both.endswith(
        "nothing fails, but something is unknown and it rests on figures nobody here has seen printed."
    )


def choice(owner: str, size: str, *lacked: str, carried: bool = False, passes: bool = True) -> Choice:
    missed = at_most("x", "{value} over {limit}", t(), value=32.0, limit=30.0, unit="A")
    return Choice(
        Decided("conductor", owner),
        Size.parse(size),
        tuple(Lacked(Size.parse(each), "q", Subject("run", owner), missed) for each in lacked),
        carried,
        passes,
    )


def test_choices_alike_are_told_together_with_what_governed(demo: Answer) -> None:
    choices = (
        choice("R1", "6 mm²", "2.5 mm²", "4 mm²"),
        choice("R2", "1.5 mm²", carried=True),
        choice("R3", "6 mm²", "4 mm²"),
        choice("R4", "120 mm²", "95 mm²", passes=False),
        choice("R5", "1.5 mm²", passes=False),
    )
    lines = after(
        told(demo, GOOD, choices=choices, paint=Paint(width=95)), "chosen, because the job left it open"
    )
    assert lines == [
        "  conductor 6 mm² for R1, R3; 4 mm² would not do: 32 A over 30 A",
        "  conductor 1.5 mm² for R2, which the firm carries",
        "  conductor 120 mm² for R4; 95 mm² would not do: 32 A over 30 A; nothing on offer keeps every",
        "      limit, see its findings",
        "  conductor 1.5 mm² for R5; nothing on offer keeps every limit, see its findings",
    ]


UNIT_FIRST = re.compile(r"^\s*(mm²|[kM]?Ω|[km]?A|[km]?V|%|kW|°C|m|s|ms|Ω/km)\b")


@pytest.mark.parametrize("width", [80, 95, 110])
@pytest.mark.parametrize("house", ["meter-led", "controller-led", "changeover-led"])
def test_no_line_is_too_long_and_none_begins_with_the_unit_of_a_number_before_it(
    house: str, width: int
) -> None:
    lines = list(report(houses.answered(house=house), Paint(width=width), 0))
    assert [line for line in lines if len(line) > width] == []
    assert [pair for pair in pairwise(lines) if pair[0][-1:].isdigit() and UNIT_FIRST.match(pair[1])] == []


def test_a_number_is_not_parted_from_its_unit() -> None:
    text = "It carries 32 A over 12.5 m in 4 mm² at 30 °C with 0.28 Ω, 230 V, 3 % and 6 kA of 12 modules"
    for width in range(60, 111):
        lines = list(Paint(width=width).wrapped(text * 5, 2, 4))
        assert all(len(line) <= width for line in lines)
        assert not any(first[-1:].isdigit() and UNIT_FIRST.match(second) for first, second in pairwise(lines))
        assert " ".join(line.strip() for line in lines) == text * 5


def test_a_demo_house_is_told_whole(demo: Answer) -> None:
    text = "\n".join(report(demo, Paint(), 0))
    for finding in demo.findings:
        assert finding.id in text
    for each in demo.choices:
        assert each.decided.owner in text
    for assumption in demo.assumptions:
        assert f"[{assumption.path}]" in text


class Terminal(io.StringIO):
    """A screen, as far as colour is concerned."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(("no_color", "coloured"), [(None, True), ("", True), ("1", False)])
def test_colour_only_on_a_terminal_and_not_where_it_is_refused(
    monkeypatch: pytest.MonkeyPatch, no_color: str | None, coloured: bool
) -> None:
    monkeypatch.setattr(sys, "stdout", Terminal())
    monkeypatch.delenv("NO_COLOR", raising=False)
    if no_color is not None:
        monkeypatch.setenv("NO_COLOR", no_color)
    assert Paint.for_terminal().colour is coloured


def test_no_colour_into_a_file(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    assert Paint.for_terminal().colour is False


@pytest.mark.parametrize(("columns", "width"), [("200", 110), ("95", 95), ("20", 60)])
def test_the_width_is_the_terminals_within_reason(
    monkeypatch: pytest.MonkeyPatch, columns: str, width: int
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    assert Paint.for_terminal().width == width


def test_colour_changes_nothing_but_colour(demo: Answer) -> None:
    findings = (GOOD, LOOK, STOP, ASK)
    plain = told(demo, *findings, code=1)
    coloured = told(demo, *findings, code=1, paint=Paint(colour=True))
    assert [re.sub("\x1b\\[[0-9;]*m", "", line) for line in coloured] == plain
    assert coloured != plain
    assert not any("\x1b" in line for line in plain)
