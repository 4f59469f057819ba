"""The planner in a process of its own, so that the board never waits for it. Keeps the desk's `Planner` promises.

One process is started at once and warms itself up. When it dies it is started again, the open question is put to the
new one, and a listener is told; when a question has killed it twice its asker is told instead.
"""

import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QCoreApplication, QObject, QProcess

from timerboard.core.heat_values import HeatQuestion, PullForecast
from timerboard.core.plan import Forecast, NoPlan, Plan, Problem

LIMIT_S = 10.0
"""How long one question is worked on at most."""

MOST_DEATHS = 3
"""Deaths in a row without a word before the planner is given up until the next question."""

AGAIN = "The planner stopped and was started again"
RESTS = "The planner keeps stopping: it is started again when there is something to plan"
GONE = "the planner stopped and could not be started again"


@dataclass
class _Ask:
    """A question on its way, and who waits for it."""

    line: str
    heard: dict[str, Callable[[Any], None]]
    trouble: Callable[[str], None]
    forecast: bool = False
    pull: str = ""  # the step whose pull it is about
    deaths: int = 0


class PlannerProcess(QObject):
    """Puts questions to the planner; answers come later on this thread. `restarted` hears of starts, and of rests."""

    def __init__(
        self,
        restarted: Callable[[str], None] | None = None,
        program: tuple[str, ...] = (sys.executable, "-m", "timerboard.planner"),
    ) -> None:
        super().__init__()
        self._restarted, self._program = restarted, program
        self._asks: dict[int, _Ask] = {}
        self._count, self._deaths, self._closing = 0, 0, False
        self._rest = b""
        self.ready = False
        self._process = self._start()
        application = QCoreApplication.instance()
        if application is not None:  # however the program ends: a process that nobody ended would be ended with a word
            application.aboutToQuit.connect(self.close)

    def ask(
        self,
        problem: Problem,
        hint: Plan | None,
        *,
        on_progress: Callable[[Plan], None],
        on_answer: Callable[[Plan | NoPlan], None],
        on_forecast: Callable[[Forecast], None],
        on_trouble: Callable[[str], None],
        limit_s: float = LIMIT_S,
    ) -> None:
        """Puts a question and drops the one that is still open."""
        self.cancel()
        body = {"problem": problem.model_dump(mode="json"), "limit_s": limit_s, "forecast": True}
        body["hint"] = hint.model_dump(mode="json") if hint is not None else None
        heard: dict[str, Callable[[Any], None]] = {
            "progress": lambda value: on_progress(Plan.model_validate(value)),
            "answer": lambda value: on_answer(Plan.model_validate(value)),
            "no_plan": lambda value: on_answer(NoPlan.model_validate(value)),
            "forecast": lambda value: on_forecast(Forecast.model_validate(value)),
        }
        self._put(body, heard, on_trouble)

    def foresee(self, problem: Problem, plan: Plan, on_forecast: Callable[[Forecast], None]) -> None:
        """Forecasts a plan as it stands, beside any open question. A forecast that fails is not missed."""
        self._drop(forecast=True)
        body = {"problem": problem.model_dump(mode="json"), "foresee": plan.model_dump(mode="json")}
        heard: dict[str, Callable[[Any], None]] = {
            "forecast": lambda value: on_forecast(Forecast.model_validate(value))
        }
        self._put(body, heard, lambda _said: None, forecast=True)

    def predict(self, question: HeatQuestion, on_pull: Callable[[PullForecast], None]) -> None:
        """Asks when a core reaches its pull, beside any open question; an older one about the same step is dropped."""
        self._dropped(lambda ask: ask.pull == question.step)
        heard: dict[str, Callable[[Any], None]] = {"pull": lambda value: on_pull(PullForecast.model_validate(value))}
        self._put({"heat": question.model_dump(mode="json")}, heard, lambda _said: None, pull=question.step)

    def cancel(self) -> None:
        """Drops the open question: nothing of it is called after this."""
        self._drop(forecast=False)

    def close(self) -> None:
        """Ends the process; nothing is called after this."""
        if self._closing:
            return
        self._closing = True
        self._asks.clear()
        self._process.closeWriteChannel()
        self._process.kill()
        self._process.waitForFinished(1000)

    def process_id(self) -> int:
        """The system's number of the process; 0 while there is none."""
        return int(self._process.processId())

    def _put(
        self,
        body: dict[str, Any],
        heard: dict[str, Callable[[Any], None]],
        trouble: Callable[[str], None],
        *,
        forecast: bool = False,
        pull: str = "",
    ) -> None:
        self._count += 1
        line = json.dumps({"id": self._count, **body}, separators=(",", ":"))
        self._asks[self._count] = _Ask(line, heard, trouble, forecast, pull)
        if self._process.state() == QProcess.ProcessState.NotRunning:
            self._deaths = 0
            self._process = self._start()  # sends every open question
        else:
            self._write(line)

    def _drop(self, *, forecast: bool) -> None:
        self._dropped(lambda ask: not ask.pull and ask.forecast is forecast)

    def _dropped(self, these: Callable[[_Ask], bool]) -> None:
        for ask in [n for n, open_ in self._asks.items() if these(open_)]:
            del self._asks[ask]
            self._write(json.dumps({"cancel": ask}))

    def _start(self) -> QProcess:
        process = QProcess(self)
        process.readyReadStandardOutput.connect(self._read)
        process.finished.connect(self._died)
        process.errorOccurred.connect(self._failed)
        self._rest, self.ready = b"", False
        process.setStandardErrorFile(QProcess.nullDevice())
        process.start(self._program[0], list(self._program[1:]))
        for ask in self._asks.values():
            process.write(ask.line.encode() + b"\n")
        return process

    def _write(self, line: str) -> None:
        if self._process.state() != QProcess.ProcessState.NotRunning:
            self._process.write(line.encode() + b"\n")

    def _read(self) -> None:
        *lines, self._rest = (self._rest + bytes(self._process.readAllStandardOutput().data())).split(b"\n")
        for line in lines:
            if line.strip() and not self._closing:
                self._hear(json.loads(line))

    def _hear(self, said: dict[str, Any]) -> None:
        self.ready = self.ready or "ready" in said
        ask = self._asks.get(said.get("id") or 0)
        if ask is None:
            return
        self._deaths = 0
        if "done" in said:
            del self._asks[said["id"]]
        elif "error" in said:
            ask.trouble(said["error"])
        for what, hear in ask.heard.items():
            if what in said:
                hear(said[what])

    def _failed(self, error: QProcess.ProcessError) -> None:
        if error == QProcess.ProcessError.FailedToStart:
            self._died()

    def _died(self, *_: object) -> None:
        """Starts again. A question that was open at two deaths is given back with words."""
        if self._closing:
            return
        self._deaths += 1
        given_up = self._deaths > MOST_DEATHS
        for number, ask in list(self._asks.items()):
            ask.deaths += 1
            if given_up or ask.deaths > 1:
                del self._asks[number]
                ask.trouble(GONE if given_up else "the planner stopped twice over this question")
        if not given_up:
            self._process = self._start()
        if self._restarted is not None:
            self._restarted(RESTS if given_up else AGAIN)
