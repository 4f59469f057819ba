"""From a key or a tap to a command: what each letter, digit and button of the window does.

Nothing is decided here: commands come ready-made in the view, or hold exactly what the cook typed.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QElapsedTimer, Qt

from timerboard.core.board_words import reading_c, shifted
from timerboard.core.commands import (
    AddDish,
    AnswerAs,
    CloseCook,
    Command,
    DropDish,
    Hush,
    Louder,
    MoveEating,
    PlaySound,
    SwitchVoice,
    TakeReading,
    Undo,
)
from timerboard.core.quick_timer import quick_timer
from timerboard.core.view_values import Act, HandsItem, Strip

from . import look
from .drawer import Option
from .drawer_body import Body
from .entry import Asked
from .foot import KEYS
from .keys import Stroke

if TYPE_CHECKING:
    from .window import BoardWindow

BOUNCE_MS = 600
"""Nobody reads a job and answers it sooner; a wet finger touches twice in less."""

MODIFIERS = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier


class Replies:
    """Everything the window does when it is asked."""

    def __init__(self, window: "BoardWindow") -> None:
        self.window = window
        self._answered: HandsItem | None = None  # the last job that was answered
        self._taken = 0  # the last digit that an open sheet took
        self._since = QElapsedTimer()  # and since when
        self._reads: TakeReading | None = None  # what the open entry's number goes into
        self._letters: dict[str, Callable[[], object]] = {
            "r": self.reading,
            "t": lambda: self.window.entry.open(Asked.TIMER),
            "z": lambda: self.window.send(Undo()),
            "h": self.heard,
            "?": self.keys,
            "p": lambda: self._pick("Put off which?", lambda item: item.put_off, "There is nothing to put off."),
            "o": lambda: self._pick("Pass over which?", lambda item: item.pass_over, "There is nothing to pass over."),
            "m": lambda: self.window.entry.open(Asked.EAT),
            "d": self.drop,
            "a": lambda: self.window.entry.open(Asked.DISH),
            "l": self.light,
            "f": self.full_screen,
            "y": lambda: self.window.first_notice(yes=True),
            "n": lambda: self.window.first_notice(yes=False),
            "w": self.who,
            "k": self.kitchen,
            "b": self.fire,
            "e": self.end,
            "v": lambda: self.window.send(SwitchVoice()),
            "s": lambda: self.window.send(PlaySound()),
            "+": lambda: self.window.send(Louder(+1)),
            "-": lambda: self.window.send(Louder(-1)),
        }

    # keys

    def stroke(self, stroke: Stroke, modifiers: Qt.KeyboardModifier) -> bool:
        """Do what a key asks; False when it asks nothing."""
        held = modifiers & MODIFIERS
        if held and not (stroke.letter == "z" and held == Qt.KeyboardModifier.ControlModifier):
            return False
        if stroke.digit:
            self.digit(stroke.digit, stroke.shift)
            return True
        if stroke.letter == "h" and stroke.shift:
            self.window.send(Hush())
            return True
        return self.press(stroke.letter)

    def press(self, letter: str) -> bool:
        """A letter, by key or by its button."""
        act = self._letters.get(letter)
        if act is None:
            return False
        if letter not in "zhlfvs+-":
            self.window.drawer.shut()
        act()
        return True

    def digit(self, digit: int, shift: bool) -> None:
        """A digit answers, Shift and a digit say not yet; an open drawer takes it first."""
        if not self.window.drawer.isHidden():
            self._taken = digit
            self._since.start()
            self.window.drawer.press(digit)
            return
        item = self.window.item_of(digit)
        if item is not None and not (self._taken == digit and self._just_now()):
            (self.not_yet if shift else self.answer)(item)

    def escape(self) -> None:
        """Shut what is open on top; out of full screen when nothing is."""
        window = self.window
        if not window.drawer.isHidden():
            window.drawer.shut()
        elif not window.entry.isHidden():
            window.entry.shut()
        elif window.isFullScreen():
            window.showNormal()

    # jobs for hands

    def answer(self, item: HandsItem) -> None:
        """Send a job's answer, after asking for the temperature when it wants one."""
        if self._bounced(item):
            return
        self._answered, self._taken = item, 0
        self._since.start()
        if item.wants_reading:
            self._ask_reading(item.answer, item.wants_reading, item.line)
        else:
            self.window.send(item.answer)

    def _bounced(self, item: HandsItem) -> bool:
        """A second touch of one digit, under which another job stands by now: it was never meant for that one."""
        was = self._answered
        if was is None or was.key == item.key or was.digit != item.digit:
            return False
        return self._just_now()

    def _just_now(self) -> bool:
        return self._since.isValid() and self._since.elapsed() < BOUNCE_MS

    def not_yet(self, item: HandsItem) -> None:
        """It needs longer."""
        if self._bounced(item):
            return
        if item.not_yet is None:
            self.window.tell(f"'{item.line}' cannot wait longer: do it, or put it off with P.")
        else:
            self.window.send(item.not_yet)

    def more(self, item: HandsItem) -> None:
        """Everything that can be said to a job."""
        said = (
            ("Not yet", item.not_yet),
            ("Put off", item.put_off),
            ("Pass over", item.pass_over),
            ("Heard", item.heard),
        )
        options = [Option(item.answer_word.capitalize(), lambda: self.answer(item))]
        options += [Option(word, self._sending(command)) for word, command in said if command is not None]
        self.window.drawer.open(item.line, tuple(options), item.detail)
        self.window.lay_out()

    def heard(self) -> None:
        """The most pressing job that still calls was heard; when none does, all sounds pause."""
        view = self.window.view
        calling = [item for item in view.hands if item.heard is not None and not item.muted] if view else []
        self.window.send(calling[0].heard or Hush() if calling else Hush())

    def _pick(self, title: str, command_of: Callable[[HandsItem], Command | None], none: str) -> None:
        """Ask which job, each under its own digit."""
        options = []
        for item in self.window.view.hands if self.window.view else ():
            command = command_of(item)
            if command is not None:
                options.append(Option(item.line, self._sending(command), str(item.digit)))
        self._ask(title, options, none)

    def _ask(self, title: str, options: list[Option], none: str) -> None:
        """Ask which. Nothing to ask about is said in the same place: digits that follow start and end no job."""
        self.window.drawer.open(title if options else none, tuple(options))
        self.window.lay_out()

    def _sending(self, command: Command) -> Callable[[], object]:
        return lambda: self.window.send(command)

    # strips

    def open_strip(self, key: str) -> None:
        """A strip's drawer: its whole state, and all its acts."""
        view = self.window.view
        strip = next((s for s in view.strips if s.key == key), None) if view else None
        if strip is None:
            return
        line = " · ".join(word for word in (strip.countdown, strip.line, strip.matter, strip.answered) if word)
        options = [Option(act.word, self._acting(act, strip)) for act in strip.acts]
        self.window.drawer.open(strip.name, tuple(options), line, Body(strip.key, strip.told, strip.pull))
        self.window.lay_out()

    def refresh(self) -> None:
        """While a strip's drawer is open, what it tells is kept up with the view."""
        drawer = self.window.drawer
        strip = next((s for s in self._strips() if s.key == drawer.body.key), None)
        if strip is not None and not drawer.isHidden() and drawer.tell(Body(strip.key, strip.told, strip.pull)):
            self.window.lay_out()

    def _acting(self, act: Act, strip: Strip) -> Callable[[], object]:
        if act.choices:
            return lambda: self._choose(act)
        if act.reading_for:
            step = act.reading_for
            return lambda: self._ask_reading(act.command, step, strip.name)
        return self._sending(act.command)

    def _choose(self, act: Act) -> None:
        self._ask(act.word, [Option(one.word, self._sending(one.command)) for one in act.choices], "")

    def kitchen(self) -> None:
        """Whose food rules count, how hot the room is, how high it lies."""
        acts = self.window.view.choices if self.window.view else ()
        options = [Option(act.word, lambda act=act: self._choose(act)) for act in acts]  # type: ignore[misc]
        self._ask("This kitchen", options, "There is nothing to choose.")

    def fire(self) -> None:
        """Fat smokes or burns: what to do, at once and with any finger."""
        told = self.window.view.fire if self.window.view else ()
        self.window.entry.shut()
        self.window.drawer.open("It smokes or burns", (Option("Seen", lambda: None),), "", Body("", told))
        self.window.lay_out()

    def drop(self) -> None:
        """Ask which dish to strike off; it can be taken back with Z."""
        acts = [(s.name, a.command) for s in self._strips() for a in s.acts if isinstance(a.command, DropDish)]
        options = [Option(name, self._sending(command)) for name, command in acts]
        self._ask("Drop which dish? Z takes it back.", options, "There is no dish to drop.")

    def end(self) -> None:
        """Ask whether the meal is over: a key that is pressed by chance ends nothing."""
        line = "Nothing calls any more but what keeps food safe. The record is kept, and Z takes it back."
        self.window.drawer.open("End this meal?", (Option("End the meal", self._sending(CloseCook())),), line)
        self.window.lay_out()

    def _strips(self) -> tuple[Strip, ...]:
        return self.window.view.strips if self.window.view else ()

    # readings

    def reading(self) -> None:
        """Ask for the reading that is wanted most; ask which when several could be meant."""
        jobs = [i for i in self.window.view.hands if i.wants_reading] if self.window.view else []
        asked = {item.wants_reading for item in jobs}
        options = [Option(i.line, lambda i=i: self.answer(i)) for i in jobs]  # type: ignore[misc]
        for strip in self._strips():
            for act in strip.acts:
                if act.reading_for and act.reading_for not in asked:
                    asked.add(act.reading_for)
                    options.append(Option(strip.name, self._acting(act, strip)))
        if len(options) == 1:
            options[0].act()
        else:
            self._ask("Reading of which?", options, "Nothing that runs wants a temperature.")

    def _ask_reading(self, command: Command, step: str, subject: str) -> None:
        reads = command if isinstance(command, TakeReading) else TakeReading(step, 0.0)
        self._reads = reads
        self.window.ask_reading(subject)

    # whose answers these are

    def who(self) -> None:
        """Ask who answers from now on: somebody who did before, another name, or nobody in particular."""
        names = self.window.view.names if self.window.view else ()
        if not names:
            self.window.entry.open(Asked.NAME)
            return
        options = [Option(name, self._sending(AnswerAs(name))) for name in names]
        options.append(Option("Nobody in particular", self._sending(AnswerAs(""))))
        options.append(Option("Another name", lambda: self.window.entry.open(Asked.NAME)))
        self._ask("Who answers from now on?", options, "")

    # lines that were written

    def entered(self, asked: Asked, text: str) -> str:
        """Read a written line and send it; returns what is wrong with it, or nothing."""
        try:
            if asked is Asked.TIMER:
                return self._sent(quick_timer(text))
            if asked is Asked.NAME:
                return self._sent(AnswerAs(text))
            if asked is Asked.READING and self._reads is not None:
                return self._sent(replace(self._reads, celsius=reading_c(text, self.window.units)))
            if asked is Asked.DISH:
                return self._late_dish(text)
            return self._eat(text)
        except ValueError as said:
            return str(said)

    def _sent(self, command: Command) -> str:
        """A refusal is a notice. When it asks something, Y and N answer it; else the line stays to be changed."""
        done = self.window.send(command)
        return "" if done or self.window.asks() else "Not taken: see above."

    def _late_dish(self, text: str) -> str:
        if self.window.late is None:
            return "No dish can be added here."
        return self._sent(AddDish(self.window.late(text)))

    def _eat(self, text: str) -> str:
        view, when = self.window.view, self.window.when
        if view is None:
            return "There is no meal to move."
        at = shifted(text, view.axis.eat)
        if at is not None:
            return self._sent(MoveEating(at))
        if when is None:
            raise ValueError("Write how many minutes later or sooner, such as +10.")
        found = when(text)
        if isinstance(found, int):
            return self._sent(MoveEating(found))
        options = [Option(words, self._sending(MoveEating(at))) for words, at in found.choices]
        self._ask(found.said, options, found.said)
        return ""

    # the window itself

    def light(self) -> None:
        """The next theme: dark, light, high contrast."""
        self.window.set_theme(look.next_palette(self.window.palette_))

    def full_screen(self) -> None:
        """Full screen, or back."""
        if self.window.isFullScreen():
            self.window.showNormal()
        else:
            self.window.showFullScreen()

    def keys(self) -> None:
        """Every key as a button."""
        options = [Option(word, lambda k=key: self.press(k.lower()), key) for key, word in KEYS if key != "?"]  # type: ignore[misc]
        line = "1–9 answer · Shift+1–9 not yet · Y and N answer a message · Shift+H all sounds pause"
        self.window.drawer.open("Keys", tuple(options), line)
        self.window.lay_out()
