"""Any small menu: drawn by hypothesis, for what must hold of every plan."""

from typing import Any

from hypothesis import strategies as st

from timerboard.core.menu import Closed, Cue, Dish, HandsFrom, Heat, Link, Menu, Place, Step, Use, Work
from timerboard.core.values import Span

PLACES = (
    Place(name="oven", room=2, heat=Heat(low_c=60, high_c=250, preheat_s=1200)),
    Place(name="hob", room=2),
    Place(name="counter"),
)

MINUTES = st.integers(1, 40).map(lambda m: m * 60)


@st.composite
def steps(draw: st.DrawFn, dish: str, n: int, before: tuple[str, ...]) -> Step:
    """One step after some of those before it, of any kind that a menu can have."""
    low, more = draw(MINUTES), draw(st.sampled_from([0, 0, 300, 900]))
    kind = draw(st.sampled_from(["work", "oven", "hob", "rest", "fry"]))
    own: dict[str, Any] = {"span": Span(low=low, likely=low + more * 2 // 3, high=low + more)}
    if kind == "work":
        own |= {"work": Work(throughout=True), "person": draw(st.sampled_from([None, None, 1]))}
    elif kind == "oven":
        heat = draw(st.sampled_from([160.0, 168.0, 220.0]))
        own |= {"uses": (Use(place="oven", parts=draw(st.sampled_from([1, 1, 2]))),), "heat_c": heat}
        own |= {"shut_s": draw(st.sampled_from([0, 0, min(low, 600)]))}
    elif kind == "hob":
        own |= {"uses": (Use(place="hob"),)}
    elif kind == "rest":
        own |= {"uses": (Use(place="counter"),), "elastic": True}
    else:
        own |= {"uses": (Use(place="hob"),), "heat_c": 175.0, "hazard": "hot oil"}
    if kind in {"oven", "hob"}:
        own |= {"work": Work(start_s=draw(st.sampled_from([0, 60])), end_s=draw(st.sampled_from([0, 60])))}
        own |= {"cues": draw(st.sampled_from([(), (Cue(do="Stir", every_s=600, work_s=60),)]))}
    tied = draw(st.sampled_from([None, None, 120, 900]))
    links = tuple(Link(step=b, within_s=tied) for b in before)
    return Step(id=f"{dish}/{n}", dish=dish, do=str(n), links=links, **own)


@st.composite
def dishes(draw: st.DrawFn, name: str) -> Dish:
    """One to four steps in a row, now and then with two that go side by side."""
    made: list[Step] = []
    for n in range(draw(st.integers(1, 4))):
        beside = n > 1 and draw(st.booleans())
        before = (made[-2].id, made[-1].id) if beside else tuple(s.id for s in made[-1:])
        made.append(draw(steps(name, n, before)))
    return Dish(name=name, hold_s=draw(st.sampled_from([0, 600, 1800, 7200])), steps=tuple(made))


@st.composite
def menus(draw: st.DrawFn) -> Menu:
    """One to four dishes, one or two cooks, sometimes a night without hands."""
    names = [f"D{n}" for n in range(draw(st.integers(1, 4)))]
    hands = draw(
        st.sampled_from(
            [
                (HandsFrom(from_s=None, pairs=1),),
                (HandsFrom(from_s=None, pairs=2),),
                (HandsFrom(from_s=None, pairs=1), HandsFrom(from_s=-2400, pairs=2)),
            ]
        )
    )
    closed = draw(st.sampled_from([(), (Closed(start_min=16 * 60, end_min=17 * 60),)]))
    served = tuple(draw(dishes(name)) for name in names)
    return Menu(title="Any", serves=4, hands=hands, closed=closed, places=PLACES, dishes=served)
