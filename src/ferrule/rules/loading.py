"""Reading a rulebook's folder, refusing whatever lacks a source, a place, a unit or a grade.

Figures that several editions share (how much a person lifts, what a bus bears) stand once, in a volume: a
folder beside theirs that an edition's head names under `includes`.

A rulebook is large and a job reads little of it. A file is therefore first cut into its entries by
indentation (section at column 0, entry at column 2), and an entry is parsed when it is first asked for.
`problems` parses everything and checks that the cut sees what a YAML reader sees.
"""

import hashlib
import re
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from ferrule.grade import Grade, Source
from ferrule.quantity import UNITS
from ferrule.rules.entry import Entry, Figure, GradeRule, Printed, RulebookError, Series, Table, Value
from ferrule.rules.reading import Fields, number, parse
from ferrule.rules.rulebook import Rulebook

HEAD = "rulebook.yaml"
VOLUME = "volume.yaml"
#: Units whose values are texts: a rule's term, a conductor size with its system.
_TEXTS = frozenset({"word", "size"})
#: Units of numbers: the canonical ones of quantities, and those only tables use.
_UNITS = _TEXTS | frozenset(UNITS) | {
    "1/K", "%/m", "A·√s/mm²", "AWG", "cmil", "m/km²/year", "Ω/kft", "Ω·mm²/m", "Ω·m²",
}  # fmt: skip
_GRADES = {grade.word: grade for grade in Grade if grade is not Grade.CONFIRMED}
_NAME = re.compile(r"[a-z][a-z0-9_]*")
_HEADS = re.compile(r"^(?:(\w[^:\n]*)|  (\w[^:\n]*)):", re.MULTILINE)

Sources = Mapping[str, Source]


class _Block(NamedTuple):
    """The text of one entry, and where it stands."""

    section: str
    name: str
    file: str
    line: int
    text: str

    @property
    def where(self) -> str:
        return f"{self.file}:{self.line}: {self.name}"

    @property
    def folder(self) -> str:
        return self.file.partition("/")[0]


class _Shelf(NamedTuple):
    """What an edition consists of: its head, and the files of its own folder and of the volumes it includes,
    each as `folder/file`, with the sources that each folder declares.
    """

    head: Mapping[str, str]
    files: Mapping[str, str]
    sources: Mapping[str, Sources]
    digest: str


def read_folder(folder: Path) -> Rulebook:
    """The rulebook in a folder, its entries still unparsed. Raises `RulebookError`."""
    return _rulebook(_shelf(folder))


def problems(folder: Path) -> list[str]:
    """Everything wrong with the rulebook in a folder, a line each; empty if nothing is."""
    try:
        shelf = _shelf(folder)
        rulebook = _rulebook(shelf)
    except RulebookError as error:
        return [str(error)]
    found = [problem for file, text in shelf.files.items() for problem in _file_problems(file, text)]
    for name in rulebook.names():
        try:
            rulebook.entry(name)
        except RulebookError as error:
            found.append(str(error))
    return found


def _shelf(folder: Path) -> _Shelf:
    texts = _texts(folder, HEAD)
    head, sources, volumes = _head(folder.name, texts[f"{folder.name}/{HEAD}"])
    held = {folder.name: sources}
    for volume in volumes:
        texts |= _texts(folder.parent / volume, VOLUME)
        held[volume] = _volume(volume, texts[f"{volume}/{VOLUME}"])
    files = {file: text for file, text in texts.items() if not file.endswith((HEAD, VOLUME))}
    return _Shelf(head, files, held, _digest(texts))


def _rulebook(shelf: _Shelf) -> Rulebook:
    blocks: dict[str, _Block] = {}
    for file, text in shelf.files.items():
        for block in _blocks(file, text):
            if block.name in blocks:
                raise RulebookError(f"{block.where}: also in {blocks[block.name].where}")
            blocks[block.name] = block
    return Rulebook(
        edition=shelf.head["edition"],
        title=shelf.head["title"],
        family=shelf.head["family"],
        digest=shelf.digest,
        names=tuple(blocks),
        parse=lambda name: _entry(blocks[name], shelf.sources[blocks[name].folder]),
    )


def _file_problems(file: str, text: str) -> list[str]:
    """What shows only when a file is read as a whole."""
    try:
        whole = parse(file, 0, text)
    except RulebookError as error:
        return [str(error)]
    about = whole.get("about")
    found = (
        [] if isinstance(about, str) and about else [f"{file}: no 'about' saying where its figures come from"]
    )
    held = {name for section in _BUILDERS for name in whole.get(section) or ()}
    if astray := held ^ {block.name for block in _blocks(file, text)}:
        found.append(f"{file}: an entry must stand at two spaces: {', '.join(sorted(astray))}")
    return found


