"""The ends of every lead: what is threaded on first, what to strip, what to press on, where each core lands.

What the maker of a device says comes first; where it is silent on a sleeve's length, a lug's die or a gland,
the rulebook's usual one stands. Strip lengths and torques are the maker's own: an unknown one stays unknown.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from ferrule.answering import Answer
from ferrule.checks.wired import Wired, prepared, thickness_mm, wired
from ferrule.clauses.procedures import CableEnds, covered
from ferrule.clauses.procedures.ends import CableBend, Gland
from ferrule.design import House
from ferrule.fact import Fact, Missing, Unknown, known
from ferrule.parts import SignalCable
from ferrule.parts.terminals import PLUGGED, TIGHTENED, Entry, TerminalBlock
from ferrule.quantity import Size
from ferrule.sheets.schedule import BOUGHT, cable_of, conductor, fact, place_of_end
from ferrule.wiring.terminal import Core, Lead, Role, Terminal
from ferrule.working import NotPrinted, Trace

Kind = Literal["sleeve", "twin", "lug", "ring", "contact", "plug", "bare", "insulated", "joint", "made"]
Sheath = Literal["device", "core", "made"]

#: things on which a lead of these roles enters by a gland of its own
_GLANDED: frozenset[Role] = frozenset({"ac", "bus", "contact", "battery"})
_NO_LUG = "no lug or ring terminal is usual for {size} on {bolt}: see the maker's sheet"


class Piece(NamedTuple):
    """What goes onto a core: a sleeve with its length and its colours by system; a lug with bolt, die, hole
    and heat-shrink, and its usual `barrel_mm` where the device's sheet says something else; an insulated
    ring by its colours; a contact of a family of plugs. Or nothing (`bare`); or it is cut back
    (`insulated`), joined through (`joint`), or comes with its end made up (`made`).
    """

    kind: Kind
    length_mm: float | None = None
    colours: tuple[tuple[str, str], ...] = ()
    bolt: str = ""
    die: int | None = None
    hole_mm: float | None = None
    barrel_mm: tuple[float, float] | None = None
    shrink_mm: float | None = None
    family: str = ""


class CoreEnd(NamedTuple):
    """One core at one end of its lead. `lands` is empty where it ends there unused. None: nothing to do."""

    core: str
    colour: str
    size: Fact[Size] | None
    lands: str
    pin: int | None
    piece: Fact[Piece]
    strip_mm: Fact[float] | None
    torque_n_m: Fact[float] | None
    tool: Fact[str] | None


class End(NamedTuple):
    """One end of a lead. `threads` is what goes over the cable before it is stripped, the outermost first;
    `entry` the maker's own way in, else `gland` the usual one. `sheath` says how the outer strip is found: by
    the device (from its entry to the farthest terminal), not at all where cores have no sheath, or made up.
    """

    lead: str
    side: Literal["start", "end"]
    at: str
    place: str
    cable: str
    threads: tuple[str, ...]
    entry: Entry | None
    gland: Fact[Gland] | None
    thickness_mm: Fact[float] | None
    sheath: Sheath
    bend_laying_mm: Fact[float] | None
    bend_fixed_mm: Fact[float] | None
    cores: tuple[CoreEnd, ...]
    find_out: tuple[str, ...]


def ends(answer: Answer) -> list[End]:
    """Both ends of every lead but those bought with their plugs on, in the order of the cable schedule."""
    leads = (lead for lead in wired(answer.design).leads.values() if lead.role not in BOUGHT)
    return [_End(answer, lead, side).end() for lead in leads for side in ("start", "end")]


class _End:
    """One end of one lead, with what its preparation turns on."""

    def __init__(self, answer: Answer, lead: Lead, side: Literal["start", "end"]) -> None:
        self.answer, self.lead, self.side = answer, lead, side
        self.house: House = answer.design.house
        self.wired: Wired = wired(answer.design)
        self.at = lead.places[0 if side == "start" else 1]

    def end(self) -> End:
        entry, cores = self._entry(), tuple(self._core(core) for core in self.lead.cores)
        outer_mm = self._thickness_mm()
        gland = None if entry or self._is_made or not self._glanded else fact(lambda: self._gland(outer_mm))
        return End(
            self.lead.id, self.side, self.at, place_of_end(self.house, self.at),
            cable_of(self.answer, self.lead), self._threads(), entry, gland, outer_mm, self._sheath(),
            self._bend_mm(outer_mm, laying=True), self._bend_mm(outer_mm, laying=False), cores,
            tuple(dict.fromkeys((*self.lead.asks, *self._asks(cores)))),
        )  # fmt: skip

    @property
    def _is_made(self) -> bool:
        """A transformer comes fixed to its lead."""
        return self.lead.role == "transformer" and self.side == "start"

    @property
    def _is_ours(self) -> bool:
        return self.at in self.house.devices or self.at in self.house.boards

    @property
    def _glanded(self) -> bool:
        return self.lead.role in _GLANDED and (self._is_ours or self.at.endswith("-box"))

    def _lands(self, core: Core) -> Terminal | None:
        return core.start if self.side == "start" else core.end

    def _block(self, core: Core) -> TerminalBlock | None:
        at = self._lands(core)
        return self.wired.block(at.device, at.port) if at else None

    def _blocks(self) -> list[TerminalBlock]:
        found = (self._block(core) for core in self.lead.cores)
        return [block for block in found if block]

    def _entry(self) -> Entry | None:
        return next((block.entry for block in self._blocks() if block.entry), None)

    def _threads(self) -> tuple[str, ...]:
        return next((tuple(block.order) for block in self._blocks() if block.order), ())

    def _sheath(self) -> Sheath:
        if self._is_made:
            return "made"
        part = self.house.parts.get(self.lead.part)
        sheathed = isinstance(part, SignalCable) or getattr(part, "build", "") == "multicore"
        return "device" if sheathed or self.lead.role in {"contact", "transformer"} else "core"

    def _thickness_mm(self) -> Fact[float] | None:
        if not self.lead.cores or self.lead.part not in self.house.parts:
            return None
        design, code, lead = self.answer.design, self.answer.code, self.lead
        return fact(lambda: max(thickness_mm(design, code, lead, core) for core in lead.cores))

    # The rulebook's part of it

    def _rules(self) -> tuple[CableEnds, Trace]:
        return covered(self.answer.code.procedures.cable_ends), self.answer.code.trace()

    def _gland(self, outer_mm: Fact[float] | None) -> Gland:
        rules, t = self._rules()
        if outer_mm is None:
            raise Missing(f"how thick {self.lead.id} is")
        return rules.gland(t, outer_least_mm=known(outer_mm), outer_most_mm=known(outer_mm))

    def _bend_mm(self, outer_mm: Fact[float] | None, *, laying: bool) -> Fact[float] | None:
        if outer_mm is None:
            return None

        def radius_mm() -> float:
            rules, t = self._rules()
            return rules.bend_radius_mm(t, cable=self._bends(), outer_mm=known(outer_mm), laying=laying)

        return fact(radius_mm)

    def _bends(self) -> CableBend:
        if self.lead.role == "pv":
            return "solar"
        if any(block.kind == "rj45" for block in self._blocks()):
            return "data"
        screened = getattr(self.house.parts.get(self.lead.part), "screened", False)
        return "screened" if screened is True else "plain"

    # Core by core

    def _core(self, core: Core) -> CoreEnd:
        at, block = self._lands(core), self._block(core)
        told = conductor(self.answer, self.lead, core)
        if at is None:
            return self._untouched(core, "insulated")
        if self._is_made:
            return self._untouched(core, "made")
        if at.port.endswith("joint"):
            return self._untouched(core, "joint")
        piece = fact(lambda: self._piece(core, at, block))
        pin = (
            block.pins[block.poles.index(at.pole)]
            if block and block.pins and at.pole in block.poles
            else None
        )
        return CoreEnd(
            core.name, told.colour, told.size, str(at), pin, piece,
            self._strip_mm(core, block, piece), _torque_n_m(block),
            block.tool if block else Unknown(self._ask()),
        )  # fmt: skip

    def _untouched(self, core: Core, kind: Literal["insulated", "made", "joint"]) -> CoreEnd:
        told, at = conductor(self.answer, self.lead, core), self._lands(core)
        lands = str(at) if at else ""
        return CoreEnd(core.name, told.colour, told.size, lands, None, Piece(kind), None, None, None)

    def _ask(self) -> str:
        return f"how ends are prepared at {self.at}, from its maker's sheet"

    def _piece(self, core: Core, at: Terminal, block: TerminalBlock | None) -> Piece:
        if block is None:
            if self.lead.role == "pv" and self.at in self.house.strings:
                return Piece("contact")
            raise Missing(self._ask())
        if block.kind in PLUGGED:
            return Piece("plug")
        if block.kind == "dc-plug":
            return Piece("contact", family=block.mates or "")
        size = conductor(self.answer, self.lead, core).size
        wanted = known(size if size is not None else Unknown(self._ask()))
        if block.kind == "stud":
            return self._on_stud(wanted, block)
        if prepared(self.answer.design, block, self.lead) != "sleeved":
            return Piece("bare")
        return self._sleeve(wanted, at, block)

    def _sleeve(self, size: Size, at: Terminal, block: TerminalBlock) -> Piece:
        rules, t = self._rules()
        length_mm = block.sleeve_length_mm
        if length_mm is None:
            deep_mm = known(block.strip_mm)
            sold_mm = [each for each in rules.sleeve_lengths(t, area_mm2=size.area_mm2) if each <= deep_mm]
            if not sold_mm:
                raise Missing(f"the length of the sleeve for {at}, from its maker's sheet")
            length_mm = sold_mm[-1]
        sleeve = rules.sleeve(t, area_mm2=size.area_mm2, length_mm=length_mm, insulated=True)
        sharing = sum(each.terminal == at for each in self.wired.landed[at.device, at.port])
        alone = isinstance(block.conductors, Unknown) or sharing <= block.conductors
        return Piece(
            "sleeve" if alone else self._twin(rules, t, size, at, block, sharing), length_mm, sleeve.colours
        )

    def _twin(
        self, rules: CableEnds, t: Trace, size: Size, at: Terminal, block: TerminalBlock, sharing: int
    ) -> Literal["twin"]:
        if sharing == 2 and block.twin and rules.twin_sleeve(t, area_mm2=size.area_mm2):
            return "twin"
        raise Missing(
            f"how {sharing} conductors share {at}: its maker's sheet, or a terminal block before it"
        )

    def _on_stud(self, size: Size, block: TerminalBlock) -> Piece:
        rules, t = self._rules()
        if block.bolt is None:
            raise Missing(f"the bolt of {self.at}.{block.port}, from its sheet")
        bolt_mm = float(block.bolt.removeprefix("M"))
        try:
            lug = rules.lug(t, area_mm2=size.area_mm2, bolt_mm=bolt_mm)
        except NotPrinted:
            rings = rules.ring_colours(t, area_mm2=size.area_mm2, bolt_mm=bolt_mm)
            if not rings:
                raise Missing(_NO_LUG.format(size=size, bolt=block.bolt)) from None
            return Piece("ring", colours=tuple(("", each) for each in rings), bolt=block.bolt)
        barrel_mm = lug.strip_most_mm if isinstance(block.strip_mm, Unknown) else block.strip_mm
        shrink_mm = rules.shrink_mm(t, barrel_mm=barrel_mm)
        usual_mm = (lug.strip_least_mm, lug.strip_most_mm)
        odd = usual_mm if not usual_mm[0] <= barrel_mm <= usual_mm[1] else None
        return Piece(
            "lug", bolt=block.bolt, die=lug.die, hole_mm=lug.hole_mm, barrel_mm=odd, shrink_mm=shrink_mm
        )

    def _strip_mm(self, core: Core, block: TerminalBlock | None, piece: Fact[Piece]) -> Fact[float]:
        """A sleeve with its collar wants more bare conductor than the terminal alone."""
        if block is None:
            return Unknown(self._ask())
        if isinstance(piece, Piece) and piece.kind in {"sleeve", "twin"} and piece.length_mm is not None:
            rules, t = self._rules()
            size = conductor(self.answer, self.lead, core).size
            assert isinstance(size, Size)  # a sleeve was found for it
            return rules.sleeve(t, area_mm2=size.area_mm2, length_mm=piece.length_mm, insulated=True).strip_mm
        return block.strip_mm

    def _asks(self, cores: tuple[CoreEnd, ...]) -> Iterator[str]:
        """What is unknown of a device or board, and can hold the work up there."""
        if self._is_ours:
            for core, each in zip(self.lead.cores, cores, strict=True):
                block = self._block(core)
                facts: list[object] = [each.piece, each.strip_mm, each.tool]
                facts += [each.torque_n_m] if block and block.kind in TIGHTENED else []
                for asked in facts:
                    if isinstance(asked, Unknown):
                        yield asked.ask


def _torque_n_m(block: TerminalBlock | None) -> Fact[float] | None:
    """None where nothing is tightened: springs, and plugs that latch."""
    if block is None:
        return Unknown("torque, from the maker's sheet")
    if block.kind in TIGHTENED or block.kind in {"ac-plug", "multi-pin"}:
        return block.torque_n_m
    return None
