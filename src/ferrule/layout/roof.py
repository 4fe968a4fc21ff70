"""Modules on a roof plane: where they lie, where rails and hooks go, and how many of each part it takes."""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from ferrule.fact import Missing, all_known, known
from ferrule.job.roof import Block, Roof
from ferrule.layout.wall import Rectangle, spot
from ferrule.parts import Module
from ferrule.parts.mount import Mount

#: a division that comes out this close to a whole number is that number: 9900 mm are three rails of 3300 mm
_WHOLE = 1e-9


class Rail(NamedTuple):
    """One rail, and the places of its hooks along it, from the left edge of the plane."""

    left_mm: float
    right_mm: float
    height_mm: float
    hooks_mm: tuple[float, ...]

    @property
    def length_mm(self) -> float:
        return self.right_mm - self.left_mm

    @property
    def overhang_mm(self) -> float:
        """How far it sticks out beyond its last hook; all of it where it has none."""
        if not self.hooks_mm:
            return self.length_mm
        return max(self.hooks_mm[0] - self.left_mm, self.right_mm - self.hooks_mm[-1])


class Hook(NamedTuple):
    """Where a hook of a block sits, from the left edge of the plane and from the eaves."""

    block: str
    across_mm: float
    up_mm: float

    @property
    def rectangle(self) -> Rectangle:
        return Rectangle(self.across_mm, self.up_mm, self.across_mm, self.up_mm)


class Parts(NamedTuple):
    """How many parts a block takes."""

    modules: int
    hooks: int
    screws: int
    rails: int
    splices: int
    mid_clamps: int
    end_clamps: int


class Laid(NamedTuple):
    """A block as it lies on its plane."""

    block: str
    outline: Rectangle
    rails: tuple[Rail, ...]
    parts: Parts


def outline(block: Block, module: Module, mount: Mount) -> Rectangle:
    """What a block covers. Raises `Missing` where a measure is not known."""
    all_known(block.left_mm, block.bottom_mm, module.length_mm, module.width_mm, mount.gap_mm)
    across_mm, up_mm = module_mm(block, module)
    gap_mm, left_mm, bottom_mm = known(mount.gap_mm), known(block.left_mm), known(block.bottom_mm)
    return Rectangle(
        left_mm,
        bottom_mm,
        left_mm + block.columns * across_mm + (block.columns - 1) * gap_mm,
        bottom_mm + block.rows * up_mm + (block.rows - 1) * gap_mm,
    )


def module_mm(block: Block, module: Module) -> tuple[float, float]:
    """A module's extent along the eaves and up the slope, in mm. Raises `Missing`."""
    all_known(module.length_mm, module.width_mm)
    long_mm, short_mm = known(module.length_mm), known(module.width_mm)
    return (short_mm, long_mm) if block.orientation == "portrait" else (long_mm, short_mm)


def laid(block: Block, module: Module, mount: Mount, roof: Roof, every: int) -> Laid:
    """A block with its rails, a hook on every `every`-th rafter. Raises `Missing` naming all to measure."""
    if roof.structure == "purlins":
        raise Missing(
            "where the hooks sit: purlins run along the eaves, and rails across them; plan them by hand"
        )
    all_known(
        block.left_mm, block.bottom_mm, block.low_rail_mm, block.high_rail_mm,
        roof.structure, roof.spacing_mm, roof.first_mm, roof.width_mm, module.length_mm, module.width_mm,
        mount.gap_mm, mount.rail_mm, mount.rail_end_mm, mount.screws, mount.overhang_max_mm,
    )  # fmt: skip
    covered, end_mm = outline(block, module, mount), known(mount.rail_end_mm)
    left_mm, right_mm = covered.left_mm - end_mm, covered.right_mm + end_mm
    rafters = rafters_mm(known(roof.first_mm), known(roof.spacing_mm), known(roof.width_mm))
    step_mm = module_mm(block, module)[1] + known(mount.gap_mm)
    heights_mm = [
        covered.bottom_mm + row * step_mm + height_mm
        for row in range(block.rows)
        for height_mm in (known(block.low_rail_mm), known(block.high_rail_mm))
    ]
    crossed = [
        each
        for each in map(spot, roof.keep_clear)
        if any(each.bottom_mm <= height_mm <= each.top_mm for height_mm in heights_mm)
    ]
    hooks = hooks_mm(rafters, left_mm, right_mm, every, known(mount.overhang_max_mm), crossed)
    rails = tuple(Rail(left_mm, right_mm, height_mm, hooks) for height_mm in heights_mm)
    return Laid(block.id, covered, rails, counted(block, rails, known(mount.rail_mm), known(mount.screws)))


def rafters_mm(first_mm: float, spacing_mm: float, width_mm: float) -> tuple[float, ...]:
    """The middles of the rafters of a plane, from its left edge."""
    count = math.floor((width_mm - first_mm) / spacing_mm + _WHOLE) + 1 if first_mm <= width_mm else 0
    return tuple(first_mm + at * spacing_mm for at in range(count))


def hooks_mm(
    rafters: Sequence[float],
    left_mm: float,
    right_mm: float,
    every: int,
    overhang_mm: float,
    crossed: Sequence[Rectangle] = (),
) -> tuple[float, ...]:
    """The rafters that get a hook under a rail: every `every`-th, from the one that keeps most of them off
    what the rails cross under the covering, then from the one that leaves the fewest hooks.

    Where an end would stick out further than it may, the outermost rafter gets a hook as well.
    """
    under = [rafter for rafter in rafters if left_mm <= rafter <= right_mm]

    def from_the(start: int) -> tuple[float, ...]:
        hooks = under[start::every]
        if hooks and hooks[0] - left_mm > overhang_mm:
            hooks = [*under[:1], *hooks]
        if hooks and right_mm - hooks[-1] > overhang_mm:
            hooks = [*hooks, *under[-1:]]
        return tuple(dict.fromkeys(hooks))

    def cost(hooks: tuple[float, ...]) -> tuple[int, int]:
        met = sum(each.left_mm <= hook <= each.right_mm for hook in hooks for each in crossed)
        return met, len(hooks)

    return min((from_the(start) for start in range(min(every, len(under)))), key=cost, default=())


def met(blocks: Iterable[Laid], roof: Roof) -> tuple[Hook, ...]:
    """The hooks that sit where something runs under the covering."""
    kept_clear = [spot(each) for each in roof.keep_clear]
    hooks = [
        Hook(each.block, x, rail.height_mm) for each in blocks for rail in each.rails for x in rail.hooks_mm
    ]
    return tuple(hook for hook in hooks if any(hook.rectangle.distance_mm(each) == 0 for each in kept_clear))


def counted(block: Block, rails: Sequence[Rail], rail_mm: float, screws: int) -> Parts:
    """The parts of a block. A rail that is longer than it is delivered is spliced."""
    pieces = sum(math.ceil(rail.length_mm / rail_mm - _WHOLE) for rail in rails)
    hooks = sum(len(rail.hooks_mm) for rail in rails)
    return Parts(
        modules=block.rows * block.columns,
        hooks=hooks,
        screws=hooks * screws,
        rails=pieces,
        splices=pieces - len(rails),
        mid_clamps=len(rails) * (block.columns - 1),
        end_clamps=len(rails) * 2,
    )
