"""How honest and how fast a pull forecast is: simulated roasts, and what a reading costs.

Run: python -m tests.bench.bench_heat [--short | roasts]. Roasts come from seeds 960,000 on, which nothing was chosen
by (choices were made on 20,000 to 20,099; 950,000 to 950,249 were looked at on the way). A reading at the pull is
answered by 'pull now' without a band: those are counted apart, and which of them the board asks about. Then the time of
one forecast (in the planner's process; goal 50 ms), and of what the window's thread does when a reading is entered:
desk.send of it, and the view (goal 10 ms; a journal in memory, no disk).
"""

import sys
from collections.abc import Callable
from statistics import mean, median
from time import perf_counter, process_time, thread_time

from tests.fakes import FakeWake, HandClock, MemoryJournal
from tests.kitchen import minutes, plain_plan, small_menu, step
from tests.outside.roast_simulator import Roast, roast
from tests.outside.simulated_pulls import Asked, all_asked, questioned
from timerboard.core.commands import StartStep, TakeReading
from timerboard.core.heat_pull import forecast_pull
from timerboard.core.heat_values import CoreReading, HeatQuestion
from timerboard.core.menu import Dish, Use
from timerboard.core.values import Span
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order

FIRST_SEED = 960_000
_MINUTE = 60_000
_ROAST = step("Loin", "Roast", minutes(70, 100), uses=(Use(place="hob"),), heat_c=160.0, pull_at_c=60.0)


def main() -> None:
    """Prints coverage, error and times."""
    given = next((a for a in sys.argv[1:] if a.isdigit()), None)
    count = int(given) if given else (20 if "--short" in sys.argv else 300)
    roasts = [roast(seed) for seed in range(FIRST_SEED, FIRST_SEED + count)]
    began = process_time()
    each_roast = [(one, all_asked(one)) for one in roasts]
    found = [asked for _, those in each_roast for asked in those]
    each = 1000 * (process_time() - began) / len(found)
    bands = [a for a in found if not a.there]
    print(f"{count} roasts from seed {FIRST_SEED}, {len(bands)} forecasts with a band, {each:.0f} ms of CPU each")
    print(f"80 % band: {_held(bands)}")
    for low, high in ((0.15, 0.4), (0.4, 0.6), (0.6, 0.85), (0.85, 1.0)):
        some = [a for a in bands if low <= a.share < high]
        if some:
            print(f"  {low:.0%}-{high:.0%} of the way: {_said(some)}")
    _arrivals([(one, a) for one, those in each_roast for a in those if a.there])
    print(_timed("one forecast of 12 readings", _forecasts(), 50))
    print(_timed("a reading on the window's thread, to the view", _readings(), 10))


def _arrivals(there: list[tuple[Roast, Asked]]) -> None:
    """What is read at the pull: how far the core is from it, and what the board asks about before it counts."""
    short = sorted(a.short_c for _, a in there)
    if not short:
        return
    print(f"{len(short)} readings at the pull: core short of it by {median(short):.1f} °C, at most {short[-1]:.1f} °C")
    for name, some in (
        ("short by more than 3 °C", [(one, a) for one, a in there if a.short_c > 3]),
        ("the others", [(one, a) for one, a in there if a.short_c <= 3]),
    ):
        said = sum(questioned(one, a.readings) for one, a in some)
        print(f"  {name}: the board asks whether {said} of {len(some)} are right")


def _held(some: list[Asked]) -> str:
    late, early = (100 * mean(int(x) for x in xs) for xs in _missed(some))
    return f"holds {100 - late - early:.1f} %; true later {late:.1f} %, earlier {early:.1f} %"


def _missed(found: list[Asked]) -> tuple[list[bool], list[bool]]:
    return [a.true > a.late for a in found], [a.true < a.early for a in found]


def _said(some: list[Asked]) -> str:
    errors = sorted(abs(a.error) for a in some)
    usual, most = 100 * median(errors), 100 * errors[len(errors) * 9 // 10]
    floor = 100 * median(a.noise / a.true for a in some)
    minutes = median(abs(a.at - a.true) for a in some) / 60
    return (
        f"{len(some)} forecasts, {_held(some)}; off by {usual:.0f} % of the time left, {minutes:.1f} min (nine in ten "
        f"under {most:.0f} %; the readings' noise alone {floor:.0f} %); "
        f"signed {100 * median(a.error for a in some):+.0f} %"
    )


def _forecasts() -> list[tuple[float, float]]:
    """Milliseconds of each of twenty forecasts from as many readings as are used."""
    readings = tuple(CoreReading(at=i * 5 * _MINUTE, celsius=15.0 + 3.0 * i) for i in range(1, 13))
    question = HeatQuestion(
        step="x",
        started=0,
        now=readings[-1].at,
        readings=readings,
        pull_c=65.0,
        oven_c=160.0,
        span=Span(low=4800, likely=5100, high=5700),
    )
    taken = []
    for _ in range(21):
        taken.append(_took(lambda: forecast_pull(question)))
    return sorted(taken[1:])


class _Elsewhere:
    """A predictor in another process: on this thread it costs nothing, and its answer comes later."""

    def __init__(self) -> None:
        self.asked: list[HeatQuestion] = []

    def predict(self, question: HeatQuestion, on_pull: object) -> None:
        self.asked.append(question)


def _readings() -> list[tuple[float, float]]:
    """Milliseconds of desk.send with each of twenty readings, and of the view after it."""
    predictor, clock = _Elsewhere(), HandClock()
    desk = Desk(clock, MemoryJournal(), "board", wake=FakeWake(), predictor=predictor)
    menu = small_menu(Dish(name="Loin", ingredients=("1.8 kg pork loin",), steps=(_ROAST,)))
    eat_at = clock.wall_ms() + 130 * _MINUTE
    desk.open_cook(Order("", "", menu, eat_at, "UTC"), plain_plan(menu, eat_at))
    desk.send(StartStep(_ROAST.id))
    taken = []
    for i in range(20):
        clock.advance(180)
        desk.look()
        taken.append(_one_reading(desk, 12.0 + 2.0 * i))
    assert len(desk.cook.lives[_ROAST.id].readings) == 20
    return sorted(taken)


def _one_reading(desk: Desk, celsius: float) -> tuple[float, float]:
    said: list[object] = []

    def act() -> None:
        said.append(desk.send(TakeReading(_ROAST.id, celsius)))
        desk.view()

    took = _took(act)
    assert isinstance(said[0], str), said
    return took


def _took(act: Callable[[], object]) -> tuple[float, float]:
    """Milliseconds by the clock on the wall, and of the processor: on a busy machine the first is the longer."""
    wall, own = perf_counter(), thread_time()
    act()
    return 1000 * (perf_counter() - wall), 1000 * (thread_time() - own)


def _timed(what: str, taken: list[tuple[float, float]], goal: int) -> str:
    walls, own = (sorted(each) for each in zip(*taken, strict=True))
    said = (f"median {median(all_):.1f} ms, worst {all_[-1]:.1f} ms" for all_ in (walls, own))
    return f"{what}: {next(said)} (goal {goal}); of the processor {next(said)}"


if __name__ == "__main__":
    main()
