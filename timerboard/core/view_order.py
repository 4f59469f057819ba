"""In which order strips stand: by next need for hands, and as still as can be."""

from collections.abc import Collection, Sequence


def reorder(previous: Sequence[str], ranked: Sequence[str], moved: Collection[str] = ()) -> tuple[str, ...]:
    """The order to show: `previous` without what is gone; what is new or `moved` goes to its place in `ranked`.

    `moved` are the strips that ring or were just answered: only they change place, every other keeps its neighbours.
    A strip goes right before the first that should stand below it, so one that rings rises past all that do not.
    """
    wanted = {key: at for at, key in enumerate(ranked)}
    order = [key for key in dict.fromkeys(previous) if key in wanted and key not in moved]
    kept = set(order)
    for key in ranked:
        if key not in kept:
            below = (at for at, other in enumerate(order) if wanted[other] > wanted[key])
            order.insert(next(below, len(order)), key)
            kept.add(key)
    return tuple(order)
