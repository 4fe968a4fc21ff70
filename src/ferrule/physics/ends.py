"""Cable ends and bends: what to strip, how tightly to bend."""

from ferrule.quantity import LengthMm, Ratio, SharePct, formula


@formula("sleeve_mm + collar_mm")
def strip_for_sleeve(*, sleeve_mm: LengthMm, collar_mm: LengthMm) -> LengthMm:
    """Length to strip for a sleeve: its metal, and what a collar takes."""
    return sleeve_mm + collar_mm


@formula("barrel_mm * (1 + growth_pct / 100)")
def strip_for_barrel(*, barrel_mm: LengthMm, growth_pct: SharePct) -> LengthMm:
    """Length to strip for a lug: the depth of its barrel, and what it grows by when it is pressed."""
    return barrel_mm * (1 + growth_pct / 100)


@formula("factor * outer_mm")
def bend_radius(*, factor: Ratio, outer_mm: LengthMm) -> LengthMm:
    """Least radius at the inner edge of a bend; of a flat cable the wide side counts as its diameter."""
    return factor * outer_mm


@formula("(barrel_mm + overlap_mm) / (1 - shortens_pct / 100)")
def shrink_length(*, barrel_mm: LengthMm, overlap_mm: LengthMm, shortens_pct: SharePct) -> LengthMm:
    """Length to cut of a heat-shrink sleeve that covers a lug's barrel and so much of the insulation, and
    grows shorter as it shrinks.
    """
    return (barrel_mm + overlap_mm) / (1 - shortens_pct / 100)
