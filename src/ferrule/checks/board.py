"""What a board bears: its busbars, its residual current device, and the order of the devices before it."""

from ferrule.checks.feeding import feeds, most_fed_in_a
from ferrule.checks.protection import protector
from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import boards
from ferrule.clauses import Code
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.design import Design
from ferrule.fact import known


def busbar(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A board fed from two sides carries both at once (BS EN 61439-3 and regulation 551.7.2 of BS 7671)."""
    house, t = design.house, code.trace()
    own = {circuit.run for circuit in house.boards[subject.id].circuits}
    inside = [feed for feed in feeds(design) if own & set(feed.runs)]
    if not inside:
        return None
    added_a = most_fed_in_a(design, inside, t)
    upstream_a = t.given("upstream_a", _upstream_a(design, subject.id), "device that feeds the board")
    return at_most(
        "busbar",
        "What feeds the board lets {upstream_a} through and the inverters add {added_a}, together {value}; "
        "its busbars carry {limit}",
        t,
        value=upstream_a + added_a,
        limit=known(house.boards[subject.id].rating_a),
        unit="A",
        mend="land the inverters on a board of their own, or fit busbars of a higher rating",
        upstream_a=upstream_a,
        added_a=added_a,
    )


def board_rcd(design: Design, code: Code, subject: Subject) -> Constraint | None:
    rcd = design.house.boards[subject.id].rcd
    if rcd is None or subject.id not in design.house.feeding["grid"]:
        return None
    return at_least(
        "board_rcd",
        "The board's RCD carries {value}; what feeds the board lets {limit} through",
        code.trace(),
        value=rcd.rating_a,
        limit=_upstream_a(design, subject.id),
        unit="A",
        mend="fit an RCD of a higher rated current",
    )


def order(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A device larger than the one before it never acts first."""
    board = design.house.boards[subject.id]
    if subject.id not in design.house.feeding["grid"] or not board.circuits:
        return None
    largest = max(board.circuits, key=lambda circuit: design.rating_a(circuit.id))
    return at_most(
        "order",
        "The device of {circuit} is rated {value}; the one before it, rated {limit}, should not be smaller",
        code.trace(),
        value=design.rating_a(largest.id),
        limit=_upstream_a(design, subject.id),
        unit="A",
        binding=False,
        circuit=largest.id,
    )


def _upstream_a(design: Design, board: str) -> float:
    """Rated current of the device that feeds a board: a circuit's, or the main fuse."""
    house = design.house
    found = protector(house, (house.upstream(board) or ("",))[-1])
    circuit = found and found.circuit
    return design.rating_a(circuit.id) if circuit else known(house.job.supply.main_fuse).rating_a


QUESTIONS = (
    Question(
        "board.ratings",
        "Does the board bear what feeds it?",
        boards,
        each(busbar, board_rcd, order),
    ),
)
