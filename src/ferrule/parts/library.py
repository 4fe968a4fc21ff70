"""Finding a part's file by its id."""

import os
from collections.abc import Iterable
from pathlib import Path
from typing import Literal

from ferrule.document import Document, Problem, Record, Unreadable, read
from ferrule.parts.datasheet import Part


class PartFile(Record):
    """A file with one datasheet in it, named after the part's id."""

    ferrule: Literal["1"]
    part: Part


def find(part_id: str, folders: Iterable[Path]) -> Part | None:
    """The part of that id from the first folder that has a file for it; None if none has.

    Raises `Unreadable` where the file has mistakes or holds a part of another id.
    """
    for folder in folders:
        path = folder / f"{part_id}.yaml"
        if os.path.isfile(path):  # unlike Path.is_file, no error for a name too long to be one
            found: Document[PartFile] = read(path, PartFile)
            if found.value.part.id != part_id:
                raise Unreadable([_misnamed(found, part_id)])
            return found.value.part
    return None


def _misnamed(found: Document[PartFile], part_id: str) -> Problem:
    return found.problem(("part", "id"), f"'{found.value.part.id}'", f"'{part_id}', the name of this file")
