"""What strings leave open: fuses, isolator, surge protection; and how many modules a remedy may propose."""

from collections.abc import Sequence
from typing import Literal, cast

from ferrule.checks.string_voltage import cold_voltage_v, highest_on_input_v
from ferrule.choose.offers.offer import Offer, as_written
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.design import Design
from ferrule.fact import Missing, known
from ferrule.job.array import Category, DcSurgeDevice, Isolator, StringFuse, SurgeType
from ferrule.job.firm import Firm

Places = Literal["inverter", "both-ends"]
PLACES: tuple[Places, ...] = ("inverter", "both-ends")


def _counts(design: Design, _code: Code, _firm: Firm, string: str) -> Sequence[int]:
    """Nearest count first, so that a remedy changes as little as it can."""
    given = design.house.strings[string].modules
    return sorted(range(1, 2 * given + 1), key=lambda count: (abs(count - given), count))


def _fuses(design: Design, code: Code, _firm: Firm, string: str) -> Sequence[StringFuse | Literal["none"]]:
    """None at all, else each rating at the lowest rated voltage that stays above the string's."""
    clause, rulebook = covered(code.procedures.string_fuse), code.rulebook
    try:
        cold_v = cold_voltage_v(design, code, string, code.trace())
    except Missing:
        cold_v = 0.0  # the questions will say what is missing, if a fuse is needed at all
    fuses = [
        StringFuse.model_construct(
            rating_a=rating_a,
            voltage_max_v=_above(cold_v, clause.voltages_v(rulebook)),
            breaking_capacity_a=clause.breaking_capacity_a(rulebook),
            poles="both",
        )
        for rating_a in clause.ratings_a(rulebook)
    ]
    return ["none", *fuses]


def _isolators(
    design: Design, code: Code, _firm: Firm, terminal: str
) -> Sequence[Isolator | Literal["built-in"]]:
    """The inverter's own where it has one, else each rating at the lowest voltage above the strings'."""
    if known(design.inverter(terminal.partition(".")[0]).dc_switch):
        return ["built-in"]
    clause, rulebook = covered(code.procedures.dc_isolator), code.rulebook
    cold_v = highest_on_input_v(design, code, terminal)[1]
    return [
        Isolator.model_construct(
            voltage_max_v=_above(cold_v, clause.voltages_v(rulebook)),
            current_max_a=current_a,
            category=cast(Category, clause.category(rulebook, count=len(design.house.inputs[terminal]))),
            all_poles=True,
        )
        for current_a in clause.ratings_a(rulebook)
    ]


def _surge_devices(
    design: Design, code: Code, _firm: Firm, terminal: str
) -> Sequence[DcSurgeDevice | Literal["none"]]:
    """None at all, else the lesser type before the greater, one place before two."""
    clause, rulebook = covered(code.procedures.dc_surge), code.rulebook
    try:
        cold_v = highest_on_input_v(design, code, terminal)[1]
    except Missing:
        cold_v = 0.0  # as with fuses
    devices = [
        DcSurgeDevice.model_construct(
            type=cast(SurgeType, kind),
            voltage_max_v=_above(cold_v, clause.voltages_v(rulebook)),
            nominal_a=clause.nominal_a(rulebook),
            places=places,
        )
        for kind in clause.types(rulebook)
        for places in PLACES
    ]
    return ["none", *devices]


def _above(cold_v: float, voltages_v: Sequence[float]) -> float:
    """The lowest rated voltage above the string's; the highest there is where none is."""
    return next((voltage_v for voltage_v in voltages_v if voltage_v > cold_v), voltages_v[-1])


MODULES = Offer(
    "modules",
    owners=lambda design: design.house.strings,
    given=lambda design, string: design.house.strings[string].modules,
    candidates=_counts,
    path="strings.{owner}.modules",
)
FUSE = Offer(
    "string_fuse",
    owners=lambda design: design.house.strings,
    given=lambda design, string: design.house.strings[string].fuse,
    candidates=_fuses,
    path="strings.{owner}.fuse",
    spell=as_written,
)
ISOLATOR = Offer(
    "dc_isolator",
    owners=lambda design: design.house.inputs,
    given=lambda design, terminal: design.input_gear(terminal).isolator,
    candidates=_isolators,
    path="inputs.{owner}.isolator",
    spell=as_written,
)
SURGE = Offer(
    "dc_surge",
    owners=lambda design: design.house.inputs,
    given=lambda design, terminal: design.input_gear(terminal).surge,
    candidates=_surge_devices,
    path="inputs.{owner}.surge",
    spell=as_written,
)
