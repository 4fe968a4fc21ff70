"""`ferrule draw JOB NAME`: one drawing, as SVG or DXF."""

import argparse
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from pathlib import Path

from ferrule.answering import answer
from ferrule.cli.check import exit_code
from ferrule.cli.refused import Refused
from ferrule.job.load import load
from ferrule.sheets.drawings import DRAWINGS, sheet_names
from ferrule.sheets.dxf import dxf
from ferrule.sheets.scene import Scene
from ferrule.sheets.svg import svg

_PLAYERS: Mapping[str, Callable[[Scene], bytes]] = {".svg": lambda scene: svg(scene).encode(), ".dxf": dxf}


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", help="the job file")
    parser.add_argument("name", help=f"which drawing: {', '.join(DRAWINGS)}")
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="where to write it, as .svg or .dxf (NAME.svg in this folder)"
    )


def run(given: argparse.Namespace) -> int:
    """Made whether or not the job is cleared, and marked where it is not; ends as `check` does."""
    if given.name not in DRAWINGS:
        raise Refused(_no_such(given.name))
    file = Path(given.output or f"{given.name}.svg")
    play = _PLAYERS.get(file.suffix.lower())
    if play is None:
        raise Refused(f"a drawing is written as .svg or .dxf, not as '{file.name}'")
    result = answer(load(given.job))
    scenes = DRAWINGS[given.name](result)
    if not scenes:
        raise Refused(f"the house has nothing to draw as '{given.name}'")
    names = [file.with_stem(name) for name in sheet_names(file.stem, len(scenes))]
    try:
        for name, scene in zip(names, scenes, strict=True):
            name.write_bytes(play(scene))
    except OSError as error:
        raise Refused(f"{file} cannot be written ({error.strerror})") from None
    print("\n".join(map(str, names)))
    if not result.cleared:
        print("Not cleared to build; every sheet says so.")
    return exit_code(result)


def _no_such(name: str) -> str:
    near = get_close_matches(name, DRAWINGS, n=1)
    meant = f"; did you mean '{near[0]}'?" if near else "."
    return f"there is no drawing '{name}'{meant} There are: {', '.join(DRAWINGS)}"
