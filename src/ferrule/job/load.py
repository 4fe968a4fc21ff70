"""Reading a job: the job file, the parts it names, and the firm's file, with every reference checked."""

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from ferrule.document import Document, Problem, Unreadable, read
from ferrule.fact import Unknown
from ferrule.job.firm import Firm
from ferrule.job.job import Job
from ferrule.job.references import problems
from ferrule.parts import Part
from ferrule.parts.library import find


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
    def revision(self) -> str:
        """What tells this state of the job from every other: sha256 of its typed content."""
        return sha256(self.job.model_dump_json().encode()).hexdigest()


def load(path: str | Path) -> Loaded:
    """Read a job file and all it refers to.

    Raises `Unreadable` with every mistake, each with its file, line and column.
    """
    path = Path(path)
    document = read(path, Job)
    firm_path = path.parent / (document.value.firm or "firm.yaml")
    firm = read(firm_path, Firm).value if document.value.firm or firm_path.is_file() else Firm(name="")
    job = document.value.model_copy(update={"parts": list(_parts(document, path.parent))})
    found = list(problems(document, job))
    if found:
        raise Unreadable(sorted(found, key=lambda problem: (problem.line, problem.column)))
    return Loaded(job, document.origins, firm, path, firm_path.parent)


def _parts(document: Document[Job], folder: Path) -> Iterator[Part]:
    """The inline parts, then those from files: `parts/` beside the job or in the folder above."""
    job = document.value
    yield from job.parts
    inline = {part.id for part in job.parts}
    named = [device.part for device in job.devices]
    named += [string.module for string in job.strings] + [run.cable for run in job.runs]
    named += [bus.cable for bus in ([] if isinstance(job.buses, Unknown) else job.buses)]
    folders = (folder / "parts", folder.parent / "parts")
    mistakes: list[Problem] = []
    for part_id in dict.fromkeys(named):
        if part_id in inline:
            continue
        try:
            part = find(part_id, folders)
        except Unreadable as error:
            mistakes += error.problems
        else:
            if part is not None:
                yield part
    if mistakes:
        raise Unreadable(mistakes)
