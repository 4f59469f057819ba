"""A board's window on a real desk with a joint in the oven: time is cranked, forecasts are made at once."""

from collections.abc import Callable

from tests.fakes import FakeWake, HandClock, MemoryJournal
from tests.kitchen import MIN, minutes, plain_plan, small_menu, step
from timerboard.board.window import BoardWindow
from timerboard.core.answers import Refusal
from timerboard.core.commands import Command, StartStep
from timerboard.core.heat_pull import forecast_pull
from timerboard.core.heat_values import HeatQuestion, PullForecast
from timerboard.core.menu import Dish, Use, Work
from timerboard.core.view_values import Strip
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order
from timerboard.desk.ports import Memory

ROAST = step(
    "Pork loin",
    "Roast",
    minutes(70, 100),
    uses=(Use(place="hob"),),
    heat_c=160.0,
    pull_at_c=60.0,
    work=Work(start_s=60),
)
REST = step("Pork loin", "Rest", minutes(15, 25), after=["Roast"], uses=(Use(place="counter"),), elastic=True)
LOIN = Dish(name="Pork loin", ingredients=("1.8 kg pork loin",), steps=(ROAST, REST), hold_s=1800)
BEANS = Dish(name="Beans", steps=(step("Beans", "Boil", minutes(10), uses=(Use(place="hob"),)),))


def fry() -> Dish:
    """Fritters in hot oil, in one go."""
    oil = step(
        "Fritters",
        "Fry",
        minutes(10, 12),
        uses=(Use(place="hob"),),
        heat_c=175.0,
        hazard="hot oil",
        work=Work(throughout=True),
    )
    return Dish(name="Fritters", steps=(oil,), hold_s=900)


class Direct:
    """A predictor that answers on the spot."""

    def predict(self, question: HeatQuestion, on_pull: Callable[[PullForecast], None]) -> None:
        on_pull(forecast_pull(question))


class Notes:
    """A memory in memory."""

    def __init__(self) -> None:
        self.kept: dict[str, object] = {}

    def recall(self) -> dict[str, object]:
        return dict(self.kept)

    def remember(self, name: str, value: object) -> None:
        self.kept[name] = value


class PullBoard:
    """The window, its desk, and a clock to crank."""

    def __init__(self, *dishes: Dish, eat_in: float = 130, memory: Memory | None = None) -> None:
        self.clock, self.journal = HandClock(), MemoryJournal()
        self.desk = Desk(self.clock, self.journal, "board", wake=FakeWake(), predictor=Direct(), memory=memory)
        menu = small_menu(*(dishes or (LOIN, BEANS)))
        eat_at = self.clock.wall_ms() + round(eat_in * MIN)
        self.desk.open_cook(Order("", "", menu, eat_at, "UTC"), plain_plan(menu, eat_at))
        self.window = BoardWindow(self._send, theme="dark")
        self.desk.listen(self.paint)
        self.paint()

    def _send(self, command: Command) -> Refusal | None:
        said = self.desk.send(command)
        return said if isinstance(said, Refusal) else None

    def paint(self) -> None:
        """Show what there is now."""
        self.window.show_view(self.desk.view())

    def wait(self, length: float) -> None:
        """Let minutes pass, a look every minute."""
        left = length
        while left > 0:
            self.clock.advance(min(left, 1) * 60)
            left -= 1
            self.desk.look()
        self.paint()

    def start(self, dish: Dish = LOIN) -> None:
        """Its first step begins."""
        self._send(StartStep(dish.steps[0].id))

    def strip(self, name: str = "Pork loin") -> Strip:
        """What a strip says."""
        assert self.window.view is not None
        return next(strip for strip in self.window.view.strips if strip.name == name)
