"""`--trace FILE`: when each alarm was due, seen, painted and sounded, a line of JSON each."""

import json
from pathlib import Path

from timerboard.core.alarm_values import Alarm
from timerboard.core.values import Moment


class Trace:
    """Writes a line for every "due", "sounds" and "painted" of an alarm; moments are of the kitchen clock, in ms."""

    def __init__(self, file: Path) -> None:
        self._out = file.open("a", encoding="utf-8", buffering=1)
        self._unpainted: dict[str, Alarm] = {}

    def noted(self, what: str, alarm: Alarm, now: Moment) -> None:
        """The desk first saw an alarm ("due") or began a burst for it ("sounds")."""
        if what == "due":
            self._unpainted[alarm.id] = alarm
        self._write(what, alarm, now)

    def painted(self, now: Moment) -> None:
        """The window was given everything seen so far."""
        for alarm in self._unpainted.values():
            self._write("painted", alarm, now)
        self._unpainted.clear()

    def close(self) -> None:
        """Nothing more is written."""
        self._out.close()

    def _write(self, what: str, alarm: Alarm, now: Moment) -> None:
        if self._out.closed:
            return
        line = {"what": what, "alarm": alarm.id, "rank": alarm.rank.name, "since": alarm.since, "at": now}
        self._out.write(json.dumps(line, ensure_ascii=False) + "\n")