def _texts(folder: Path, head: str) -> dict[str, str]:
    files = sorted(folder.glob("*.yaml"))
    if head not in {file.name for file in files}:
        raise RulebookError(f"{folder.name}: no {head}")
    return {f"{folder.name}/{file.name}": file.read_text(encoding="utf-8") for file in files}


def _digest(texts: Mapping[str, str]) -> str:
    digest = hashlib.sha256()
    for file, text in texts.items():
        digest.update(f"{file}\0{len(text)}\0{text}".encode())
    return digest.hexdigest()


def _head(edition: str, text: str) -> tuple[dict[str, str], Sources, list[str]]:
    """The head of an edition, the sources it declares and the volumes it includes."""
    file = f"{edition}/{HEAD}"
    fields = Fields(file, parse(file, 0, text))
    head = {key: fields.text(key) for key in ("edition", "title", "family", "valid_from", "jurisdiction")}
    sources = _sources(fields)
    volumes = fields.items("includes") if "includes" in fields else []
    fields.close()
    if head["edition"] != edition:
        raise fields.error(f"edition '{head['edition']}' is not the name of its folder")
    if not head["family"].isidentifier():
        raise fields.error(f"family '{head['family']}' is not an identifier such as iec60364")
    try:
        date.fromisoformat(head["valid_from"])
    except ValueError:
        raise fields.error(f"valid_from '{head['valid_from']}' is not a date (YYYY-MM-DD)") from None
    return head, sources, volumes


def _volume(name: str, text: str) -> Sources:
    """The sources that a volume declares."""
    file = f"{name}/{VOLUME}"
    fields = Fields(file, parse(file, 0, text))
    if fields.text("volume") != name:
        raise fields.error(f"volume '{fields.text('volume')}' is not the name of its folder")
    fields.text("title")
    sources = _sources(fields)
    fields.close()
    return sources


def _sources(fields: Fields) -> Sources:
    return {
        ref: _declared(Fields(f"{fields.where}: source '{ref}'", given))
        for ref, given in fields.mapping("sources").items()
    }


def _declared(fields: Fields) -> Source:
    source = Source(fields.text("document"), fields.text("edition", empty=True), "")
    fields.text("note", default="")
    fields.close()
    return source


def _blocks(file: str, text: str) -> Iterator[_Block]:
    """Cut a subject file into its entries."""
    section, line, start = "", 1, 0
    heads = list(_HEADS.finditer(text))
    ends = [head.start() for head in heads[1:]] + [len(text)]
    for head, end in zip(heads, ends, strict=True):
        line += text.count("\n", start, head.start())
        start = head.start()
        outer, name = head.groups()
        if outer:
            section = outer
            if section not in _BUILDERS and section != "about":
                raise RulebookError(f"{file}:{line}: unknown section '{section}'")
        elif section in _BUILDERS:
            yield _Block(section, name, file, line, text[start:end])


def _entry(block: _Block, sources: Sources) -> Entry:
    if not _NAME.fullmatch(block.name):
        raise RulebookError(f"{block.where}: a name is small letters, digits and underscores")
    given = parse(block.file, block.line - 1, block.text)
    fields = Fields(block.where, given[block.name])
    entry = _BUILDERS[block.section](block.name, fields, sources)
    fields.close()
    return entry


def _figure(name: str, fields: Fields, sources: Sources) -> Figure:
    title, unit, note = fields.text("title"), _unit(fields), fields.text("note", default="")
    if "low" not in fields and "high" not in fields:
        only = _printed(fields, unit, sources)
        return Figure(name, title, unit, only, only, note)
    low, high = (_bound(fields, bound, unit, sources) for bound in ("low", "high"))
    if isinstance(low.value, str) or isinstance(high.value, str) or low.value >= high.value:
        raise fields.error(f"low {low.value} is not below high {high.value}")
    return Figure(name, title, unit, low, high, note)


def _bound(fields: Fields, bound: str, unit: str, sources: Sources) -> Printed:
    inner = fields.inner(bound)
    printed = _printed(inner, unit, sources)
    inner.close()
    return printed


def _printed(fields: Fields, unit: str, sources: Sources) -> Printed:
    return Printed(_value(fields.where, fields.text("value"), unit), _source(fields, sources), _grade(fields))


def _series(name: str, fields: Fields, sources: Sources) -> Series:
    title, unit, note = fields.text("title"), _unit(fields), fields.text("note", default="")
    values = tuple(_value(fields.where, given, unit) for given in fields.items("values"))
    if unit not in _TEXTS and not _rising(tuple(float(value) for value in values)):
        raise fields.error("the values do not rise")
    return Series(name, title, unit, values, _source(fields, sources), _grade(fields), note)


