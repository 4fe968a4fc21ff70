"""Speed, side by side with what it is compared to, in one run on one machine: quote ratios, not seconds.

make bench
"""

import cProfile
import io
import pstats
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import yaml
from ruamel.yaml import YAML
from xlsxwriter import Workbook

from ferrule.answering import answer
from ferrule.document import parse
from ferrule.job.job import Job
from ferrule.job.load import Loaded, load
from ferrule.sheets import font, symbols
from ferrule.sheets.dxf import dxf
from ferrule.sheets.frame import A4, Sheet, frame
from ferrule.sheets.pack import pack
from ferrule.sheets.scene import Item, Scene
from ferrule.sheets.svg import svg
from ferrule.sheets.table import Column, table
from ferrule.sheets.typeset import compiled, pdf, sources
from ferrule.sheets.xlsx import workbook

HERE = Path(__file__).parent
DEMOS = [
    HERE.parent / "examples" / house / "job.yaml"
    for house in ("meter-led", "controller-led", "changeover-led")
]
LARGEST = max(DEMOS, key=lambda path: path.stat().st_size)

FLOOR = "import argparse, yaml; from pydantic import BaseModel"
HEAVY = ("numpy", "scipy", "pandas", "pvlib", "pint", "matplotlib")


def whole_process(runs: int = 15) -> None:
    """`ferrule check` of the largest demo against the bare import of what it cannot do without."""
    check = [sys.executable, "-m", "ferrule", "check", str(LARGEST)]
    floor = [sys.executable, "-c", FLOOR]
    ours, theirs = _alternately(lambda: _quiet(check), lambda: _quiet(floor), runs)
    _tell(
        "check of the largest demo, whole process",
        ours,
        theirs,
        "importing argparse, yaml and BaseModel",
        "≤ 2",
    )
    probe = (
        "import sys; from ferrule.cli import main; main(['check', sys.argv[1]]); "
        f"print([name for name in {HEAVY} if name in sys.modules], file=sys.stderr)"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", probe, str(LARGEST)], capture_output=True, text=True, check=True
    ).stderr.strip()
    print(f"    heavy libraries loaded: {loaded}")


def reading(runs: int = 30) -> None:
    """Read and validate one job with every line number, against a round-trip reader plus pydantic."""
    text = LARGEST.read_text()
    plain = _plain(text)

    def round_trip() -> None:
        # The same typed model and the same values; ruamel keeps a line for every key, as ours does.
        YAML(typ="rt").load(text)
        Job.model_validate(plain)

    ours, theirs = _alternately(lambda: parse(text, Job), round_trip, runs)
    _tell("read and validate one job", theirs, ours, "our reader", "≥ 15", inverse=True)


def rechecking(runs: int = 30) -> None:
    """Answer again in a warm process after one value changed."""
    loaded = load(LARGEST)
    answer(loaded)
    variants = list(_varied(loaded, runs))
    taken = [_timed(partial(answer, each)) for each in variants]
    print(
        f"re-check after one change, warm: median {statistics.median(taken) * 1e3:.1f} ms (aim under 20 ms)"
    )


def many_strings(count: int = 60) -> None:
    """So many strings on one input, far beyond any house: what is asked of one should not look at all."""
    loaded = load(DEMOS[0])
    first = loaded.job.strings[0]
    strings = [first.model_copy(update={"id": f"X{at}"}) for at in range(count)]
    crowded = loaded._replace(job=loaded.job.model_copy(update={"strings": strings}))
    taken = min(_timed(partial(answer, crowded)) for _ in range(3))
    print(f"{count} strings on one input: {taken:.2f} s, the fastest of three")


