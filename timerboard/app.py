"""The one place where the board's objects are made and joined: clock, journal, planner, sound, desk, window."""

import contextlib
import gc
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtGui import QGuiApplication

from timerboard.board.window import BoardWindow
from timerboard.core.alarm_values import Alarm
from timerboard.core.answers import Refusal
from timerboard.core.board_words import Units
from timerboard.core.civil import CivilDoubt, resolve_eat_at
from timerboard.core.commands import Command, PlaySound
from timerboard.core.cook_record import cook_record
from timerboard.core.late_dish import adopted, late_dish
from timerboard.core.menu import Dish
from timerboard.core.plan import Plan
from timerboard.core.values import MS, Moment
from timerboard.desk.desk import Desk
from timerboard.desk.notices import plain
from timerboard.desk.opening import Order
from timerboard.desk.ports import Clock
from timerboard.desk.sounder import Sounder
from timerboard.shell.journal import SqlJournal
from timerboard.shell.late_dish_file import dish_in
from timerboard.shell.notify import Notifier, best_channel
from timerboard.shell.planner_process import PlannerProcess
from timerboard.shell.settings_file import SettingsFile, settings_path
from timerboard.shell.sound import BurstSound, best_player
from timerboard.shell.speech import QueuedVoice, best_speaker
from timerboard.shell.staying_up import StayingUp
from timerboard.shell.trace import Trace
from timerboard.shell.wake import Heartbeat, QtWake


@dataclass(frozen=True, slots=True)
class Begin:
    """A cook to begin: what is cooked, and the plan to begin with."""

    order: Order
    plan: Plan


@dataclass(frozen=True, slots=True)
class Wishes:
    """How the board should look and sound, as asked on the command line."""

    theme: str | None = None
    sound: str = "auto"
    trace: Path | None = None
    notify: bool = False


class Board:
    """A cook in progress with its window and everything that keeps it going. `begin` None: resume what `file` has."""

    def __init__(self, file: Path, begin: Begin | None, clock: Clock, name: str, wishes: Wishes) -> None:
        self._clock, self._file = clock, file
        journal = SqlJournal(file, name)  # first of all: where another board has the cook, nothing else is begun
        self.trace = Trace(wishes.trace) if wishes.trace else None
        player = best_player(wishes.sound)
        self.sound = BurstSound(player, clock.kitchen_ms)
        self.voice = QueuedVoice(best_speaker(), player.busy)
        self.planner = PlannerProcess(self._planner_again)
        self.desk = Desk(
            clock,
            journal,
            name,
            wake=QtWake(clock),
            planner=self.planner,
            sounder=Sounder(self.sound, self.voice),
            memory=SettingsFile(settings_path()),
            trace=self._traced if self.trace else None,
            predictor=self.planner,
        )
        self.desk.open_cook(begin.order, begin.plan) if begin else self.desk.resume()
        self._begins = begin is not None
        menu = self.desk.cook.menu
        self.sound.learn(tuple(dish.name for dish in menu.dishes))
        units: Units = "F" if menu.units == "F" else "C"
        self.window = BoardWindow(
            self._send,
            theme=wishes.theme,
            units=units,
            when=self._when,
            closed=self._closed,
            painted=self._painted if self.trace else None,
            late=self._late,
        )
        self.notifier = Notifier(best_channel(self.window) if wishes.notify else None)
        self.staying_up = StayingUp()
        self.desk.listen(self._paint)
        self.heartbeat = Heartbeat(self._beat)
        gc.freeze()  # what was loaded is here to stay; a full collection of it would hold a tap up for 50 ms

    def _planner_again(self, said: str) -> None:
        self.desk.tell(plain("planner again", said))

    def show(self, *, full_screen: bool = False) -> None:
        """Show the window with all there is to show, and keep the machine awake."""
        self._paint()
        self.window.showFullScreen() if full_screen else self.window.showMaximized()
        QGuiApplication.sync()  # the first frame is on the screen before anything else is begun
        if not self.window.isVisible():
            return  # it was closed as soon as it was seen
        self.staying_up.begin()
        if self._begins:
            self.desk.send(PlaySound())
        self._tell_what_may_sleep()
        self.desk.plan_better()

    def _beat(self) -> None:
        self.desk.look()
        self.voice.tend()
        self._tell_what_sounded()
        self._tell_what_may_sleep()

    def _tell_what_may_sleep(self) -> None:
        if words := self.staying_up.news():
            self.desk.tell(plain("awake", words))

    def _paint(self) -> None:
        view = self.desk.view()
        self.window.show_view(view)
        self.notifier.show(view.hands)

    def _traced(self, what: str, alarm: Alarm, now: Moment) -> None:
        if self.trace:
            self.trace.noted(what, alarm, now, self.sound.plays)

    def _painted(self) -> None:
        if self.trace:
            self.trace.painted(self.desk.now())

    def _tell_what_sounded(self) -> None:
        begun = self.sound.begun()
        if self.trace and begun:
            base = self.desk.now() - self._clock.kitchen_ms()
            self.trace.sounded((burst, base + at) for burst, at in begun)

    def _send(self, command: Command) -> Refusal | None:
        said = self.desk.send(command)
        return said if isinstance(said, Refusal) else None

    def _when(self, written: str) -> Moment | CivilDoubt:
        cook = self.desk.cook
        found = resolve_eat_at(written, cook.zone, self.desk.now() + cook.offset_ms)
        if isinstance(found, CivilDoubt):
            return found
        return found * MS - cook.offset_ms

    def _late(self, line: str) -> Dish:
        """A late dish from one line, or out of a menu file: 'rolls, 12 min, oven', 'rolls from brunch.yaml'."""
        menu = self.desk.cook.menu
        name, found, file = line.rpartition(" from ")
        if not found or Path(file.strip()).suffix not in (".yaml", ".yml"):
            return late_dish(line, menu)
        return adopted(dish_in(Path(file.strip()).expanduser(), name), menu)

    def _closed(self) -> bool:
        """The window may always close: what was done is kept, and the next board goes on from it."""
        self.close()
        return True

    def _keep_record(self) -> None:
        """Once the meal has come, what was done is kept as text beside the journal, newer at every closing."""
        cook, now = self.desk.cook, self.desk.now()
        if cook.closed is None and now < cook.eat_at:
            return
        with contextlib.suppress(OSError):  # the journal has it all: `timerboard record` prints it at any time
            lines = "".join(f"{line}\n" for line in cook_record(cook, now))
            self._file.with_suffix(".txt").write_text(lines, encoding="utf-8")

    def close(self) -> None:
        """Stop everything; the cook stays in its journal."""
        self.heartbeat.stop()
        self._tell_what_sounded()
        self._keep_record()
        self.desk.close()
        self.planner.close()
        self.notifier.close()
        self.staying_up.end()
        if self.trace:
            self.trace.close()
