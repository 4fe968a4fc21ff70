"""What hangs on a wall: weight, shear and pull of each fixing, tension and shear together, timber screws.

Lengths are in mm as on a drawing; sums of squares of lengths are in mm².
"""

import math
from typing import Annotated

from ferrule.quantity import (
    AngleDeg,
    Count,
    ForceN,
    LengthMm,
    MassKg,
    Ratio,
    Unit,
    formula,
)

# A position may lie on either side of a centroid.
PlaceMm = Annotated[float, Unit("mm", -100_000, 100_000)]
SquaresMm2 = Annotated[float, Unit("mm²", 0, 1e10)]
DensityKgPerM3 = Annotated[float, Unit("", 0, 2_000)]


@formula("mass_kg * 9.80665")
def weight(*, mass_kg: MassKg) -> ForceN:
    """Weight of a mass at standard gravity, 9.80665 m/s² (ISO 80000-3)."""
    return mass_kg * 9.80665


@formula("weight_n / count")
def shear_share(*, weight_n: ForceN, count: Count) -> ForceN:
    """Shear of each of like fixings under a load through their centroid.

    Raises `ZeroDivisionError` for no fixings.
    """
    return weight_n / count


@formula(
    "sqrt((share_n + weight_n * aside_mm * x_mm / squares_mm2)**2"
    " + (weight_n * aside_mm * y_mm / squares_mm2)**2)"
)
def shear_aside(
    *,
    share_n: ForceN,
    weight_n: ForceN,
    aside_mm: PlaceMm,
    x_mm: PlaceMm,
    y_mm: PlaceMm,
    squares_mm2: SquaresMm2,
) -> ForceN:
    """Shear of one fixing under a load beside the centroid of all: its share of the load and what the turning
    moment adds, as vectors.

    Elastic method: `squares_mm2` is the polar moment, the sum of x² + y² over all fixings; `aside_mm`, `x_mm`
    and `y_mm` count from the centroid, all towards the same side. The fixings on the load's own side take
    most. Raises `ZeroDivisionError` where all fixings lie in one point.
    """
    turned = weight_n * aside_mm / squares_mm2
    return math.hypot(share_n + turned * x_mm, turned * y_mm)


@formula("weight_n * out_mm * height_mm / squares_mm2")
def pull_by_prying(
    *, weight_n: ForceN, out_mm: LengthMm, height_mm: LengthMm, squares_mm2: SquaresMm2
) -> ForceN:
    """Pull on one fixing of a stiff body that hangs off the wall and turns about its lower edge, on which it
    presses.

    `out_mm` is the distance of its centre of gravity from the wall, `height_mm` that of the fixing above the
    edge, `squares_mm2` the sum of the squares of all such heights. Raises `ZeroDivisionError` where every
    fixing lies on the edge itself.
    """
    return weight_n * out_mm * height_mm / squares_mm2


@formula("pull_n / count + moment_n * arm_mm * distance_mm / squares_mm2")
def pull_about_centroid(
    *,
    pull_n: ForceN,
    count: Count,
    moment_n: ForceN,
    arm_mm: LengthMm,
    distance_mm: PlaceMm,
    squares_mm2: SquaresMm2,
) -> Annotated[float, Unit("N")]:
    """Pull on one fixing of a stiff plate of which the edge does not bear: its share of a straight pull, and
    what a force at an arm adds by its distance from the centroid.

    `squares_mm2` is the sum of the squares of all distances from the centroid. Negative: it is pressed on.
    """
    return pull_n / count + moment_n * arm_mm * distance_mm / squares_mm2


@formula("acting_n * (permanent + variable * (allowance - 1))")
def factored(*, acting_n: ForceN, permanent: Ratio, variable: Ratio, allowance: Ratio) -> ForceN:
    """A load with its partial factors: the weight as a permanent action, what an allowance of working adds to
    it as a variable one (EN 1990 expression 6.10).
    """
    return acting_n * (permanent + variable * (allowance - 1))


@formula("acting_n * allowance")
def with_allowance(*, acting_n: ForceN, allowance: Ratio) -> ForceN:
    """A load with an allowance for what people do while they work: lean on it, let a cover slam."""
    return acting_n * allowance


@formula("resistance_n / factor")
def reduced(*, resistance_n: ForceN, factor: Ratio) -> ForceN:
    """A resistance divided by a factor of safety."""
    return resistance_n / factor


@formula("resistance_n * share")
def shared(*, resistance_n: ForceN, share: Ratio) -> ForceN:
    """A share of a resistance: what of a mean failure load is permissible, what an edge leaves."""
    return resistance_n * share


