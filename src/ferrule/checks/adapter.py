"""Whether an adapter reaches the internet from where it sits."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_most, is_so
from ferrule.design import Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.devices import AdapterDevice
from ferrule.parts import Adapter


def adapters(design: Design) -> Iterator[Subject]:
    return (Subject("adapter", d.id) for d in design.house.job.devices if isinstance(d, AdapterDevice))


def _of(design: Design, adapter: str) -> tuple[AdapterDevice, Adapter]:
    device: AdapterDevice = design.house.devices[adapter]
    part: Adapter = design.house.parts[device.part]
    return device, part


def link(design: Design, code: Code, subject: Subject) -> Constraint:
    device, part = _of(design, subject.id)
    all_known(device.link, part.links)
    return is_so(
        "link",
        "It is to be linked {link}; the adapter can be linked {links}",
        code.trace(),
        known(device.link) in known(part.links),
        mend="take an adapter that can",
        link=known(device.link),
        links=", ".join(known(part.links)),
    )


def cable(design: Design, code: Code, subject: Subject) -> Constraint | None:
    device, t = _of(design, subject.id)[0], code.trace()
    if known(device.link) != "wired":
        return None
    return at_most(
        "cable",
        "The cable to the router is {value} long; {limit} carry data",
        t,
        value=known(device.router_m),
        limit=covered(code.procedures.radio).wired_m(t),
        unit="m",
        mend="set a switch on the way, or link it without a cable",
    )


def signal(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """Of each technology the levels that decide; nothing but RSSI is not enough for LTE and UMTS."""
    device, rules = _of(design, subject.id)[0], covered(code.procedures.radio)
    link = known(device.link)
    if link == "wired":
        return
    fitting = [each for each in device.levels if (each.technology == "wlan") == (link == "wireless")]
    if not fitting:
        raise Missing("signal levels where the adapter sits, measured with doors and covers closed")
    asked = [(each, level) for each in fitting for level in rules.asks(each.technology)]
    behind = [each for each in fitting if each.measured == "aerial"]
    all_known(*(getattr(each, level) for each, level in asked), *(each.lead_loss_db for each in behind))
    for found, level in asked:
        yield from rules.judged(
            code.rulebook,
            technology=found.technology,
            level=level,
            value=known(getattr(found, level)),
            lead_loss_db=known(found.lead_loss_db) if found in behind else 0.0,
        )


def cover(design: Design, code: Code, subject: Subject) -> Constraint:
    """A port without its cover lets water into the inverter; a plug that nothing holds slips out."""
    device, _ = _of(design, subject.id)
    all_known(device.cover, device.held)
    good = known(device.cover) == "closed" and known(device.held)
    return is_so(
        "cover",
        "Its plug is held, and the port's cover closed over it" if good
        else "Its plug is not held, or the port's cover not closed over it",
        code.trace(), good, mend="screw or latch the plug, close the cover with its seal",
    )  # fmt: skip


QUESTIONS = (
    Question("adapter.link", "Can it be linked as planned?", adapters, each(link, cable)),
    Question("adapter.signal", "Is the signal good enough where it sits?", adapters, each(signal)),
    Question("adapter.port", "Is it held, and its port closed?", adapters, each(cover)),
)
