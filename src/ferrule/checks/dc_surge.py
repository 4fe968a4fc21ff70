"""Surge protection of the lines between the array and its inverter."""

from collections.abc import Iterator

from ferrule.checks.array import run_of
from ferrule.checks.paths import length_m
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.string_voltage import highest_on_input_v
from ferrule.checks.subjects import inputs
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most
from ferrule.design import Decided, Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.array import DcSurgeDevice


def route_m(design: Design, inverter: str) -> float:
    """Length of the ways the array's cables take to an inverter, in m: cables from one face go together."""
    longest: dict[str, float] = {}
    for string in design.house.job.strings:
        if string.input.startswith(f"{inverter}."):
            run_m = length_m(design.house, run_of(design, string.id).id)
            longest[string.face] = max(run_m, longest.get(string.face, 0.0))
    return sum(longest.values())


def farthest_m(design: Design, terminal: str) -> float:
    """Length of the longest cable to an input, in m."""
    return max(
        length_m(design.house, run_of(design, string.id).id) for string in design.house.inputs[terminal]
    )


def unprotected(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    site = design.house.job.site
    all_known(site.lightning_density_per_km2_year, site.building, site.lightning_protection)
    array_m = route_m(design, subject.id.partition(".")[0])
    if design.dc_surge(subject.id) is None:
        yield from covered(code.procedures.dc_surge).unprotected(
            code.rulebook,
            route_m=array_m,
            flashes_per_km2_year=known(site.lightning_density_per_km2_year),
            building=known(site.building),
            lightning=known(site.lightning_protection),
        )


def _fitted(design: Design, terminal: str) -> DcSurgeDevice | None:
    """The device at an input; None while it is open, for then `unprotected` tells what it waits for."""
    try:
        return design.dc_surge(terminal)
    except Missing:
        return None


def protected(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    device = _fitted(design, subject.id)
    if device is None:
        return
    site = design.house.job.site
    all_known(site.lightning_protection, device.nominal_a, device.places)
    yield from covered(code.procedures.dc_surge).protected(
        code.rulebook,
        kind=device.type,
        nominal_a=known(device.nominal_a),
        places=known(device.places),
        farthest_m=farthest_m(design, subject.id),
        lightning=known(site.lightning_protection),
    )


def surge_voltage(design: Design, code: Code, subject: Subject) -> Constraint | None:
    device = _fitted(design, subject.id)
    if device is None:
        return None
    t, cold_v = highest_on_input_v(design, code, subject.id)
    return at_most(
        "surge_voltage",
        "The string reaches {value} in the cold; the surge device bears {limit} for ever",
        t,
        value=cold_v,
        limit=known(device.voltage_max_v),
        unit="V",
        strict=True,
    )


def dc_surge(_design: Design, subject: Subject) -> Iterator[Decided]:
    yield Decided("dc_surge", subject.id)


QUESTIONS = (
    Question(
        "input.surge",
        "Are the array's lines safe from lightning nearby?",
        inputs,
        each(unprotected, protected, surge_voltage),
        dc_surge,
    ),
)
