"""One run of the solver: a model, a time and an aim in; values and a bound out."""

import threading
from collections.abc import Callable
from dataclasses import dataclass
from time import perf_counter
from typing import Any

from ortools.sat.python import cp_model

from .variables import Expr, Model, Sketch


@dataclass(frozen=True)
class Effort:
    """What a run may use. `until` is on `perf_counter`."""

    until: float
    workers: int = 2
    stop: Callable[[], bool] | None = None
    search: tuple[str, ...] = ()  # which of the solver's searches run, by its own names; (): its usual mix
    switched: tuple[str, ...] = ()  # reasonings to switch on, by its own names, without linear relaxations
    presolve: bool = True  # False: at once, where a hint is nearly all there is to find
    most_work: float | None = None  # in the solver's own measure, which a busy machine does not change

    @property
    def left_s(self) -> float:
        """Seconds that are left."""
        return max(0.0, self.until - perf_counter())

    @property
    def over(self) -> bool:
        """True when time is up or somebody asked to stop."""
        return self.left_s <= 0.0 or (self.stop is not None and self.stop())


@dataclass(frozen=True)
class Found:
    """What a run found. `sketch` None: nothing in the time. `proven`: best there is, or surely nothing at all."""

    sketch: Sketch | None
    bound: float
    proven: bool
    least: int = 0  # the value of what was to be made least


class _Watch(cp_model.CpSolverSolutionCallback):
    """Hands every better plan on while the solver goes on."""

    def __init__(self, model: Model, tell: Callable[[Sketch], None]) -> None:
        super().__init__()
        self._model, self._tell = model, tell

    def on_solution_callback(self) -> None:
        """Called by the solver."""
        self._tell(read(self._model, self.value))


def run(model: Model, effort: Effort, tell: Callable[[Sketch], None] | None = None) -> Found:
    """Solves `model` as it stands, within `effort`."""
    solver = cp_model.CpSolver()
    _set(solver, effort)
    watch = _Watch(model, tell) if tell is not None else None
    with _Stopper(solver, effort.stop):
        status = solver.status_name(solver.solve(model.cp, watch))
    found = status in ("OPTIMAL", "FEASIBLE")
    bound = solver.best_objective_bound if model.cp.has_objective() else 0.0
    proven = status in ("OPTIMAL", "INFEASIBLE")
    least = round(solver.objective_value) if found and model.cp.has_objective() else 0
    return Found(read(model, solver.value) if found else None, bound, proven, least)


def _set(solver: cp_model.CpSolver, effort: Effort) -> None:
    parameters = solver.parameters
    parameters.max_time_in_seconds = max(0.01, effort.left_s)
    parameters.num_workers = effort.workers
    parameters.random_seed = 7
    if effort.search and effort.workers > 1:
        parameters.subsolvers.extend(effort.search)
    parameters.cp_model_presolve = effort.presolve
    if effort.most_work is not None:
        parameters.max_deterministic_time = effort.most_work
    if effort.switched:
        parameters.linearization_level = 0
    for reasoning in effort.switched:
        setattr(parameters, reasoning, True)


def read(model: Model, value: Callable[[Any], int]) -> Sketch:
    """The plan in a solution."""

    def get(expr: Expr) -> int:
        return expr if isinstance(expr, int) else int(value(expr))

    return Sketch(
        {t: get(s.start) for t, s in model.spans.items()},
        {t: get(s.end) for t, s in model.spans.items()},
        {k: get(at) for k, at in model.cues.items()},
        get(model.later),
        {t: 1 + max(range(len(who)), key=lambda n: get(who[n])) for t, who in model.chosen.items()},
    )


class _Stopper:
    """Asks now and then whether to stop. A thread, because the solver holds the one that called it until it is done."""

    def __init__(self, solver: cp_model.CpSolver, stop: Callable[[], bool] | None) -> None:
        self._solver, self._stop, self._done = solver, stop, threading.Event()

    def __enter__(self) -> None:
        if self._stop is not None:
            threading.Thread(target=self._look, daemon=True).start()

    def __exit__(self, *_: object) -> None:
        self._done.set()

    def _look(self) -> None:
        while self._stop is not None and not self._done.wait(0.03):
            if self._stop():
                self._solver.stop_search()
                return
