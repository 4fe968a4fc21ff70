"""The single-line diagram: array and battery at the left, then inverters and changeover, boards with their
circuits, loads and network at the right. Where there is no room for all circuits, those of whole boards go
onto further sheets.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.display import quantity
from ferrule.fact import Unknown
from ferrule.job.boards import Circuit
from ferrule.job.metering import Transformers
from ferrule.sheets import symbols
from ferrule.sheets.frame import Frame, Page
from ferrule.sheets.framed import LANDSCAPE, frame_of, framed
from ferrule.sheets.network import Network, Way, network, thing
from ferrule.sheets.route import Wire, route
from ferrule.sheets.said import UNKNOWN, Said
from ferrule.sheets.scene import (
    GRID_MM,
    MEDIUM,
    NAME_MM,
    SMALL_MM,
    Box,
    Item,
    Pen,
    Point,
    Rectangle,
    Scene,
    line,
)
from ferrule.sheets.strokes import (
    CLEAR_MM,
    LINE_MM,
    above,
    across,
    below,
    counted,
    dot,
    earthed,
    level,
    noted,
    word,
)
from ferrule.sheets.symbol import Port, Symbol
from ferrule.sheets.texts import say
from ferrule.sheets.words import plain, width_mm, wrapped

PAGES = (LANDSCAPE, Page(420.0, 297.0), Page(594.0, 420.0), Page(841.0, 594.0))
"""A4, and the next sizes of ISO 216 for a house whose sources alone need more."""

_BAR = Pen(1.0)
_RIGHT_MM, _LEFT_MM, _TOLD_MM = (
    10.0,
    10.0,
    12.5,
)  # heights of rows at a board: a load, a feed, one with its cable
_HEAD_MM = 7.5  # of a board, for its name
_GAP_MM = 2.5


class Columns(NamedTuple):
    """Where things stand across a page, in mm from its left edge."""

    start: float
    fuse: float
    joint: float
    box: float
    channel: float
    rows: float
    bar: float
    end: float


def single_line(result: Answer) -> tuple[Scene, ...]:
    """The sheets of the diagram; the first shows all sources, devices and boards."""
    for page in PAGES:
        drawing = _Drawing(result, page)
        if (sheets := drawing.sheets()) is not None:
            return sheets
    return drawing.crowded()


class _Left(NamedTuple):
    """A row at the left of a board or unit: the end of a way. `told` where its cable is written here."""

    terminal: str
    way: Way
    name: str  # of the wire in the channel
    circuit: Circuit | None = None
    told: bool = False

    @property
    def height_mm(self) -> float:
        return _TOLD_MM if self.told else _LEFT_MM


class _Block(NamedTuple):
    """What stands right of the channel: a board, a source, or a way between two inverters."""

    name: str
    kind: str
    lefts: tuple[_Left, ...]
    loads: tuple[Way, ...] = ()


class _Drawing:
    """One try at a size of page."""

    def __init__(self, result: Answer, page: Page) -> None:
        self.result, self.page, self.house = result, page, result.design.house
        self.said = Said(result)
        self.network: Network = network(self.house)
        self.main_board = wired(result.design).plan.main_board
        spare = 0.4 * (page.width_mm - LANDSCAPE.width_mm)
        laid = sum(
            set(map(self.network.kind, (way.start, way.end))) != {"board", "leaf"}
            for way in self.network.ways
        )
        more = min(7.5, max(0.0, GRID_MM * (laid - 5)))  # the channel is as wide as its conductors need
        self.x = Columns(
            12.5, 57.5, 75.0, 95.0, 122.5,
            _on_grid(137.5 + more + spare), _on_grid(187.5 + spare), page.width_mm - 11.0,
        )  # fmt: skip
        self.items: list[Item] = []
        self.ports: dict[str, list[Port]] = {}
        self.units: dict[str, list[_Left]] = {}

    def sheets(self) -> tuple[Scene, ...] | None:
        """The drawing, with as few boards on further sheets as will do; None where the page is too small."""
        blocks = self._blocks()
        made = self._frame(1, 1)
        by_loads = sorted((b for b in blocks if b.loads), key=lambda b: -len(b.loads))
        for count in range(len(by_loads) + 1):
            apart = [block.name for block in by_loads[:count]]
            if self._height(blocks, apart) <= made.area.height_mm - 2 * _GAP_MM:
                return self._drawn(blocks, apart)
        return None

    def crowded(self) -> tuple[Scene, ...]:
        """On the largest page whatever comes of it."""
        blocks = self._blocks()
        sheets = self._drawn(blocks, [block.name for block in blocks if block.loads])
        assert sheets is not None
        return sheets

    def _frame(self, number_: int, of: int) -> Frame:
        return frame_of(self.result, say("single.title"), self.page, number=number_, of=of)

    # What stands where

    def _blocks(self) -> list[_Block]:
        """From the network down: sources, then boards and units in the order in which power meets them."""
        house, net = self.house, self.network
        lefts: dict[str, list[_Left]] = {}
        loads: dict[str, list[Way]] = {}
        loose: list[_Block] = []
        for at, way in enumerate(net.ways):
            name = str(at)
            kinds = (net.kind(way.start), net.kind(way.end))
            if kinds == ("board", "leaf"):
                loads.setdefault(thing(way.start), []).append(way)
            elif kinds == ("leaf", "board"):
                loads.setdefault(thing(way.end), []).append(way.reversed)
            elif "source" in kinds or "leaf" in kinds:
                outward = way if kinds[1] in {"source", "leaf"} else way.reversed
                loose.append(
                    _Block(thing(outward.end), "source", (_Left(outward.start, outward, name, told=True),))
                )
                self._left(lefts, outward.start, outward, name, told=False)
            elif set(kinds) == {"inverter"}:
                row = _Left(way.start, way, name, told=True)
                loose.append(_Block(way.along[0], "link", (row, _Left(way.end, way, name + "b"))))
            else:
                first = "board" if "board" in kinds else "unit"
                self._left(lefts, way.start, way, name, told=kinds[0] == first)
                self._left(lefts, way.end, way.reversed, name, told=kinds[0] != first)
        order = self._order()
        names = sorted(house.boards, key=lambda name: order.get(name, len(order)))
        stood = [
            _Block(each, "board", tuple(self._sorted(lefts.get(each, []))), tuple(loads.get(each, [])))
            for each in names
        ]
        self.units = {
            # what comes from inverters above first, so that conductors need not cross
            name: sorted(rows, key=lambda row: net.kind(row.way.end) != "inverter")
            for name, rows in lefts.items()
            if name not in house.boards
        }
        return [*loose, *stood]

    def _left(self, lefts: dict[str, list[_Left]], terminal: str, way: Way, name: str, *, told: bool) -> None:
        if self.network.kind(terminal) in {"board", "unit"}:
            circuit = self.house.circuit_of_run.get(way.along[0])
            own = circuit if circuit and self.house.board_of[circuit.id].id == thing(terminal) else None
            lefts.setdefault(thing(terminal), []).append(_Left(terminal, way, name, own, told))

    def _order(self) -> dict[str, int]:
        """Boards and units by how many links the network, else an inverter, is away."""
        feeding = self.house.feeding
        steps: dict[str, int] = {}
        for position in ("grid", "generator", "bypass", "island"):
            for terminal, links in feeding.get(position, {}).items():
                steps.setdefault(thing(terminal), len(links) + (100 if position == "island" else 0))
        return {name: at for at, name in enumerate(sorted(steps, key=lambda each: steps[each]))}

    def _sorted(self, rows: Sequence[_Left]) -> list[_Left]:
        """What feeds a board from the network first, what lies further down the page last."""

        def order(row: _Left) -> tuple[bool, bool, bool]:
            kind = self.network.kind(row.way.end)
            return kind != "source", row.circuit is not None, kind != "inverter"

        return sorted(rows, key=order)

    def _height(self, blocks: Sequence[_Block], apart: Sequence[str]) -> float:
        return sum(self._block_height(block, apart) + _GAP_MM for block in blocks)

    def _block_height(self, block: _Block, apart: Sequence[str]) -> float:
        if block.kind != "board":
            return 2 * _TOLD_MM if block.kind == "link" else 20.0 if self._measured(block) else 17.5
        left = sum(row.height_mm for row in block.lefts)
        return _HEAD_MM + max(left, _RIGHT_MM * len(self._rights(block, apart)), 5.0)

    def _measured(self, block: _Block) -> bool:
        """Whether current transformers sit on the way of a source."""
        return any(self._around(run) for run in block.lefts[0].way.along)

    def _around(self, run: str) -> list[tuple[str, Transformers]]:
        """The current transformers around a run, by the device they belong to."""
        own = ((device.id, getattr(device, "transformers", None)) for device in self.house.job.devices)
        return [(name, found) for name, found in own if found is not None and found.run == run]

    def _rights(self, block: _Block, apart: Sequence[str]) -> list[Way | str]:
        """The rows right of a board's bar: ways to loads, or the words for them; then its surge device."""
        rows: list[Way | str] = ["apart"] if block.name in apart else list(block.loads)
        if self.said.ac_surge(block.name):
            rows.append("surge")
        return rows

    # Drawing it

    def _drawn(self, blocks: Sequence[_Block], apart: list[str]) -> tuple[Scene, ...] | None:
        made = self._frame(1, 1)
        top = _on_grid(made.area.top_mm + _GAP_MM)
        bottom = self._devices(top)
        if bottom > made.inside.bottom_mm - 2.0 and self.page != PAGES[-1]:
            return None
        y = top
        for block in blocks:
            self._block(block, y, apart)
            y = _on_grid(y + self._block_height(block, apart) + _GAP_MM)
        laid = self._channel(made.inside)
        if laid is None:
            return None
        self.items += laid
        further = self._further([block for block in blocks if block.name in apart])
        notes = Box(
            self.x.rows, made.block.top_mm + 2.0, made.block.left_mm - 3.0, made.outline.bottom_mm - 1.5
        )
        if self.house.job.earth.electrode != "none":
            self._earth(notes.left_mm, notes.right_mm, notes.top_mm + 6.0)
            notes = notes._replace(top_mm=notes.top_mm + 11.0)
        set_notes = noted(notes, self._notes())
        of = 1 + len(further)
        pages = [[*self.items, *set_notes.items], *further]
        return tuple(
            framed(
                self._frame(at + 1, of), page, say("single.title"), self.page,
                description=say("single.description", job=self.result.loaded.job.name),
            )
            for at, page in enumerate(pages)
        )  # fmt: skip

    def _channel(self, inside: Box) -> tuple[Item, ...] | None:
        """The conductors between the devices and what stands right of them."""
        x, top, bottom = self.x, inside.top_mm, inside.bottom_mm
        walls = (
            Box(x.channel - 2.5, top, x.channel, bottom),
            Box(x.rows, top, x.rows + 2.5, bottom),
        )
        wires = [Wire(name, ends[0], ends[1]) for name, ends in self.ports.items() if len(ends) == 2]
        laid = route(Box(x.channel - 2.5, top, x.rows + 2.5, bottom), walls, wires)
        return None if laid.unrouted and self.page != PAGES[-1] else laid.items

    def _port(self, name: str, x_mm: float, y_mm: float, *, right: bool) -> None:
        self.ports.setdefault(name, []).append(Port(Point(x_mm, y_mm), "right" if right else "left"))

    # Left of the channel

    def _devices(self, top: float) -> float:
        """Inverters with what feeds them in direct current, then units; returns where they end."""
        y = top
        inverters = [device for device in self.house.job.devices if device.kind == "inverter"]
        for device in inverters:
            y = _on_grid(self._inverter(device.id, y) + _GAP_MM)
        for name in self.units:
            y = _on_grid(self._unit(name, y + _GAP_MM) + _GAP_MM)
        return y

    def _inverter(self, name: str, top: float) -> float:
        part = self.result.design.inverter(name)
        x, said = self.x, self.said
        head = [
            *wrapped(part.name, SMALL_MM, x.channel - x.box - 3.0, lines=2),
            said.fact(part.grid.power_w, "W"),
        ]
        self.items += word(x.box + 1.5, top + 5.0, name, x.channel - x.box - 3.0, NAME_MM, bold=True)
        for at, text in enumerate(head):
            self.items += word(x.box + 1.5, top + 8.6 + LINE_MM * at, text, x.channel - x.box - 3.0)
        y = _on_grid(top + 20.0)
        inputs = [terminal for terminal in self.house.inputs if thing(terminal) == name]
        for terminal in inputs:
            y = self._input(terminal, y)
        for run, battery in self.house.battery_runs.items():
            found = self.house.runs[run]
            if thing(found.start if found.end == battery else found.end) == name:
                y = self._battery(run, battery, y)
        right = top + 20.0
        for at, way in enumerate(self.network.ways):
            for end, wire in ((way.start, str(at)), (way.end, str(at))):
                if thing(end) == name:
                    both = self.network.kind(way.start) == self.network.kind(way.end) == "inverter"
                    label = end.partition(".")[2]
                    self._port(wire + ("b" if both and end == way.end else ""), x.channel, right, right=True)
                    self.items += word(x.channel - 1.0, right + 0.9, label, 12.0, anchor="end")
                    right += 7.5
        bottom = _on_grid(max(y, right) - 2.5)
        self.items.append(Rectangle(Box(x.box, top, x.channel, bottom)))
        return bottom

    def _unit(self, name: str, top: float) -> float:
        """A changeover unit, or another device that several ways meet at; returns where it ends."""
        x, left = self.x, self.x.fuse
        part = self.house.parts[self.house.devices[name].part]
        half = x.channel - x.box - 3.0
        y = _on_grid(top + 15.0)
        self.items += word(left + 1.5, top + 5.0, name, x.channel - left - 3.0, NAME_MM, bold=True)
        self.items += word(left + 1.5, top + 8.6, part.name, x.channel - left - 3.0)
        for row in self.units[name]:
            self._port(row.name, x.channel, y, right=True)
            label = row.terminal.partition(".")[2]
            self.items += word(x.channel - 1.0, y + 0.9, label, 12.0, anchor="end")
            if row.told:
                part, cores = self.said.cable(self._first_run(row.way))
                for at, words in enumerate((f"{_named_way(row.way)} {part}", cores)):
                    self.items += word(left + 1.5, y - 0.4 + LINE_MM * at, words, half + 20.0)
            y += 7.5
        for text in self._contacts(name):
            self.items += word(left + 1.5, y + 0.9, text, x.channel - left - 3.0)
            y += LINE_MM
        bottom = _on_grid(y + 1.0)
        self.items.append(Rectangle(Box(left, top, x.channel, bottom)))
        return bottom

    def _first_run(self, way: Way) -> str:
        return next(each for each in way.along if each in self.house.runs)

    def _input(self, terminal: str, y: float) -> float:
        """The strings of one input, joined at its gear."""
        x, said = self.x, self.said
        strings = self.house.inputs[terminal]
        rows = [y + 17.5 * at for at in range(len(strings))]
        for at, (string, row) in enumerate(zip(strings, rows, strict=True)):
            self._string(string.id, row)
            if 0 < at < len(rows) - 1:
                self.items.append(dot(x.joint, row))
        last = rows[-1]
        if len(rows) > 1:
            self.items += (line((x.joint, rows[0]), (x.joint, last)), dot(x.joint, last))
        isolator, surge = said.isolator(terminal), said.dc_surge(terminal)
        gear = x.joint + 2.5
        self.items.append(level(x.joint, gear, last))
        if isolator:
            if isolator == UNKNOWN:
                self.items.append(level(gear, gear + 15.0, last))
            else:
                self.items += across(symbols.switch_disconnector(), gear, last)
            self.items += above(gear + 1.0, last, (say("single.isolator"), isolator), 15.0)
        else:
            self.items.append(level(gear, gear + 15.0, last))
            if self.result.design.inverter(thing(terminal)).dc_switch is True:
                self.items += above(gear + 1.0, last, (say("single.switch"), say("single.inside")), 15.0)
        self.items.append(level(gear + 15.0, x.box, last))
        self.items += word(x.box + 1.0, last + 0.9, terminal.partition(".")[2], 14.0)
        if not surge:
            return last + 17.5
        self.items += self._surge(gear, last, surge)
        return last + 22.5

    def _surge(self, x_mm: float, y: float, words: str) -> Iterator[Item]:
        """A surge device that hangs at a line, earthed at its left."""
        down = y + 7.5
        yield dot(x_mm, y)
        if words == UNKNOWN:
            yield line((x_mm, y), (x_mm, down))
        else:
            yield line((x_mm, y), (x_mm, down))
            yield from symbols.surge_protective_device().placed(x_mm, down, 1).items
            yield from symbols.earth().placed(x_mm - 15.0, down, 1).items
        yield from word(x_mm + 1.5, down + 0.9, words, 14.5)

    def _string(self, name: str, y: float) -> None:
        x, said, string = self.x, self.said, self.house.strings[name]
        box = Box(x.start, y - 3.75, x.start + 7.5, y + 3.75)
        self.items += (
            Rectangle(box),
            line((x.start, y - 3.75), (x.start + 4.0, y), (x.start, y + 3.75), pen=MEDIUM, layer="device"),
        )
        run = next((run for run, each in self.house.string_runs.items() if each.id == name), None)
        count = said.words(lambda: str(self.result.design.modules(name)))
        star = said.star(("modules",), name)
        text, room = x.start + 9.0, x.fuse - x.start - 10.0
        voltage = say("single.cold", voltage=said.cold_voltage(name))
        fuse = said.string_fuse(name)
        has_fuse = fuse not in {"", UNKNOWN}
        self.items += above(
            text, y,
            (say("single.string", id=name, count=f"{count}{star}", module=string.module),
             say("single.face", face=string.face, voltage=voltage)),
            room,
        )  # fmt: skip
        self.items.append(level(x.start + 10.0, x.fuse, y))
        if has_fuse:
            self.items += across(symbols.fuse(), x.fuse, y)
        else:
            self.items.append(level(x.fuse, x.fuse + 15.0, y))
        self.items.append(level(x.fuse + 15.0, x.joint, y))
        self.items += above(x.fuse + 0.5, y, (say("single.fuses"), fuse) if fuse else (), 16.5)
        if run:
            self._cable_below(run, run, text, y, room)

    def _cable_below(self, run: str, lead: str, x_mm: float, y: float, room: float) -> None:
        """The strokes that count its conductors, and behind them what a cable is."""
        part, cores = self.said.cable(lead)
        beside = f"{run} {part}"
        fits = width_mm(plain(beside), SMALL_MM) <= room - 4.0
        self.items += counted(x_mm + 1.0, y, self.said.count(lead))
        self.items += below(x_mm + 4.0, y, (beside, cores) if fits else (run, part, cores), room - 4.0)

    def _battery(self, run: str, name: str, y: float) -> float:
        x, said, design = self.x, self.said, self.result.design
        device = design.battery_device(name)
        text = x.start + 15.0
        self.items += across(symbols.battery(), x.start, y)
        packs = say("single.packs", count=device.packs) if device.packs > 1 else ""
        energy = said.fact(design.battery(name).energy_wh, "Wh")
        self.items += above(
            text, y, (" ".join(filter(None, (name, packs, energy))), device.part), x.fuse - text - 1
        )
        self.items += (level(x.start + 15.0, x.fuse, y), level(x.fuse + 15.0, x.joint + 2.5, y))
        self._cable_below(run, run, text, y, x.fuse - text - 0.5)
        protection = said.protection(name)
        if protection == UNKNOWN:
            self.items.append(level(x.fuse, x.fuse + 15.0, y))
        else:
            breaker = protection.startswith("breaker")
            symbol = symbols.circuit_breaker() if breaker else symbols.fuse()
            self.items += across(symbol, x.fuse, y)
        kind, _, rating = (
            protection.rpartition(" A")[0].rpartition(" ") if " A" in protection else ("", "", "")
        )
        shown = (
            (kind, f"{rating} A{protection.rpartition(' A')[2]}")
            if kind
            else (say("single.protection"), protection)
        )
        self.items += above(x.fuse + 0.5, y, shown, 17.5)
        isolates = device.isolator
        gear = x.joint + 2.5
        if isinstance(isolates, Unknown):
            said.asks[isolates.ask] = None
        if isolates in ("all-poles", "one-pole"):
            self.items += across(symbols.switch_disconnector(), gear, y)
        else:
            self.items.append(level(gear, gear + 15.0, y))
        words = UNKNOWN if isinstance(isolates, Unknown) else str(isolates).replace("-", " ")
        self.items += above(gear + 1.0, y, (say("single.isolator"), words), 15.5)
        self.items.append(level(gear + 15.0, x.box, y))
        self.items += word(x.box + 1.0, y + 0.9, say("single.battery"), 14.0)
        return y + 17.5

    # Right of the channel

    def _block(self, block: _Block, top: float, apart: Sequence[str]) -> None:
        if block.kind == "source":
            self._source(block, top)
        elif block.kind == "link":
            self._link(block, top)
        else:
            self._board(block, top, apart)

    def _source(self, block: _Block, top: float) -> None:
        """A way out of the house's boards: to the network, a generator, a load that no board feeds."""
        x, said = self.x, self.said
        (row,) = block.lefts
        y = _on_grid(top + 8.5)
        if self.network.kind(row.terminal) in {"source", "leaf"}:
            self.items += symbols.load().placed(x.rows + 7.5, y, 1).items
            self.items += above(x.rows + 1.0, y - 2.5, (row.terminal,), 30.0)
            start = x.rows + 7.5
        else:
            self._port(row.name, x.rows, y, right=False)
            start = x.rows
        room, device = 38.0, self.house.devices.get(block.name)
        end = x.end - room
        if block.name == "supply":
            self._chain(row.way, start, end - 15.0, y)
            self.items += across(symbols.fuse(), end - 15.0, y)
            self.items += above(end - 13.0, y, (say("single.main_fuse"), said.main_fuse()), 18.0)
        else:
            self._chain(row.way, start, end, y)
        leaf = self.network.kind(row.way.end) == "leaf"
        self.items += across(symbols.load(), end, y) if leaf else (level(end, end + 5.0, y),)
        words = self._supply() if block.name == "supply" else self._named(block.name, device)
        if not leaf:
            self.items += (Rectangle(Box(end + 5.0, y - 5.0, x.end, y + 5.0)),)
        self.items += word(end + 8.5, y - 0.9, words[0], room - 10.0, bold=True)
        self.items += word(end + 8.5, y + 2.6, words[1], room - 10.0)

    def _supply(self) -> tuple[str, str]:
        supply = self.house.job.supply
        voltages = " ".join(line_.name for line_ in supply.live)
        volts = quantity(supply.live[0].voltage_v, "V")
        return say("single.network"), f"{self.said.fact(supply.earthing)}, {voltages}, {volts}"

    def _named(self, name: str, device: object) -> tuple[str, str]:
        if device is None:
            return name, ""
        transfer = getattr(device, "transfer", None)
        words = say("single.transfer", what=self.said.fact(transfer)) if transfer is not None else device.part  # type: ignore[attr-defined]
        return f"{name} {self.result.design.house.parts[device.part].name}", words  # type: ignore[attr-defined]

    def _chain(self, way: Way, x_mm: float, end_mm: float, y: float) -> None:
        """Runs and meters, one after the other, as long as there is room."""
        meters = sum(each not in self.house.runs for each in way.along)
        runs = len(way.along) - meters
        each_run = (end_mm - x_mm - 15.0 * meters) / max(runs, 1)
        at = x_mm
        for each in way.along:
            if each in self.house.runs:
                self._run(each, at, at + each_run, y)
                at += each_run
            else:
                self.items += across(symbols.energy_meter(), at, y)
                self.items += word(at + 7.5, y - 6.2, each, 15.0, anchor="middle", bold=True)
                at += 15.0

    def _run(self, run: str, x_mm: float, end_mm: float, y: float) -> None:
        """A cable that has room for two lines below it, with the current transformers around it."""
        around = self._around(run)
        part, cores = self.said.cable(run)
        self.items += counted(x_mm + 3.0, y, self.said.count(run))
        text, start = x_mm + 6.0, x_mm
        for device, transformers in around:
            self.items += symbols.current_transformer().placed(text + 11.0, y, 1).items
            self.items.append(level(start, text + 1.0, y))
            primary = self.said.fact(transformers.primary_a, "A")
            ratio = f"{primary}/{self.said.fact(transformers.secondary_a, 'A')}"
            clamps = "" if isinstance(transformers.clamps, Unknown) else f"{len(transformers.clamps)} × "
            self.items += word(
                text + 7.5, y + 9.2, say("single.transformers", id=device, what=f"{clamps}{ratio}"),
                end_mm - text - 8.0,
            )  # fmt: skip
            start = text + 11.0
            text += 12.0
        self.items.append(level(start, end_mm, y))
        room = end_mm - text - 1.0
        self.items += above(text, y, (run,), room)
        whole = width_mm(plain(cores), SMALL_MM) <= room
        self.items += below(text, y, (part, *((cores,) if whole else cores.split(", "))), room)

    def _link(self, block: _Block, top: float) -> None:
        """A way between two devices at the left: out of one, round and into the other."""
        x = self.x
        first, second = block.lefts
        y, y2 = _on_grid(top + 6.0), _on_grid(top + 6.0 + _TOLD_MM)
        self._port(first.name, x.rows, y, right=False)
        self._port(second.name, x.rows, y2, right=False)
        self._run(first.way.along[0], x.rows, x.bar, y)
        self.items.append(line((x.bar, y), (x.bar, y2), (x.rows, y2)))

    def _told(self, row: _Left, y: float, end: float, *, name: str, deep: bool) -> None:
        """The cable of a way, written at a row that ends at `end`."""
        x = self.x
        run = self._first_run(row.way)
        part, cores = self.said.cable(run)
        self.items += counted(x.rows + 2.5, y, self.said.count(run))
        room = end - x.rows - 6.5
        self.items += below(x.rows + 6.0, y, (f"{name} {part}".strip(),), room)
        long = room if deep else x.bar - x.rows - 8.0
        self.items += below(x.rows + 6.0, y + LINE_MM, (cores,), long)

    def _board(self, block: _Block, top: float, apart: Sequence[str]) -> None:
        x, said = self.x, self.said
        board = self.house.boards[block.name]
        rcd = said.board_rcd(block.name)
        height = self._block_height(block, apart)
        rating = said.fact(board.rating_a, "A")
        strap = say("single.strap") if board.strap else ""
        self.items.append(line((x.bar, top + 1.5), (x.bar, top + height), pen=_BAR, layer="device"))
        self.items += word(x.bar + 2.0, top + 4.8, block.name, 24.0, NAME_MM, bold=True)
        head = ", ".join(filter(None, (say("single.rated", rating=rating), strap)))
        behind = x.bar + 5.0 + min(24.0, width_mm(plain(block.name), NAME_MM, bold=True))
        self.items += word(behind, top + 4.8, head, x.end - behind)
        incoming = [row for row in block.lefts if row.circuit is None]
        y = _on_grid(top + _HEAD_MM)
        for row in block.lefts:
            guard = rcd if incoming and row is incoming[0] else ""
            self._feed(row, y, guard)
            y += row.height_mm
        self._ways(block, x.bar, x.end, _on_grid(top + _HEAD_MM + 5.0), self._rights(block, apart))

    def _feed(self, row: _Left, y: float, guard: str) -> None:
        x = self.x
        self._port(row.name, x.rows, y, right=False)
        series, words = [symbols.residual_current_device()] if guard else [], guard
        if row.circuit is not None and not guard:
            series, words = self._gear(row.circuit)
        start = x.bar - sum(map(_length, series))
        self.items.append(level(x.rows, start, y))
        self._in_series(series, start, y)
        named = row.told or self.network.kind(row.way.end) != "source"
        name = _named_way(row.way) if named else ""
        room = x.bar - x.rows - 4.0
        # Where both do not fit over the line, the name of the run goes under it: no rating is cut.
        over = not row.told or width_mm(plain(words), SMALL_MM) + _room(name) <= room
        if over:
            self.items += word(x.bar - 1.5, y - CLEAR_MM, name, _room(name), anchor="end")
        self.items += above(x.rows + 1.5, y, (words,), room - (_room(name) if over else 0.0))
        if row.told:
            deep = any(_length(symbol) > 15.0 for symbol in series)
            self._told(row, y, min(x.bar - 18.0, start - 0.5), name="" if over else name, deep=deep)

    def _gear(self, circuit: Circuit) -> tuple[list[Symbol], str]:
        """The devices at the head of a circuit, and what they are; a breaker with its RCD is one symbol."""
        rcd = self.said.rcd(circuit.id)
        told = f"RCD {UNKNOWN}" if rcd == UNKNOWN else rcd
        words = ", ".join(filter(None, (f"{circuit.id} {self.said.overcurrent(circuit.id)}", told)))
        has_rcd = rcd not in {"", UNKNOWN}
        if circuit.device.kind == "fuse-gG":
            return [symbols.fuse(), *([symbols.residual_current_device()] if has_rcd else [])], words
        return [symbols.residual_current_breaker() if has_rcd else symbols.circuit_breaker()], words

    def _in_series(self, row: Sequence[Symbol], x_mm: float, y: float) -> None:
        for symbol in row:
            self.items += across(symbol, x_mm, y)
            x_mm += _length(symbol)

    def _ways(self, block: _Block, bar: float, end: float, y: float, rows: Sequence[Way | str]) -> None:
        """The rows right of a bar."""
        for row in rows:
            if isinstance(row, Way):
                self._load(row, bar, end, y)
            elif row == "apart":
                self.items.append(level(bar, bar + 5.0, y))
                self.items += across(symbols.load(), bar + 5.0, y)
                self.items += word(
                    bar + 15.0, y + 0.9, say("single.apart", count=len(block.loads)), end - bar - 15
                )
            else:
                self._board_surge(block.name, bar, end, y)
            y += _RIGHT_MM

    def _load(self, way: Way, bar: float, end: float, y: float) -> None:
        said = self.said
        leaf, gear = end - 30.0, bar + 17.5
        circuit = self.house.circuit_of_run.get(way.along[0])
        run = way.along[0]
        words = ""
        series: list[Symbol] = []
        if circuit is not None:
            series, words = self._gear(circuit)
        self._in_series(series, bar, y)
        ends = bar + sum(map(_length, series))
        gear = max(gear, ends)
        self.items.append(level(ends, leaf - 5.0, y))
        name = _named_way(way)
        self.items += word(leaf - 5.5, y - CLEAR_MM, name, _room(name), anchor="end")
        self.items += above(bar + 1.0, y, (words,), leaf - bar - 8.5 - _room(name))
        self.items += below(gear + 1.0, y, (" ".join(said.cable(run)),), leaf - gear - 11.0)
        self.items += counted(leaf - 6.5, y, said.count(run))
        self.items += across(symbols.load(), leaf - 5.0, y)
        lines = self._load_words(way, circuit)
        first = y + 0.9 - LINE_MM * (len(lines) - 1) / 2
        for at, text in enumerate(lines):
            self.items += word(leaf + 4.0, first + LINE_MM * at, text, end - leaf - 4.0)

    def _load_words(self, way: Way, circuit: Circuit | None) -> list[str]:
        room = 25.5
        power = self.said.load(circuit.id) if circuit else ""
        names = ", ".join(load.name for load in circuit.loads) if circuit else ""
        what = " ".join(filter(None, (power, names if names != way.end else "")))
        return [*wrapped(way.end, SMALL_MM, room, lines=1), *wrapped(what, SMALL_MM, room, lines=2)]

    def _board_surge(self, board: str, bar: float, end: float, y: float) -> None:
        words = self.said.ac_surge(board)
        self.items.append(level(bar, bar + 5.0, y))
        if words != UNKNOWN:
            self.items += across(symbols.surge_protective_device(), bar + 5.0, y)
            self.items += earthed(bar + 20.0, y)
        text = bar + (8.0 if words == UNKNOWN else 30.0)
        self.items += word(text, y + 0.9, say("single.surge", what=words), end - text)

    def _earth(self, start: float, end: float, y: float) -> None:
        """The main earthing terminal in its board, and the way to the electrode."""
        stop = end - 36.0
        self.items.append(level(start, stop, y, "protective", MEDIUM))
        self.items += earthed(stop, y)
        self.items += above(
            start + 1.0, y, (say("single.met", board=self.main_board or UNKNOWN),), stop - start - 2.0
        )
        if "earthing" in self.said.leads:
            part, cores = self.said.cable("earthing")
            self.items += below(start + 1.0, y, (f"{part} {cores}",), stop - start - 2.0)
        for at, text in enumerate(self._electrode()):
            self.items += word(stop + 9.0, y - 0.6 + 3.2 * at, text, end - stop - 9.0)

    def _electrode(self) -> tuple[str, str]:
        electrode = self.house.job.earth.electrode
        if isinstance(electrode, Unknown):
            return say("single.electrode", kind=self.said.fact(electrode)), ""
        if electrode == "none":
            return "", ""
        ohm = self.said.fact(electrode.resistance_ohm, "Ω")
        return say("single.electrode", kind=electrode.kind), ohm

    # Notes and further sheets

    def _contacts(self, device: str) -> list[str]:
        """In which switch positions the contacts and the link of a device are closed."""
        topology = self.house.topology
        there = topology.positions
        found: dict[str, str] = {}
        for link in topology.links:
            if link.by.startswith("contact/") and thing(link.by[8:]) == device:
                closed = ", ".join(each for each in there if each in link.line) or say("single.never")
                name = say("single.contact", a=link.a.partition(".")[2], b=link.b.partition(".")[2])
                found[link.by] = say("single.closed", what=name, positions=closed)
        for bond in topology.bonds:
            if bond.by.partition("/")[2].partition(".")[0] == device and not bond.by.startswith("run"):
                closed = ", ".join(each for each in there if each in bond.contact.closed) or say(
                    "single.never"
                )
                if bond.contact.unsure:
                    closed = UNKNOWN
                    self.said.asks[bond.contact.ask] = None
                found[bond.by + "/n"] = say("single.closed", what=say("single.bond"), positions=closed)
        return list(found.values())

    def _notes(self) -> list[tuple[str, list[str]]]:
        inverters = [device.id for device in self.house.job.devices if device.kind == "inverter"]
        positions = [f"{name}: {text}" for name in inverters for text in self._contacts(name)]
        return [(say("single.positions"), positions), (say("drawn.marks"), self.said.notes())]

    def _further(self, blocks: Sequence[_Block]) -> list[list[Item]]:
        """The circuits of boards that have their own sheets, in two columns."""
        made = self._frame(1, 1)
        top, bottom = _on_grid(made.area.top_mm + _GAP_MM), made.area.bottom_mm - 5.0
        middle = self.page.width_mm / 2
        columns = ((_on_grid(15.0), middle - 4.0), (_on_grid(middle + 4.0), self.page.width_mm - 12.0))
        overview, pages = self.items, []
        self.items = []
        column, y = 0, top
        for block in blocks:
            left = list(block.loads)
            while left:
                room = int((bottom - y - _HEAD_MM) // _RIGHT_MM)
                if room < min(len(left), 2):
                    column, y = column + 1, top
                    if column == 2:
                        pages.append(self.items)
                        self.items, column = [], 0
                    continue
                bar, end = columns[column]
                here, left = left[:room], left[room:]
                height = _HEAD_MM + _RIGHT_MM * len(here)
                self.items.append(line((bar, y + 1.5), (bar, y + height), pen=_BAR, layer="device"))
                self.items += word(bar + 2.0, y + 4.8, block.name, 60.0, NAME_MM, bold=True)
                self._ways(block, bar, end, _on_grid(y + _HEAD_MM + 5.0), here)
                y = _on_grid(y + height + 2 * _GAP_MM)
        if self.items:
            pages.append(self.items)
        self.items = overview
        return pages


def _named_way(way: Way) -> str:
    return " – ".join(way.along)


def _room(name: str) -> float:
    """What the name of a run may take beside the words for its protection."""
    return min(22.0, width_mm(plain(name), SMALL_MM) + 0.1) if name else 0.0


def _length(symbol: Symbol) -> float:
    """How long it is along a line."""
    return max(port.at.y_mm for port in symbol.ports.values())


def _on_grid(at_mm: float) -> float:
    return round(at_mm / GRID_MM) * GRID_MM
