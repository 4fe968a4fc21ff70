"""Power comes on: boards from the origin, then each inverter's sources in its own maker's order, each proved
before the next. Where the order is not known the inverter is not started.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

from ferrule.checks.question import Subject
from ferrule.checks.starting import order_of
from ferrule.fact import Unknown
from ferrule.parts import Inverter
from ferrule.proving.phrase import Word, Words, spot
from ferrule.proving.steps.plan import Plan, decided
from ferrule.proving.steps.step import Reading, Step

_READY = "ready/house"
_CAUTIONS = ("caution.first_power", "caution.two_sources")


def steps(plan: Plan, before: Sequence[Step]) -> Iterator[Step]:
    yield plan.step(
        "energise", "ready", Subject("installation", "house"), [step.id for step in before], gate="licensed",
        cautions=_CAUTIONS,
    )  # fmt: skip
    yield _live(plan, "supply", "supply", [_READY], at="meter")
    unlit = list(plan.house.boards)
    yield from _lit(plan, unlit, set())
    previous = ["live/supply"]
    started: set[str] = set()
    for inverter in plan.inverters:
        yield from _started(plan, inverter, previous)
        previous = [f"run/{inverter}"]
        started.add(inverter)
        yield from _lit(plan, unlit, started)
    yield from _talking(plan)
    yield from _metered(plan)
    yield _limited(plan)


# Boards


def _behind(plan: Plan, board: str) -> set[str]:
    """The inverters that have to run before a board can be live: those the network's way passes, or, where
    no network reaches it, all of them.
    """
    way = plan.house.feeding["grid"].get(board)
    if way is None:
        return set(plan.inverters)
    passed = {link.by.partition("/")[2].partition(".")[0] for link in way if link.by.startswith("contact/")}
    return passed & set(plan.inverters)


def _lit(plan: Plan, unlit: list[str], started: set[str]) -> Iterator[Step]:
    """The boards that can be live now, those nearest to the origin first; they are taken off the list."""
    ways = plan.house.feeding["grid"]
    now = [board for board in unlit if _behind(plan, board) <= started]
    for board in sorted(now, key=lambda each: len(ways.get(each, plan.house.runs))):
        unlit.remove(board)
        way = ways.get(board, ())
        passed = [end for link in way for end in (link.a, link.b) if end in plan.house.boards]
        runs = [f"prove/{link.by[4:]}" for link in way if link.by.startswith("run/")]
        upstream = [f"live/{each}" for each in dict.fromkeys(passed) if each != board]
        running = [f"run/{inverter}" for inverter in plan.inverters if inverter in _behind(plan, board)]
        yield _live(plan, "board", board, ["live/supply", *upstream, *runs, *running])


def _live(plan: Plan, kind: str, of: str, requires: list[str], at: str = "") -> Step:
    poles = (*(line.name for line in plan.house.job.supply.live), "N", "PE")
    readings = [
        Reading(f"live/{of}/{a}-{b}", "reading.live", "V", (("a", a), ("b", b)))
        for a, b in combinations(poles, 2)
    ]
    if len(poles) == 5:
        readings.append(Reading(f"rotation/{of}", "reading.rotation", ""))
    return plan.step(
        "energise", "live", Subject(kind, of), requires, at=at, words=(("of", spot(of)),), readings=readings,
        tools=("tool.tester",), gate="licensed", cautions=_CAUTIONS, drawing="single-line",
    )  # fmt: skip


# Inverters


def _started(plan: Plan, inverter: str, previous: list[str]) -> Iterator[Step]:
    """An inverter's sources one by one; its settings go in as soon as it has power, before the network."""
    order = decided(order_of, plan.design, inverter)
    subject, own = plan.subject(inverter), (("inverter", inverter),)
    part: Inverter = plan.design.inverter(inverter)
    last = [_READY, f"settings/{inverter}", *previous]
    wait: Words = ()
    for source in () if isinstance(order, Unknown) else order:
        yield plan.step(
            "energise", f"on-{source}", subject, [*last, *_proved(plan, inverter, source)],
            words=(*own, ("sources", _sources(plan, inverter, source)), *wait), gate="licensed",
            cautions=_CAUTIONS, drawing="single-line", text=f"step.on_{source}{'_next' if wait else ''}",
            readings=[Reading(f"on-{source}/{inverter}", f"reading.on_{source}", "V", own)],
        )  # fmt: skip
        last = [f"on-{source}/{inverter}"]
        if not wait:
            yield plan.step(
                "energise", "set", subject, last, words=own, gate="licensed", cautions=("caution.settings",),
                readings=[Reading(f"settings/{inverter}", "reading.settings", "", own)],
            )  # fmt: skip
            last = [f"set/{inverter}"]
            wait = (("wait_s", part.start_wait_s),)
    words: Words = (*own, ("order", order)) if isinstance(order, Unknown) else own
    text = "step.run_unordered" if isinstance(order, Unknown) else ""
    yield plan.step(
        "energise", "run", subject, last, words=words, text=text, gate="licensed",
        cautions=(*_CAUTIONS, "caution.capacitors"),
        readings=[
            Reading(f"state/{inverter}", "reading.state", "", own),
            Reading(f"rejoin/{inverter}", "reading.rejoin", "s", own),
        ],
    )  # fmt: skip


