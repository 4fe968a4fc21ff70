"""A commented starter job for each architecture, in which everything still to be found out is unknown."""

from pathlib import Path
from string import Template
from typing import get_args

from ferrule.job.job import Architecture

ARCHITECTURES: tuple[str, ...] = get_args(Architecture)

_FOLDER = Path(__file__).parent / "starters"

#: the datasheets a starter has to have filled in, and how many phases its devices have
_PARTS = {
    "meter-led": ("1", ("module", "inverter", "battery", "meter", "adapter", "cables")),
    "controller-led": ("3", ("module", "inverter", "battery", "controller", "adapter", "cables")),
    "changeover-led": ("3", ("module", "inverter", "battery", "changeover", "meter", "adapter", "cables")),
}


def starter(architecture: str) -> str:
    """The text of a starter job."""
    phases, parts = _PARTS[architecture]
    texts = [_read(name) for name in ("head", architecture, *(f"part-{part}" for part in parts))]
    return Template("".join(texts)).substitute(phases=phases)


def _read(name: str) -> str:
    return (_FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
