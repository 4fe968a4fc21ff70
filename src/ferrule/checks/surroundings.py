"""What is around a device: water and dust, heat and sun, bedrooms."""

from collections.abc import Iterable, Iterator
from typing import Literal

from ferrule.checks.question import Question, Subject, each
from ferrule.checks.subjects import hung_devices
from ferrule.clauses import Code
from ferrule.clauses.procedures import covered
from ferrule.constraint import Constraint, Verdict, at_least, at_most, is_so
from ferrule.design import Design
from ferrule.fact import Fact, Missing, all_known, known
from ferrule.job.devices import BatteryDevice, InverterDevice
from ferrule.layout.wall import Hung
from ferrule.physics import climate
from ferrule.working import Trace

# Water and dust


def water(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    face, hung = design.house.hung(subject.id)
    all_known(face.place.water, hung.body.ip)
    if face.place.use == "outdoors" and face.place.water == "dry":
        raise Missing(
            "what water meets a device outdoors, where no place is dry: drips, spray, splash or jets"
        )
    return covered(code.procedures.enclosure).water(
        code.rulebook, water=known(face.place.water), ip=known(hung.body.ip)
    )


def dust(design: Design, code: Code, subject: Subject) -> Iterable[Constraint]:
    face, hung = design.house.hung(subject.id)
    all_known(face.place.dusty, hung.body.ip)
    return covered(code.procedures.enclosure).dust(
        code.rulebook, dusty=known(face.place.dusty), ip=known(hung.body.ip)
    )


def entries(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Water runs along a cable: it must not run into the device."""
    face, hung = design.house.hung(subject.id)
    if known(face.place.water) == "dry":
        return None
    good = known(hung.body.entries) == "below"
    return is_so(
        "entries",
        "Its cables enter from below" if good else "Its cables enter from where water can follow them",
        code.trace(),
        good,
        binding=False,
        mend="lead each cable to it in a loop that drips off below the entry",
    )


def plugged(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """An IP code holds as long as nothing is left open."""
    face, hung = design.house.hung(subject.id)
    all_known(face.place.water, face.place.dusty)
    if known(face.place.water) == "dry" and not known(face.place.dusty):
        return None
    good = known(hung.siting.entries_plugged)
    return is_so(
        "plugged",
        "Each entry it does not use gets a plug" if good else "Entries it does not use stay open",
        code.trace(),
        good,
        mend="plug each of them with a plug of its IP code",
    )


def flood(design: Design, code: Code, subject: Subject) -> Constraint | None:
    face, hung = design.house.hung(subject.id)
    flood_mm: float | Literal["none"] = known(face.place.flood_mm)
    if flood_mm == "none":
        return None
    return at_least(
        "flood",
        "Its lower edge is {value} above the floor; water has stood or may stand {limit} high",
        code.trace(),
        value=known(hung.siting.bottom_mm),
        limit=flood_mm,
        unit="mm",
        strict=True,
        mend="hang it above the flood line, or elsewhere",
    )


def wet_floor(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    face, hung = design.house.hung(subject.id)
    all_known(face.place.water, hung.body.mount)
    if known(face.place.water) == "dry" or known(hung.body.mount) != "floor":
        return None
    return covered(code.procedures.enclosure).wet_floor(code.rulebook, bottom_mm=known(hung.siting.bottom_mm))


# Heat and sun


def sun(design: Design, code: Code, subject: Subject) -> Constraint:
    _, hung = design.house.hung(subject.id)
    all_known(hung.siting.sun, hung.body.sun)
    good = known(hung.siting.sun) == "shade" or known(hung.body.sun) == "allowed"
    return is_so(
        "sun",
        "Its maker bears the sun that shines on it"
        if good
        else "The sun shines on it; its maker asks for shade",
        code.trace(),
        good,
        mend="hang it in the shade, or put a roof over it that leaves its air free",
    )


def coldest(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """A battery's own windows for charging and discharging say more."""
    if isinstance(design.house.devices[subject.id], BatteryDevice):
        return None
    _, hung = design.house.hung(subject.id)
    coldest_c, _ = design.house.air_c(subject.id)
    all_known(coldest_c, hung.body.ambient_low_c)
    return at_least(
        "coldest",
        "Down to {value} around it; it may work from {limit} on",
        code.trace(),
        value=known(coldest_c),
        limit=known(hung.body.ambient_low_c),
        unit="°C",
        mend="hang it where it is warmer",
    )


def hottest(design: Design, code: Code, subject: Subject) -> Constraint | None:
    if isinstance(design.house.devices[subject.id], BatteryDevice):
        return None
    _, hung = design.house.hung(subject.id)
    t = code.trace()
    all_known(design.house.air_c(subject.id)[1], hung.siting.sun, hung.body.ambient_high_c)
    return at_most(
        "hottest",
        "Up to {value} around it; it may work up to {limit}",
        t,
        value=_hottest_c(design, code, subject.id, hung, t),
        limit=known(hung.body.ambient_high_c),
        unit="°C",
        mend="hang it where it is cooler",
    )


def power_left(design: Design, code: Code, subject: Subject) -> Constraint | None:
    """Less than full power in the heat costs yield, no more."""
    if not isinstance(design.house.devices[subject.id], InverterDevice):
        return None
    _, hung = design.house.hung(subject.id)
    body, t = hung.body, code.trace()
    all_known(
        design.house.air_c(subject.id)[1], hung.siting.sun, body.full_power_high_c, body.derating_pct_per_k
    )
    return at_least(
        "power_left",
        "In the hottest air it gives {value} of its power",
        t,
        value=t.calculate(
            climate.power_left_in_heat,
            air_c=_hottest_c(design, code, subject.id, hung, t),
            full_power_c=known(body.full_power_high_c),
            derating_pct_per_k=known(body.derating_pct_per_k),
        ),
        limit=100.0,
        unit="%",
        binding=False,
        mend="hang it where it is cooler, or reckon with less",
    )


def _hottest_c(design: Design, code: Code, device: str, hung: Hung, t: Trace) -> float:
    """The hottest air around a device, with what the sun adds."""
    air_c = t.given("air_c", known(design.house.air_c(device)[1]), "hottest air of the place")
    if known(hung.siting.sun) == "shade":
        return air_c
    return air_c + covered(code.procedures.air).sun_k(t)


# Noise


def at_window(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    return _at_window(design, code, subject, own=False)


def at_own_window(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    return _at_window(design, code, subject, own=True)


def _at_window(design: Design, code: Code, subject: Subject, *, own: bool) -> Iterable[Constraint] | None:
    """With all else that hums in the same place, each by its own distance. The kind of area matters only for
    what the quietest would not bear.
    """
    face, hung = design.house.hung(subject.id)
    if not known(hung.body.noise_dba) or known(_window(hung, own)) == "none":
        return None
    there = list(_in_place(design, face.place.id))
    all_known(*(fact for each in there for fact in (each.body.noise_dba, _window(each, own))))
    heard = [e for e in there if known(e.body.noise_dba) and known(_window(e, own)) != "none"]
    if any(_distance_mm(_window(each, own)) < 1_000 for each in heard):
        raise Missing("its noise at the bedroom window, measured: nearer than 1 m no sheet tells it")
    levels = [(known(e.body.noise_dba), _distance_mm(_window(e, own)) / 1_000) for e in heard]
    noise = covered(code.procedures.noise)
    found = list(noise.at_window(code.rulebook, levels=levels, area="purely-residential", own=own))
    if all(each.verdict is Verdict.PASS for each in found):  # what the quietest area bears any does
        return found
    return noise.at_window(code.rulebook, levels=levels, area=known(design.house.job.site.area), own=own)


def _window(hung: Hung, own: bool) -> Fact[float | Literal["none"]]:
    """Its distance to the nearest bedroom window, of the household or of a neighbour."""
    return hung.siting.bedroom_window_mm if own else hung.siting.neighbour_window_mm


def _in_place(design: Design, place: str) -> Iterator[Hung]:
    """Everything that hangs or stands in a place."""
    return (hung for face in design.house.walls.values() if face.place.id == place for hung in face.hung)


def _distance_mm(measured: Fact[float | Literal["none"]]) -> float:
    found: float | Literal["none"] = known(measured)
    assert found != "none"  # those with none are left out
    return found


def shared_wall(design: Design, code: Code, subject: Subject) -> Iterable[Constraint] | None:
    face, hung = design.house.hung(subject.id)
    if not known(hung.body.noise_dba):
        return None
    if known(face.wall.behind) == "sleeping":
        return covered(code.procedures.noise).behind_wall(code.rulebook, level_dba=known(hung.body.noise_dba))
    return [is_so("shared_wall", "Nobody sleeps behind the wall", code.trace(), True, binding=False)]


QUESTIONS = (
    Question(
        "device.enclosure",
        "Does its enclosure hold off water and dust there?",
        hung_devices,
        each(water, dust, entries, plugged, flood, wet_floor),
    ),
    Question(
        "device.climate",
        "Does it bear the air and the sun there, with full power?",
        hung_devices,
        each(sun, coldest, hottest, power_left),
    ),
    Question(
        "device.noise",
        "Does it leave people asleep?",
        hung_devices,
        each(at_window, at_own_window, shared_wall),
    ),
)
