"""Events for tests of the journal: a small opening, and acts without end."""

from timerboard.core.events import CookOpened, CueDone, Event, StepStarted
from timerboard.core.menu import Dish, Menu, Step
from timerboard.core.values import Span

NOON = 1_797_854_400_000


def opened(title: str = "Soup for four", text: str = "title: Soup") -> CookOpened:
    """A cook of one step begins as number 1."""
    step = Step(id="Soup/Simmer", dish="Soup", do="Simmer", span=Span(low=600, likely=720, high=900))
    return CookOpened(
        **_stamp(1), menu_text=text, menu_hash="0" * 64, menu=_menu(title, step), eat_at=NOON + 3_600_000, zone="UTC"
    )


def _menu(title: str, step: Step) -> Menu:
    return Menu(title=title, serves=4, dishes=(Dish(name="Soup", steps=(step,)),))


def acts(first: int, count: int) -> list[Event]:
    """`count` acts numbered from `first`."""
    return [act(seq) for seq in range(first, first + count)]


def act(seq: int) -> Event:
    """The act of that number: always the same one."""
    if seq % 2:
        return CueDone(**_stamp(seq), step="Soup/Simmer", cue="stir")
    return StepStarted(**_stamp(seq), step="Soup/Simmer")


def _stamp(seq: int) -> dict:
    return {"seq": seq, "at": NOON + seq * 1000, "wall_ms": NOON + seq * 1000, "boot": "boot 1", "board": "board 1"}
