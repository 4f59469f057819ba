"""Undo and redo without limit: each step is the piece of text that changed, so that a long evening costs little."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Change:
    """At a position, `removed` gave way to `added`. `about` names what was edited: keys in one run are one step."""

    at: int
    removed: str
    added: str
    about: object = None

    def forward(self, text: str) -> str:
        """The text after it."""
        return text[: self.at] + self.added + text[self.at + len(self.removed) :]

    def backward(self, text: str) -> str:
        """The text before it."""
        return text[: self.at] + self.removed + text[self.at + len(self.added) :]


def change_between(old: str, new: str, about: object = None) -> Change:
    """The one piece in which two texts differ."""
    most = min(len(old), len(new))
    head = next((n for n in range(most) if old[n] != new[n]), most)
    tail = next((n for n in range(most - head) if old[-1 - n] != new[-1 - n]), most - head)
    return Change(head, old[head : len(old) - tail], new[head : len(new) - tail], about)


@dataclass(slots=True)
class History:
    """What was done and what was taken back."""

    done: list[Change] = field(default_factory=list)
    undone: list[Change] = field(default_factory=list)
    _open: bool = False

    def note(self, old: str, new: str, about: object = None) -> None:
        """An edit from one text to another. Edits about the same thing are one step until `settle`."""
        if old == new:
            return
        self.undone.clear()
        before = self.before_run(old, about)
        if before != old:
            self.done.pop()
            old = before
        self.done.append(change_between(old, new, about))
        self._open = True

    def before_run(self, text: str, about: object) -> str:
        """The text before the run of edits about this that is still open; `text` itself when there is none."""
        runs = self._open and self.done and about is not None and self.done[-1].about == about
        return self.done[-1].backward(text) if runs else text

    def settle(self) -> None:
        """What comes next is another step."""
        self._open = False

    def undo(self, text: str) -> tuple[str, object] | None:
        """The text before the last step and what that was about; None when there is none."""
        if not self.done:
            return None
        self.settle()
        change = self.done.pop()
        self.undone.append(change)
        return change.backward(text), change.about

    def redo(self, text: str) -> tuple[str, object] | None:
        """The text after the step that was taken back last; None when there is none."""
        if not self.undone:
            return None
        self.settle()
        change = self.undone.pop()
        self.done.append(change)
        return change.forward(text), change.about
