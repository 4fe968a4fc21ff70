"""The page on the command line: its examples are run, its commands are all there are."""

import re
import shlex
from pathlib import Path

import pytest

from cli.command import Ferrule
from ferrule.cli.main import COMMANDS
from houses import EXAMPLES

PAGE = (Path(__file__).parents[2] / "docs" / "commands.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```console\n(.*?)```", PAGE, re.DOTALL)


def examples() -> list[tuple[str, str]]:
    """Each command line of the page with the output shown below it."""
    return [
        (command, output)
        for block in BLOCKS
        for command, output in re.findall(r"^\$ (.*)\n((?:(?!\$ ).*\n)*)", block, re.MULTILINE)
    ]


def as_shown(output: str) -> re.Pattern[str]:
    """What an output must match; `…` alone on a line stands for lines, elsewhere for text of one line."""
    lines = [
        "(?:.*\n)*" if line == "…" else re.escape(line).replace("…", ".*") + "\n"
        for line in output.splitlines()
    ]
    return re.compile("".join(lines))


def test_all_examples_do_as_they_show(
    ferrule: Ferrule, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "examples").symlink_to(EXAMPLES)
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert len(examples()) >= 15
    for command, output in examples():
        line, asks_code, _ = command.partition("; echo $?")
        program, *arguments = shlex.split(line)
        assert program == "ferrule"
        ended = ferrule(*arguments)
        printed = ended.out + ended.err + (f"{ended.code}\n" if asks_code else "")
        assert as_shown(output).fullmatch(printed), f"{command}\n{printed}"
        assert asks_code or ended.code == 0, command


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_its_place_on_the_page(command: str) -> None:
    assert re.search(rf"^## `ferrule {command}\b", PAGE, re.MULTILINE)
    assert any(example.startswith(f"ferrule {command} ") for example, _ in examples())


def test_the_page_names_no_command_that_is_not() -> None:
    assert set(re.findall(r"\bferrule ([a-z]+)\b", PAGE)) == set(COMMANDS)
