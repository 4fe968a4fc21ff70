"""What is cut from a cable."""

from ferrule.quantity import Count, LengthM, formula


@formula("route_m + ends_m + stretches * stretch_m")
def cut_length(*, route_m: LengthM, ends_m: LengthM, stretches: Count, stretch_m: LengthM) -> LengthM:
    """Length to cut: the route, what both ends need to work with, and what each stretch of the way adds."""
    return route_m + ends_m + stretches * stretch_m
