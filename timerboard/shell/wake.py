"""Wakes the board: APScheduler decides when to look, the engine decides what is due.

One date job is kept for the next moment. As measured with APScheduler 3.11 under PySide6 6.12:

- its default grace of 1 s silently drops a job when the window was busy for longer, so `misfire_grace_time=None`, with
  `coalesce=True`: late is allowed, lost is not;
- its executors run jobs on a pool of threads, so the executor here only posts to the window's thread;
- its `QtScheduler` cannot stop a timer under PySide6 (`QTimer.singleShot` returns None there), so every re-scheduling
  leaves one behind and 40 of them gave 178 passes over the jobs: hence `BackgroundScheduler`, whose thread waits;
- jobs came 5 to 600 ms late, so a moment less than two seconds away is left to a precise Qt timer beside it;
- it computes with the wall clock: set back by an hour, a job comes an hour late. The `Heartbeat` looks anyway.
"""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

from apscheduler.executors.base import BaseExecutor
from apscheduler.schedulers.background import BackgroundScheduler
from PySide6.QtCore import QObject, Qt, QTimer, Signal

from timerboard.desk.ports import Clock

JOB = "look"
PRECISE_MS = 2_000
LONGEST_MS = 7 * 86_400_000
SHOWN_MS = 1_000
HIDDEN_MS = 15_000


class _Posted(QObject):
    """Lives on the window's thread; `call` may be emitted on any."""

    call = Signal()


class _WindowExecutor(BaseExecutor):  # type: ignore[misc]  # APScheduler 3 has no types
    """Runs nothing itself: it tells the window's thread that a job is due, and is ready for the next at once."""

    def __init__(self, posted: _Posted) -> None:
        super().__init__()
        self._posted = posted

    def _do_submit_job(self, job: Any, run_times: list[datetime]) -> None:  # noqa: ANN401 - APScheduler's own signature
        self._posted.call.emit()
        self._run_job_success(job.id, [])


class QtWake:
    """Keeps the desk's `Wake` port. Made, called and answered on the window's thread."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._look: Callable[[], None] | None = None
        self._posted = _Posted()
        self._posted.call.connect(self._due, Qt.ConnectionType.QueuedConnection)
        self._precise = QTimer(self._posted)
        self._precise.setSingleShot(True)
        self._precise.setTimerType(Qt.TimerType.PreciseTimer)
        self._precise.timeout.connect(self._due)
        self._scheduler = BackgroundScheduler(timezone=UTC, daemon=True)
        self._scheduler.add_executor(_WindowExecutor(self._posted))
        self._scheduler.start()

    def at(self, delay_ms: int | None, look: Callable[[], None]) -> None:
        """Look once in `delay_ms`, instead of what was asked before; None: not until asked again."""
        self._look = look
        self._precise.stop()
        if delay_ms is None:
            self._forget()
        elif delay_ms < PRECISE_MS:
            self._forget()
            self._precise.start(max(0, delay_ms))
        else:
            self._schedule(min(delay_ms, LONGEST_MS))

    def stop(self) -> None:
        """No more wake-ups, not even one that is on its way. The scheduler's thread has ended when this returns."""
        self._look = None
        self._precise.stop()
        if self._scheduler.running:
            self._scheduler.shutdown()

    def _schedule(self, delay_ms: int) -> None:
        due = datetime.fromtimestamp(self._clock.wall_ms() / 1000, UTC) + timedelta(milliseconds=delay_ms)
        self._scheduler.add_job(
            _nothing, "date", run_date=due, id=JOB, replace_existing=True, misfire_grace_time=None, coalesce=True
        )

    def _forget(self) -> None:
        if self._scheduler.get_job(JOB):
            self._scheduler.remove_job(JOB)

    def _due(self) -> None:
        if self._look:
            self._look()


def _nothing() -> None:
    """The job itself: what it is for is said by the executor."""


class Heartbeat:
    """Looks once a second while the board is shown, and every 15 s while it is not.

    By the system's own timer and not by the wall clock: it is what finds a machine that slept or a clock that was set.
    """

    def __init__(self, look: Callable[[], None]) -> None:
        self._timer = QTimer()
        self._timer.timeout.connect(look)
        self.shown(True)

    def shown(self, shown: bool) -> None:
        """Tell whether anybody can see the board."""
        self._timer.setTimerType(Qt.TimerType.PreciseTimer if shown else Qt.TimerType.CoarseTimer)
        self._timer.start(SHOWN_MS if shown else HIDDEN_MS)

    @property
    def every_ms(self) -> int:
        """How far apart its looks are."""
        return self._timer.interval()

    def stop(self) -> None:
        """No more looks."""
        self._timer.stop()