def throughput(jobs: int = 1_000) -> None:
    """Many varied jobs through one process, and where the time goes."""
    varied = [each for path in DEMOS for each in _varied(load(path), jobs // len(DEMOS) + 1)][:jobs]
    started = time.perf_counter()
    for each in varied:
        answer(each)
    taken = time.perf_counter() - started
    print(f"{len(varied)} varied jobs through one process: {len(varied) / taken:.0f} jobs per second")
    profile = cProfile.Profile()
    profile.enable()
    for each in varied[:: max(1, len(varied) // 60)]:
        answer(each)
    profile.disable()
    stats: Any = pstats.Stats(profile)
    spent = sorted(stats.stats.items(), key=lambda item: -item[1][2])[:3]
    total = stats.total_tt
    for (file, line, name), (_, calls, own, _, _) in spent:
        print(f"    {100 * own / total:4.1f} % of the time in {Path(file).name}:{line} {name}, {calls} calls")


def spreadsheet(runs: int = 30) -> None:
    """A list of 500 rows and 10 columns as a workbook, against the writer's bare loop over the same cells."""
    columns = [Column(f"c{at}", f"column {at}", 12, "number" if at % 2 else "text") for at in range(10)]
    rows = [[float(row * at) if at % 2 else f"part {row} {at}" for at in range(10)] for row in range(500)]

    def bare() -> None:
        book = Workbook(io.BytesIO(), {"in_memory": True})
        sheet = book.add_worksheet()
        for at, row in enumerate(rows):
            for place, cell in enumerate(row):
                sheet.write(at, place, cell)
        book.close()

    ours, theirs = _alternately(
        lambda: workbook([table("list", "List", columns, rows)], paper="a4"), bare, runs
    )
    _tell("a list of 500 rows as a workbook", ours, theirs, "the writer's bare loop", "≤ 1.5")


# The same finished pages with nothing but the typesetter, from files as a person would keep them.
SETTING = """
import pathlib, sys, typst
files = {each.name: each.read_bytes() for each in pathlib.Path(sys.argv[1]).iterdir()}
fonts = typst.Fonts(include_system_fonts=False, font_paths=[sys.argv[2]])
pathlib.Path(sys.argv[3]).write_bytes(typst.compile(files, font_paths=fonts, pdf_standards=["a-3a", "ua-1"]))
"""


def packing(runs: int = 9) -> None:
    """The install pack of the largest demo against bare typesetting of the same finished pages: as a whole
    process, and one pack after another, each of another house, in one process.
    """
    with TemporaryDirectory() as folder:
        pages, out = Path(folder) / "pages", Path(folder) / "out"
        pages.mkdir()
        for name, content in sources(pack(answer(load(LARGEST))).paper).items():
            (pages / name).write_bytes(content)
        ours = [sys.executable, "-m", "ferrule", "pack", str(LARGEST), "-o", str(out)]
        bare = [sys.executable, "-c", SETTING, str(pages), str(font.folder()), str(Path(folder) / "bare.pdf")]
        _tell(
            "pack of the largest demo, whole process",
            *_alternately(lambda: _quiet(ours), lambda: _quiet(bare), runs),
            "the typesetter alone",
            "≤ 2",
        )
    answered = [answer(each) for each in _varied(load(LARGEST), 2 * runs + 2)]
    papers = (pack(each).paper for each in answered[::2])
    given = iter([sources(pack(each).paper) for each in answered[1::2]])
    _tell(
        "each further pack from its answers, one process",
        *_alternately(lambda: pdf(next(papers)), lambda: compiled(next(given)), runs),
        "the typesetter alone",
        "≤ 1.3",
    )


def drawing(runs: int = 15) -> None:
    """One page of symbols and words as SVG, against a drawing library's SVG of the same strokes, its document
    read beforehand.
    """
    import ezdxf
    from ezdxf.addons.drawing import Frontend, RenderContext
    from ezdxf.addons.drawing.layout import Page
    from ezdxf.addons.drawing.svg import SVGBackend

    scene = _page_of_symbols()
    document = ezdxf.read(io.StringIO(dxf(scene).decode()))
    page = Page(scene.width_mm, scene.height_mm)

    def library() -> str:
        backend = SVGBackend()
        Frontend(RenderContext(document), backend).draw_layout(document.modelspace())
        return backend.get_string(page)

    ours, theirs = _alternately(lambda: svg(scene), library, runs)
    what = f"a page of {len(scene.items)} strokes and words as SVG"
    _tell(what, theirs, ours, "our writer", "≥ 10", inverse=True)


def _page_of_symbols() -> Scene:
    around = frame(A4, Sheet("Symbols", "Example house", "iec-2024", "0", cleared=True))
    kinds = (symbols.circuit_breaker, symbols.energy_meter, symbols.inverter, symbols.battery, symbols.module)
    items: list[Item] = [*around.items]
    for row in range(8):
        for column in range(7):
            made = kinds[(row + column) % len(kinds)]().placed(20.0 + 25 * column, 20.0 + 25 * row)
            items += made.named(f"Q{row}.{column}", "C 16 A", height_mm=2.5).items
    return Scene(*A4, tuple(items), "Symbols")


def _varied(loaded: Loaded, count: int) -> Iterator[Loaded]:
    """The same house with another length of its first run, as an editor would change it."""
    run = loaded.job.runs[0]
    for at in range(count):
        stretch = run.stretches[0].model_copy(update={"length_m": 1.0 + at / 100})
        changed = run.model_copy(update={"stretches": [stretch, *run.stretches[1:]]})
        job = loaded.job.model_copy(update={"runs": [changed, *loaded.job.runs[1:]]})
        yield loaded._replace(job=job)


def _plain(text: str) -> dict[str, Any]:
    """The job as plain texts, the way a typed model wants them, without our reader."""

    def words(value: Any) -> Any:
        if isinstance(value, dict):
            return words(value["value"]) if "value" in value else {k: words(v) for k, v in value.items()}
        return [words(item) for item in value] if isinstance(value, list) else value

    plain: dict[str, Any] = words(yaml.load(text, Loader=yaml.BaseLoader))
    return plain


def _alternately(
    one: Callable[[], object], other: Callable[[], object], runs: int
) -> tuple[list[float], list[float]]:
    """Times of both, in turn, after one warm-up each, so that the machine's mood hits both alike."""
    one(), other()
    pairs = [(_timed(one), _timed(other)) for _ in range(runs)]
    return [pair[0] for pair in pairs], [pair[1] for pair in pairs]


def _timed(work: Callable[[], object]) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def _quiet(command: list[str]) -> None:
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if "Traceback" in done.stderr:
        raise RuntimeError(done.stderr)


def _tell(
    what: str, measured: list[float], base: list[float], peer: str, aim: str, *, inverse: bool = False
) -> None:
    ratio = statistics.median(a / b for a, b in zip(measured, base, strict=True))
    told = f"{peer} is {ratio:.1f} times as fast" if inverse else f"{ratio:.2f} times {peer}"
    print(f"{what}: {told} (aim {aim})")


if __name__ == "__main__":
    whole_process()
    reading()
    rechecking()
    many_strings()
    throughput()
    packing()
    spreadsheet()
    drawing()
