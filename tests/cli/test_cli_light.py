"""How little a command loads: a phone-sized wait would add up over a day."""

import json
import subprocess
import sys

from houses import EXAMPLES

HEAVY = {"numpy", "scipy", "pandas", "pvlib", "pint", "matplotlib", "xlsxwriter", "ezdxf", "fontTools"}


def loaded_by(*arguments: str) -> set[str]:
    """The packages that a command has loaded when it ends."""
    code = (
        "import contextlib, io, json, sys\n"
        "import ferrule.cli\n"
        "with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):\n"
        f"    ferrule.cli.main({list(arguments)!r})\n"
        "print(json.dumps(sorted({name.partition('.')[0] for name in sys.modules})))\n"
    )
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(json.loads(ended.stdout))


def test_a_check_loads_nothing_heavy() -> None:
    packages = loaded_by("check", str(EXAMPLES / "controller-led" / "job.yaml"))
    assert not packages & HEAVY
    assert {"ferrule", "yaml", "pydantic"} <= packages


def test_help_loads_neither_models_nor_yaml() -> None:
    packages = loaded_by("--help")
    assert "ferrule" in packages
    assert not packages & {*HEAVY, "pydantic", "pydantic_core", "yaml"}


def test_looking_modules_up_does_not_load_the_package_that_carries_the_table() -> None:
    assert not loaded_by("parts", "find", "no such module") & HEAVY
