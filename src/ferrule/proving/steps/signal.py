"""Signal buses and contacts, with the power off: laid, landed, ended and measured."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.job.bus import Bus, SignalContact
from ferrule.proving.phrase import Term
from ferrule.proving.steps.plan import Plan, decided
from ferrule.proving.steps.step import Reading, Step

_TOOLS = ("tool.stripper", "tool.crimper")
_CAUTIONS = ("caution.signal_apart",)


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    for bus in plan.house.buses.values():
        yield from _bus(plan, bus)
    for contact in plan.house.signal_contacts.values():
        yield _contact(plan, contact)


def _bus(plan: Plan, bus: Bus) -> Iterator[Step]:
    subject, ports = Subject("bus", bus.id), tuple(node.port for node in bus.nodes)
    cable = plan.house.parts[bus.cable].name
    yield plan.step(
        "signal", "bus", subject, [*plan.placed(*ports), *plan.dead(*ports), plan.earthed], tools=_TOOLS,
        words=(("bus", bus.id), ("cable", cable), ("ports", ports)), parts=(bus.cable,),
        drawing=f"bus/{bus.id}", cautions=_CAUTIONS,
    )  # fmt: skip
    ends = decided(plan.design.terminators, bus.id)
    yield plan.step(
        "signal", "ends", subject, [f"bus/{bus.id}"], drawing=f"bus/{bus.id}", tools=("tool.meter",),
        words=(("bus", bus.id), ("ends", ends or Term("ends.built_in"))), gate="licensed",
        readings=[Reading(f"resistance/{bus.id}", "reading.bus", "Ω", (("bus", bus.id),))],
    )  # fmt: skip


def _contact(plan: Plan, contact: SignalContact) -> Step:
    return plan.step(
        "signal", "contact", Subject("signal", contact.id), [*plan.placed(contact.start, contact.end)],
        words=(("contact", contact.id), ("start", contact.start), ("end", contact.end)), tools=_TOOLS,
        drawing=f"wiring/{contact.id}", cautions=_CAUTIONS,
        readings=[Reading(f"contact/{contact.id}", "reading.contact", "", (("contact", contact.id),))],
    )  # fmt: skip
