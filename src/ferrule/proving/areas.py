"""Where the crew opens something or lays hands on it: boards, devices, faces of the array, signal buses."""

from collections.abc import Iterator
from typing import NamedTuple

from ferrule.checks.question import Subject
from ferrule.checks.subjects import faces, place
from ferrule.design import Design, House
from ferrule.fact import Unknown
from ferrule.job.devices import BatteryDevice, GeneratorDevice
from ferrule.job.metering import Transformers


class Area(NamedTuple):
    """One thing to work at: where it is, the terminals in reach there, and what is not known of them."""

    subject: Subject
    place: str
    terminals: tuple[str, ...]
    find_out: tuple[str, ...] = ()


def areas(design: Design) -> tuple[Area, ...]:
    """Every area of a house with a live conductor in reach, from the origin of the supply on."""
    house = design.house
    own = {device.id: _terminals(house, device.id) for device in house.job.devices}
    found = [Area(Subject("supply", "supply"), "meter", ("supply",))]
    found += [Area(Subject("board", board), "board", (board,)) for board in house.boards]
    found += [_device(house, device.id, own[device.id]) for device in house.job.devices]
    found += [_face(house, subject) for subject in faces(design)]
    for bus in house.buses.values():
        devices = dict.fromkeys(node.port.partition(".")[0] for node in bus.nodes)
        terminals = [terminal for device in devices for terminal in own[device]]
        asks = [ask for device in devices for ask in _device(house, device, own[device]).find_out]
        found.append(Area(Subject("bus", bus.id), "bus", tuple(terminals), tuple(asks)))
    return tuple(area for area in found if area.terminals or area.find_out)


def _device(house: House, device: str, terminals: tuple[str, ...]) -> Area:
    subject = Subject(house.devices[device].kind, device)
    return Area(subject, place(house, subject), terminals, tuple(_unknown(house, device)))


def _unknown(house: House, device: str) -> Iterator[str]:
    """What has to be known to tell where a metering device takes its voltage from."""
    found = house.devices[device]
    if found.kind in {"meter", "controller"} and not _on_runs(house, device):
        sensed = found.transformers
        if sensed is None:
            yield f"{device}: from which terminal it takes its own supply"
        elif isinstance(sensed.run, Unknown):
            yield f"{device}: {sensed.run.ask}"


def _terminals(house: House, device: str) -> tuple[str, ...]:
    """Where runs end on a device; for one that measures by transformers, both ends of what it measures."""
    ends = _on_runs(house, device)
    sensed = getattr(house.devices[device], "transformers", None)
    if isinstance(sensed, Transformers) and not isinstance(sensed.run, Unknown):
        ends |= dict.fromkeys((house.runs[sensed.run].start, house.runs[sensed.run].end))
    if isinstance(house.devices[device], BatteryDevice | GeneratorDevice):
        ends |= {device: None}
    return tuple(ends)


def _on_runs(house: House, device: str) -> dict[str, None]:
    ends = (end for run in house.job.runs for end in (run.start, run.end))
    return dict.fromkeys(end for end in ends if end.partition(".")[0] == device)


def _face(house: House, subject: Subject) -> Area:
    strings = tuple(string.id for string in house.job.strings if string.face == subject.id)
    return Area(subject, place(house, subject), strings)
