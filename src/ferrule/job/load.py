"""Reading a job: the job file, the parts it names, and the firm's file, with every reference checked."""

from collections.abc import Callable, Iterator
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple, TypeVar

from ferrule.document import Document, Problem, Unreadable, attempt, read
from ferrule.fact import Open, Unknown
from ferrule.job.firm import Firm
from ferrule.job.job import Job
from ferrule.job.references import problems
from ferrule.parts import Part
from ferrule.parts.library import find

T = TypeVar("T")

#: what a job is taken for where it misses one of these, so that the rest of it can still be looked at
_STAND_INS = {
    "ferrule": "1",
    "name": "",
    "rulebook": "rulebook",  # a word that counts as left out, so that nobody misses such an edition
    "architecture": "meter-led",
    "site": {"place": ""},
    "supply": {"live": [{"name": "", "voltage": "230 V"}]},
}


class Loaded(NamedTuple):
    """A job that reads, its parts inlined; where its facts come from; the firm that does it."""

    job: Job
    origins: dict[str, str]
    firm: Firm
    path: Path
    firm_folder: Path

    @property
    def confirmed(self) -> Path:
        """Where the firm keeps what its people confirmed of the rulebooks."""
        return self.firm_folder / "confirmed.yaml"

    @property
    def canonical(self) -> str:
        """The typed content of the job, its parts inlined, as JSON."""
        return self.job.model_dump_json()

    @property
    def revision(self) -> str:
        """What tells this state of the job from every other: sha256 of its typed content."""
        return sha256(self.canonical.encode()).hexdigest()


def load(path: str | Path) -> Loaded:
    """Read a job file and all it refers to.

    Raises `Unreadable` with every mistake, each with its file, line and column.
    """
    path = Path(path)
    document, found = attempt(path, Job, _STAND_INS)
    if document is None:
        raise Unreadable(found)
    firm_path = path.parent / (document.value.firm or "firm.yaml")
    wanted = document.value.firm is not None or firm_path.is_file()
    firm_file, wrong_firm = _reading(lambda: read(firm_path, Firm)) if wanted else (None, [])
    firm = firm_file.value if firm_file else Firm(name="")
    parts, unread, wrong_parts = _parts(document, path.parent, firm.anchors)
    wrong_firm += _anchors(firm_file, parts, unread) if firm_file else []
    document = document._replace(lost=document.lost | unread)
    job = document.value.model_copy(update={"parts": parts})
    taken = {(each.line, each.column) for each in found}
    more = [each for each in problems(document, job) if (each.line, each.column) not in taken]
    found = sorted([*found, *more], key=lambda each: (each.line, each.column))
    if found or wrong_parts or wrong_firm:
        raise Unreadable([*found, *wrong_parts, *wrong_firm])
    return Loaded(job, document.origins, firm, path, firm_path.parent)


def _reading(read_it: Callable[[], T]) -> tuple[T | None, list[Problem]]:
    """What was read, or None and every mistake in it."""
    try:
        return read_it(), []
    except Unreadable as error:
        return None, error.problems


def _anchors(firm: Document[Firm], parts: list[Part], unread: set[str]) -> Iterator[Problem]:
    """What the firm carries to fix devices with must have a datasheet."""
    anchors = [part.id for part in parts if part.kind == "anchor"]
    for at, anchor in enumerate(firm.value.anchors):
        if anchor not in anchors and anchor not in unread:
            yield firm.mistyped(("anchors", at), anchor, "an anchor with a file parts/ID.yaml", anchors)


def _parts(
    document: Document[Job], folder: Path, anchors: list[str]
) -> tuple[list[Part], set[str], list[Problem]]:
    """The inline parts, then those from files: `parts/` beside the job or in the folder above. With them the
    ids of those whose file has mistakes, and these. `anchors` are those that the firm carries.
    """
    job = document.value
    named = [device.part for device in job.devices]
    named += [string.module for string in job.strings] + [run.cable for run in job.runs]
    named += [bus.cable for bus in ([] if isinstance(job.buses, Unknown) else job.buses)]
    named += [face.mount for face in job.faces if not isinstance(face.mount, Unknown)]
    fixings = [device.fixing for device in job.devices if hasattr(device, "fixing")]
    named += [each.anchor for each in fixings if not isinstance(each.anchor, Open)]
    named += [
        each.backing.screw for each in fixings if each.backing and not isinstance(each.backing.screw, Unknown)
    ]
    named += anchors
    named += [board.part for board in job.boards if isinstance(board.part, str)]
    cables = [*(contact.cable for contact in job.contacts), job.earth.cable]
    named += [cable for cable in cables if isinstance(cable, str)]
    inline = {part.id for part in job.parts}
    folders = (folder / "parts", folder.parent / "parts")
    parts, unread, mistakes = list(job.parts), set(), list[Problem]()
    for part_id in dict.fromkeys(each for each in named if each not in inline):
        part, wrong = _reading(partial(find, part_id, folders))
        if wrong:
            unread.add(part_id)
        if part is not None:
            parts.append(part)
        mistakes += wrong
    return parts, unread, mistakes
