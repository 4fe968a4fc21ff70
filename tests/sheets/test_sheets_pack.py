"""The install pack as a file: read back by a parser that is not ours."""

import hashlib
import io
import json
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTContainer, LTCurve
from pypdf import PdfReader

from ferrule import export
from ferrule.answering import Answer, answer
from ferrule.display.missing import missing
from ferrule.job.load import load
from ferrule.proving import told
from ferrule.proving.isolation import isolation
from ferrule.proving.steps import steps
from ferrule.proving.words import catalogue
from ferrule.sheets.files import files
from ferrule.sheets.pack import Pack, pack
from ferrule.sheets.paper import Drawing, Paper, Size
from ferrule.sheets.scene import Point, Scene, Text, line
from ferrule.sheets.typeset import pdf
from houses import EXAMPLES

T = TypeVar("T")

HOUSES = ("meter-led", "controller-led", "changeover-led")
_DAY = (2026, 5, 31)
_HOSTILE = {
    "markup": '*bold* _x_ #pagebreak() #panic("no") $x^2$ <label> @ref [b] \\ // gone /* gone */ `raw` = x',
    "code": '#read("/etc/passwd") #import "@preview/x:1.0.0" {{7*7}} {job} %s "); #eval("1")',
    "long": "Nameless" * 625,
    "right to left": "בית שלום and بيت",
    "turned": "\u202egnorw\u202c \u2066x\u2069",
    "control": "bell\x07 esc\x1b[31m",
    "wide": "中文 \U0001f600 🏠",
}
_SPELLED = "\x07\x1b\u202e\u202c\u2066\u2069中文\U0001f600🏠"


class Made(NamedTuple):
    """An answer, its pack read back, and the words of each page without their spaces."""

    result: Answer
    reader: PdfReader
    texts: list[str]


@pytest.fixture(
    scope="module", params=[(house, file) for house in HOUSES for file in ("job", "faulty")], ids="-".join
)
def made(request: pytest.FixtureRequest) -> Made:
    """Sound houses with their drawings, faulty ones without: a drawing takes longer than all the rest."""
    house, file = request.param
    result = answer(load(EXAMPLES / house / f"{file}.yaml"))
    whole = pack(result, _DAY).paper
    reader = _read(pdf(whole if file == "job" else _without_drawings(whole)))
    return Made(result, reader, [_text(page.extract_text()) for page in reader.pages])


def _without_drawings(paper: Paper) -> Paper:
    return paper._replace(
        chapters=tuple(
            each._replace(blocks=tuple(b for b in each.blocks if not isinstance(b, Drawing)))
            for each in paper.chapters
        )
    )


def _begun(paper: Paper, chapters: int) -> Paper:
    """Its cover and first chapters; of the others the titles, to which the cover points."""
    short = _without_drawings(paper)
    begun, others = short.chapters[:chapters], short.chapters[chapters:]
    return short._replace(chapters=(*begun, *(each._replace(blocks=()) for each in others)))


@cache
def _plain(size: Size = "a4") -> Pack:
    """One house's pack, made once."""
    return pack(answer(load(EXAMPLES / "meter-led" / "job.yaml")), size=size)


def _read(file: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(file), strict=True)


def _text(text: str) -> str:
    """Without the spaces, which say only where a line ends."""
    return re.sub(r"[\s\u200b]", "", text)


def _all(reader: PdfReader) -> str:
    return _text("".join(page.extract_text() for page in reader.pages))


def test_it_is_said_to_be_an_archive_that_everybody_can_read(made: Made) -> None:
    _, reader, _ = made
    root: Any = reader.root_object
    xmp = root["/Metadata"].get_object().get_data().decode()
    assert re.search(r"pdfaid:part>3<", xmp)
    assert re.search(r"pdfaid:conformance>A<", xmp)
    assert re.search(r"pdfuaid:part>1<", xmp)
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]


def test_every_font_is_inside(made: Made) -> None:
    _, reader, _ = made
    pages: Any = reader.pages
    for page in pages:
        for each in page["/Resources"]["/Font"].values():
            font = each.get_object()["/DescendantFonts"][0].get_object()
            assert {"/FontFile2", "/FontFile3"} & set(font["/FontDescriptor"])


