"""What was chosen, and what governed it, in words."""

from ferrule.choose import Choice
from ferrule.choose.offers import spelled
from ferrule.constraint import Verdict
from ferrule.display.numbers import percent
from ferrule.display.sentences import filled


def why(choice: Choice) -> str:
    """What follows a choice: whether the firm carries it, what the next smaller lacked, whether it passes."""
    carried = ", which the firm carries" if choice.carried else ""
    lacking = choice.governed_by
    governed = ""
    if lacking is not None:
        value, told = spelled(choice.decided.kind, lacking.value), filled(lacking.constraint)
        short = "would not do"
        if lacking.constraint.verdict is Verdict.PASS:
            short = f"leaves less room than the {percent(lacking.wanted)} that the firm wants"
        governed = f"; {value} {short}: {told}"
    missed = "" if choice.passes else "; nothing on offer keeps every limit, see its findings"
    return f"{carried}{governed}{missed}"
