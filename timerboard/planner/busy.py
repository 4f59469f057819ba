"""Rooms and hands as the solver takes them: what is fixed becomes blocks, what is free stays intervals.

Facts may break a rule between themselves (the cook put three trays in a two-tray oven): such stretches are simply full.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from .variables import Expr, Model


@dataclass(frozen=True)
class Block:
    """A fixed stretch in ticks with so much of a resource gone."""

    start: int
    end: int
    demand: int


@dataclass(frozen=True)
class Piece:
    """A movable stretch: an interval, its ends, and how much it takes."""

    interval: Any
    start: Expr
    end: Expr
    demand: int


def limit(model: Model, pieces: list[Piece], blocks: Iterable[Block], capacity: int, name: str) -> None:
    """At no moment more than `capacity`: no-overlap when there is one part only, cumulative above."""
    merged = levels(blocks, capacity)
    if not pieces:
        return
    fixed = [
        (model.cp.new_fixed_size_interval_var(b.start, b.end - b.start, f"{name} taken"), b.demand) for b in merged
    ]
    if capacity == 1 or (all(2 * p.demand > capacity for p in pieces) and all(b.demand == capacity for b in merged)):
        model.cp.add_no_overlap([p.interval for p in pieces] + [i for i, _ in fixed])
        return
    peak = sum(p.demand for p in pieces) + max((b.demand for b in merged), default=0)
    if peak > capacity:
        intervals = [p.interval for p in pieces] + [i for i, _ in fixed]
        model.cp.add_cumulative(intervals, [p.demand for p in pieces] + [d for _, d in fixed], capacity)


def levels(blocks: Iterable[Block], capacity: int) -> list[Block]:
    """The blocks laid over one another: disjoint, never above `capacity`."""
    real = [b for b in blocks if b.end > b.start and b.demand > 0]
    points = sorted({p for b in real for p in (b.start, b.end)})
    out: list[Block] = []
    for start, end in pairwise(points):
        demand = min(capacity, sum(b.demand for b in real if b.start <= start and end <= b.end))
        if demand and out and out[-1].end == start and out[-1].demand == demand:
            out[-1] = Block(out[-1].start, end, demand)
        elif demand:
            out.append(Block(start, end, demand))
    return out
