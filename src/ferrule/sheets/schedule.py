"""The cable schedule: every lead with its cable, colours and length, and where each conductor lands."""

from collections.abc import Callable, Mapping
from typing import NamedTuple, TypeVar

from ferrule.answering import Answer
from ferrule.checks.paths import length_m
from ferrule.checks.subjects import place_of_device
from ferrule.checks.wired import size, wired
from ferrule.clauses.procedures import covered
from ferrule.design import House
from ferrule.fact import Fact, Missing, Unknown, known
from ferrule.parts import Cable, SignalCable
from ferrule.quantity import Size
from ferrule.wiring.terminal import Core, Lead

T = TypeVar("T")

#: leads that come with their plugs on
BOUGHT = frozenset({"plug", "patch"})


class Conductor(NamedTuple):
    """One conductor and its two ends; an empty end is cut back and insulated. A bought cable has no size."""

    name: str
    colour: str
    size: Fact[Size] | None
    start: str
    end: str


class Row(NamedTuple):
    """One lead. `cable` is what to order, such as `pvc-multicore 5 × 4 mm²`; `asks` what is not known yet."""

    lead: str
    role: str
    start: str
    end: str
    places: tuple[str, str]
    cable: str
    length_m: Fact[float]
    conductors: tuple[Conductor, ...]
    asks: tuple[str, ...]


def schedule(answer: Answer) -> list[Row]:
    """Every lead of a house, power first, then signals, then earth."""
    return [_row(answer, lead) for lead in wired(answer.design).leads.values()]


def _row(answer: Answer, lead: Lead) -> Row:
    start, end = lead.places
    house = answer.design.house
    conductors = tuple(conductor(answer, lead, core) for core in lead.cores)
    return Row(
        lead.id, lead.role, start, end,
        (place_of_end(house, start), place_of_end(house, end)),
        cable_of(answer, lead), fact(lambda: _length_m(answer, lead)), conductors, lead.asks,
    )  # fmt: skip


def place_of_end(house: House, thing: str) -> str:
    """Where a person stands at an end; an enclosure is named after what it serves."""
    if thing == "supply":
        return "meter"
    if thing in house.strings:
        return "roof"
    if thing == "supply":
        return "meter"
    return place_of_device(house, thing.removesuffix("-box").partition(".")[0])


def conductor(answer: Answer, lead: Lead, core: Core) -> Conductor:
    """A core with its colour, its size and where it lands."""
    colours = covered(answer.code.procedures.colours)
    lines = [each.name for each in lead.cores if each.serves == "mains" and each.name != "N"]
    if len(lines) > 1:  # a line keeps its colour from lead to lead, whichever of them a circuit takes
        lines = list(answer.design.house.voltages_v)
    power = core.serves != "signal"
    return Conductor(
        core.name,
        colours.colour(answer.code.rulebook, core=core.name, lines=lines) if power else "",
        None if lead.role in BOUGHT else fact(lambda: size(answer.design, answer.code, lead, core)),
        str(core.start) if core.start else "",
        str(core.end) if core.end else "",
    )


def cable_of(answer: Answer, lead: Lead) -> str:
    """The cable by its part and cores; cores of several sizes each by its own."""
    if lead.role in BOUGHT:
        return "patch cable" if lead.role == "patch" else "its own plug"
    part: Cable | SignalCable | None = answer.design.house.parts.get(lead.part)
    if isinstance(part, SignalCable):
        return part.id
    sizes: dict[str, int] = {}
    for each in (conductor(answer, lead, core) for core in lead.cores):
        name = "size not known" if isinstance(each.size, Unknown) else str(each.size)
        sizes[name] = sizes.get(name, 0) + 1
    cores = " + ".join(f"{count} × {name}" for name, count in sizes.items())
    return f"{part.id if part else 'conductor'} {cores}".strip()


def _length_m(answer: Answer, lead: Lead) -> float:
    """The length of a lead along its way. Raises `Missing` where nobody has measured it."""
    design, house = answer.design, answer.design.house
    if lead.id in house.runs:
        return length_m(house, lead.id)
    if lead.role == "battery":
        device = design.battery_device(lead.of)
        plus_and_minus_m = max(device.pack_leads_m, default=None) if device.packs > 1 else None
        return known(device.protection_distance_m) if plus_and_minus_m is None else plus_and_minus_m / 2
    if lead.role == "bridge":
        return 0.0  # a link within the board
    if lead.role == "bus":
        links = {f"{lead.of}:{link.start}:{link.end}": link for link in house.buses[lead.of].links}
        return known(links[lead.id].length_m)
    if lead.role == "pv" or lead.of in house.inputs:
        return known(design.input_gear(lead.id.rpartition("-box")[0]).leads_m)
    given: Mapping[str, Fact[float]] = {
        "earth": house.job.earth.conductor_length_m,
        **{bond.id: bond.length_m for bond in house.bonding.values()},
        **{each.id: each.length_m for each in house.job.earth.leads},
        **{contact.id: contact.length_m for contact in house.signal_contacts.values()},
    }
    if lead.of in given:
        return known(given[lead.of])
    device = house.devices[lead.of]
    if lead.role == "transformer":
        given = {lead.of: device.transformers.lead_m}
    elif lead.role == "patch":
        given = {lead.of: device.router_m}
    return known(given.get(lead.of, 0.0))


def fact(find: Callable[[], T]) -> Fact[T]:
    """What `find` returns, or what it lacks."""
    try:
        return find()
    except Missing as missing:
        return Unknown("; ".join(missing.asks))
