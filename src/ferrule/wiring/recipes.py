"""From a job to its topology: what each kind of device joins inside, in each switch position."""

from collections.abc import Iterator, Mapping

from ferrule.fact import Unknown
from ferrule.job.devices import ChangeoverDevice, GeneratorDevice, InverterDevice
from ferrule.job.job import Job
from ferrule.parts import Changeover, Generator, Inverter
from ferrule.wiring.topology import ALWAYS, NEVER, Bond, Link, Position, Positions, Topology

ON_GRID: Positions = frozenset({"grid", "generator"})
ISLAND: Positions = frozenset({"island"})
SUPPLIED: Positions = frozenset({"grid", "bypass", "generator"})


def topology(job: Job) -> Topology:
    """The topology of a job whose references are known to be sound."""
    parts = {part.id: part for part in job.parts}
    links = [Link(run.start, run.end, f"run/{run.id}") for run in job.runs]
    bonds = [Bond("supply", "supply", _supplier_closes(job))]
    fed_from_grid_port = {run.end for run in job.runs if run.start.endswith(".grid")}
    for device in job.devices:
        part = parts[device.part]
        if isinstance(device, InverterDevice) and isinstance(part, Inverter):
            links += _inverter_links(device, part)
            bonds += _inverter_bonds(device, part)
        elif isinstance(device, ChangeoverDevice) and isinstance(part, Changeover):
            links += _changeover_links(device, part, f"{device.id}.inverter" in fed_from_grid_port)
            bonds += _changeover_bonds(device, part)
        elif isinstance(device, GeneratorDevice) and isinstance(part, Generator):
            bonds.append(Bond(device.id, f"link/{device.id}", _generator_closes(part)))
    return Topology(tuple(links), tuple(bonds), _sources(job, parts))


def _supplier_closes(job: Job) -> Positions | Unknown:
    """The supplier earths his neutral in every system but IT, whatever the house does."""
    earthing = job.supply.earthing
    if isinstance(earthing, Unknown):
        return earthing
    return NEVER if earthing == "IT" else ALWAYS


def _inverter_links(device: InverterDevice, part: Inverter) -> Iterator[Link]:
    if part.backup is None:
        return
    neutral = part.backup.neutral
    if not isinstance(neutral, Unknown):
        closed = ALWAYS if neutral == "through" else ON_GRID
    yield Link(
        f"{device.id}.grid",
        f"{device.id}.backup",
        f"contact/{device.id}.isolator",
        line=ON_GRID,
        neutral=neutral if isinstance(neutral, Unknown) else closed,
    )


def _inverter_bonds(device: InverterDevice, part: Inverter) -> Iterator[Bond]:
    if part.backup is None:
        return
    makes, enabled = part.backup.link, device.link
    closed: Positions | Unknown
    if makes == "none" or enabled == "disabled":
        closed = NEVER
    elif isinstance(makes, Unknown):
        closed = makes
    elif isinstance(enabled, Unknown):
        closed = enabled
    else:
        closed = ISLAND
    yield Bond(f"{device.id}.backup", f"link/{device.id}", closed)


def _changeover_links(device: ChangeoverDevice, part: Changeover, feeds_on_grid: bool) -> Iterator[Link]:
    neutral = part.neutral

    def contact(name: str, far: str, line: Positions) -> Link:
        closed = neutral if isinstance(neutral, Unknown) else ALWAYS if neutral == "through" else line
        return Link(f"{device.id}.{far}", f"{device.id}.house", f"contact/{device.id}.{name}", line, closed)

    yield contact("grid", "grid", SUPPLIED)
    yield contact("inverter", "inverter", ISLAND | ON_GRID if feeds_on_grid else ISLAND)


def _changeover_bonds(device: ChangeoverDevice, part: Changeover) -> Iterator[Bond]:
    link = part.link
    closed = link if isinstance(link, Unknown) else ISLAND if link == "automatic" else NEVER
    yield Bond(f"{device.id}.house", f"link/{device.id}", closed)


def _generator_closes(part: Generator) -> Positions | Unknown:
    if isinstance(part.link, Unknown):
        return part.link
    return ALWAYS if part.link == "fixed" else NEVER


def _sources(job: Job, parts: Mapping[str, object]) -> dict[Position, tuple[str, ...]]:
    """What feeds the house in each position it has; in transit, the parts that wait for their feed."""
    ends = {run.start for run in job.runs} | {run.end for run in job.runs}
    sources: dict[Position, tuple[str, ...]] = {"grid": ("supply",)}
    islands = tuple(
        f"{device.id}.backup"
        for device in job.devices
        if isinstance(device, InverterDevice) and f"{device.id}.backup" in ends
    )
    houses = tuple(f"{d.id}.house" for d in job.devices if isinstance(d, ChangeoverDevice))
    if islands:
        sources["island"] = islands
        sources["transit"] = houses or islands
    for device in job.devices:
        part = parts[device.part]
        if isinstance(part, Changeover) and part.bypass is True:
            sources["bypass"] = ("supply",)
        if isinstance(device, GeneratorDevice):
            sources["generator"] = (device.id,)
    return sources
