"""Devices, boards and modules; protective devices with their ratings."""

from collections.abc import Iterator
from functools import partial

from ferrule.answering import Answer
from ferrule.checks.subjects import place_of_device
from ferrule.clauses.procedures import covered
from ferrule.design import Design
from ferrule.display import quantity
from ferrule.fact import Unknown, known
from ferrule.job.boards import Board, Rcd
from ferrule.job.devices import BatteryDevice
from ferrule.job.metering import Transformers
from ferrule.sheets.goods import Good, asked, good
from ferrule.sheets.texts import say
from ferrule.wiring.leads import box_of


def goods(answer: Answer) -> Iterator[Good]:
    design, house = answer.design, answer.design.house
    for string in house.job.strings:
        name = house.parts[string.module].name
        yield good("module", design.modules(string.id), string.id, "roof", name=name)
    for device in house.job.devices:
        count, place = getattr(device, "packs", 1), place_of_device(house, device.id)
        yield good("device", count, device.id, place, name=house.parts[device.part].name)
        if device.kind == "generator" and device.transfer != "none":
            yield from asked("interlock", device.id, "board", partial(_interlock, design, device.id))
        transformers = getattr(device, "transformers", None)
        if transformers is not None:
            yield from asked(
                "transformer", device.id, "board", partial(_transformers, device.id, transformers)
            )
        if isinstance(device, BatteryDevice):
            yield from asked("battery_fuse", device.id, "battery", partial(_battery, design, device))
    for board in house.job.boards:
        yield from _board(design, board)
    for terminal in house.inputs:
        yield from asked("dc_isolator", terminal, "wall", partial(_input, design, terminal))
    for bus in house.buses:
        yield from asked("terminator", bus, "bus", partial(_terminators, answer, bus))


def _board(design: Design, board: Board) -> Iterator[Good]:
    house = design.house
    yield from asked("board", board.id, "board", lambda: [
        good("board", 1, board.id, "board", name=house.parts[known(board.part)].name)
    ])  # fmt: skip
    lines = len(house.job.supply.live)
    if board.rcd is not None:
        yield _rcd(board.rcd, lines + 1, board.id)
    yield from asked("surge", board.id, "board", partial(_ac_surge, design, board, lines))
    for circuit in board.circuits:
        yield from asked("breaker", circuit.id, "board", partial(_overcurrent, design, circuit.id))
        yield from asked("rcd", circuit.id, "board", partial(_own_rcd, design, circuit.id))


def _overcurrent(design: Design, circuit: str) -> Iterator[Good]:
    house = design.house
    poles, device = len(house.circuits[circuit].phases), house.circuits[circuit].device
    rating, breaking = (
        quantity(design.rating_a(circuit), "A"),
        quantity(design.breaking_capacity_a(circuit), "A"),
    )
    if device.kind == "fuse-gG":
        yield good("fuse", poles, circuit, "board", rating=rating, breaking=breaking)
        return
    both = say("goods.both_ways") if known(device.direction) == "both" else ""
    yield good(
        "breaker", 1, circuit, "board", curve=design.curve(circuit), rating=rating, poles=poles,
        breaking=breaking, both=both,
    )  # fmt: skip


def _own_rcd(design: Design, circuit: str) -> Iterator[Good]:
    rcd = design.rcd(circuit)
    if rcd is not None:
        yield _rcd(rcd, len(design.house.circuits[circuit].phases) + 1, circuit)


def _rcd(rcd: Rcd, poles: int, of: str) -> Good:
    return good(
        "rcd", 1, of, "board", type=rcd.type, residual=quantity(rcd.residual_a, "A"),
        rating=quantity(rcd.rating_a, "A"), poles=poles,
        delayed=say("goods.delayed") if rcd.selective else "",
        both=say("goods.both_ways") if rcd.direction == "both" else "",
    )  # fmt: skip


def _ac_surge(design: Design, board: Board, lines: int) -> Iterator[Good]:
    surge = design.ac_surge(board.id)
    if surge is not None:
        voltage = quantity(known(surge.voltage_max_v), "V")
        yield good("surge", 1, board.id, "board", type=surge.type, voltage=voltage, poles=f"{lines} + N, AC")


def _input(design: Design, terminal: str) -> Iterator[Good]:
    """What stands between the strings of an input and its inverter, and the enclosure for all of it."""
    boxed = False
    isolator = design.isolator(terminal)
    if isolator != "built-in":
        boxed = True
        yield good(
            "dc_isolator", 1, terminal, "wall", voltage=quantity(known(isolator.voltage_max_v), "V"),
            current=quantity(known(isolator.current_max_a), "A"), category=known(isolator.category),
        )  # fmt: skip
    surge = design.dc_surge(terminal)
    if surge is not None:
        boxed, both = True, known(surge.places) == "both-ends"
        voltage = quantity(known(surge.voltage_max_v), "V")
        yield good("surge", 2 if both else 1, terminal, "wall", type=surge.type, voltage=voltage, poles="DC")
    for string in design.house.inputs[terminal]:
        fuse = design.fuse(string.id)
        if fuse is not None:
            boxed, count = True, 2 if known(fuse.poles) == "both" else 1
            yield good(
                "string_fuse", count, string.id, "wall", rating=quantity(fuse.rating_a, "A"),
                voltage=quantity(known(fuse.voltage_max_v), "V"),
            )  # fmt: skip
    if boxed:
        yield good("enclosure", 1, box_of(terminal), "wall", of=terminal)


def _battery(design: Design, battery: BatteryDevice) -> Iterator[Good]:
    """The protective device with its enclosure, and the switch beside the battery."""
    device = design.battery_protection(battery.id)
    count = (2 if known(device.poles) == "both" else 1) if device.kind.startswith("fuse") else 1
    kind = say(f"goods.{device.kind.replace('-', '_').lower()}")
    yield good(
        "battery_fuse", count, battery.id, "battery", kind=kind,
        rating=quantity(device.rating_a, "A"), voltage=quantity(known(device.voltage_max_v), "V"),
        breaking=quantity(known(device.breaking_capacity_a), "A"),
    )  # fmt: skip
    yield good("enclosure", 1, box_of(battery.id), "battery", of=battery.id)
    if known(battery.isolator) != "none":
        poles = say("goods.all_poles" if battery.isolator == "all-poles" else "goods.one_pole")
        yield good("battery_isolator", 1, battery.id, "battery", poles=poles)


def _interlock(design: Design, generator: str) -> Iterator[Good]:
    poles = len(design.house.job.supply.live) + (
        known(design.house.devices[generator].transfer) == "all-live"
    )
    yield good("interlock", 1, generator, "board", poles=poles)


def _transformers(device: str, sensed: Transformers) -> Iterator[Good]:
    yield good(
        "transformer", len(known(sensed.clamps)), device, "board",
        primary=quantity(known(sensed.primary_a), "A"), secondary=quantity(known(sensed.secondary_a), "A"),
        accuracy=known(sensed.accuracy), burden=quantity(known(sensed.burden_va), "VA"),
    )  # fmt: skip


def _terminators(answer: Answer, bus: str) -> Iterator[Good]:
    """A resistor at each end whose port has none of its own."""
    design = answer.design
    ohm = covered(answer.code.procedures.signal_bus).terminator_ohm(answer.code.trace())
    for port in design.terminators(bus):
        own = design.house.ports[port].terminator
        if isinstance(own, Unknown) or own == "none":
            known(own)
            yield good("terminator", 1, bus, "bus", resistance=quantity(ohm, "Ω"))
