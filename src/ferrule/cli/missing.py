"""The list of what is still to be found out, on a terminal."""

from collections.abc import Iterator, Sequence

from ferrule.cli.paint import Paint
from ferrule.constraint import Verdict
from ferrule.display.missing import Fact, brief, joined


def told(facts: Sequence[Fact], paint: Paint) -> Iterator[str]:
    """The list, headed by where one stands."""
    where = ""
    for fact in facts:
        if fact.where != where:
            where = fact.where
            yield f"  {paint.verdict(Verdict.UNKNOWN, where)}"
        path = f"  [{', '.join(joined(fact.paths))}]" if fact.paths else ""
        yield from paint.wrapped(fact.ask + path, 4, 6)
        if fact.findings:
            yield from map(paint.quiet, paint.wrapped(f"for {brief(fact.findings)}", 6))
