"""What is left open between house and network: residual current devices and surge protection."""

from collections.abc import Sequence
from typing import Literal, cast

from ferrule.choose.offers.offer import Offer, as_written
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.design import Design, House
from ferrule.fact import known
from ferrule.job.array import SurgeDevice, SurgeType
from ferrule.job.boards import Rcd
from ferrule.job.firm import Firm
from ferrule.parts.devices import RcdType


def _rcds(design: Design, code: Code, _firm: Firm, circuit: str) -> Sequence[Rcd | Literal["none"]]:
    """None at all, else each type with each residual current, at the rated current of the circuit's device.

    Where other circuits hang behind it, a delayed one leaves their faults to them.
    """
    clause, rulebook, house = covered(code.procedures.residual_current), code.rulebook, design.house
    run = house.runs[house.circuits[circuit].run]
    final = bool(house.circuits[circuit].loads)
    delayed = not final and _leads_on(house, run.id)
    currents_a = clause.currents_a(rulebook)
    rating_a = next((each for each in currents_a if each >= design.rating_a(circuit)), currents_a[-1])
    rcds = [
        Rcd.model_construct(
            type=cast(RcdType, kind),
            residual_a=residual_a,
            rating_a=rating_a,
            selective=delayed,
            direction="both" if run.id in house.two_way else "one",
            all_poles=True,
        )
        for kind in clause.types(rulebook)
        for residual_a in clause.residuals_a(rulebook, final=final)
    ]
    return ["none", *rcds]


def _leads_on(house: House, run: str) -> bool:
    """Whether the network feeds other circuits through a run, be it by way of an inverter's backup port."""
    starts = (house.runs[circuit.run].start for circuit in house.circuits.values())
    return any(run in (house.upstream(start) or ()) for start in starts)


def _surge_devices(
    design: Design, code: Code, _firm: Firm, _board: str
) -> Sequence[SurgeDevice | Literal["none"]]:
    """None at all, else the lesser type before the greater, at the lowest voltage above the network's."""
    clause, rulebook = covered(code.procedures.supply_surge), code.rulebook
    supply = design.house.job.supply
    least_v = clause.least_v(
        code.trace(), earthing=known(supply.earthing), nominal_v=supply.live[0].voltage_v
    )
    voltages_v = clause.voltages_v(rulebook)
    devices = [
        SurgeDevice.model_construct(
            type=cast(SurgeType, kind),
            voltage_max_v=next((each for each in voltages_v if each >= least_v), voltages_v[-1]),
            nominal_a=clause.nominal_a(rulebook),
        )
        for kind in clause.types(rulebook)
    ]
    return ["none", *devices]


def _boards_from_origin(design: Design) -> Sequence[str]:
    fed = design.house.feeding["grid"]
    return sorted(design.house.boards, key=lambda board: len(fed.get(board, design.house.runs)))


RCD = Offer(
    "rcd",
    owners=lambda design: [circuit.id for circuit in design.house.from_origin],
    given=lambda design, circuit: design.house.circuits[circuit].rcd,
    candidates=_rcds,
    path="circuits.{owner}.rcd",
    spell=as_written,
)
SURGE = Offer(
    "ac_surge",
    owners=_boards_from_origin,
    given=lambda design, board: design.house.boards[board].surge,
    candidates=_surge_devices,
    path="boards.{owner}.surge",
    spell=as_written,
)
