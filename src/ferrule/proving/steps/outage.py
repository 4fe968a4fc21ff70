"""The changeover proved: the network is opened, nothing feeds back, one link is closed, RCDs trip, and all
comes back as it was.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

from ferrule.checks.question import Subject
from ferrule.design import Island
from ferrule.fact import Unknown
from ferrule.job.boards import Board
from ferrule.proving.phrase import spot
from ferrule.proving.steps.plan import Plan, decided
from ferrule.proving.steps.step import Reading, Step

_CAUTIONS = ("caution.two_sources", "caution.island")


def steps(plan: Plan, before: Sequence[Step]) -> Iterator[Step]:
    running = [step.id for step in before if step.phase == "energise"]
    for island in plan.house.islands:
        yield from _island(plan, island, running)
    whole = Subject("installation", "house")
    back = [f"return/{island.inverters[0]}" for island in plan.house.islands]
    for device in plan.house.job.devices:
        if device.kind == "changeover" and "bypass" in plan.house.topology.positions:
            yield plan.step(
                "outage", "bypass", plan.subject(device.id), [*running, *back], gate="licensed",
                words=(("device", device.id),), cautions=_CAUTIONS,
                readings=[Reading(f"bypass/{device.id}", "reading.bypass", "V")],
            )  # fmt: skip
        if device.kind == "generator":
            yield plan.step(
                "outage", "generator", plan.subject(device.id), [*running, *back], gate="licensed",
                words=(("device", device.id),), cautions=_CAUTIONS,
                readings=[Reading(f"generator/{device.id}", "reading.generator", "V")],
            )  # fmt: skip
    for contact in plan.house.signal_contacts.values():
        yield plan.step(
            "outage", "act", Subject("signal", contact.id), [*running, *back], gate="licensed",
            words=(("contact", contact.id), ("start", contact.start), ("end", contact.end)),
            readings=[Reading(f"act/{contact.id}", "reading.act", "", (("contact", contact.id),))],
        )  # fmt: skip
    yield plan.step("outage", "restored", whole, [*running, *back], drawing="single-line")


def _island(plan: Plan, island: Island, running: list[str]) -> Iterator[Step]:
    lead, own = island.inverters[0], (("inverters", tuple(island.inverters)),)
    subject = plan.subject(lead)
    yield plan.step(
        "outage", "open", subject, running, words=own, gate="licensed", cautions=_CAUTIONS, readings=[
            Reading(f"island/{lead}/voltage", "reading.island_voltage", "V"),
            Reading(f"island/{lead}/frequency", "reading.frequency", "Hz"),
            Reading(f"island/{lead}/time", "reading.switch_over", "s"),
        ], tools=("tool.tester",), drawing="single-line",
    )  # fmt: skip
    poles = (*(line.name for line in plan.house.job.supply.live), "N", "PE")
    yield plan.step(
        "outage", "backfeed", subject, [f"open/{lead}"], at="meter", words=own, gate="dead",
        tools=("tool.tester", "tool.proving_unit"), cautions=_CAUTIONS, drawing="single-line",
        readings=[
            Reading(f"backfeed/{lead}/{a}-{b}", "reading.pair", "V",
                    (("terminal", spot("supply")), ("a", a), ("b", b)))
            for a, b in combinations(poles, 2)
        ],
    )  # fmt: skip
    yield plan.step(
        "outage", "bonded", subject, [f"backfeed/{lead}"], at="board", words=own, gate="licensed",
        tools=("tool.loop_tester",), cautions=_CAUTIONS, drawing="earthing",
        readings=[Reading(f"bonded/{lead}", "reading.neutral_earth", "V")],
    )  # fmt: skip
    boards = [board for board in plan.house.job.boards if board.id in island.terminals]
    for board in boards:
        yield _tripped(plan, board, lead)
    tripped = [f"trip/{board.id}" for board in boards]
    yield plan.step(
        "outage", "return", subject, [f"bonded/{lead}", *tripped], words=own, gate="licensed",
        cautions=_CAUTIONS, readings=[Reading(f"return/{lead}", "reading.return", "s")],
    )  # fmt: skip


def _tripped(plan: Plan, board: Board, lead: str) -> Step:
    """Its residual current devices tried in the island; without any, its loads alone."""
    devices = {circuit.id: decided(plan.design.rcd, circuit.id) for circuit in board.circuits}
    fitted = [circuit for circuit, rcd in devices.items() if rcd is not None and not isinstance(rcd, Unknown)]
    guarded = ([board.id] if board.rcd else []) + fitted
    return plan.step(
        "outage", "trip", Subject("board", board.id), [f"bonded/{lead}"], words=(("board", board.id),),
        tools=("tool.rcd_tester",), gate="licensed", cautions=_CAUTIONS, readings=[
            *(Reading(f"trip/{each}", "reading.trip", "ms", (("of", each),)) for each in guarded),
            Reading(f"loaded/{board.id}", "reading.loaded", "V", (("of", board.id),)),
        ],
    )  # fmt: skip
