"""What is to be set in each device, written down and agreed before the first connection to the network."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.fact import Unknown
from ferrule.job.bus import Bus
from ferrule.job.devices import InverterDevice
from ferrule.job.metering import Transformers
from ferrule.proving.phrase import Term, Word, Words, named
from ferrule.proving.steps.plan import Plan
from ferrule.proving.steps.step import Step


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    house = plan.house
    for bus in house.buses.values():
        yield _bus(plan, bus)
    for device in house.job.devices:
        if isinstance(device, InverterDevice):
            yield _inverter(plan, device)
        sensed = getattr(device, "transformers", None)
        if isinstance(sensed, Transformers):
            yield plan.step(
                "settings", "ratio", plan.subject(device.id), [f"transformers/{device.id}"],
                words=(
                    ("device", device.id), ("primary_a", sensed.primary_a),
                    ("secondary_a", sensed.secondary_a),
                ),
            )  # fmt: skip


def _inverter(plan: Plan, device: InverterDevice) -> Step:
    landed = any(end.partition(".")[0] == device.id for end in plan.house.topology.sources.get("island", ()))
    link: Word = named("link", device.link) if landed else Term("link.unused")
    export: Word = plan.house.job.supply.utility.export_max_w
    words: Words = (
        ("inverter", device.id), ("rulebook", plan.house.job.rulebook), ("link", link),
        ("export", export if isinstance(export, Unknown) else _limit(export)),
        ("charge", _current(device.charge_set_a)), ("discharge", _current(device.discharge_set_a)),
    )  # fmt: skip
    return plan.step(
        "settings", "settings", plan.subject(device.id), plan.placed(device.id), words=words,
        gate="licensed", cautions=("caution.settings",),
    )  # fmt: skip


def _limit(export: Word) -> Word:
    return Term("export.none") if export == "none" else Term("export.limit", (("export_max_w", export),))


def _current(set_a: float | None) -> Word:
    return Term("current.as_sheet") if set_a is None else Term("current.set", (("set_a", set_a),))


def _bus(plan: Plan, bus: Bus) -> Step:
    """A CAN bus has neither parity nor addresses."""
    serial = bus.kind == "rs485"
    asks = (bus.client if serial else None, bus.parity if serial else None)
    addressed: tuple[Word, ...] = tuple(
        Term("address", (("port", node.port), ("address", _plain(node.address))))
        for node in bus.nodes
        if serial and node.port != bus.client
    )
    words: Words = (
        ("bus", bus.id), ("protocol", bus.protocol), ("speed_bit_per_s", bus.speed_bit_per_s),
        ("client", Term("bus.no_client") if asks[0] is None else asks[0]),
        ("parity", Term("parity.unused") if asks[1] is None else named("parity", asks[1])),
        ("addresses", addressed or Term("address.none")),
    )  # fmt: skip
    return plan.step(
        "settings", "protocol", Subject("bus", bus.id), [f"ends/{bus.id}"], words=words,
        drawing=f"bus/{bus.id}",
    )  # fmt: skip


def _plain(address: int | Unknown) -> Word:
    return address if isinstance(address, Unknown) else str(address)
