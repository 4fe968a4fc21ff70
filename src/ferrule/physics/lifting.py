"""Lifting by hand: the multipliers of the revised NIOSH equation, weights in between, teams, ladders.

Heights are those of the hands above the floor that the feet stand on. Every constant comes from the rulebook.
"""

import math
from typing import Annotated

from ferrule.quantity import AngleDeg, Count, LengthMm, MassKg, Ratio, SharePct, Unit, formula

Share = Annotated[float, Unit("", 0, 1)]


@formula("body_mm + depth_mm / 2")
def hands_out(*, body_mm: LengthMm, depth_mm: LengthMm) -> LengthMm:
    """How far the hands are out before the ankles with a load of this depth held against the body, where it
    cannot be measured (DHHS (NIOSH) 94-110, section 1.3.1.1).
    """
    return body_mm + depth_mm / 2


@formula("nearest_mm / max(hands_mm, nearest_mm) if hands_mm <= farthest_mm else 0")
def horizontal_multiplier(*, hands_mm: LengthMm, nearest_mm: LengthMm, farthest_mm: LengthMm) -> Ratio:
    """What is left of the weight with the hands so far out before the ankles: nothing beyond the farthest;
    nearer than the nearest counts as the nearest (DHHS (NIOSH) 94-110, section 1.3.1).
    """
    return nearest_mm / max(hands_mm, nearest_mm) if hands_mm <= farthest_mm else 0.0


@formula("1 - slope * abs(hands_mm - best_mm) / 1000 if hands_mm <= highest_mm else 0")
def vertical_multiplier(
    *, hands_mm: LengthMm, best_mm: LengthMm, slope: Ratio, highest_mm: LengthMm
) -> Ratio:
    """What is left of the weight with the hands at this height; `slope` is lost for each metre above or below
    the best, and all beyond the highest (DHHS (NIOSH) 94-110, section 1.3.2).
    """
    return 1 - slope * abs(hands_mm - best_mm) / 1000 if hands_mm <= highest_mm else 0.0


@formula("base + gain_mm / max(travel_mm, least_mm) if travel_mm <= most_mm else 0")
def distance_multiplier(
    *, travel_mm: LengthMm, base: Ratio, gain_mm: LengthMm, least_mm: LengthMm, most_mm: LengthMm
) -> Ratio:
    """What is left of the weight where the hands travel so far up or down: nothing beyond the most; less than
    the least counts as the least (DHHS (NIOSH) 94-110, section 1.3.3).
    """
    return base + gain_mm / max(travel_mm, least_mm) if travel_mm <= most_mm else 0.0


@formula("1 - slope * abs(twist_deg) if abs(twist_deg) <= most_deg else 0")
def asymmetry_multiplier(*, twist_deg: AngleDeg, slope: Ratio, most_deg: AngleDeg) -> Ratio:
    """What is left of the weight where the load is so far aside; `slope` is lost for each degree, and all
    beyond the most (DHHS (NIOSH) 94-110, section 1.3.4).
    """
    return 1 - slope * abs(twist_deg) if abs(twist_deg) <= most_deg else 0.0


@formula("constant_kg * horizontal * vertical * distance * asymmetry * frequency * coupling")
def recommended_weight(
    *,
    constant_kg: MassKg,
    horizontal: Share,
    vertical: Share,
    distance: Share,
    asymmetry: Share,
    frequency: Share,
    coupling: Share,
) -> MassKg:
    """The recommended weight limit for one person (DHHS (NIOSH) 94-110, section 1.3)."""
    return constant_kg * horizontal * vertical * distance * asymmetry * frequency * coupling


@formula("mass_kg / limit_kg")
def lifting_index(*, mass_kg: MassKg, limit_kg: MassKg) -> Ratio:
    """A load in terms of its recommended limit (DHHS (NIOSH) 94-110, section 1.4).

    Raises `ZeroDivisionError` where nothing may be lifted at all.
    """
    return mass_kg / limit_kg


@formula("max(far_kg, close_kg * nearest_mm / max(hands_mm, nearest_mm))")
def weight_at_reach(*, close_kg: MassKg, far_kg: MassKg, hands_mm: LengthMm, nearest_mm: LengthMm) -> MassKg:
    """A weight between the one for a load close to the body and the one at arm's length, which it reaches as
    the horizontal multiplier of the NIOSH equation falls.

    Source: an in-between weight near a border of boxes (HSE INDG143); how it runs is our own reading.
    """
    return max(far_kg, close_kg * nearest_mm / max(hands_mm, nearest_mm))


@formula("below_kg + (above_kg - below_kg) * (hands_mm - from_mm) / (upto_mm - from_mm)")
def weight_at_height(
    *, below_kg: MassKg, above_kg: MassKg, hands_mm: LengthMm, from_mm: LengthMm, upto_mm: LengthMm
) -> MassKg:
    """A weight between those of two boxes, in a straight line over the heights `from_mm` to `upto_mm` among
    which their border lies for adults (HSE INDG143: an in-between weight near a border).
    """
    return below_kg + (above_kg - below_kg) * (hands_mm - from_mm) / (upto_mm - from_mm)


@formula("mass_kg * (1 - often_pct / 100) * (1 - twisted_pct / 100)")
def reduced_weight(*, mass_kg: MassKg, often_pct: SharePct, twisted_pct: SharePct) -> MassKg:
    """A weight reduced for lifting often and for twisting (HSE INDG143)."""
    return mass_kg * (1 - often_pct / 100) * (1 - twisted_pct / 100)


@formula("share * (men * man_kg + women * woman_kg)")
def team_weight(*, share: Share, men: Count, man_kg: MassKg, women: Count, woman_kg: MassKg) -> MassKg:
    """What a team lifts together: a share of the sum of what its members lift alone (HSE L23)."""
    return share * (men * man_kg + women * woman_kg)


@formula("height_mm / steepness")
def ladder_foot(*, height_mm: LengthMm, steepness: Ratio) -> LengthMm:
    """How far a ladder's foot stands out from where it leans, so many heights to one (HSE INDG455)."""
    return height_mm / steepness


@formula("degrees(acos(foot_mm / sqrt(foot_mm**2 + height_mm**2)))")
def ladder_angle(*, height_mm: LengthMm, foot_mm: LengthMm) -> AngleDeg:
    """Angle of a ladder to the floor. Raises `ZeroDivisionError` where it has no length."""
    return math.degrees(math.acos(foot_mm / math.sqrt(foot_mm**2 + height_mm**2)))


@formula("sqrt(foot_mm**2 + height_mm**2) * (height_mm + above_mm) / height_mm")
def ladder_length(*, height_mm: LengthMm, foot_mm: LengthMm, above_mm: LengthMm) -> LengthMm:
    """Length of a ladder that stands out `above_mm` over where it leans. Raises `ZeroDivisionError` where it
    leans at no height.
    """
    return math.sqrt(foot_mm**2 + height_mm**2) * (height_mm + above_mm) / height_mm