def _terminals(plan: Plan, inverter: str, source: str) -> list[str]:
    """What is switched on for a source: batteries, inputs, the circuit (or run) of its grid port."""
    if source == "battery":
        return plan.batteries_of(inverter)
    if source == "pv":
        return [each for each in plan.house.inputs if each.partition(".")[0] == inverter]
    port = f"{inverter}.grid"
    runs = [run.id for run in plan.house.job.runs if port in (run.start, run.end)]
    circuits = plan.house.circuit_of_run
    return [circuits[run].id if run in circuits else run for run in runs]


def _sources(plan: Plan, inverter: str, source: str) -> Word:
    return tuple(_terminals(plan, inverter, source))


def _proved(plan: Plan, inverter: str, source: str) -> list[str]:
    """What must have been proved or be live before a source is switched on."""
    if source == "battery":
        return [f"connect/{battery}" for battery in plan.batteries_of(inverter)]
    if source == "pv":
        return [f"plug/{string}" for string in plan.strings_of(inverter)]
    way = plan.house.feeding["grid"].get(f"{inverter}.grid", ())
    runs = [f"prove/{link.by[4:]}" for link in way if link.by.startswith("run/")]
    boards = dict.fromkeys(end for link in way for end in (link.a, link.b) if end in plan.house.boards)
    lit = [board for board in boards if inverter not in _behind(plan, board)]
    return [*runs, *(f"live/{board}" for board in lit)]


# What hangs on them


def _talking(plan: Plan) -> Iterator[Step]:
    running = [f"run/{inverter}" for inverter in plan.inverters] or ["live/supply"]
    for bus in plan.house.buses.values():
        ports: tuple[Word, ...] = tuple(node.port for node in bus.nodes)
        yield plan.step(
            "energise", "talk", Subject("bus", bus.id), [f"protocol/{bus.id}", *running],
            words=(("bus", bus.id), ("ports", ports)), drawing=f"bus/{bus.id}",
            readings=[Reading(f"answers/{bus.id}", "reading.answers", "", (("bus", bus.id),))],
        )  # fmt: skip
    for device in plan.house.job.devices:
        if device.kind == "adapter":
            yield plan.step(
                "energise", "online", plan.subject(device.id), running, words=(("device", device.id),),
                readings=[Reading(f"online/{device.id}", "reading.online", "", (("device", device.id),))],
            )  # fmt: skip


def _metered(plan: Plan) -> Iterator[Step]:
    talked = [f"talk/{bus}" for bus in plan.house.buses]
    for device in plan.house.job.devices:
        if device.kind == "meter" or getattr(device, "transformers", None) is not None:
            lines: tuple[Word, ...] = tuple(line.name for line in plan.house.job.supply.live)
            yield plan.step(
                "energise", "direction", plan.subject(device.id), ["live/supply", *talked],
                words=(("device", device.id), ("lines", lines)), tools=("tool.clamp_meter",),
                readings=[
                    Reading(f"direction/{device.id}/{line}", "reading.direction", "W", (("line", line),))
                    for line in lines
                ], gate="licensed",
            )  # fmt: skip


def _limited(plan: Plan) -> Step:
    export = plan.house.job.supply.utility.export_max_w
    own: Words = () if export == "none" else (("export_max_w", export),)
    meters = [
        f"direction/{device.id}"
        for device in plan.house.job.devices
        if device.kind == "meter" or getattr(device, "transformers", None) is not None
    ]
    running = [f"run/{inverter}" for inverter in plan.inverters]
    return plan.step(
        "energise", "export", Subject("installation", "house"), ["live/supply", *running, *meters],
        words=own, gate="licensed", readings=[Reading("export/house", "reading.export", "W")],
        text="" if own else "step.export_free",
    )  # fmt: skip
