"""Whether a meter measures what it should: its place, its current transformers, their leads and phases."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.clauses import Code
from ferrule.clauses.procedures import Unasked, covered
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.design import Design
from ferrule.fact import Missing, all_known, known
from ferrule.job.devices import ControllerDevice, MeterDevice
from ferrule.job.metering import Transformers
from ferrule.parts.metering import TransformerInputs
from ferrule.physics import instrument
from ferrule.working import Trace

_TRANSFORMERS = "the current transformers of the meter: round which run, ratio, class, burden, leads, phases"


def meters(design: Design) -> Iterator[Subject]:
    """Energy meters, and the metering of site controllers."""
    kinds = (MeterDevice, ControllerDevice)
    return (Subject(d.kind, d.id) for d in design.house.job.devices if isinstance(d, kinds))


def own_meters(design: Design) -> Iterator[Subject]:
    """Energy meters that are devices of their own."""
    return (subject for subject in meters(design) if subject.kind == "meter")


def is_direct(design: Design, device: str) -> bool:
    """Whether the current itself flows through a meter. Raises `Missing`."""
    own = design.house.devices[device]
    return isinstance(own, MeterDevice) and known(design.house.parts[own.part].connection) == "direct"


def inputs_of(design: Design, device: str) -> TransformerInputs:
    """What a meter asks of its transformers. Raises `Missing`, and `Unasked` for a direct meter."""
    if is_direct(design, device):
        raise Unasked("a direct meter")
    inputs: TransformerInputs = design.house.parts[design.house.devices[device].part].transformers
    return inputs


def transformers_of(design: Design, device: str) -> Transformers:
    """The transformers of a meter that needs some. Raises `Missing`."""
    found: Transformers | None = design.house.devices[device].transformers
    if found is None:
        raise Missing(_TRANSFORMERS)
    return found


# Where it stands


def place(design: Design, code: Code, subject: Subject) -> Constraint:
    """All that the network feeds passes it: every circuit and every inverter hangs behind it."""
    house = design.house
    direct = is_direct(design, subject.id)
    where = subject.id if direct else known(transformers_of(design, subject.id).run)
    fed = [
        terminal
        for terminal in (*(b.id for b in house.job.boards), *(f"{i.id}.grid" for i in _inverters(design)))
        if house.upstream(terminal) is not None
    ]
    if not fed:
        raise Missing("what the network feeds: no run leads from the supply to a board or an inverter")
    past = [terminal for terminal in fed if not _passes(design, terminal, subject.id, where)]
    return is_so(
        "place",
        "Before it the network feeds {past}: what flows there it does not see"
        if past
        else "All that the network feeds passes it",
        code.trace(),
        not past,
        mend="move it between the main fuse and the first branch, on the network's side of any changeover",
        past=" and ".join(past),
    )


def _inverters(design: Design) -> list[Subject]:
    return [Subject("inverter", d.id) for d in design.house.job.devices if d.kind == "inverter"]


def _passes(design: Design, terminal: str, meter: str, where: str) -> bool:
    """Whether the way from the network to a terminal leads through a meter, or along a measured run."""
    runs = design.house.upstream(terminal) or ()
    if where != meter:
        return where in runs
    return any(meter in (design.house.runs[run].start, design.house.runs[run].end) for run in runs)


# Current transformers


def primary(design: Design, code: Code, subject: Subject) -> Constraint:
    """The main fuse lets its rated current through for good."""
    t = code.trace()
    value_a, limit_a = _primary_a(design, subject.id, t), _main_fuse_a(design)
    return at_least(
        "primary",
        "The transformers are rated {value}; the main fuse lets {limit} through",
        t,
        value=value_a,
        limit=limit_a,
        unit="A",
        mend="take transformers of a higher primary current, and set the ratio in the meter",
    )


def low_share(design: Design, code: Code, subject: Subject) -> Constraint:
    """A transformer that is far too large works where no class promises anything."""
    return covered(code.procedures.metering).used(
        code.rulebook,
        main_fuse_a=_main_fuse_a(design),
        primary_a=_primary_a(design, subject.id, code.trace()),
    )


def _primary_a(design: Design, device: str, t: Trace) -> float:
    """The current in a line at which its transformer gives its rated secondary current."""
    inputs_of(design, device)
    found = transformers_of(design, device)
    all_known(found.primary_a, design.house.job.supply.main_fuse)
    plate_a = known(found.primary_a)
    return plate_a if found.turns == 1 else t.calculate(
        instrument.effective_primary, plate_a=t.given("plate_a", plate_a, "plate"), turns=found.turns
    )  # fmt: skip


def _main_fuse_a(design: Design) -> float:
    return known(design.house.job.supply.main_fuse).rating_a


def secondary(design: Design, code: Code, subject: Subject) -> Constraint:
    inputs = inputs_of(design, subject.id)
    found = transformers_of(design, subject.id)
    all_known(found.secondary_a, inputs.secondary_a)
    return is_so(
        "secondary",
        "The transformers give {given_a} at full load; the meter's inputs are made for {made_a}",
        code.trace(),
        known(found.secondary_a) == known(inputs.secondary_a),
        mend="take transformers made for this meter",
        given_a=known(found.secondary_a),
        made_a=known(inputs.secondary_a),
    )


def accuracy(design: Design, code: Code, subject: Subject) -> Constraint:
    inputs = inputs_of(design, subject.id)
    found = transformers_of(design, subject.id)
    all_known(found.accuracy, inputs.accuracy)
    return at_most(
        "accuracy",
        "The transformers are of class {value}; the meter asks for class {limit} or better",
        code.trace(),
        value=known(found.accuracy),
        limit=known(inputs.accuracy),
        unit="",
        mend="take transformers of a better class",
    )


def burden(design: Design, code: Code, subject: Subject) -> Constraint:
    """The lead there and back and the meter's input load the transformer (IEC 61869-2:2012, 5.5)."""
    inputs = inputs_of(design, subject.id)
    found, t = transformers_of(design, subject.id), code.trace()
    all_known(found.burden_va, found.secondary_a, found.lead_m, found.lead_size, inputs.input_va)
    return at_most(
        "burden",
        "Lead and meter load a transformer with {value}; it bears {limit}",
        t,
        value=t.calculate(
            instrument.connected_burden,
            meter_va=t.given("meter_va", known(inputs.input_va), "the meter's sheet"),
            secondary_a=known(found.secondary_a),
            length_m=t.given("length_m", known(found.lead_m), "one way"),
            resistance_ohm_per_km=covered(code.procedures.metering).lead_ohm_per_km(
                t, size=known(found.lead_size)
            ),
        ),
        limit=known(found.burden_va),
        unit="VA",
        mend="move the meter to its transformers, or take thicker leads where the maker allows it",
    )


