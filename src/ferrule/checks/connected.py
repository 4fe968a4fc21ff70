"""Whether every board and inverter hangs on something: what is cut off can be asked nothing else."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.clauses import Code
from ferrule.constraint import Constraint
from ferrule.design import Design
from ferrule.fact import Missing


def boards_and_inverters(design: Design) -> Iterator[Subject]:
    yield from (Subject("board", board.id) for board in design.house.job.boards)
    yield from (Subject("inverter", d.id) for d in design.house.job.devices if d.kind == "inverter")


def joined(design: Design, _code: Code, subject: Subject) -> Constraint | None:
    """Makes no finding where a line leads to it in any switch position."""
    ports = ("",) if subject.kind == "board" else (".grid", ".backup")
    topology = design.house.topology
    for position in topology.positions:
        if position == "transit":  # nothing feeds the house then
            continue
        fed = topology.joined(topology.sources[position], "line", position)
        if any(f"{subject.id}{port}" in fed for port in ports):
            return None
    raise Missing(f"what feeds {subject.id}: no run joins it to the supply or to an inverter")


QUESTIONS = (
    Question(
        "supply.connected",
        "Is it joined to anything that feeds it?",
        boards_and_inverters,
        each(joined),
    ),
)
