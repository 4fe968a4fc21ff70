"""Whether the cable of a signal bus is short enough, and laid, screened and joined as it has to be."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import buses
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.design import Design
from ferrule.fact import all_known, known, unknown_of
from ferrule.job.bus import PowerBeside


def length(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    bus = design.house.buses[subject.id]
    all_known(bus.speed_bit_per_s, *unknown_of(bus.named_links(), "length_m"))
    whole_m = sum(known(link.length_m) for link in bus.links)
    yield covered(code.procedures.signal_bus).length(
        code.rulebook, kind=bus.kind, speed_bit_per_s=known(bus.speed_bit_per_s), length_m=whole_m
    )
    for name, port in design.house.bus_ports(bus.id).items():
        limit_m = port.length_max_m
        if limit_m is not None:
            yield at_most(
                f"length_{name}",
                "The line is {value} long; the maker of {port} allows {limit}",
                code.trace(),
                value=whole_m,
                limit=limit_m,
                unit="m",
                mend="move the devices closer together, or split the bus by a repeater",
                port=name,
            )


def taps(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    bus = design.house.buses[subject.id]
    yield from covered(code.procedures.signal_bus).taps(
        code.rulebook,
        kind=bus.kind,
        speed_bit_per_s=known(bus.speed_bit_per_s),
        taps_m=[node.tap_m for node in bus.nodes if node.tap_m],
    )


def reference(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """The third conductor: without it the lines may drift beyond what a receiver bears."""
    bus, ports = design.house.buses[subject.id], design.house.bus_ports(subject.id)
    all_known(bus.reference, *unknown_of(ports.items(), "reference"), design.signal_cable(bus.id).pairs)
    t = code.trace()
    needed = covered(code.procedures.signal_bus).joined_reference(t)
    yield is_so(
        "reference",
        "A conductor joins the signal references of all devices"
        if known(bus.reference)
        else "No conductor joins the signal references of the devices",
        t,
        known(bus.reference) or not needed,
        mend="join the reference terminals of all devices by a core of the second pair",
    )
    without = [name for name, port in ports.items() if not known(port.reference)]
    yield is_so(
        "reference_terminal",
        "{without} has no terminal for it" if without else "Every device has a terminal for it",
        code.trace(),
        not without,
        binding=False,
        mend="ask the maker of {without} where its signal reference lies",
        without=" and ".join(without),
    )
    yield at_least(
        "pairs",
        "The cable has {value} pairs; lines and reference need {limit}",
        code.trace(),
        value=known(design.signal_cable(bus.id).pairs),
        limit=2 if known(bus.reference) else 1,
        unit="count",
        mend="take a cable of two pairs",
    )


def screen(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    """What the makers ask for; else at one place."""
    bus, t = design.house.buses[subject.id], code.trace()
    all_known(design.signal_cable(bus.id).screened, bus.screen)
    if not known(design.signal_cable(bus.id).screened):
        return
    earthed = known(bus.screen)
    rules = {name: port.screen for name, port in design.house.bus_ports(bus.id).items()}
    wanted = [port for port, rule in rules.items() if rule == "earthed"]
    unwanted = [port for port, rule in rules.items() if rule == "open" and port in earthed]
    places = covered(code.procedures.signal_bus).screen_places(t)
    good = set(wanted) == set(earthed) if wanted else len(earthed) == places
    yield is_so(
        "screen",
        "The screen is earthed at {earthed}; it should be at {wanted}",
        t,
        good and not unwanted,
        binding=False,
        mend="earth the screen there only",
        earthed=" and ".join(earthed) or "no device",
        wanted=" and ".join(wanted) or "one end, best where the asking device is",
    )


def separation(design: Design, code: Code, subject: Subject) -> Iterator[Constraint]:
    bus, cable = design.house.buses[subject.id], design.signal_cable(subject.id)
    all_known(cable.screened, cable.voltage_max_v, *unknown_of(bus.named_links(), "power"))
    for link in bus.links:
        power = known(link.power)
        if not isinstance(power, PowerBeside):  # apart
            continue
        yield covered(code.procedures.signal_bus).separation(
            code.rulebook,
            distance_mm=power.distance_mm,
            power_screened=power.screened,
            screened=known(cable.screened),
            divider=power.divider,
        )
        if not power.distance_mm:
            yield at_least(
                f"insulation_{link.start}_{link.end}",
                "The signal cable touches one that carries {power_v}; its insulation is rated for {value}, "
                "and has to be for {limit}",
                code.trace(),
                value=known(cable.voltage_max_v),
                limit=power.voltage_v,
                unit="V",
                mend="lay the signal cable in a duct of its own, or take one insulated for {power_v}",
                power_v=power.voltage_v,
            )


QUESTIONS = (
    Question("bus.length", "Are line and taps short enough?", buses, each(length, taps)),
    Question(
        "bus.cable",
        "Are reference, screen and separation of the cable as they have to be?",
        buses,
        each(reference, screen, separation),
    ),
)
