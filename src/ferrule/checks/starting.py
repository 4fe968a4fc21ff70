"""Whether it is known how an inverter is started and made dead: the order of its sources, the waits between
them, how long its capacitors stay charged, and whether its DC switch can be locked.
"""

from collections.abc import Iterable

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import inverters
from ferrule.clauses import Code
from ferrule.constraint import Constraint, is_so
from ferrule.design import Design
from ferrule.fact import Missing, known


def sources(design: Design, inverter: str) -> tuple[str, ...]:
    """What an inverter is fed by in this house, of `battery`, `pv` and `ac`."""
    ends = {end for run in design.house.job.runs for end in (run.start, run.end)}
    there = {
        "battery": f"{inverter}.battery" in ends,
        "pv": any(terminal.partition(".")[0] == inverter for terminal in design.house.inputs),
        "ac": f"{inverter}.grid" in ends,
    }
    return tuple(source for source, used in there.items() if used)


def order_of(design: Design, inverter: str) -> tuple[str, ...]:
    """In which order those come on. Raises `Missing` where its maker does not say, or leaves one out."""
    order, used = known(design.inverter(inverter).start_order), sources(design, inverter)
    if silent := [source for source in used if source not in order]:
        raise Missing(f"{inverter}: where {', '.join(silent)} comes in its order of starting")
    return tuple(source for source in dict.fromkeys(order) if source in used)


def start_order(design: Design, code: Code, subject: Subject) -> Constraint:
    order = ", then ".join(order_of(design, subject.id))
    return is_so("start_order", "Its sources come on in the order {order}", code.trace(), True, order=order)


def start_wait(design: Design, code: Code, subject: Subject) -> Constraint:
    wait_s = known(design.inverter(subject.id).start_wait_s)
    text = "Its maker wants {wait_s} between one source and the next"
    return is_so("start_wait", text, code.trace(), True, wait_s=wait_s)


def discharge_time(design: Design, code: Code, subject: Subject) -> Constraint:
    time_s = known(design.inverter(subject.id).discharge_time_s)
    text = "Its capacitors stay charged for {time_s} after it is switched off"
    return is_so("discharge_time", text, code.trace(), True, time_s=time_s)


def dc_lock(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    """A switch without a lock has to be guarded while somebody works behind it."""
    for terminal in design.house.inputs:
        if terminal.partition(".")[0] != subject.id:
            continue
        isolator = design.isolator(terminal)
        part = design.inverter(subject.id)
        lockable = known(part.dc_switch_lockable if isolator == "built-in" else isolator.lockable)
        yield is_so(
            "dc_lock",
            "The DC switch of {input} can be locked when it is open"
            if lockable
            else "The DC switch of {input} cannot be locked when it is open: somebody has to guard it",
            code.trace(),
            lockable,
            binding=False,
            mend="take a DC isolator that can be locked",
            input=terminal,
        )


QUESTIONS = (
    Question(
        "inverter.starting",
        "Is it known how the inverter is started, and how it is made dead?",
        inverters,
        each(start_order, start_wait, discharge_time, dc_lock),
    ),
)
