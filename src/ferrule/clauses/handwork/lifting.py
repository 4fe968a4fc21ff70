"""Lifting by hand (DHHS (NIOSH) 94-110, revised 2021; HSE INDG143, L23 and INDG402).

Two methods that know nothing of each other. The NIOSH equation gives one person's limit at each end of a
lift. The HSE's filter gives, by the boxes that the hands pass through, what men and women lift without
further assessment.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ferrule.clauses.values import Hands, Lift, LiftingAid
from ferrule.constraint import Constraint, at_least, at_most, is_so
from ferrule.physics import lifting as physics
from ferrule.working import Tables, Trace

#: the boxes of the filter from the floor up, and the borders between them
_BOXES = ("floor", "knuckle", "elbow", "shoulder", "head")
_BORDERS = ("lower_leg", "knuckle", "elbow", "shoulder")

_FEWER = "lift it with one more, in lighter pieces, or with an aid"
_NEARER = "set it down nearer the body and nearer waist height, or lift it with an aid"


class FilterAndEquation:
    """Both methods, and the rules for teams and ladders.

    The equation is made for one person. A team's limit by it, with the share that the filter grants a team,
    is our own extension: a caution at worst. Neither method holds for one hand, for seated, kneeling or
    cramped people, for loads that shift, on slippery floors, in heat or cold.
    """

    needs = (
        "lift_least",
        "niosh_load_constant",
        "niosh_hands_nearest",
        "niosh_hands_farthest",
        "niosh_body",
        "niosh_body_low",
        "niosh_body_from",
        "niosh_height_best",
        "niosh_height_slope",
        "niosh_height_most",
        "niosh_travel_base",
        "niosh_travel_gain",
        "niosh_travel_least",
        "niosh_travel_most",
        "niosh_twist_slope",
        "niosh_twist_most",
        "niosh_rarely",
        "niosh_frequency",
        "niosh_coupling",
        "lift_filter",
        "lift_often",
        "lift_twisted",
        "lift_team",
        *(f"lift_border_{border}" for border in _BORDERS),
        "ladder_load",
        "ladder_steepness",
        "ladder_above",
    )

    def least_kg(self, t: Trace) -> float:
        """EN 1005-2, scope."""
        return t.figure("lift_least")

    # The NIOSH equation

    def reach_mm(self, t: Trace, *, depth_mm: float, height_mm: float) -> float:
        """Section 1.3.1.1."""
        low = height_mm < t.figure("niosh_body_from")
        body_mm = t.figure("niosh_body_low" if low else "niosh_body")
        return t.calculate(physics.hands_out, body_mm=body_mm, depth_mm=depth_mm)

    def recommended_kg(self, t: Trace, *, lift: Lift, hands: Hands) -> float:
        """Section 1.3. The frequency multiplier goes by the height at the origin, the coupling multiplier by
        the height at the end that is looked at.
        """
        best_mm = t.figure("niosh_height_best")
        per_min = max(lift.per_min, t.figure("niosh_rarely"))
        frequency = f"{lift.duration}_{_level(lift.start, best_mm)}"
        return t.calculate(
            physics.recommended_weight,
            constant_kg=t.figure("niosh_load_constant"),
            horizontal=t.calculate(
                physics.horizontal_multiplier,
                hands_mm=hands.reach_mm,
                nearest_mm=t.figure("niosh_hands_nearest"),
                farthest_mm=t.figure("niosh_hands_farthest"),
            ),
            vertical=t.calculate(
                physics.vertical_multiplier,
                hands_mm=hands.height_mm,
                best_mm=best_mm,
                slope=t.figure("niosh_height_slope"),
                highest_mm=t.figure("niosh_height_most"),
            ),
            distance=t.calculate(
                physics.distance_multiplier,
                travel_mm=abs(lift.end.height_mm - lift.start.height_mm),
                base=t.figure("niosh_travel_base"),
                gain_mm=t.figure("niosh_travel_gain"),
                least_mm=t.figure("niosh_travel_least"),
                most_mm=t.figure("niosh_travel_most"),
            ),
            asymmetry=t.calculate(
                physics.asymmetry_multiplier,
                twist_deg=hands.twist_deg,
                slope=t.figure("niosh_twist_slope"),
                most_deg=t.figure("niosh_twist_most"),
            ),
            frequency=t.read("niosh_frequency", per_min, frequency),
            coupling=t.read("niosh_coupling", lift.grip, _level(hands, best_mm)),
        )

    def _weaker_end(self, tables: Tables, lift: Lift) -> tuple[Trace, float]:
        """The end of a lift with the lower limit (section 2.1.1: the load must be placed with care)."""
        ends = []
        for hands in (lift.start, lift.end):
            t = Trace(tables)
            ends.append((t, self.recommended_kg(t, lift=lift, hands=hands)))
        return min(ends, key=lambda end: end[1])

    # The HSE's filter

    def filter_kg(self, t: Trace, *, lift: Lift, people: Sequence[str]) -> float:
        """The smallest weight of all boxes that the hands pass through, for each person; a team lifts a share
        of the sum (L23). A border of boxes lies between that of a short woman and that of a tall man, and the
        weight runs straight from the one to the other. The reach is the greater of both ends.
        """
        men, women = people.count("man"), people.count("woman")
        each_kg = {person: self._alone_kg(t, lift, person) for person in ("man", "woman") if person in people}
        share = t.read("lift_team", len(people))
        together_kg = t.calculate(
            physics.team_weight,
            share=share,
            men=men,
            man_kg=each_kg.get("man", 0.0),
            women=women,
            woman_kg=each_kg.get("woman", 0.0),
        )
        return t.calculate(
            physics.reduced_weight,
            mass_kg=together_kg,
            often_pct=t.read("lift_often", lift.per_min),
            twisted_pct=t.read("lift_twisted", max(abs(hands.twist_deg) for hands in (lift.start, lift.end))),
        )

    def _alone_kg(self, t: Trace, lift: Lift, person: str) -> float:
        """What one person lifts alone where on the way it is least."""
        reach_mm = max(lift.start.reach_mm, lift.end.reach_mm)
        low_mm, high_mm = sorted((lift.start.height_mm, lift.end.height_mm))
        scrap = Trace(t.tables)
        bends = [edge for border in _BORDERS for edge in _edges(scrap, border) if low_mm < edge < high_mm]
        least_mm = min(
            (low_mm, high_mm, *bends), key=lambda height_mm: self._at_kg(scrap, height_mm, reach_mm, person)
        )
        return self._at_kg(t, least_mm, reach_mm, person)

    def _at_kg(self, t: Trace, height_mm: float, reach_mm: float, person: str) -> float:
        """What one person lifts with the hands at one height."""
        for border, (below, above) in zip(_BORDERS, pairwise(_BOXES), strict=True):
            low_mm, high_mm = _edges(Trace(t.tables), border)
            if height_mm <= low_mm:
                _edges(t, border)
                return self._in_box_kg(t, below, reach_mm, person)
            if height_mm < high_mm:
                _edges(t, border)
                return t.calculate(
                    physics.weight_at_height,
                    below_kg=self._in_box_kg(t, below, reach_mm, person),
                    above_kg=self._in_box_kg(t, above, reach_mm, person),
                    hands_mm=height_mm,
                    from_mm=low_mm,
                    upto_mm=high_mm,
                )
        _edges(t, _BORDERS[-1])
        return self._in_box_kg(t, _BOXES[-1], reach_mm, person)

    def _in_box_kg(self, t: Trace, box: str, reach_mm: float, person: str) -> float:
        return t.calculate(
            physics.weight_at_reach,
            close_kg=t.read("lift_filter", box, f"{person}_close"),
            far_kg=t.read("lift_filter", box, f"{person}_far"),
            hands_mm=reach_mm,
            nearest_mm=t.figure("niosh_hands_nearest"),
        )

    # Judging a lift

    def by_hand(
        self,
        tables: Tables,
        *,
        load: str,
        mass_kg: float,
        lift: Lift,
        people: Sequence[str],
        footing: str,
        cramped: bool,
    ) -> Iterator[Constraint]:
        """Both methods where both apply (NIOSH section 1.2; INDG143, conditions of the filter)."""
        if footing == "ladder":
            yield self._from_ladder(tables, load, mass_kg)
            return
        outside = list(self._outside(tables, lift, cramped))
        if outside:
            yield from outside
            return
        t = Trace(tables)
        yield at_most(
            "lift_filter",
            "{load} weighs {value}; up to {limit} {people} may lift so without an assessment in writing",
            t,
            value=mass_kg,
            limit=self.filter_kg(t, lift=lift, people=people),
            unit="kg",
            mend=_FEWER,
            load=load,
            people=_named(people),
        )
        t, alone_kg = self._weaker_end(tables, lift)
        limit_kg = t.calculate(
            physics.team_weight,
            share=t.read("lift_team", len(people)),
            men=len(people),
            man_kg=alone_kg,
            women=0,
            woman_kg=0.0,
        )
        yield at_most(
            "lift_equation",
            "{load} weighs {value}; the NIOSH equation recommends no more than {limit} for {people}",
            t,
            value=mass_kg,
            limit=limit_kg,
            unit="kg",
            binding=len(people) == 1,
            mend=_FEWER,
            load=load,
            people=_named(people),
        )

    def with_aid(
        self,
        tables: Tables,
        *,
        load: str,
        mass_kg: float,
        seat_mm: float,
        aids: Sequence[LiftingAid],
        footing: str,
    ) -> Iterator[Constraint]:
        """An aid is rated by its maker, and bears no gram nor reaches a millimetre more."""
        if footing == "ladder":
            yield self._from_ladder(tables, load, mass_kg)
        t = Trace(tables)
        if not aids:
            yield is_so(
                "lift_aid",
                "{load} weighs {mass_kg} and needs a lifting aid; none is there",
                t,
                False,
                mend="bring an aid that is rated for {mass_kg} and reaches {seat_mm}",
                load=load,
                mass_kg=mass_kg,
                seat_mm=seat_mm,
            )
            return
        aid = min(
            aids, key=lambda each: ((each.load_kg < mass_kg) + (each.reach_mm < seat_mm), -each.load_kg)
        )
        yield at_most(
            "lift_aid",
            "{load} weighs {value}; {aid} is rated for {limit}",
            t,
            value=mass_kg,
            limit=t.given("load_kg", aid.load_kg, f"plate of {aid.name}"),
            unit="kg",
            mend="bring an aid that is rated for it, or lift it in lighter pieces",
            load=load,
            aid=aid.name,
        )
        t = Trace(tables)
        yield at_most(
            "lift_aid_reach",
            "{load} is up to {value} above the floor on its way; {aid} reaches {limit}",
            t,
            value=seat_mm,
            limit=t.given("reach_mm", aid.reach_mm, f"sheet of {aid.name}"),
            unit="mm",
            mend="bring an aid that reaches as high",
            load=load,
            aid=aid.name,
        )

    def _from_ladder(self, tables: Tables, load: str, mass_kg: float) -> Constraint:
        """INDG402: light work only, and a hand is left to hold on with."""
        t = Trace(tables)
        return at_most(
            "ladder_load",
            "{load} weighs {value}; from a ladder no more than {limit} is handled",
            t,
            value=mass_kg,
            limit=t.figure("ladder_load"),
            unit="kg",
            mend="stand on a platform or a scaffold",
            load=load,
        )

    def _outside(self, tables: Tables, lift: Lift, cramped: bool) -> Iterator[Constraint]:
        """The conditions of both methods that are not met."""
        ends = (lift.start, lift.end)
        if cramped:
            yield is_so(
                "lift_space",
                "There is no room to stand upright before it with the feet apart: neither method applies",
                Trace(tables),
                False,
                mend="lift it with an aid, or have somebody competent assess the lift in writing",
            )
        t = Trace(tables)
        if (lowest_mm := min(hands.height_mm for hands in ends)) < 0:
            yield at_least(
                "lift_low",
                "The hands begin {value} above where the feet stand: neither method applies",
                t,
                value=lowest_mm,
                limit=0.0,
                unit="mm",
                mend="lift it onto the platform first",
            )
        t = Trace(tables)
        highest_mm = t.figure("niosh_height_most")
        if (hands_mm := max(hands.height_mm for hands in ends)) > highest_mm:
            yield at_most(
                "lift_high",
                "The hands reach up {value}; beyond {limit} neither method applies",
                t,
                value=hands_mm,
                limit=highest_mm,
                unit="mm",
                mend="stand on a platform",
            )
        t = Trace(tables)
        farthest_mm = t.figure("niosh_hands_farthest")
        if (hands_mm := max(hands.reach_mm for hands in ends)) > farthest_mm:
            yield at_most(
                "lift_far",
                "The hands are {value} out before the ankles; beyond {limit} neither method applies",
                t,
                value=hands_mm,
                limit=farthest_mm,
                unit="mm",
                mend=_NEARER,
            )

    # Ladders

    def ladder_foot_mm(self, t: Trace, *, height_mm: float) -> float:
        """One out for four up (INDG402)."""
        return t.calculate(physics.ladder_foot, height_mm=height_mm, steepness=t.figure("ladder_steepness"))

    def ladder_above_mm(self, t: Trace) -> float:
        return t.figure("ladder_above")


def _level(hands: Hands, best_mm: float) -> str:
    return "low" if hands.height_mm < best_mm else "high"


def _edges(t: Trace, border: str) -> tuple[float, float]:
    """The heights among which a border of boxes lies for adults."""
    return t.figure(f"lift_border_{border}", "low"), t.figure(f"lift_border_{border}", "high")


def _named(people: Sequence[str]) -> str:
    """Those who lift, as a sentence names them."""
    return {1: "one person", 2: "two people", 3: "three people"}.get(len(people), f"{len(people)} people")
