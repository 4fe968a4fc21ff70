"""What a paper is before it is set: a cover and chapters by place, each a list of blocks. Plain data."""

from typing import Literal, NamedTuple, TypeAlias

from ferrule.constraint import Verdict
from ferrule.sheets.scene import Scene
from ferrule.sheets.table import Table

Size = Literal["a4", "letter"]


class Heading(NamedTuple):
    """Level 2 or 3; level 1 is the cover's and each chapter's own title."""

    text: str
    level: int = 2


class Paragraph(NamedTuple):
    text: str
    quiet: bool = False


class Facts(NamedTuple):
    """Short facts, each a word and what it is."""

    pairs: tuple[tuple[str, str], ...]


class Ruling(NamedTuple):
    """A verdict in shape and words, large."""

    verdict: Verdict
    title: str
    text: str


class Stretch(NamedTuple):
    """One place on the way from roof to grid, with its worst verdict and how many of each."""

    place: str
    verdict: Verdict
    word: str
    counts: tuple[int, ...]


class Way(NamedTuple):
    """The places from roof to grid; each leads to its chapter."""

    headings: tuple[str, ...]
    stretches: tuple[Stretch, ...]


class Entry(NamedTuple):
    """A finding that does not pass: its verdict in shape and word, what was asked of what, what was found and
    what would mend it.
    """

    verdict: Verdict
    word: str
    asked: str
    of: str
    found: tuple[str, ...]
    mend: tuple[str, ...] = ()


class Answers(NamedTuple):
    """Findings that hold: under each question a row for those alike. The question stands again on every page
    that its rows run over to.
    """

    headings: tuple[str, str, str, str]
    groups: tuple[tuple[str, tuple[tuple[str, str, str, str], ...]], ...]


class Group(NamedTuple):
    """Rows that belong together, with what has to be read before them. A cell of None is a box to tick."""

    title: str
    lines: tuple[str, ...]
    rows: tuple[tuple[str | None, ...], ...]


class Grouped(NamedTuple):
    """A list in groups, its columns with their relative widths. A group's title stands again on every page
    that its rows run over to.
    """

    columns: tuple[tuple[str, int], ...]
    groups: tuple[Group, ...]
    notes: tuple[str, ...] = ()


class Item(NamedTuple):
    """Something to tick: a small note under it, what holds it up, and what to write down, with its unit.
    Without a text, what to write down stands beside the box.
    """

    text: str
    note: str = ""
    stop: str = ""
    write: tuple[tuple[str, str], ...] = ()


class Checklist(NamedTuple):
    """Things to tick, down the page in so many columns."""

    items: tuple[Item, ...]
    columns: int = 1


class Notice(NamedTuple):
    """A note of safety; its lines are numbered where others refer to them."""

    title: str
    lines: tuple[str, ...]
    numbered: bool = False


class Drawing(NamedTuple):
    """A picture at its own size: between the margins where it fits, else a page of its own with its frame."""

    id: str
    scene: Scene


class PageBreak(NamedTuple):
    """What follows begins a page."""


Block: TypeAlias = (
    Heading
    | Paragraph
    | Facts
    | Ruling
    | Way
    | Entry
    | Answers
    | Grouped
    | Checklist
    | Notice
    | Drawing
    | Table
    | PageBreak
)


class Chapter(NamedTuple):
    """Pages that are read together, mostly those of one place; `foot` stands at the foot of each."""

    id: str
    title: str
    foot: str
    blocks: tuple[Block, ...]


class Attachment(NamedTuple):
    """A file inside the paper."""

    name: str
    text: str
    media_type: str
    description: str


class Paper(NamedTuple):
    """A whole paper, ready to be set. `foot` is what every page bears, `band` what it bears on top, empty for
    nothing. `day` is what the metadata say, which a PDF/A cannot do without.
    """

    title: str
    subtitle: str
    author: str
    day: tuple[int, int, int]
    size: Size
    band: str
    foot: tuple[str, str]
    cover: tuple[Block, ...]
    chapters: tuple[Chapter, ...]
    attachments: tuple[Attachment, ...] = ()
    language: str = "en"