def test_the_job_and_all_results_are_inside(made: Made) -> None:
    result, reader, _ = made
    job, results = (reader.attachments[name][0] for name in ("job.json", "results.json"))
    assert hashlib.sha256(job).hexdigest() == result.loaded.revision
    assert json.loads(results) == json.loads(json.dumps(export.answer(result)))


def test_every_page_bears_job_revision_and_its_number(made: Made) -> None:
    result, _, texts = made
    count = len(texts)
    for at, text in enumerate(texts, start=1):
        assert _text(f"2026-05-31 · revision {result.loaded.revision[:12]}page {at} of {count}") in text
        assert _text(result.loaded.job.name) in text


def test_what_is_not_cleared_says_so_on_every_page(made: Made) -> None:
    result, _, texts = made
    marked = ["notclearedtobuild" in text.lower() for text in texts]  # on a drawing in capitals
    assert all(marked) if not result.cleared else not any(marked)
    assert "Clearedtobuild" in texts[0] or not result.cleared


def test_every_finding_is_on_paper(made: Made) -> None:
    result, _, texts = made
    text = "".join(texts)
    for finding in result.findings:
        assert _text(finding.text) in text
    for fact in missing(result):
        assert _text(fact.ask) in text


def test_every_step_and_all_that_is_opened_is_on_paper(made: Made) -> None:
    result, _, texts = made
    text, words = "".join(texts), catalogue("en")
    for step in steps(result.design):
        assert _text(words.text(step.text, step.words)) in text
        for reading in step.readings:
            assert _text(words.text(reading.text, reading.words)) in text
    for record in isolation(result.design):
        assert all(_text(words.word(told.point(point))) in text for point in record.points)


def test_open_questions_stand_before_the_first_place(made: Made) -> None:
    result, reader, _ = made
    titles = [str(each["/Title"]) for each in reader.outline if isinstance(each, dict)]
    assert titles[0] == result.loaded.job.name
    assert ("Open questions" in titles) is (not result.cleared)
    assert titles[1] == ("Roof" if result.cleared else "Open questions")


def test_every_table_has_headings_for_those_who_listen(made: Made) -> None:
    _, reader, _ = made
    kinds = list(_kinds(reader.root_object["/StructTreeRoot"]))
    assert kinds.count("/Table") >= 7
    assert kinds.count("/TH") >= 4 * kinds.count("/Table")
    assert "/H1" in kinds


def test_no_letter_runs_off_its_page() -> None:
    paper = pack(answer(load(EXAMPLES / "controller-led" / "faulty.yaml"))).paper
    _inside(pdf(_without_drawings(paper)), pages=30)


def _kinds(node: object) -> list[str]:
    found: list[str] = []
    waiting: list[Any] = [node]
    while waiting:
        each = waiting.pop()
        each = each.get_object() if hasattr(each, "get_object") else each
        if isinstance(each, list):
            waiting += each
        elif isinstance(each, dict):
            found += [str(each["/S"])] if "/S" in each else []
            waiting += [each["/K"]] if "/K" in each else []
    return found


def test_same_job_same_bytes_whatever_the_hour_and_the_process(tmp_path: Path) -> None:
    job = EXAMPLES / "meter-led" / "job.yaml"
    files = []
    for at, (seed, zone) in enumerate((("1", "UTC"), ("2", "Asia/Tokyo"))):
        folder = tmp_path / str(at)
        command = [
            sys.executable,
            "-m",
            "ferrule",
            "pack",
            str(job),
            "-o",
            str(folder),
            "--date",
            "2026-05-31",
        ]
        environment = {"PYTHONHASHSEED": seed, "TZ": zone, "PYTHONPATH": ":".join(sys.path)}
        subprocess.run(command, check=True, env=environment, cwd=tmp_path, capture_output=True)
        files.append({each.name: each.read_bytes() for each in folder.iterdir()})
    assert files[0] == files[1]
    assert "pack.pdf" in files[0]


