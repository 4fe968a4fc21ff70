"""The earth electrode and the conductor to it."""

from collections.abc import Iterator

from ferrule.checks.question import Question, Subject, each
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, is_so
from ferrule.design import Decided, Design
from ferrule.fact import Unknown, all_known, known
from ferrule.job.earth import Electrode


def conductor(design: Design, code: Code, _subject: Subject) -> Iterator[Constraint]:
    if known(design.house.job.earth.electrode) != "none":
        yield from covered(code.procedures.earthing).conductor(code.rulebook, size=design.earthing_size())


def present(design: Design, code: Code, _subject: Subject) -> Constraint | None:
    """IEC 60364-4-41:2005 clause 411.5.1: in a TT system fault current flows through the electrode."""
    earth, supply = design.house.job.earth, design.house.job.supply
    all_known(earth.electrode, supply.earthing)
    if known(supply.earthing) != "TT":
        return None
    fitted = known(earth.electrode) != "none"
    return is_so(
        "present",
        "The TT supply brings no earth; the house has an electrode of its own"
        if fitted
        else "The TT supply brings no earth, and the house has no electrode of its own",
        code.trace(),
        fitted,
        mend="fit an earth electrode and measure it",
    )


def touch_voltage(design: Design, code: Code, _subject: Subject) -> Iterator[Constraint]:
    """For the residual current device that trips last."""
    electrode = _electrode(design)
    if known(design.house.job.supply.earthing) != "TT" or electrode is None:
        return
    devices = [board.rcd for board in design.house.job.boards if board.rcd is not None]
    devices += [rcd for circuit in design.house.circuits if (rcd := design.rcd(circuit)) is not None]
    if devices:
        yield from covered(code.procedures.earthing).touch_voltage(
            code.rulebook,
            electrode_ohm=known(electrode.resistance_ohm),
            residual_a=max(device.residual_a for device in devices),
        )


def stable(design: Design, code: Code, _subject: Subject) -> Iterator[Constraint]:
    """Where people's safety rests on the electrode: in a TT system, and in island mode."""
    electrode, supply = _electrode(design), design.house.job.supply
    if electrode is not None and (design.house.islands or known(supply.earthing) == "TT"):
        yield from covered(code.procedures.earthing).stable(
            code.rulebook, electrode_ohm=known(electrode.resistance_ohm)
        )


def _electrode(design: Design) -> Electrode | None:
    """The house's own electrode; None where there is none or nobody knows, which `present` tells."""
    electrode = design.house.job.earth.electrode
    return None if isinstance(electrode, Unknown) or electrode == "none" else electrode


def the_conductor(_design: Design) -> Iterator[Subject]:
    yield Subject("earth", "conductor")


def the_electrode(_design: Design) -> Iterator[Subject]:
    yield Subject("earth", "electrode")


def earthing(_design: Design, _subject: Subject) -> Iterator[Decided]:
    yield Decided("earthing", "earth")


QUESTIONS = (
    Question(
        "earth.conductor",
        "Is the conductor to the earth electrode strong enough?",
        the_conductor,
        each(conductor),
        earthing,
    ),
    Question(
        "earth.electrode",
        "Is the earth electrode good enough for what relies on it?",
        the_electrode,
        each(present, touch_voltage, stable),
    ),
)
