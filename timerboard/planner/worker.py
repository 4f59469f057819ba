"""The planner as a process: questions in, answers out, one JSON object a line.

In:  {"id": 7, "problem": {...}, "hint": {...} or null, "limit_s": 10, "forecast": true}
     {"id": 8, "problem": {...}, "foresee": {...plan}}            {"cancel": 7}
     {"id": 9, "heat": {...question of a pull}}
Out: {"ready": true} once, when the solver is warm; then lines with the question's "id" and one of "progress" (a plan),
     "answer" (a plan), "no_plan", "forecast", "pull" or "error" (words), and last of all {"id": 7, "done": true}.

Two threads beside the solving one: a reader, so that a cancel is heard while the solver works, and a forecaster, so
that a forecast need not wait for a plan. Nothing else in the planner has threads of its own.
"""

import json
import queue
import threading
from collections.abc import Iterable
from typing import Any, TextIO

from ortools.sat.python import cp_model

from timerboard.core.heat_values import HeatQuestion
from timerboard.core.plan import Plan, Problem

from .forecast import forecast
from .in_hand import answer_in_hand

Line = dict[str, Any]

LIMIT_S = 10.0
"""How long a question without a limit of its own is worked on."""


class Worker:
    """Reads questions from `lines` until they end, answers them on `out`."""

    def __init__(self, lines: Iterable[str], out: TextIO) -> None:
        self._lines, self._out = lines, out
        self._writing = threading.Lock()
        self._plans: queue.Queue[Line | None] = queue.Queue()
        self._forecasts: queue.Queue[Line | None] = queue.Queue()
        self._dropped: set[int] = set()
        self._over = False

    def run(self) -> None:
        """Answers until there are no more lines. What is open then is dropped: nobody is there to hear it."""
        _warm_up()
        threading.Thread(target=self._read, daemon=True).start()
        forecaster = threading.Thread(target=self._foresee_all, daemon=True)
        forecaster.start()
        self._say({"ready": True})
        while (question := self._plans.get()) is not None:
            self._answered(question, self._plan)
        forecaster.join()

    def _read(self) -> None:
        for line in self._lines:
            if line.strip():
                self._take(line)
        self._over = True
        self._plans.put(None)
        self._forecasts.put(None)

    def _take(self, line: str) -> None:
        try:
            said = json.loads(line)
            if "cancel" in said:
                self._dropped.add(int(said["cancel"]))
            else:
                aside = "foresee" in said or "heat" in said
                (self._forecasts if aside else self._plans).put({"id": int(said["id"]), **said})
        except (ValueError, KeyError, TypeError) as fault:
            self._say({"id": None, "error": f"the planner was sent a line it cannot read: {fault}"})

    def _foresee_all(self) -> None:
        while (question := self._forecasts.get()) is not None:
            self._answered(question, self._pull if "heat" in question else self._foresee)

    def _answered(self, question: Line, how: Any) -> None:  # noqa: ANN401 - a method of this class
        """One question; whatever goes wrong is told to the asker and the worker lives on."""
        if self._is_dropped(question["id"]):
            return
        try:
            how(question)
        except Exception as fault:  # a fault of ours must reach the board as words, not end the process
            self._say({"id": question["id"], "error": f"the planner made a mistake of its own: {fault}"})
        self._say({"id": question["id"], "done": True})

    def _plan(self, question: Line) -> None:
        ask, problem = question["id"], Problem.model_validate(question["problem"])
        hint = Plan.model_validate(question["hint"]) if question.get("hint") else None
        found = answer_in_hand(
            problem,
            limit_s=float(question.get("limit_s") or LIMIT_S),
            hint=hint,
            progress=lambda plan: self._say_of(ask, "progress", plan),
            stop=lambda: self._is_dropped(ask),
        )
        if not isinstance(found, Plan):
            self._say_of(ask, "no_plan", found)
            return
        self._say_of(ask, "answer", found)
        if question.get("forecast") and not self._is_dropped(ask):
            self._say_of(ask, "forecast", forecast(problem, found))

    def _foresee(self, question: Line) -> None:
        problem, plan = Problem.model_validate(question["problem"]), Plan.model_validate(question["foresee"])
        self._say_of(question["id"], "forecast", forecast(problem, plan))

    def _pull(self, question: Line) -> None:
        from timerboard.core.heat_pull import forecast_pull  # numpy and scipy: only once somebody reads a core

        self._say_of(question["id"], "pull", forecast_pull(HeatQuestion.model_validate(question["heat"])))

    def _is_dropped(self, ask: int) -> bool:
        return self._over or ask in self._dropped

    def _say_of(self, ask: int, what: str, value: Any) -> None:  # noqa: ANN401 - any of the planner's values
        if not self._is_dropped(ask):
            self._say({"id": ask, what: value.model_dump(mode="json")})

    def _say(self, line: Line) -> None:
        with self._writing:
            self._out.write(json.dumps(line, separators=(",", ":")) + "\n")
            self._out.flush()


def _warm_up() -> None:
    """The first solve loads what later ones find loaded."""
    model = cp_model.CpModel()
    number = model.new_int_var(0, 3, "n")
    model.add(number >= 1)
    model.minimize(number)
    cp_model.CpSolver().solve(model)
