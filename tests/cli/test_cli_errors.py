"""What a person gets who gave something wrong: exit 2 and a sentence, never a traceback."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from cli.command import Ferrule
from ferrule import cli
from houses import EXAMPLES

JOB = EXAMPLES / "meter-led" / "job.yaml"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ([], "the following arguments are required: COMMAND"),
        (["chekc", JOB], "invalid choice: 'chekc'"),
        (["check"], "the following arguments are required: job"),
        (["check", "missing.yaml"], "missing.yaml:1:1: found nothing to read (No such file or directory)"),
        (["check", EXAMPLES], "found nothing to read (Is a directory)"),
        (["check", "a\0b"], "found nothing to read (not a file's name)"),
        (["check", Path(__file__)], "found a slip in the YAML"),
        (["explain", "missing.yaml", "string.cold_voltage", "S1"], "missing.yaml:1:1: found nothing to read"),
        (["explain", JOB, "string.cold_volt", "S1"], "did you mean 'string.cold_voltage'?"),
        (["explain", JOB, "string.cold_voltage", "s1"], "did you mean 'string/S1'?"),
        (["explain", JOB, "string.cold_voltage", "circuit/S1"], "There are string/S1, string/S2."),
        (["explain", JOB, "%%", "S1"], "this job has no finding '%%'. There are string.cold_voltage"),
        (["new"], "the following arguments are required: --architecture"),
        (["new", "--architecture", "grid-led"], "invalid choice: 'grid-led'"),
        (["new", "--architecture", "meter-led", "-o", JOB], "exists already and is left as it is"),
        (
            ["new", "--architecture", "meter-led", "-o", JOB / "job.yaml"],
            "cannot be written (File exists)",
        ),
        (["new", "--architecture", "meter-led", "-o", "a\0b"], "cannot be written (not a file's name)"),
        (["schema", "house"], "invalid choice: 'house'"),
        (["parts"], "the following arguments are required: VERB"),
        (["rules"], "the following arguments are required: VERB"),
        (["rules", "list", "--rulebook", "iec-1900"], "there is no rulebook 'iec-1900'; there are aunz-2024"),
        (["rules", "list", "--firm", "no-such-folder"], "no such folder"),
        (["rules", "show", "grouping_facto"], "holds no 'grouping_facto'"),
        (["rules", "confirm", "nothing", "--by", "A", "--page", "1"], "holds no 'nothing'"),
        (
            ["rules", "confirm", "links_per_state", "--by", "A", "--page", "1", "--date", "today"],
            "is not a date",
        ),
    ],
)
def test_what_is_wrong_is_said(ferrule: Ferrule, arguments: list[object], said: str) -> None:
    ended = ferrule(*arguments)
    assert ended.code == 2
    assert said in ended.err
    assert ended.out == ""
    assert "Traceback" not in ended.err


@pytest.fixture
def copied(tmp_path: Path) -> Path:
    """A copy of a demo house that a test may spoil."""
    (tmp_path / "parts").symlink_to(EXAMPLES / "parts")
    (tmp_path / "firm.yaml").symlink_to(EXAMPLES / "firm.yaml")
    (tmp_path / "house").mkdir()
    return Path(shutil.copy(JOB, tmp_path / "house"))


def test_mistakes_in_a_job_are_all_told_with_their_places(ferrule: Ferrule, copied: Path) -> None:
    text = copied.read_text()
    copied.write_text(text.replace("altitude: 310 m", "altitude: high").replace("building:", "bulding:"))
    ended = ferrule("check", copied)
    assert (ended.code, ended.out) == (2, "")
    unknown_key, no_number = ended.err.splitlines()
    lines = text.splitlines()
    assert unknown_key.startswith(
        f"{copied}:{lines.index('  building: dwelling') + 1}:3: found unknown key 'bulding'"
    )
    assert unknown_key.endswith("did you mean 'building'?")
    assert no_number.startswith(
        f"{copied}:{lines.index('  altitude: 310 m') + 1}:13: found 'high'; allowed: a number"
    )


def test_an_unknown_rulebook_names_the_nearest(ferrule: Ferrule, copied: Path) -> None:
    text = copied.read_text()
    copied.write_text(text.replace("rulebook: iec-2024", "rulebook: iec-2042"))
    ended = ferrule("check", copied)
    assert (ended.code, ended.out) == (2, "")
    line = text.splitlines().index("rulebook: iec-2024") + 1
    assert ended.err.startswith(f"{copied}:{line}:11: found 'iec-2042'")
    assert "did you mean 'iec-2024'?" in ended.err


def test_a_rulebook_that_lacks_what_its_procedures_read_is_said(
    ferrule: Ferrule, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("ferrule.clauses.FAMILIES", ())
    ended = ferrule("check", JOB)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("rulebook iec-2024 names the family iec60364")


def test_a_mistake_of_the_program_itself_is_not_hidden(
    ferrule: Ferrule, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_job: object) -> None:
        raise KeyError("S1")

    monkeypatch.setattr("ferrule.cli.check.load", broken)
    with pytest.raises(KeyError, match="S1"):
        ferrule("check", JOB)


def test_every_command_tells_what_it_is_for(ferrule: Ferrule) -> None:
    whole = ferrule("--help")
    assert whole.code == 0
    for name, line in cli.main.__globals__["COMMANDS"].items():
        assert f"    {name}" in whole.out
        ended = ferrule(name, "--help")
        assert ended.code == 0
        assert " ".join(line.split()) in " ".join(ended.out.split())


def test_a_reader_who_goes_away_is_no_error() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    with os.fdopen(writing, "wb") as nobody:
        ended = subprocess.run(
            [sys.executable, "-m", "ferrule", "check", JOB],
            stdout=nobody,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert (ended.returncode, ended.stderr) == (141, b"")


def test_the_program_by_name_ends_as_its_command_does(tmp_path: Path) -> None:
    ended = subprocess.run(
        [Path(sys.executable).with_name("ferrule"), "check", "missing.yaml"],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (ended.returncode, ended.stdout) == (2, "")
    assert ended.stderr == (
        "missing.yaml:1:1: found nothing to read (No such file or directory); allowed: a file\n"
    )