# The meter's own class


def own_class(design: Design, code: Code, subject: Subject) -> Constraint:
    device = design.house.devices[subject.id]
    part = design.house.parts[device.part]
    all_known(device.accuracy, part.accuracy)
    return at_most(
        "own_class",
        "The meter is of class {value}; class {limit} or better is asked for",
        code.trace(),
        value=known(part.accuracy),
        limit=known(device.accuracy),
        unit="",
        mend="take a meter of a better class",
    )


# Phases


def phases(design: Design, code: Code, subject: Subject) -> Constraint:
    """Each channel multiplies its own voltage with the current of the same line."""
    inputs_of(design, subject.id)
    clamps = known(transformers_of(design, subject.id).clamps)
    all_known(*(clamp.line for clamp in clamps))
    lines = list(design.house.voltages_v)
    crossed = [f"{clamp.channel} on {clamp.line}" for clamp in clamps if clamp.channel != clamp.line]
    lacking = [line for line in lines if line not in {clamp.channel for clamp in clamps}]
    return is_so(
        "phases",
        "A transformer sits on another line than its channel's voltage: {crossed}" if crossed
        else "No transformer for {lacking}" if lacking
        else "Each transformer sits on the line of its channel's voltage",
        code.trace(), not crossed and not lacking, mend="change the transformers over, or the voltage taps",
        crossed=", ".join(crossed), lacking=", ".join(lacking),
    )  # fmt: skip


def arrows(design: Design, code: Code, subject: Subject) -> Constraint:
    """Makers differ on which way the arrow points; the meter's manual decides."""
    inputs = inputs_of(design, subject.id)
    clamps = known(transformers_of(design, subject.id).clamps)
    all_known(inputs.arrow, *(clamp.arrow for clamp in clamps))
    wrong = [clamp.channel for clamp in clamps if clamp.arrow != inputs.arrow]
    return is_so(
        "arrows",
        "The arrow of {wrong} points to the {found}; this meter wants it to the {wanted}" if wrong
        else "The arrows point to the {wanted}, as this meter wants",
        code.trace(), not wrong, mend="turn the transformer round, not its wires",
        wrong=" and ".join(wrong), wanted=known(inputs.arrow),
        found="house" if inputs.arrow == "network" else "network",
    )  # fmt: skip


QUESTIONS = (
    Question("meter.place", "Does all that it should measure pass the meter?", meters, each(place)),
    Question(
        "meter.transformers",
        "Do the current transformers fit main fuse, meter and leads?",
        meters,
        each(primary, low_share, secondary, accuracy, burden),
    ),
    Question("meter.accuracy", "Is the meter accurate enough?", own_meters, each(own_class)),
    Question(
        "meter.phases",
        "Does each transformer sit on its own line, the right way round?",
        meters,
        each(phases, arrows),
    ),
)