@pytest.mark.parametrize("name", _HOSTILE.values(), ids=list(_HOSTILE))
def test_hostile_names_come_out_harmless_and_uncut(name: str) -> None:
    loaded = load(EXAMPLES / "meter-led" / "job.yaml")
    site = loaded.job.site.model_copy(update={"place": name})
    job = loaded.job.model_copy(update={"name": name, "site": site})
    paper = pack(answer(loaded._replace(job=job))).paper
    file = pdf(_begun(paper, 2))
    front = Counter(_text("".join(page.extract_text() for page in _read(file).pages[:4])))
    shown = "".join(f"[U+{ord(each):04X}]" if each in _SPELLED else each for each in name)
    as_title_and_site = Counter(_text(shown * 2))
    assert not as_title_and_site - front  # a count, since it is read from the right where it is written so
    if len(name) < 1000 and name.isascii():
        assert _all(_read(file)).count(_text(shown)) >= 2
    _inside(file, pages=4)


def _inside(file: bytes, pages: int) -> None:
    """Every letter of the first pages stands within their margins."""
    for page in extract_pages(io.BytesIO(file), maxpages=pages):
        for letter in _all_of(page, LTChar):
            assert letter.x0 >= 15 / 25.4 * 72
            assert letter.x1 <= page.width - 15 / 25.4 * 72
            assert letter.y0 >= 8 / 25.4 * 72


def _all_of(item: object, kind: type[T]) -> Iterator[T]:
    if isinstance(item, kind):
        yield item
    elif isinstance(item, LTContainer):
        for each in item:
            yield from _all_of(each, kind)


@pytest.mark.parametrize(("size", "width_mm", "height_mm"), [("a4", 210, 297), ("letter", 215.9, 279.4)])
def test_the_paper_has_the_size_asked_for(size: Size, width_mm: float, height_mm: float) -> None:
    reader = _read(pdf(_without_drawings(_plain(size).paper)))
    for page in reader.pages:
        assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(width_mm, abs=0.05)
        assert float(page.mediabox.height) / 72 * 25.4 == pytest.approx(height_mm, abs=0.05)


def test_without_a_date_the_paper_says_so() -> None:
    reader = _read(pdf(_begun(_plain().paper, 1)))
    assert "Datenonegiven" in _text(reader.pages[0].extract_text())


@pytest.mark.parametrize(("width_mm", "height_mm"), [(170, 30), (297, 210), (215.9, 279.4)])
def test_a_drawing_is_set_at_its_own_size_and_is_a_file_of_two_kinds(
    width_mm: float, height_mm: float
) -> None:
    made = _plain()
    scene = Scene(
        width_mm, height_mm, (line((20, 10), (120, 10)), Text(Point(20, 20), "中 INV1")), "A line of 100 mm"
    )
    drawing = Drawing("ruler", scene)
    paper = made.paper._replace(cover=(drawing,), chapters=(), attachments=())
    *_, page = extract_pages(io.BytesIO(pdf(paper)))
    if height_mm > 200:
        assert (page.width / 72 * 25.4, page.height / 72 * 25.4) == pytest.approx(
            (width_mm, height_mm), abs=0.05
        )
    strokes = [each for each in _all_of(page, LTCurve) if each.width > 200 and each.height < 1]
    widths_mm = {round(each.width / 72 * 25.4, 1) for each in strokes if each.y0 > 100}
    assert 100.0 in widths_mm
    text = _text("".join(letter.get_text() for letter in _all_of(page, LTChar)))
    assert "[U+4E2D]INV1" in text
    assert f"revision{made.paper.foot[1].split()[-1]}" in text
    assert f"page{page.pageid}of{page.pageid}" in text
    named = dict(files(made._replace(paper=paper, drawings=(drawing,))))
    lists = {f"{table.id}.csv" for table in made.tables}
    assert {"findings.csv", "sizes.csv", "cable-schedule.csv", "test-sheet.csv"} <= lists
    papers = {"pack.pdf", "four-sheets.pdf", "lists.xlsx"}
    assert papers | lists | {"ruler.svg", "ruler.dxf"} == set(named)
    assert named["ruler.svg"].startswith(b"<svg")
