"""A desk with a world by hand around it."""

from tests.fakes import FakeWake, HandClock, MemoryJournal, RecordingSound, RecordingVoice
from tests.kitchen import MIN, plain_plan, small_menu
from timerboard.core.alarm_values import Alarm
from timerboard.core.commands import Command
from timerboard.core.decide import Refusal
from timerboard.core.menu import Menu
from timerboard.core.values import Moment
from timerboard.desk.desk import Desk
from timerboard.desk.opening import Order
from timerboard.desk.ports import Planner
from timerboard.desk.sounder import Sounder


class DeskKitchen:
    """A cook at a desk; time is cranked, and the wake-up rings when it should."""

    def __init__(self, menu: Menu | None = None, *, eat_in: float = 240, planner: Planner | None = None) -> None:
        self.clock = HandClock()
        self.journal = MemoryJournal()
        self.wake = FakeWake()
        self.sound, self.voice = RecordingSound(), RecordingVoice()
        self.sound.now_ms = self.clock.kitchen_ms  # an armed burst begins by itself, as it does on a device
        self.traced: list[tuple[str, str]] = []
        self.told = 0
        self.planner = planner
        menu = menu or small_menu()
        eat_at = self.clock.wall_ms() + round(eat_in * MIN)
        self.desk = self._desk()
        self.desk.open_cook(Order("", "", menu, eat_at, "UTC"), plain_plan(menu, eat_at))
        self.desk.look()

    def _desk(self) -> Desk:
        sounder = Sounder(self.sound, self.voice)
        desk = Desk(
            self.clock, self.journal, "board", wake=self.wake, planner=self.planner, sounder=sounder, trace=self._trace
        )
        desk.listen(self._tell)
        return desk

    def _trace(self, what: str, alarm: Alarm, _at: Moment) -> None:
        self.traced.append((what, alarm.sentence))

    def _tell(self) -> None:
        self.told += 1

    def restart(self) -> None:
        """The program is killed and begins again: nothing is left but the journal."""
        self.desk = self._desk()
        self.desk.resume()

    def must(self, *commands: Command) -> None:
        for command in commands:
            answer = self.desk.send(command)
            assert not isinstance(answer, Refusal), answer.said
        self.desk.look()

    def run(self, minutes: float) -> None:
        """Let time pass as a shown board sees it: a look whenever it asked to be woken, and every 15 s."""
        left = round(minutes * MIN)
        while left > 0:
            due = self.wake.delay_ms
            step = min(left, 15_000, due if due else 15_000)
            self.clock.advance(step / 1000)
            left -= step
            self.desk.look()

    def kinds(self) -> list[str]:
        return [event.kind for event in self.journal.read()]

    def notice(self, beginning: str) -> str:
        return next((n.text for n in self.desk.view().notices if n.key.startswith(beginning)), "")
