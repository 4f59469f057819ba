"""How long the outlook and the whole view of a big cook take: 60 strips, 60 steps of them running.

Run: python -m tests.bench.bench_view. Goals: outlook under 2 ms, view under 5 ms (medians, one core).
"""

import statistics
import time
from collections.abc import Callable

from tests.board_scenes import EAT_S, Told, minutes, step
from timerboard.core import events as ev
from timerboard.core.menu import Cue, Dish, Heat, Menu, Place, Work
from timerboard.core.outlook import outlook
from timerboard.core.plan import Placed, Plan, Status
from timerboard.core.values import MS
from timerboard.core.view import Extras, view

DISHES = 60


def big_menu() -> Menu:
    """Sixty dishes of one long step each, half of them in the oven, all with a cue."""
    dishes = tuple(
        Dish(
            name=f"Dish {n}",
            steps=(
                step(
                    f"Dish {n}",
                    "Simmer",
                    minutes(60, 80),
                    "oven" if n % 2 else "hob",
                    heat_c=180.0 if n % 2 else None,
                    work=Work(start_s=10),
                    cues=(Cue(do="Stir", every_s=600),),
                ),
            ),
        )
        for n in range(DISHES)
    )
    places = (Place(name="oven", room=40, heat=Heat(low_c=60, high_c=250)), Place(name="hob", room=40))
    return Menu(title="A very long table", serves=200, places=places, dishes=dishes)


def big_cook(*, running: bool) -> Told:
    """All sixty planned; started at 17:00 when `running`."""
    menu = big_menu()
    start = EAT_S - 80 * 60
    placed = tuple(
        Placed(id=s.id, start=start + 10 * n, end=start + 10 * n + s.span.likely, places=(s.uses[0].place,), person=1)
        for n, s in enumerate(menu.steps.values())
    )
    story = Told(menu, plan=Plan(status=Status.FEASIBLE, eat_at=EAT_S, placed=placed))
    if running:
        for one in menu.steps:
            story.tell("17:10", ev.StepStarted, step=one)
    return story


def milliseconds(work: Callable[[], object], times: int = 60) -> tuple[float, float]:
    """Median and 95th percentile of one call, in time of our own process: what else the machine does is not counted."""
    taken = []
    for _ in range(times):
        begin = time.process_time()
        work()
        taken.append((time.process_time() - begin) * 1000)
    taken.sort()
    return statistics.median(taken), taken[int(len(taken) * 0.95)]


def main() -> None:
    """Prints one row per case."""
    for running in (False, True):
        cook = big_cook(running=running).cook
        now = (EAT_S - 70 * 60) * MS
        said = "60 running" if running else "60 planned"
        order = tuple(strip.key for strip in view(cook, now).strips)
        print(f"{said}: outlook median {milliseconds(lambda: outlook(cook, now))[0]:.2f} ms")  # noqa: B023
        median, late = milliseconds(lambda: view(cook, now, Extras(order=order)))  # noqa: B023
        print(f"{said}: view median {median:.2f} ms, p95 {late:.2f} ms")


if __name__ == "__main__":
    main()
