"""What was chosen, and what governed it, in words."""

from collections.abc import Iterator
from typing import Any

from ferrule.choose import Choice
from ferrule.choose.offers import spelled
from ferrule.constraint import Verdict
from ferrule.display.numbers import percent
from ferrule.display.sentences import filled


def plainly(kind: str, value: Any) -> str:
    """A choice as a person says it: `type A, residual 30 mA`, `INV1.BUS, EM.BUS`, `none`."""
    text = spelled(kind, value)
    if text.startswith("["):
        return text.strip("[]") or "none"
    return text.strip("{}").replace(": ", " ").replace("_", " ") if text.startswith("{") else text


def why(choice: Choice) -> str:
    """What the next smaller one lacked, and that nothing would do where nothing does; else empty."""
    return "; ".join(_reasons(choice))


def _reasons(choice: Choice) -> Iterator[str]:
    lacking = choice.governed_by
    if lacking is not None:
        value, told = plainly(choice.decided.kind, lacking.value), filled(lacking.constraint)
        short = "would not do"
        if lacking.constraint.verdict is Verdict.PASS:
            short = f"leaves less room than the {percent(lacking.wanted)} that the firm wants"
        yield f"{value} {short}: {told}"
    if not choice.passes:
        yield "nothing on offer keeps every limit, see its findings"
