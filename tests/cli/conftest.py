"""Running a command in this process."""

import pytest

from cli.command import Ended, Ferrule
from ferrule.cli import main


@pytest.fixture
def ferrule(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Ferrule:
    monkeypatch.setenv("COLUMNS", "110")

    def run(*arguments: object) -> Ended:
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as ended:  # argparse refuses by itself, and tells its help
            code = int(str(ended.code))
        return Ended(code, *capsys.readouterr())

    return run
