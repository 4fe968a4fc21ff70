"""The subjects a house offers to be asked about, and the place where a person stands to see each."""

from collections.abc import Iterator

from ferrule.checks.paths import ways
from ferrule.checks.question import Subject
from ferrule.design import Design, House
from ferrule.job.devices import (
    AdapterDevice,
    BatteryDevice,
    ControllerDevice,
    MeterDevice,
)


def strings(design: Design) -> Iterator[Subject]:
    return (Subject("string", string.id) for string in design.house.job.strings)


def faces(design: Design) -> Iterator[Subject]:
    """The roof planes and frames with a string on them."""
    used = {string.face for string in design.house.job.strings}
    return (Subject("face", face.id) for face in design.house.job.faces if face.id in used)


def string_runs(design: Design) -> Iterator[Subject]:
    """The cables between a string and its input."""
    return (Subject("run", run) for run in design.house.string_runs)


def inputs(design: Design) -> Iterator[Subject]:
    """Inverter inputs with a string on them."""
    return (Subject("input", terminal) for terminal in design.house.inputs)


def inverters(design: Design) -> Iterator[Subject]:
    return (Subject("inverter", d.id) for d in design.house.job.devices if d.kind == "inverter")


def batteries(design: Design) -> Iterator[Subject]:
    return (Subject("battery", d.id) for d in design.house.job.devices if d.kind == "battery")


def changeovers(design: Design) -> Iterator[Subject]:
    return (Subject("changeover", d.id) for d in design.house.job.devices if d.kind == "changeover")


def hung_devices(design: Design) -> Iterator[Subject]:
    """The devices that hang on a wall or stand at one; what sits inside a board or a device does not."""
    return (Subject(d.kind, d.id) for d in design.house.job.devices if hasattr(d, "at"))


def drilled_walls(design: Design) -> Iterator[Subject]:
    """The walls on which a device hangs, or to which one is tied."""
    house = design.house
    return (
        Subject("wall", wall.wall.id)
        for wall in house.walls.values()
        if any(house.hangs(each.id) or house.devices[each.id].fixing.tied for each in wall.hung)
    )


def circuits(design: Design) -> Iterator[Subject]:
    return (Subject("circuit", circuit) for circuit in design.house.circuits)


def runs_without_device(design: Design) -> Iterator[Subject]:
    """Alternating-current cables that belong to no circuit."""
    return (Subject("run", run) for run in design.house.ac_runs if run not in design.house.circuit_of_run)


def load_circuits(design: Design) -> Iterator[Subject]:
    """Circuits with loads, on the network and (as a subject of its own) in island mode."""
    for circuit in design.house.circuits.values():
        for way in ways(design.house, circuit):
            if circuit.loads and way.forward and way.position in {"grid", "island"}:
                yield Subject("circuit", circuit.id, "" if way.position == "grid" else way.position)


def two_way_circuits(design: Design) -> Iterator[Subject]:
    """Circuits that can be fed from either end."""
    return (each for each in circuits(design) if design.house.circuits[each.id].run in design.house.two_way)


def feeding_inverters(design: Design) -> Iterator[Subject]:
    """Inverters whose grid port the network reaches."""
    return (each for each in inverters(design) if design.house.upstream(f"{each.id}.grid"))


def boards(design: Design) -> Iterator[Subject]:
    return (Subject("board", board) for board in design.house.boards)


def positions(design: Design) -> Iterator[Subject]:
    """The installation in each switch position it has."""
    return (Subject("installation", "house", p) for p in design.house.topology.positions)


def islands(design: Design) -> Iterator[Subject]:
    """The installation in island mode, if it has that."""
    return (subject for subject in positions(design) if subject.position == "island")


def backed_up(design: Design) -> Iterator[Subject]:
    """The circuits that go on in an outage."""
    return (Subject("circuit", circuit, "island") for circuit in design.house.backed_up)


def contacts(design: Design) -> Iterator[Subject]:
    """The contacts that move between switch positions, as `contact/INV1.isolator`."""
    topology = design.house.topology
    moving = [link.by for link in topology.links if link.by.startswith("contact/")]
    moving += [bond.by for bond in topology.bonds if bond.contact.moves or bond.contact.unsure]
    return (Subject(*by.split("/", 1)) for by in dict.fromkeys(moving) if by.startswith("contact/"))


def buses(design: Design) -> Iterator[Subject]:
    return (Subject("bus", bus) for bus in design.house.buses)


def serial_buses(design: Design) -> Iterator[Subject]:
    """The buses on which one device asks and the others answer by their addresses."""
    return (Subject("bus", bus.id) for bus in design.house.buses.values() if bus.kind == "rs485")


def signal_contacts(design: Design) -> Iterator[Subject]:
    return (Subject("signal", contact) for contact in design.house.signal_contacts)


def signals(_design: Design) -> Iterator[Subject]:
    """All signals of the house together."""
    yield Subject("signal", "house")


def supply(_design: Design) -> Iterator[Subject]:
    yield Subject("supply", "supply")


PLACES = ("outside", "roof", "wall", "battery", "board", "meter", "bus")


def place(house: House, subject: Subject) -> str:
    """Where a person stands to do or see it."""
    if subject.kind in {"string", "face", "array"}:
        return "roof"
    if subject.kind in {"input", "inverter", "changeover", "contact", "backup", "wall"}:
        return "wall"
    if subject.kind in {"circuit", "board", "installation", "bonding", "earth"}:
        return "board"
    if subject.kind == "supply":
        return "meter"
    if subject.kind in {"bus", "signal"}:
        return "bus"
    if subject.kind == "lead":
        return _place_of_lead(house, subject.id)
    if subject.kind == "terminals":
        return place_of_device(house, subject.id.partition(".")[0])
    if subject.kind == "run":
        return place_of_device(house, house.runs[subject.id].end.partition(".")[0])
    return place_of_device(house, subject.id)


def _place_of_lead(house: House, lead: str) -> str:
    """A lead is named after its run, its bus, or the device that it belongs to."""
    if lead in house.runs:
        return place(house, Subject("run", lead))
    if lead.partition(":")[0] in house.buses or lead in house.signal_contacts:
        return "bus"
    return place_of_device(house, lead.partition(".")[0])


def place_of_device(house: House, device: str) -> str:
    """Where a person stands at a device; at the board for what is none."""
    found = house.devices.get(device)
    if isinstance(found, BatteryDevice):
        return "battery"
    if isinstance(found, MeterDevice):
        return "meter"
    if isinstance(found, AdapterDevice | ControllerDevice):
        return "bus"
    return "wall" if found else "board"
