"""The entries of an isolation record as phrases of the catalogue, for whatever shows them."""

from ferrule.proving.isolation import Feed, Pair, Point, Remain
from ferrule.proving.phrase import Term, Word, named, spot


def source(feed: Feed) -> Term:
    """A source by its kind and id."""
    return Term(f"source.{feed.kind}", (("of", feed.source),))


def positions(feed: Feed) -> Word:
    """The switch positions in which it feeds."""
    return tuple(Term(f"position.{position}") for position in feed.positions)


def terminals(feed: Feed) -> Word:
    """Where it reaches the area."""
    return tuple(spot(terminal) for terminal in feed.terminals)


def point(each: Point) -> Term:
    """What is opened, whose it is, and where it sits."""
    return Term(f"point.{each.kind}", (("of", each.of), ("at", spot(each.at))))


def lock(each: Point) -> Word:
    """How it is locked; not known for a switch of which nobody knows whether it can be."""
    return named("lock", each.lock)


def who(each: Point) -> Term:
    """Who may operate it."""
    return Term(f"who.{each.who}")


def pair(each: Pair) -> Term:
    """The two conductors to test."""
    return Term("reading.pair", (("terminal", spot(each.terminal)), ("a", each.a), ("b", each.b)))


def remain(each: Remain) -> Term:
    """What stays live; of capacitors, how long."""
    wait: tuple[tuple[str, Word], ...] = () if each.wait_s is None else (("wait_s", each.wait_s),)
    return Term(f"remain.{each.kind}", (("of", each.of), *wait))
