"""The editor's one door: edit -> new text -> kept aside -> read again -> told; the plan follows by itself.

The text is the truth. A change that cannot be read as a menu stays in it, with its fault; only what would break the
text itself is refused.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from timerboard.core.faults import Fault, Path
from timerboard.core.menu_written import Value, at

from .carrying import carried
from .editor_ports import Aside, EditRefused, MenuStore, MenuTexts, Reading, SideFile, Stamp
from .history import History
from .live_plan import LivePlan, Planned
from .merging import merged
from .ports import Wake
from .renaming import followers

NAMES = ("dish", "do", "id")
TYPED = "text"
PAUSE_MS = 150
"""After the last key: then the menu is judged and planned. The text itself is kept at every key."""


@dataclass(frozen=True, slots=True)
class Outside:
    """The file was changed by somebody else in lines that were changed here too: one of both must be chosen."""

    theirs: str


class EditorDesk:
    """A menu being edited. `listen` to hear of every change; `last_about` is what an undo or redo was about.

    With a `pause`, values that are typed are in the text and in `reading.document` at once, and faults, warnings and
    the menu follow when nothing was typed for a moment. Without one everything is done at every key.
    """

    def __init__(
        self, texts: MenuTexts, store: MenuStore, side: SideFile, plan: LivePlan, pause: Wake | None = None
    ) -> None:
        self._texts, self._store, self._side, self._pause = texts, store, side, pause
        self._unread = False  # keys came since the text was judged
        self._listeners: list[Callable[[], None]] = []
        self._history = History()
        self._plan = plan
        plan.listen(self._tell)
        self._named: dict[Path, str] = {}  # names as they were before the run of keys that changes them
        self.text = self.saved_text = ""
        self.reading = texts.read("")
        self.recovered = False
        self.outside: Outside | None = None
        self.trouble = ""
        self.said = ""
        self.last_about: object = None
        self.carried: Path = ()
        self._stamp: Stamp | None = None

    # opening, keeping

    def open(self, beginning: str = "") -> None:
        """Read the file (a new one begins with `beginning`), and what a crash left aside. Raises EditRefused."""
        text, self._stamp = self._store.load()
        self.saved_text = text
        aside = self._side.take()
        self.text = text if self._stamp else beginning
        if aside is not None and aside.text != text:
            self._recover(aside)
        self._read()

    def _recover(self, aside: Aside) -> None:
        """Unsaved work goes on; a file that changed since is merged with it, else the cook is asked."""
        self.recovered = True
        text = self._named_through(aside.text, aside.named)
        joined = merged(aside.base, text, self.saved_text)
        if joined is None:
            self.outside = Outside(self.saved_text)
            joined = text
        self._history.note(self.text, joined)
        self.text = joined
        self.said = "Unsaved work was found and is shown here. Undo gives the file as it was saved."

    def save(self, store: MenuStore | None = None, side: SideFile | None = None) -> bool:
        """Keep the text in its file, or in another from now on. False when it could not be, and `trouble` says why."""
        self.settle()
        if store is None and self.outside is None:
            self.look_outside()
        if self.outside is not None and store is None:
            self.trouble = "the file was changed by somebody else: choose first which one to keep"
            self._tell()
            return False
        self.judge()
        try:
            self._stamp = (store or self._store).save(self.text)
        except EditRefused as refused:
            self.trouble = refused.said
            self._tell()
            return False
        self._side.drop()
        self._store, self._side = store or self._store, side or self._side
        self.saved_text, self.recovered, self.trouble, self.said = self.text, False, "", "Saved."
        self._tell()
        return True

    @property
    def name(self) -> str:
        """The file's name."""
        return self._store.name

    @property
    def changed(self) -> bool:
        """True while something is not in the file."""
        return self.text != self.saved_text

    @property
    def is_new(self) -> bool:
        """True until there is a file."""
        return self._stamp is None

    def look_outside(self) -> None:
        """See whether the file was changed elsewhere: taken in where the lines are others, asked about where not."""
        stamp = self._store.look(self._stamp)
        if stamp is None or stamp == self._stamp:
            return
        try:
            theirs, self._stamp = self._store.load()
        except EditRefused as refused:
            self.trouble = refused.said
            self._tell()
            return
        self._take_in(theirs)

    def _take_in(self, theirs: str) -> None:
        joined = merged(self.saved_text, self.text, theirs)
        if joined is None:
            self.outside = Outside(theirs)
            self._tell()
            return
        self.saved_text = theirs
        self.said = "The file was changed elsewhere; that is in here now."
        self._become(joined, None)

    def choose_outside(self, *, theirs: bool) -> None:
        """Go on with the other's text, or with this one: it takes the file's place when it is saved."""
        if self.outside is None:
            return
        other, self.outside, self.trouble = self.outside.theirs, None, ""
        self.saved_text = other
        self._become(other if theirs else self.text, None)
        self._tell()

    # edits

    def set_value(self, path: Path, value: Value) -> str:
        """Put a value at a path, or take it out (None). '' when done, else why not."""
        if path and path[-1] in NAMES:
            self._named.setdefault(path, self._words(path))
        before = self._history.before_run(self.text, path)  # so that a cleared field keeps its line and its comment
        if value is None and not _required(path):
            return self._edit(lambda _: self._texts.remove(before, path), path, keys=True)
        return self._edit(
            lambda _: self._texts.set_value(before, path, "" if value is None else value), path, keys=True
        )

    def insert(self, path: Path, position: int, value: Value) -> str:
        """One entry more in a list."""
        self.settle()
        return self._edit(lambda text: self._texts.insert(text, path, position, value), None)

    def remove(self, path: Path) -> str:
        """Take a part out."""
        self.settle()
        return self._edit(lambda text: self._texts.remove(text, path), None)

    def move(self, path: Path, position: int, to: int) -> str:
        """Move an entry of a list."""
        self.settle()
        return self._edit(lambda text: self._texts.move(text, path, position, to), None)

    def carry(self, source: Path, to: Path) -> str:
        """Take a step out of its dish and put it into another, before a position there; `carried` is where it is."""
        self.settle()

        def moved(text: str) -> str:
            text, self.carried = carried(self._texts, text, source, to)
            return text

        return self._edit(moved, None)

    def rename(self, path: Path, name: str) -> str:
        """Another name for a place or a course, and for all that call it so."""
        old = str(path[-1])
        if not name.strip():
            return "write a name"

        def renamed(text: str) -> str:
            return self._following(self._texts.rename(text, path, name), path, old, name)

        return self._edit(renamed, ("rename", path[:-1]))

    def replace_text(self, text: str) -> None:
        """The whole text, as typed."""
        self._become(text, TYPED, keys=True)

    def take_text(self, text: str) -> None:
        """Another text as one step."""
        self.settle()
        self._become(text, None)
        self.settle()

    def change(self, changes: Iterable[tuple[Path, Value]]) -> str:
        """Several values at once, as one step. '' when done, else why none of it was."""
        self.settle()

        def changed(text: str) -> str:
            for path, value in changes:
                text = self._texts.set_value(text, path, value)
            return text

        return self._edit(changed, None)

    def settle(self) -> None:
        """A field was left: what calls a renamed thing follows, and the next edit is a step of its own."""
        named, self._named = tuple(self._named.items()), {}
        for one in named:
            self._edit(lambda text, one=one: self._named_through(text, (one,)), one[0], keys=True)  # type: ignore[misc]
        self._history.settle()

    def judge(self) -> None:
        """See now what is wrong and what the menu is, whether or not keys still come."""
        if self._unread:
            self._read()

    def undo(self) -> bool:
        """Take the last step back."""
        self.settle()
        return self._go(self._history.undo(self.text))

    def redo(self) -> bool:
        """Do it again."""
        self.settle()
        return self._go(self._history.redo(self.text))

    def _go(self, found: tuple[str, object] | None) -> bool:
        if found is None:
            return False
        self.text, self.last_about = found
        self._named.clear()
        self._after()
        return True

    def _named_through(self, text: str, named: Iterable[tuple[Path, str]]) -> str:
        """What calls things by the names they had calls them by those they have. The text itself where it cannot."""
        for path, old in named:
            new = at(self._texts.outline(text), path)
            try:
                text = self._following(text, path, old, new if isinstance(new, str) else "")
            except EditRefused:
                continue
        return text

    def _following(self, text: str, path: Path, old: str, new: str) -> str:
        document = self._texts.outline(text)
        for where, value in followers(document, path, old, new):
            if where[-2:-1] == ("on",) and isinstance(value, str):
                text = self._texts.rename(text, where, value)
            else:
                text = self._texts.set_value(text, where, value)
        return text

    def _words(self, path: Path) -> str:
        found = at(self.reading.document, path)
        return found if isinstance(found, str) else ""

    def _edit(self, change: Callable[[str], str], about: object, *, keys: bool = False) -> str:
        try:
            text = change(self.text)
        except EditRefused as refused:
            return refused.said
        self._become(text, about, keys=keys)
        return ""

    def _become(self, text: str, about: object, *, keys: bool = False) -> None:
        if text == self.text:
            return
        self._history.note(self.text, text, about)
        self.text = text
        self._after(about, keys=keys)

    def _after(self, about: object = None, *, keys: bool = False) -> None:
        self._keep_aside()
        if self._pause is None or not keys:
            self._read()
            return
        self._unread = True
        if about != TYPED:  # a text typed as a whole is looked into when it is judged
            self.reading = replace(self.reading, text=self.text, document=self._texts.outline(self.text))
        self._pause.at(PAUSE_MS, self.judge)
        self._tell()

    def _keep_aside(self) -> None:
        try:
            if self.changed:
                self._side.keep(Aside(self.text, self.saved_text, tuple(self._named.items())), durable=False)
            else:
                self._side.drop()
            self.trouble = ""
        except EditRefused as refused:
            self.trouble = refused.said

    def _read(self) -> None:
        self._unread = False
        if self._pause is not None:
            self._pause.at(None, self.judge)
        self.reading = self._texts.read(self.text)
        self._plan.want(self.reading.menu)
        self._tell()

    # what it looks like

    @property
    def judged(self) -> bool:
        """False while keys come: faults and the menu are those of a moment ago."""
        return not self._unread

    @property
    def can_undo(self) -> bool:
        """True when there is a step to take back."""
        return bool(self._history.done)

    @property
    def can_redo(self) -> bool:
        """True when there is a step to do again."""
        return bool(self._history.undone)

    @property
    def planned(self) -> Planned:
        """The plan as far as it is known."""
        return self._plan.now

    def call_off_plan(self) -> None:
        """Plan no further until the next change, or until `plan_again`."""
        self._plan.call_off()

    def plan_again(self) -> None:
        """Go on planning what was called off."""
        self._plan.again()

    def faults_at(self, path: Path) -> tuple[Fault, ...]:
        """Faults and warnings of a part and of all below it."""
        every = (*self.reading.faults, *self.reading.warnings)
        return tuple(fault for fault in every if fault.path[: len(path)] == path)

    def listen(self, told: Callable[[], None]) -> None:
        """Call on every change."""
        self._listeners.append(told)

    def tell(self, said: str) -> None:
        """Something was done with the menu, in words for the cook."""
        self.said = said
        self._tell()

    def close(self) -> None:
        """Stop; unsaved work stays aside, through a loss of power too."""
        self.settle()
        if self._pause is not None:
            self._pause.stop()
        self._plan.stop()
        self._listeners.clear()
        if self.changed:
            try:
                self._side.keep(Aside(self.text, self.saved_text), durable=True)
            except EditRefused as refused:
                self.trouble = refused.said

    def discard(self) -> None:
        """The cook does not want what is not saved."""
        self._side.drop()
        self.saved_text = self.text

    def _tell(self) -> None:
        for told in self._listeners:
            told()


def _required(path: Path) -> bool:
    """True for what is left empty rather than taken out."""
    return bool(path) and path[-1] in ("menu", "dish", "do")


__all__ = ["EditorDesk", "Outside", "Reading"]
