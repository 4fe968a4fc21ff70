"""What a job takes for granted: defaults nobody overruled, and facts that are estimates."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from pydantic import BaseModel

from ferrule.fact import Unknown
from ferrule.job.job import Job


class Assumption(NamedTuple):
    """What is taken for granted, and where in the job."""

    path: str
    text: str


def assumptions(job: Job, origins: Mapping[str, str]) -> list[Assumption]:
    """Every assumption of a job, defaults first; one that stands in several places is told once."""
    defaults: dict[str, Assumption] = {}
    for path, text in _defaults(job, ""):
        defaults.setdefault(text, Assumption(path, text))
    estimates = [
        Assumption(path, origin) for path, origin in origins.items() if origin.lower().startswith("estimate")
    ]
    return [*defaults.values(), *_sockets(job), *_soil(job), *_main_earth(job), *estimates]


def _sockets(job: Job) -> Iterator[Assumption]:
    """Socket-outlets of which nobody knows the load."""
    for board in job.boards:
        for circuit in board.circuits:
            for at, load in enumerate(circuit.loads):
                if load.kind == "sockets" and load.current_a is None and isinstance(load.power_w, Unknown):
                    yield Assumption(
                        f"boards.{board.id}.circuits.{circuit.id}.loads.{at}.power",
                        "socket-outlets of unknown load draw what the circuit's device lets through",
                    )


def _soil(job: Job) -> Iterator[Assumption]:
    """The first cable in the ground whose soil nobody described."""
    for run in job.runs:
        for at, stretch in enumerate(run.stretches):
            if stretch.method in {"D1", "D2"} and stretch.soil_km_per_w is None:
                text = "soil around cables in the ground is as the tables of their currents suppose"
                yield Assumption(f"runs.{run.id}.stretches.{at}.soil", text)
                return


def _main_earth(job: Job) -> Iterator[Assumption]:
    """Where everything that has to be earthed meets."""
    if job.boards:
        yield Assumption(
            "earth", "the main earthing terminal is the protective bar of the board nearest the supply"
        )


def _defaults(value: Any, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, BaseModel):
        for name, info in type(value).model_fields.items():
            here = f"{path}.{info.alias or name}".lstrip(".")
            extra = info.json_schema_extra
            if isinstance(extra, dict) and "assumed" in extra and name not in value.model_fields_set:
                yield here, str(extra["assumed"])
            yield from _defaults(getattr(value, name), here)
    elif isinstance(value, list):
        for at, item in enumerate(value):
            yield from _defaults(item, f"{path}.{getattr(item, 'id', at)}")
