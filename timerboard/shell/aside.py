"""Calls into the system that may never come back, on a thread of their own."""

from collections.abc import Callable
from threading import Thread
from typing import Generic, TypeVar

PATIENCE_S = 0.1  # what answers at all mostly does so within this; whoever asked goes on after it

Found = TypeVar("Found")


class Aside(Generic[Found]):
    """`work` on a thread; whoever makes this waits for it a moment, and looks again later. `work` must not raise."""

    def __init__(self, work: Callable[[], Found], name: str) -> None:
        self._found: list[Found] = []
        self._thread = Thread(target=lambda: self._found.append(work()), daemon=True, name=name)
        self._thread.start()
        self._thread.join(PATIENCE_S)

    def found(self) -> Found | None:
        """What came of it; None as long as it has not come back."""
        return self._found[0] if self._found else None
