"""Work on a roof where no law bans asbestos in fibre cement (89 FR 21970)."""

from ferrule.clauses.handwork.roof import SurveyFirst
from ferrule.working import Trace


class TestedAlways(SurveyFirst):
    """No year tells fibre cement without asbestos from that with it."""

    needs = ("asbestos_in_fibre_cement", "covering_age_should")

    def may_hold_asbestos(self, t: Trace, laid_year: int) -> bool:
        return t.term("asbestos_in_fibre_cement") == "allowed"
