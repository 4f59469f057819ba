"""Calls into the system that may never come back, on a thread of their own."""

from collections.abc import Callable
from threading import Thread
from typing import Generic, TypeVar

PATIENCE_S = 0.1  # what answers at all mostly does so within this; whoever asked goes on after it

Found = TypeVar("Found")


class Aside(Generic[Found]):
    """`work` on a thread; whoever makes this waits for it `patience_s`, and looks again later. `work` must not raise.

    What is asked again and again while a cook runs is given no patience: the window would stand still each time.
    """

    def __init__(self, work: Callable[[], Found], name: str, patience_s: float = PATIENCE_S) -> None:
        self._found: list[Found] = []
        self._thread = Thread(target=lambda: self._found.append(work()), daemon=True, name=name)
        self._thread.start()
        self._thread.join(patience_s)

    def found(self) -> Found | None:
        """What came of it; None as long as it has not come back."""
        return self._found[0] if self._found else None
