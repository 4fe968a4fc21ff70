"""What stands in the house already is parted from the network, locked, and proved dead."""

from collections.abc import Iterator, Sequence

from ferrule.checks.question import Subject
from ferrule.fact import Unknown
from ferrule.proving import told
from ferrule.proving.isolation import PROOF, Point, Record
from ferrule.proving.phrase import Term, Word, spot
from ferrule.proving.steps.plan import Plan
from ferrule.proving.steps.step import Reading, Step

_BOOKED = "book/supply"
_CAUTIONS = ("caution.two_sources", "caution.tester")


def steps(plan: Plan, _before: Sequence[Step]) -> Iterator[Step]:
    records = plan.records.values()
    booked = any(_points(record, "supplier") for record in records)
    if booked:
        yield plan.step(
            "isolate", "book", Subject("supply", "supply"), ["walk/house"], gate="licensed",
            words=(("fuse", _main_fuse(plan)),),
        )  # fmt: skip
    for record in records:
        yield _parted(plan, record, [_BOOKED] if booked else ["walk/house"])
    every = [f"isolate/{record.area.id}" for record in records]
    for record in records:
        yield _proved(plan, record, every)


def _points(record: Record, who: str) -> list[Point]:
    """What is opened against the network and a generator: nothing else feeds the house yet."""
    feeds = (feed for feed in record.feeds if feed.kind in {"network", "generator"})
    return [point for feed in feeds for point in feed.points if point.who == who]


def _parted(plan: Plan, record: Record, before: list[str]) -> Step:
    points = [*_points(record, "supplier"), *_points(record, "crew")]
    opened: tuple[Word, ...] = tuple(told.point(point) for point in dict.fromkeys(points))
    return plan.step(
        "isolate", "isolate", record.area, before, drawing="single-line",
        words=(("area", spot(record.area.id)), ("points", opened or Term("point.none"))),
        tools=("tool.lock", "tool.tag"), cautions=_CAUTIONS,
    )  # fmt: skip


def _proved(plan: Plan, record: Record, before: list[str]) -> Step:
    area = record.area.id
    readings = [
        Reading(f"dead/{area}/{pair.terminal}/{pair.a}-{pair.b}", told.pair(pair).key, "V",
                told.pair(pair).words)
        for pair in record.pairs
    ]  # fmt: skip
    return plan.step(
        "isolate", "dead", record.area, before, drawing="single-line", gate="dead", readings=readings,
        words=(("area", spot(area)), ("proofs", tuple(Term(f"proof.{proof}") for proof in PROOF))),
        tools=("tool.tester", "tool.proving_unit"), cautions=_CAUTIONS,
    )  # fmt: skip


def _main_fuse(plan: Plan) -> Word:
    fuse = plan.house.job.supply.main_fuse
    if isinstance(fuse, Unknown):
        return fuse
    return Term("point.rating", (("rating_a", fuse.rating_a),))
