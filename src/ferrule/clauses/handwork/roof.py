"""Work on a roof: asbestos, the age of the covering, access and falls."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_most, is_so
from ferrule.working import Tables, Trace


class SurveyFirst:
    """Asbestos stops the work until a laboratory has said that there is none; nobody works without protection
    against falls. The age of a covering is common practice.
    """

    needs = ("asbestos_ban_year", "covering_age_should")

    def may_hold_asbestos(self, t: Trace, laid_year: int) -> bool:
        """Whether fibre cement of a year may hold asbestos, whatever it looks like."""
        return laid_year < t.figure("asbestos_ban_year", "high")

    def asbestos(
        self, tables: Tables, *, found: str, covering: str, laid_year: int | None
    ) -> Iterator[Constraint]:
        t = Trace(tables)
        doubtful = False
        if covering == "fibre-cement" and found == "none" and laid_year is not None:
            doubtful = self.may_hold_asbestos(t, laid_year)
        good = found != "suspected" and not doubtful
        yield is_so(
            "asbestos",
            "Nothing there is suspected of asbestos" if good
            else "Stop: asbestos is suspected. Nothing is drilled, cut, cleaned or walked on"
            if found == "suspected"
            else "Stop: fibre cement of {laid_year} may contain asbestos, whatever it looks like",
            t, good, mend="have a laboratory test it, and leave it to a firm licensed for asbestos if it is",
            laid_year=str(laid_year),
        )  # fmt: skip

    def age(self, tables: Tables, *, laid_year: int, year: int) -> Iterator[Constraint]:
        t = Trace(tables)
        yield at_most(
            "age",
            "The covering is {value} years old; beyond {limit} it is renewed before modules lie on it",
            t,
            value=year - t.given("laid_year", laid_year, "survey"),
            limit=t.figure("covering_age_should"),
            unit="count",
            binding=False,
            mend="renew the covering first, or write down why it will outlast the modules",
        )

    def access(self, tables: Tables, *, access: str, fall_protection: str) -> Iterator[Constraint]:
        t, good = Trace(tables), fall_protection != "none"
        yield is_so(
            "falls", "Against falls there is: {what}" if good else "Nothing keeps people from falling",
            t, good, mend="plan a scaffold, an edge guard, nets or anchors with a rescue plan",
            what=fall_protection.replace("-", " "),
        )  # fmt: skip
        yield is_so(
            "access", "People get up by a {how}" if access != "ladder" else "People get up by a ladder only",
            Trace(tables), access != "ladder", binding=False,
            mend="put up a scaffold or a platform: modules are not carried up a ladder",
            how=access,
        )  # fmt: skip