@formula("min(1, edge_mm / edge_full_mm) * min(1, spacing_mm / spacing_full_mm)")
def share_on_side(
    *, edge_mm: LengthMm, edge_full_mm: LengthMm, spacing_mm: LengthMm, spacing_full_mm: LengthMm
) -> Ratio:
    """What an edge and a neighbour on one side leave of an anchor's resistance, in proportion.

    Raises `ZeroDivisionError` for a full distance of 0.
    """
    return min(1.0, edge_mm / edge_full_mm) * min(1.0, spacing_mm / spacing_full_mm)


@formula("left * right * above * below")
def share_on_all_sides(*, left: Ratio, right: Ratio, above: Ratio, below: Ratio) -> Ratio:
    """What is left of an anchor's resistance with edges and neighbours around it.

    On the safe side of the area method (EN 1992-4 clause 7.2.1.4), where a pair keeps (1 + s/s_cr)/2 and the
    middle of a field of anchors (s/s_cr)², since a side that leaves less than all takes its whole share.
    """
    return left * right * above * below


@formula("thickness_mm * width_mm * height_mm / 1e9 * density")
def plate_mass(
    *, thickness_mm: LengthMm, width_mm: LengthMm, height_mm: LengthMm, density: DensityKgPerM3
) -> MassKg:
    """Mass of a plate; `density` is in kg/m³."""
    return thickness_mm * width_mm * height_mm / 1e9 * density


@formula("acting_n / resistance_n")
def used(*, acting_n: ForceN, resistance_n: ForceN) -> Ratio:
    """The share of a resistance that a load takes up."""
    return acting_n / resistance_n


@formula("tension**exponent + shear**exponent")
def together(
    *,
    tension: Annotated[float, Unit("", 0, 1_000)],
    shear: Annotated[float, Unit("", 0, 1_000)],
    exponent: Annotated[float, Unit("", 1, 3)],
) -> Ratio:
    """Tension and shear of one fixing together, from the share of its resistance that each takes up.

    Exponent 1 adds them; 1.5 is for concrete, 2 for steel (EN 1992-4 table 7.3) and for timber screws
    (EN 1995-1-1 clause 8.7.3).
    """
    sum_of_powers: float = tension**exponent + shear**exponent
    return sum_of_powers


@formula("degrees(acos(height_mm / sqrt(height_mm**2 + inward_mm**2)))")
def tipping_angle(*, height_mm: LengthMm, inward_mm: LengthMm) -> AngleDeg:
    """How far a free-standing body may be tilted before it goes over.

    `height_mm` is that of its centre of gravity, `inward_mm` the horizontal distance from there to the edge
    it tips over. Raises `ZeroDivisionError` for a point.
    """
    return math.degrees(math.acos(height_mm / math.sqrt(height_mm**2 + inward_mm**2)))


@formula("weight_n * inward_mm / push_mm")
def tipping_push(*, weight_n: ForceN, inward_mm: LengthMm, push_mm: LengthMm) -> ForceN:
    """The horizontal push at a height that tips a free-standing body over."""
    return weight_n * inward_mm / push_mm


@formula("constant * gravity**1.5 * (diameter_mm / 25.4)**0.75 * thread_mm / 25.4 * 4.4482216152605")
def lag_screw_withdrawal(
    *,
    constant: Ratio,
    gravity: Annotated[float, Unit("", 0, 1.2)],
    diameter_mm: LengthMm,
    thread_mm: LengthMm,
) -> ForceN:
    """Permissible withdrawal of one lag screw from side grain (NDS:2018 clause 12.2.1).

    The constant gives pounds an inch of thread for a diameter in inches; `gravity` is the specific gravity of
    the wood, `thread_mm` the length of thread in it without the tapered tip.
    """
    pounds: float = constant * gravity**1.5 * (diameter_mm / 25.4) ** 0.75 * thread_mm / 25.4
    return pounds * 4.4482216152605


@formula("constant * diameter_mm**0.5 * thread_mm**0.9 * density**0.8 * min(1, diameter_mm / 8)")
def timber_screw_withdrawal(
    *, constant: Ratio, diameter_mm: LengthMm, thread_mm: LengthMm, density: DensityKgPerM3
) -> ForceN:
    """Characteristic withdrawal of one screw square to the grain (EN 1995-1-1 expressions 8.38 to 8.40).

    f_ax d l_ef k_d with f_ax = 0.52 d^−0.5 l_ef^−0.1 ρ_k^0.8; `density` is the characteristic one of the
    timber in kg/m³, `thread_mm` the length of thread in it.
    """
    force_n: float = constant * diameter_mm**0.5 * thread_mm**0.9 * density**0.8 * min(1.0, diameter_mm / 8)
    return force_n
