"""What a contact does that is welded shut or stuck open, and whether anything notices."""

from collections.abc import Iterator

from ferrule.checks.neutral_earth import SEPARATED
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import contacts
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict, is_so
from ferrule.design import Design
from ferrule.fact import known
from ferrule.job.devices import ChangeoverDevice, GeneratorDevice
from ferrule.wiring.topology import ALWAYS, NEVER, Position, Positions, Topology


def stuck_closed(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """In every position in which it should be open."""
    yield from _stuck(design, code, subject, ALWAYS, "Welded shut")


def stuck_open(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """In every position in which it should be closed."""
    yield from _stuck(design, code, subject, NEVER, "Stuck open")


def _stuck(design: Design, code: Code, subject: Subject, state: Positions, what: str) -> Iterator[Constraint]:
    by = f"contact/{subject.id}"
    harmless = True
    stuck = design.house.topology.stuck(by, state)
    for position in sorted(_wrong_positions(design.house.topology, by, state)):
        harm = _harm(design, code, stuck, position)
        if harm:
            harmless = False
            noticed, notice = _noticed(design, subject.id.partition(".")[0], bool(state))
            yield is_so(
                "stuck_closed" if state else "stuck_open",
                f"{what} in position {{position}}, {harm}; " + notice,
                code.trace(),
                noticed,
                binding=False,
                mend="take a device that checks {contact} before it connects, or test the contact every year",
                contact=subject.id,
                position=position,
            )
    if harmless:
        yield is_so(
            "stuck_closed" if state else "stuck_open",
            f"{what}, it leaves neutral and earth as they must be",
            code.trace(),
            True,
        )


def _wrong_positions(topology: Topology, by: str, state: Positions) -> Iterator[Position]:
    """The steady positions in which the contact should not be as it is."""
    for position in topology.positions:
        closed = [position in link.line for link in topology.links if link.by == by]
        closed += [bond.contact.joins(position) for bond in topology.bonds if bond.by == by]
        if position != "transit" and closed[0] is not bool(state):
            yield position


def _harm(design: Design, code: Code, stuck: Topology, position: Position) -> str:
    """What is wrong then, as the end of a sentence; empty where nothing is."""
    earthing = known(design.house.job.supply.earthing)
    wrong = []
    for zone in stuck.zones(position):
        closed = len(stuck.closed_bonds(zone, position))
        judged = covered(code.procedures.neutral_earth).bonds(
            code.rulebook, position=position, earthing=earthing, closed=closed
        )
        if any(constraint.verdict > Verdict.PASS for constraint in judged):
            wrong.append(f"{closed} neutral-earth {'bond is' if closed == 1 else 'bonds are'} closed")
    if position in SEPARATED and "supply" in stuck.joined(stuck.sources[position], "line", position):
        wrong.append("the network is fed from the house")
    return " and ".join(dict.fromkeys(wrong))


def _noticed(design: Design, device: str, closed: bool) -> tuple[bool, str]:
    """Whether a contact that sticks is noticed, and how. Raises `Missing`."""
    owner = design.house.devices[device]
    if isinstance(owner, GeneratorDevice):
        if not closed:
            return True, "what it should feed stays dark"
        barred = known(owner.interlock) == "mechanical"
        return barred, "its interlock keeps the other side open" if barred else "nothing detects it"
    changeover = isinstance(owner, ChangeoverDevice)
    part = design.changeover(device) if changeover else design.backup_port(device)
    noticed = known(part.link_monitored)
    return noticed, "the device detects it" if noticed else "nothing detects it"


QUESTIONS = (
    Question(
        "earth.stuck_contact",
        "Does anything notice when this contact sticks?",
        contacts,
        each(stuck_closed, stuck_open),
    ),
)
