"""From a job to its topology: what each kind of device joins inside, in each switch position.

What moves: an inverter's isolator opens when the network fails, and its neutral-earth link closes; a
changeover unit opens its network side and closes its inverter side; bypass leaves the inverter aside; in
transit every contact that moves is open; a generator stands in for the network behind an interlocked switch.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from ferrule.fact import Unknown
from ferrule.job.devices import ChangeoverDevice, GeneratorDevice, InverterDevice
from ferrule.job.job import Job
from ferrule.parts import Changeover, Generator, Inverter
from ferrule.wiring.topology import (
    ALWAYS,
    CLOSED,
    NEVER,
    Bond,
    Contact,
    Link,
    Position,
    Positions,
    Topology,
)

ON_GRID: Positions = frozenset({"grid", "generator"})
ISLAND: Positions = frozenset({"island"})
SUPPLIED: Positions = frozenset({"grid", "bypass", "generator"})
GENERATOR: Positions = frozenset({"generator"})

OPEN = Contact(NEVER)


def topology(job: Job) -> Topology:
    """The topology of a job whose references are known to be sound."""
    parts: dict[str, Any] = {part.id: part for part in job.parts}
    behind = {d.id: _inverter_side(job, d.id) for d in job.devices if isinstance(d, ChangeoverDevice)}
    landed = _landed(job, parts, frozenset().union(*behind.values()))
    links = [Link(run.start, run.end, f"run/{run.id}") for run in job.runs]
    bonds = [Bond("supply", "supply", _supplier(job))]
    bonds += [Bond(board.id, f"strap/{board.id}", CLOSED) for board in job.boards if board.strap]
    for device in job.devices:
        part = parts[device.part]
        if isinstance(device, InverterDevice) and device.id in landed:
            links += _inverter_links(device, part, landed[device.id])
            bonds.append(_link(landed[device.id], device.id, part.backup.link, device.link))
        elif isinstance(device, ChangeoverDevice):
            on_grid = any(terminal.endswith(".grid") for terminal in behind[device.id])
            links += _changeover_links(device, part, on_grid)
            bonds.append(_link(f"{device.id}.house", device.id, part.link, "enabled"))
        elif isinstance(device, GeneratorDevice):
            bonds.append(_generator_bond(device, part))
    for device in job.devices:
        if isinstance(device, GeneratorDevice) and device.transfer != "none":
            links = _interlocked(device, device.transfer, links)
    return Topology(tuple(links), tuple(bonds), _sources(job, parts, landed, behind))


def _inverter_side(job: Job, changeover: str) -> frozenset[str]:
    """Every terminal that runs join to the inverter side of a changeover unit."""
    runs = Topology(tuple(Link(run.start, run.end, run.id) for run in job.runs), (), {})
    return runs.joined([f"{changeover}.inverter"], "line", "grid")


def _landed(job: Job, parts: Mapping[str, Any], behind: frozenset[str]) -> dict[str, str]:
    """The terminal by which each inverter feeds an island: its backup port, or its grid port where this lands
    on the inverter side of a changeover unit.
    """
    ends = {run.start for run in job.runs} | {run.end for run in job.runs}
    landed = {}
    for device in job.devices:
        part = parts[device.part]
        if isinstance(part, Inverter) and part.backup is not None:
            if f"{device.id}.backup" in ends:
                landed[device.id] = f"{device.id}.backup"
            elif f"{device.id}.grid" in behind:
                landed[device.id] = f"{device.id}.grid"
    return landed


def _supplier(job: Job) -> Contact:
    """The supplier earths his neutral in every system but IT, whatever the house does."""
    earthing = job.supply.earthing
    if isinstance(earthing, Unknown):
        return Contact(NEVER, ALWAYS, earthing.ask)
    return OPEN if earthing == "IT" else CLOSED


def _neutral(switched: str | Unknown, line: Positions) -> Contact:
    """The neutral beside lines that are closed in `line`: it moves with them or runs through."""
    if isinstance(switched, Unknown):
        return Contact(line, ALWAYS - line, switched.ask)
    return CLOSED if switched == "through" else Contact(line)


def _link(at: str, device: str, makes: str | Unknown, setting: str | Unknown) -> Bond:
    """The neutral-earth link in a device: fixed, or closed in island where it is fitted and enabled."""
    by = f"contact/{device}.link"
    if makes == "fixed":
        return Bond(at, f"strap/{device}", CLOSED)
    if makes == "none" or (makes == "automatic" and setting == "disabled"):
        return Bond(at, by, OPEN)
    for fact in (makes, setting):
        if isinstance(fact, Unknown):
            return Bond(at, by, Contact(NEVER, ISLAND, fact.ask))
    return Bond(at, by, Contact(ISLAND))


def _inverter_links(device: InverterDevice, part: Inverter, landed: str) -> Iterator[Link]:
    """An inverter that lands by its grid port is cut off from the network by the changeover unit."""
    if part.backup is not None and landed.endswith(".backup"):
        neutral = _neutral(part.backup.neutral, ON_GRID)
        yield Link(f"{device.id}.grid", landed, f"contact/{device.id}.isolator", ON_GRID, neutral)


def _changeover_links(device: ChangeoverDevice, part: Changeover, on_grid: bool) -> Iterator[Link]:
    """Its inverter side is closed on the network as well where inverters land there by their grid ports."""
    for side, line in (("grid", SUPPLIED), ("inverter", ISLAND | ON_GRID if on_grid else ISLAND)):
        terminal = f"{device.id}.{side}"
        yield Link(terminal, f"{device.id}.house", f"contact/{terminal}", line, _neutral(part.neutral, line))


def _generator_bond(device: GeneratorDevice, part: Generator) -> Bond:
    if isinstance(part.link, Unknown):
        return Bond(device.id, f"strap/{device.id}", Contact(NEVER, ALWAYS, part.link.ask))
    return Bond(device.id, f"strap/{device.id}", CLOSED if part.link == "fixed" else OPEN)


def _interlocked(device: GeneratorDevice, transfer: str | Unknown, links: list[Link]) -> list[Link]:
    """The links with a generator's transfer switch in them.

    The switch stands where the generator lands, with one contact at the end of the last link by which the
    network reaches that terminal, and one at the end of the generator's own run. Where nobody knows what it
    opens, its lines are taken to be interlocked and its neutral is unknown.
    """
    own = next((link for link in links if device.id in (link.a, link.b)), None)
    if own is None:
        return links
    landed = own.other(device.id)
    way = Topology(tuple(links), (), {}).path("supply", landed, "grid")
    opened = way[-1] if way else None

    def through(link: Link, side: str, line: Positions) -> Iterator[Link]:
        near = f"{device.id}.{side}"
        yield link._replace(a=link.other(landed), b=near)
        neutral = Contact(line) if transfer == "all-live" else CLOSED
        if isinstance(transfer, Unknown):
            neutral = Contact(line, ALWAYS - line, transfer.ask)
        yield Link(near, landed, f"contact/{near}", line, neutral)

    found: list[Link] = []
    for link in links:
        if link is own:
            found += through(link, "generator", GENERATOR)
        elif link is opened:
            found += through(link, "network", ALWAYS - GENERATOR)
        else:
            found.append(link)
    return found


def _sources(
    job: Job, parts: Mapping[str, Any], landed: Mapping[str, str], behind: Mapping[str, frozenset[str]]
) -> dict[Position, tuple[str, ...]]:
    """What feeds the house in each position it has; in transit, the parts that wait for their feed."""
    sources: dict[Position, tuple[str, ...]] = {"grid": ("supply",)}
    if landed:
        sources["island"] = tuple(landed.values())
        waiting = frozenset().union(*behind.values())
        sources["transit"] = (
            *(f"{changeover}.house" for changeover in behind),
            *(terminal for terminal in landed.values() if terminal not in waiting),
        )
    if any(isinstance(part, Changeover) and part.bypass is not False for part in parts.values()):
        sources["bypass"] = ("supply",)
    generators = tuple(device.id for device in job.devices if isinstance(device, GeneratorDevice))
    if generators:
        sources["generator"] = generators
    return sources
