"""The signal buses: each as one line with its devices in order, pin by pin; and the dry contacts."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from ferrule.answering import Answer
from ferrule.checks.wired import wired
from ferrule.display import number, quantity
from ferrule.fact import Unknown, known
from ferrule.job.bus import Bus, BusLink, BusNode, PowerBeside, SignalContact
from ferrule.parts.port import PortBias
from ferrule.sheets import symbols
from ferrule.sheets.framed import frame_of, framed
from ferrule.sheets.said import UNKNOWN, Said
from ferrule.sheets.scene import (
    FINE,
    HEAVY,
    MEDIUM,
    SMALL_MM,
    TEXT_MM,
    Box,
    Item,
    Placing,
    Rectangle,
    Scene,
    line,
)
from ferrule.sheets.strokes import CLEAR_MM, LINE_MM, across, level, noted, word
from ferrule.sheets.texts import say
from ferrule.sheets.words import wrapped
from ferrule.wiring.bus import Line

_BOX_MM, _PITCH_MM, _ROW_MM, _TITLE_MM = 38.0, 62.5, 5.0, 10.5
_ACROSS = 4
"""Devices beside each other on a sheet."""
_CONTACT_MM = 19.0


class _Chain(NamedTuple):
    """Ports one after the other; the first may be drawn elsewhere already."""

    ports: tuple[str, ...]
    goes_on: bool


class _Piece(NamedTuple):
    """Something as wide as the sheet, drawn from its top left, and its height in mm."""

    height_mm: float
    items: tuple[Item, ...]


def bus_diagram(result: Answer) -> tuple[Scene, ...]:
    """As many sheets as the buses and contacts of a house need; none where it has neither."""
    said = Said(result)
    pieces = [
        *(piece for bus in said.house.buses.values() for piece in _Drawn(said, bus).pieces()),
        *_contacts(said),
    ]
    if not pieces:
        return ()
    title = say("bus.title")
    area = frame_of(result, title).area
    top, left = area.top_mm + 3.0, area.left_mm + 4.0
    sheets: list[list[Item]] = [[]]
    y = top
    for piece in pieces:
        if y + piece.height_mm > area.bottom_mm and sheets[-1]:
            sheets.append([])
            y = top
        sheets[-1] += (item.placed(Placing(left, y)) for item in piece.items)
        y += piece.height_mm
    made = frame_of(result, title)
    notes = noted(
        Box(left, made.block.top_mm + 2.0, made.block.left_mm - 4.0, made.outline.bottom_mm - 2.0),
        [(say("drawn.marks"), [*said.notes(), say("bus.polarity"), say("bus.beside_note")])],
    )
    sheets[0] += notes.items
    return tuple(
        framed(
            frame_of(result, title, number=at + 1, of=len(sheets)), items, title,
            description=say("bus.description", job=result.loaded.job.name),
        )
        for at, items in enumerate(sheets)
    )  # fmt: skip


def chains(shape: Line) -> Iterator[_Chain]:
    """A line from one of its ends to the other, then its branches, each cut into what stands side by side."""
    starts: list[tuple[str | None, str]] = [(None, shape.ends[0])]
    seen: set[str] = set()
    while starts:
        before, port = starts.pop(0)
        chain = [port] if before is None else [before, port]
        seen |= {port}
        while ahead := [each for each in shape.neighbours[chain[-1]] if each not in seen]:
            starts += [(chain[-1], each) for each in ahead[1:]]
            seen |= set(ahead)
            chain.append(ahead[0])
        first = before is not None
        while chain:
            yield _Chain(tuple(chain[:_ACROSS]), first)
            chain, first = (chain[_ACROSS - 1 :] if len(chain) > _ACROSS else []), True


class _Drawn:
    """One bus."""

    def __init__(self, said: Said, bus: Bus) -> None:
        self.said, self.bus, self.house = said, bus, said.house
        self.nodes: dict[str, BusNode] = {node.port: node for node in bus.nodes}
        self.shape = self.house.lines[bus.id]
        pair = ("plus", "minus") if bus.kind == "rs485" else ("high", "low")
        self.screened = getattr(self.house.parts[bus.cable], "screened", None) is True
        self.rows = (
            *pair,
            *(["reference"] if bus.reference is not False else []),
            *(["screen"] if self.screened else []),
        )
        self.terminators = said.words(lambda: " ".join(said.design.terminators(bus.id)))
        serial = bus.kind == "rs485"
        self.bias = said.words(lambda: " ".join(said.design.bus_bias(bus.id))) if serial else ""
        self.chosen = said.star(("terminators",), bus.id)
        self.chosen_bias = said.star(("bus_bias",), bus.id)

    def pieces(self) -> Iterator[_Piece]:
        for at, chain in enumerate(chains(self.shape)):
            head = tuple(self._head()) if at == 0 else ()
            top = 11.0 if head else 3.0
            yield _Piece(top + self.box_mm + 4 * LINE_MM + 3.0, (*head, *self._chain(chain, top)))

    @property
    def box_mm(self) -> float:
        return _TITLE_MM + _ROW_MM * len(self.rows)

    def _head(self) -> Iterator[Item]:
        bus, said = self.bus, self.said
        kind = say("bus.serial") if bus.kind == "rs485" else say("bus.can")
        yield from word(0.0, 3.0, f"{bus.id}: {kind}", 120.0, TEXT_MM, bold=True)
        facts = [said.fact(bus.protocol), said.fact(bus.speed_bit_per_s, "bit/s")]
        if bus.kind == "rs485":
            facts += [
                say("bus.parity", what=said.fact(bus.parity)),
                say("bus.client", what=said.fact(bus.client)),
            ]
        facts.append(say("bus.cable", what=self._cable()))
        if isinstance(bus.reference, Unknown):
            facts.append(say("bus.reference", what=said.fact(bus.reference)))
        yield from word(0.0, 7.0, "; ".join(facts), 268.0)

    def _cable(self) -> str:
        part = self.said.design.signal_cable(self.bus.id)
        core = self.said.words(lambda: str(known(part.core)))
        return f"{self.bus.cable}, {self.said.fact(part.pairs)} × 2 × {core}"

    def _chain(self, chain: _Chain, top: float) -> Iterator[Item]:
        for at, port in enumerate(chain.ports):
            left = 8.0 + _PITCH_MM * at
            elsewhere = chain.goes_on and at == 0
            yield from self._node(port, left, top, elsewhere=elsewhere)
            if not elsewhere and port in self.shape.ends and self._terminated(port):
                free = at == 0
                yield from self._resistor(left if free else left + _BOX_MM, top, left=free)
        for at, (one, other) in enumerate(pairwise(chain.ports)):
            start = 8.0 + _PITCH_MM * at + _BOX_MM
            yield from self._link(one, other, start, 8.0 + _PITCH_MM * (at + 1), top)

    def _terminated(self, port: str) -> bool:
        built_in = self.house.ports[port].terminator == "built-in"
        return built_in or port in self.terminators.split()

    # A device

    def _node(self, port: str, left: float, top: float, *, elsewhere: bool) -> Iterator[Item]:
        box = Box(left, top, left + _BOX_MM, top + self.box_mm)
        yield Rectangle(box, FINE.dash() if elsewhere else MEDIUM)
        room = _BOX_MM - 3.0
        yield from word(left + 1.5, top + 4.0, port, room, TEXT_MM, bold=True)
        told = say("bus.above") if elsewhere else self._role(port)
        yield from word(left + 1.5, top + 7.6, told, room)
        for at, row in enumerate(self.rows):
            y = self._y(top, at)
            yield from word(box.middle.x_mm, y + 0.9, self._terminal(port, row), room - 2.0, anchor="middle")
        if not elsewhere:
            for at, text in enumerate(self._below(port)):
                yield from word(left + 1.5, box.bottom_mm + 3.2 + LINE_MM * at, text, _PITCH_MM - 6.0)

    def _role(self, port: str) -> str:
        if self.bus.kind == "can":
            return ""
        if port == self.bus.client:
            return say("bus.asks")
        return say("bus.address", what=self.said.fact(self.nodes[port].address))

    def _terminal(self, port: str, row: str) -> str:
        """The mark of the terminal on which a row lands, and its pin where it is a plug."""
        part, node = self.house.ports[port], self.nodes[port]
        mark = row
        if self.bus.kind == "rs485" and row in {"plus", "minus"}:
            marks = [part.plus, part.minus]
            first = node.first_core
            if isinstance(first, Unknown) or any(isinstance(each, Unknown) for each in marks):
                asks = [each.ask for each in (first, *marks) if isinstance(each, Unknown)]
                self.said.asks.update(dict.fromkeys(asks))
                return UNKNOWN
            own = first if row == "plus" else next(each for each in marks if each != first)
            sign = "+" if own == part.plus else "−"
            mark = f"{own}  ({sign})" if own not in {"+", "-"} else str(own)
        if row == "screen":
            return self._screen(port)
        if row == "reference" and part.reference is False:
            return say("bus.no_terminal")
        device, _, name = port.partition(".")
        block = wired(self.said.design).block(device, name)
        if block is not None and block.pins and row in block.poles:
            return say("bus.pin", mark=mark, pin=block.pins[block.poles.index(row)])
        return mark

    def _screen(self, port: str) -> str:
        """What is done with the cable's screen at a port."""
        if isinstance(self.bus.screen, Unknown):
            self.said.asks[self.bus.screen.ask] = None
            return say("bus.screen", what=UNKNOWN)
        if port in self.bus.screen:
            return say("bus.earthed")
        return say("bus.through") if len(self.shape.neighbours[port]) > 1 else say("bus.cut_back")

    def _below(self, port: str) -> list[str]:
        """What is set or fitted at a port."""
        part, tap = self.house.ports[port], self.nodes[port].tap_m
        texts = [say("bus.terminator", what=self._terminator(port))]
        if isinstance(part.bias, PortBias):
            texts.append(say("bus.bias", what=self._bias(port, part.bias)))
        elif self.bus.kind == "rs485" and isinstance(part.bias, Unknown):
            texts.append(say("bus.bias", what=self.said.fact(part.bias)))
        if tap is not None:
            texts.append(say("bus.tap", length=self.said.length(tap)))
        return texts

    def _terminator(self, port: str) -> str:
        kind = self.house.ports[port].terminator
        ohm = self.house.ports[port].terminator_of_ohm
        size = f", {quantity(ohm, 'Ω')}" if ohm is not None else ""
        if kind == "built-in":
            return say("bus.built_in") + size
        if self.terminators == UNKNOWN:
            return UNKNOWN
        if port in self.terminators.split():
            fitted = say("bus.fitted") if kind == "none" else say("bus.on")
            return fitted + size + self.chosen
        return self.said.fact(kind) if isinstance(kind, Unknown) else say("bus.off")

    def _bias(self, port: str, bias: PortBias) -> str:
        values = (
            f"{quantity(bias.up_ohm, 'Ω')} / {quantity(bias.down_ohm, 'Ω')}, {quantity(bias.supply_v, 'V')}"
        )
        if not bias.switchable:
            return say("bus.biased", star="", values=values)
        if self.bias == UNKNOWN:
            return UNKNOWN
        return (
            say("bus.biased", star=self.chosen_bias, values=values)
            if port in self.bias.split()
            else say("bus.off")
        )

    # Between devices

    def _y(self, top: float, row: int) -> float:
        return top + _TITLE_MM + _ROW_MM * (row + 0.5) - 1.0

    def _link(self, one: str, other: str, start: float, end: float, top: float) -> Iterator[Item]:
        link = next(each for each in self.bus.links if {each.start, each.end} == {one, other})
        middle, room = (start + end) / 2, end - start - 2.0
        for at, row in enumerate(self.rows):
            y = self._y(top, at)
            if row == "screen":
                yield line((start + 2.5, y), (end - 2.5, y), pen=FINE.dash(), layer="signal")
                for x, port, edge in ((start + 2.5, one, start), (end - 2.5, other, end)):
                    if isinstance(self.bus.screen, list) and port in self.bus.screen:
                        yield line((edge, y), (x, y), pen=FINE, layer="signal")
                    elif len(self.shape.neighbours[port]) > 1:
                        yield line((edge, y), (x, y), pen=FINE.dash(), layer="signal")
            else:
                yield level(start, end, y, "signal", HEAVY)
        pair = (item.placed(Placing(middle + 6.0, self._y(top, 0), 1)) for item in symbols.twisted(_ROW_MM))
        yield from pair
        yield from word(middle, top + 2.5, self.said.length(link.length_m), room, anchor="middle")
        yield from word(middle, top + 5.8, self._power(link), room, anchor="middle")
        names = (say("bus.core", number=1), say("bus.core", number=2)) if self.bus.kind == "rs485" else ()
        for at, name in enumerate(names):
            yield from word(start + 2.0, self._y(top, at) - 1.1, name, 9.0)

    def _power(self, link: BusLink) -> str:
        """The power cable beside it."""
        if isinstance(link.power, PowerBeside):
            return say(
                "bus.beside", distance=f"{number(link.power.distance_mm)} mm",
                voltage=quantity(link.power.voltage_v, "V"),
            )  # fmt: skip
        return "" if link.power == "apart" else say("bus.power", what=self.said.fact(link.power))

    def _resistor(self, edge: float, top: float, *, left: bool) -> Iterator[Item]:
        """A terminator between the two wires, at the free side of an end."""
        x = edge - 4.0 if left else edge + 4.0
        y, y2 = self._y(top, 0), self._y(top, 1)
        yield line((edge, y), (x, y), (x, y + 0.75), layer="signal")
        yield Rectangle(Box(x - 1.0, y + 0.75, x + 1.0, y2 - 0.75))
        yield line((edge, y2), (x, y2), (x, y2 - 0.75), layer="signal")