def _table(name: str, fields: Fields, sources: Sources) -> Table:
    row_key, row_unit = _rows(fields)
    column_key, columns = _columns(fields)
    values = fields.mapping("values")
    rows = tuple(values)
    numbers = tuple(number(fields.where, text) for text in rows) if row_unit is not None else ()
    if not _rising(numbers):
        raise fields.error("the rows do not rise")
    between = fields.choice("between", ("step", "linear", "refuse"))
    if between != "refuse" and not numbers:
        raise fields.error("rows of words have nothing between them")
    unit = _unit(fields)
    if between == "linear" and unit in _TEXTS:
        raise fields.error("words have nothing between them")
    return Table(
        name=name,
        title=fields.text("title"),
        unit=unit,
        source=_source(fields, sources),
        row_key=row_key,
        row_unit=row_unit or "",
        rows=rows,
        numbers=numbers,
        column_key=column_key,
        columns=columns,
        between=between,
        toward=fields.choice("toward", ("higher", "lower"), None if between == "step" else "higher"),
        below=fields.choice("below", ("refuse", "first"), "refuse"),
        above=fields.choice("above", ("refuse", "last"), "refuse"),
        cells=tuple(
            _cells(f"{fields.where}: row {row}", cells, columns, unit) for row, cells in values.items()
        ),
        grades=tuple(_grade_rules(fields, rows, columns)),
        note=fields.text("note", default=""),
    )


def _rows(fields: Fields) -> tuple[str, str | None]:
    """What a row stands for, and its unit; rows without a unit are words."""
    row = fields.inner("row")
    key = row.text("key")
    unit = _unit(row) if "unit" in row else None
    row.close()
    return key, unit


def _columns(fields: Fields) -> tuple[str, tuple[str, ...]]:
    if "columns" not in fields:
        return "", ()
    columns = fields.inner("columns")
    key, names = columns.text("key"), tuple(columns.items("names"))
    columns.close()
    if len(set(names)) != len(names):
        raise columns.error("a column stands twice")
    return key, names


def _cells(where: str, given: Any, columns: tuple[str, ...], unit: str) -> tuple[Value | None, ...]:
    """A row's cells: a list as long as the columns, or a single value in a table without columns."""
    cells = given if isinstance(given, list) and columns else [given]
    if len(cells) != max(len(columns), 1):
        raise RulebookError(f"{where} has {len(cells)} cells for {len(columns)} columns")
    return tuple(None if cell == "null" else _value(where, cell, unit) for cell in cells)


def _grade_rules(fields: Fields, rows: tuple[str, ...], columns: tuple[str, ...]) -> Iterator[GradeRule]:
    """The rules in their order; the first that fits a cell holds, and the last must fit every cell."""
    given = fields.items("grades")
    for at, item in enumerate(given):
        rule = Fields(f"{fields.where}: grades", item)
        grade = _grade(rule)
        named = frozenset(rule.items("columns")) if "columns" in rule else None
        first, upto = rule.text("from", default=rows[0]), rule.text("upto", default=rows[-1])
        rule.close()
        if unknown := ({first, upto} - set(rows)) | ((named or frozenset()) - set(columns)):
            raise rule.error(f"no row or column {', '.join(sorted(unknown))}")
        if at == len(given) - 1 and (named is not None or (first, upto) != (rows[0], rows[-1])):
            raise rule.error("the last one must hold for all cells left over")
        yield GradeRule(grade, named, rows.index(first), rows.index(upto))


def _unit(fields: Fields) -> str:
    unit = fields.text("unit", empty=True)
    if unit not in _UNITS:
        from difflib import get_close_matches

        near = get_close_matches(unit, _UNITS, n=1)
        raise fields.error(f"unknown unit '{unit}'" + (f"; did you mean '{near[0]}'?" if near else ""))
    return unit


def _grade(fields: Fields) -> Grade:
    return _GRADES[fields.choice("grade", tuple(_GRADES))]


def _source(fields: Fields, sources: Sources) -> Source:
    source = fields.inner("source")
    ref, place = source.text("ref"), source.text("place")
    source.close()
    if ref not in sources:
        raise source.error(f"'{ref}' is not declared in {HEAD}")
    return Source(sources[ref].document, sources[ref].edition, place)


def _value(where: str, given: Any, unit: str) -> Value:
    if unit in _TEXTS and isinstance(given, str) and given:
        return given
    return number(where, given)


def _rising(numbers: tuple[float, ...]) -> bool:
    return all(lower < higher for lower, higher in pairwise(numbers))


_BUILDERS: Mapping[str, Callable[[str, Fields, Sources], Entry]] = {
    "tables": _table,
    "figures": _figure,
    "series": _series,
}
