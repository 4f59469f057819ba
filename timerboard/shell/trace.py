"""`--trace FILE`: when each alarm was due, seen, painted and sounded, a line of JSON each."""

import json
from collections.abc import Iterable
from pathlib import Path

from timerboard.core.alarm_values import Alarm
from timerboard.core.values import Moment

MOST_KEPT = 64  # bursts whose first sample nobody has reported yet


class Trace:
    """Writes a line for each of these; `since` is when the alarm fell due, `at` when it happened, in Moments (ms).

    "due":     the desk first saw the alarm.
    "painted": the window has painted and handed over the first picture that knows of it.
    "sounds":  a burst for it was begun.
    "sounded": the device took the first sample of that burst (the 300 ms of silence in front are part of it).
    """

    def __init__(self, file: Path) -> None:
        self._out = file.open("a", encoding="utf-8", buffering=1)
        self._unpainted: dict[str, Alarm] = {}
        self._begun: dict[int, Alarm] = {}

    def noted(self, what: str, alarm: Alarm, now: Moment, burst: int = 0) -> None:
        """The desk first saw an alarm ("due") or began a burst for it ("sounds"); `burst` is the number of that one."""
        if what == "due":
            self._unpainted[alarm.id] = alarm
        elif burst:
            self._begun[burst] = alarm
            while len(self._begun) > MOST_KEPT:
                del self._begun[next(iter(self._begun))]
        self._write(what, alarm, now)

    def painted(self, now: Moment) -> None:
        """Everything seen so far is on the screen."""
        for alarm in self._unpainted.values():
            self._write("painted", alarm, now)
        self._unpainted.clear()

    def sounded(self, bursts: Iterable[tuple[int, Moment]]) -> None:
        """The device took the first sample of these bursts."""
        for burst, at in bursts:
            alarm = self._begun.pop(burst, None)
            if alarm is not None:
                self._write("sounded", alarm, at)

    def close(self) -> None:
        """Nothing more is written."""
        self._out.close()

    def _write(self, what: str, alarm: Alarm, now: Moment) -> None:
        if self._out.closed:
            return
        line = {"what": what, "alarm": alarm.id, "rank": alarm.rank.name, "since": alarm.since, "at": now}
        self._out.write(json.dumps(line, ensure_ascii=False) + "\n")