# Contacts


def _contacts(said: Said) -> Iterator[_Piece]:
    """Two beside each other."""
    contacts = list(said.house.signal_contacts.values())
    for at in range(0, len(contacts), 2):
        head = word(0.0, 3.0, say("bus.contacts"), 120.0, TEXT_MM, bold=True) if at == 0 else ()
        top = 6.0 if at == 0 else 1.0
        pair = contacts[at : at + 2]
        items = (item for n, each in enumerate(pair) for item in _contact(said, each, 4.0 + 136.0 * n, top))
        yield _Piece(top + _CONTACT_MM, (*head, *items))


def _contact(said: Said, contact: SignalContact, left: float, top: float) -> Iterator[Item]:
    own = said.house.contacts.get(contact.start)
    acts = own.acts_on if own is not None else contact.acts_on
    there = said.house.contacts[contact.end]
    ends = (
        (left, contact.start, say("bus.acts", what=said.fact(acts)) if own or acts else ""),
        (left + 88.0, contact.end, say("bus.wants", what=said.fact(there.acts_on), use=there.use)),
    )
    y, y2 = top + 4.0, top + 9.0
    for x, name, told in ends:
        yield Rectangle(Box(x, top, x + 38.0, top + 13.0))
        lines = wrapped(name, SMALL_MM, 35.0, lines=1, bold=True)
        yield from word(x + 1.5, top + 3.8, lines[0] if lines else "", 35.0, bold=True)
        for at, text in enumerate(wrapped(told, SMALL_MM, 35.0, lines=2)):
            yield from word(x + 1.5, top + 7.4 + LINE_MM * at, text, 35.0)
    symbol = symbols.break_contact() if acts == "opening" else symbols.switch()
    start, end = left + 38.0, left + 88.0
    if isinstance(acts, Unknown):
        yield level(start, end, y, "signal")
    else:
        yield from across(symbol, start, y)
        yield level(start + 15.0, end, y, "signal")
    yield level(start, end, y2 + 1.0, "signal")
    dry = said.fact(contact.dry)
    what = {"yes": say("bus.dry"), "no": say("bus.not_dry")}.get(dry, say("bus.dry") + f" {dry}")
    yield from word(start + 17.0, y - CLEAR_MM + 0.6, f"{contact.id}, {what}", 32.0)
    cable = said.fact(contact.cable)
    yield from word(start + 17.0, y + 3.4, f"{cable}, {said.length(contact.length_m)}", 32.0)
