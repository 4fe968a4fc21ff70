"""Modules from the open table of the California Energy Commission, as pvlib carries it.

The table is read as plain text from pvlib's folder, without loading pvlib. It states a module's figures at
standard test conditions and its temperature coefficients, but neither its highest system voltage nor its
largest series fuse: those stay unknown in the part that is made of it.
"""

import csv
import re
import unicodedata
from importlib.metadata import version
from importlib.util import find_spec
from pathlib import Path
from typing import Any, NamedTuple

from ferrule.fact import Unknown
from ferrule.parts.module import Module

_NAME = "open module table of the California Energy Commission"
_FILES = "*cec-modules-*.csv"
_UNIT_ROWS = 2  # below the head: units, then names used by other programs
_TECHNOLOGIES = {"Mono-c-Si": "mono", "Multi-c-Si": "poly"}

#: key of a module's datasheet -> column of the table and the unit in which that states it
_COLUMNS = {
    "power": ("STC", "W"),
    "voc": ("V_oc_ref", "V"),
    "isc": ("I_sc_ref", "A"),
    "vmp": ("V_mp_ref", "V"),
    "imp": ("I_mp_ref", "A"),
    "voc_coefficient": ("beta_oc", "V/K"),
    "isc_coefficient": ("alpha_sc", "A/K"),
    "power_coefficient": ("gamma_r", "%/K"),
    "noct": ("T_NOCT", "°C"),
}


class TableMissing(Exception):
    """There is no table to look in; the message says how to get it."""


class Entry(NamedTuple):
    """A module as the table has it: its columns by name, and the table's file."""

    columns: dict[str, str]
    table: Path

    @property
    def name(self) -> str:
        return self.columns["Name"]

    @property
    def id(self) -> str:
        """The name as an id: small letters and digits, joined by hyphens."""
        plain = unicodedata.normalize("NFKD", self.name).encode("ascii", "ignore").decode().lower()
        return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")

    def number(self, key: str) -> float:
        """A figure by its key in the datasheet, such as `voc`."""
        return float(self.columns[_COLUMNS[key][0]])

    @property
    def source(self) -> str:
        """The table, its file, the version and date that stand in the row, and what carries it."""
        issue = ", ".join(self.columns[name] for name in ("Version", "Date"))
        return f"{_NAME}: {self.table.name} ({issue}), as carried by pvlib {version('pvlib')}"

    def part(self) -> dict[str, Any]:
        """The datasheet as a part file states it; what the table lacks is unknown, with what to find out."""
        stated = {
            "id": self.id,
            "kind": "module",
            "name": self.name,
            "source": self.source,
            "technology": _TECHNOLOGIES.get(self.columns["Technology"], "thin-film"),
            **{key: f"{float(self.columns[column])!r} {unit}" for key, (column, unit) in _COLUMNS.items()},
        }
        return stated | {
            info.alias: {"unknown": info.default.ask}
            for info in Module.model_fields.values()
            if info.alias and info.alias not in stated and isinstance(info.default, Unknown)
        }


def find(text: str, path: Path | None = None) -> list[Entry]:
    """The modules whose name has every word of `text`, in the table's order.

    `path` is the table's file, by default the newest that pvlib carries. Raises `TableMissing`.
    """
    path = path or _table()
    words = text.lower().split()
    with path.open(encoding="utf-8", newline="") as file:
        rows = csv.DictReader(file)
        return [
            Entry(row, path)
            for at, row in enumerate(rows)
            if at >= _UNIT_ROWS and all(word in row["Name"].lower() for word in words)
        ]


def _table() -> Path:
    package = find_spec("pvlib")  # found, not loaded: that takes a second
    folders = package.submodule_search_locations if package else None
    files = [file for folder in folders or () for file in Path(folder, "data").glob(_FILES)]
    if not files:
        raise TableMissing("the open module table comes with pvlib: pip install 'ferrule[pv]'")
    return max(files)
