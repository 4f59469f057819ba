"""What would make a plan possible: one thing changed at a time, each tried by the solver before it is said."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from time import perf_counter

from timerboard.core.hands_by_time import hands_later
from timerboard.core.plan import Problem, Task, WayOut
from timerboard.core.quantity_words import duration_words
from timerboard.core.values import Seconds
from timerboard.core.words import sentence_list, the

from .greedy import first_plan
from .objective import BY_BOUNDS
from .overload import overload
from .reasons import clock, step_words
from .relax import Change, Trouble, changed_task, easier_room, helper_from, hold_of, more_hands, only
from .rules import post_rules
from .solve import Effort, run
from .variables import Expr, Model, model_of, sketch_of

ONE_TRY_S = 0.7
"""What a single try may take."""

LEAST_TRY_S = 0.15
"""With less left none is begun: it would find nothing and run over."""

NEAT_S = 300
"""Amounts of time are said to the next five minutes: nobody eats 17 minutes later."""

FEW_IDEAS = 6
"""Greedy tries before the solver is asked."""

MOST_LATER_S = 86_400
"""A meal that would have to wait longer is another meal."""

MOST_LEFT_OUT = 3
"""Dishes that a cook may be asked to leave out."""

Stop = Callable[[], bool] | None


def ways_out(problem: Problem, trouble: Trouble, until: float, stop: Stop = None) -> tuple[WayOut, ...]:
    """Ways that were found to work for the whole menu, cheapest first: minutes of waiting, then hands, then things."""
    found = []
    for trial in _trials(trouble):
        if until - perf_counter() < LEAST_TRY_S or (stop is not None and stop()):
            break
        if (way := trial(problem, min(until, perf_counter() + ONE_TRY_S))) is not None:
            found.append(way)
    if not found and until - perf_counter() >= LEAST_TRY_S and (way := _all_stand_longer(problem, until)) is not None:
        found.append(way)
    if not found and trouble.over is not None and (way := _leave_out(problem, until)) is not None:
        found.append(way)
    unique = {way.said: way for way in found}
    return tuple(sorted(unique.values(), key=lambda way: way.cost))


Trial = Callable[[Problem, float], WayOut | None]


def _trials(trouble: Trouble) -> Iterator[Trial]:
    """What could be tried for the rules in the trouble, the likeliest first."""
    small, rules, over = trouble.small, trouble.rules, trouble.over
    kinds = {r.kind for r in rules}
    tasks = {t.id: t for t in small.tasks}
    for rule in (r for r in rules if r.kind == "closed"):
        yield _plain("Work in the closed hours.", 60, rule.without)
    if small.not_before is not None or kinds & {"now", "closed"}:
        yield _eat_later
    if "hands" in kinds:
        if over is not None and over.place == "" and small.zone is not None:
            at = clock(small, over.start)
            yield _plain(f"One more pair of hands from {at} on.", 25, helper_from(over.start))
        yield _plain("One more pair of hands.", 30, more_hands(1))
    for rule in rules:
        if rule.kind == "hold":
            yield _stand_longer(rule.of)
        elif rule.kind == "room":
            yield _plain(
                f"Room for one more on the {rule.of}.",
                40,
                easier_room(rule.of, 1),
            )
        elif rule.kind == "heat":
            yield _elsewhere(small, tasks[rule.of])
        elif rule.kind == "within":
            yield _wait_longer(tasks[rule.of], rule.without)
        elif rule.kind == "ahead":
            yield _plain(f"Do {step_words(tasks[rule.of])} further ahead.", 50, rule.without)
        elif rule.kind == "shut":
            yield _plain(f"Let the door be opened on {step_words(tasks[rule.of])}.", 20, rule.without)


def _plain(said: str, cost: int, change: Change) -> Trial:
    return lambda problem, until: (
        WayOut(said=said, cost=cost) if _least(change(problem), None, until) is not None else None
    )


@dataclass(frozen=True)
class Amount:
    """An amount of time that does, in seconds; `least`: nothing less does, as was proven."""

    seconds: Seconds
    least: bool

    @property
    def maybe(self) -> str:
        """Said behind it when time was up before it was proven to be the least."""
        return "" if self.least else " (less may do)"


def _least(
    problem: Problem, aim: Callable[[Model], Expr] | None, until: float, search: tuple[str, ...] = ()
) -> Amount | None:
    """The least of an amount of time in any plan (0 without an aim); None when there is no plan, or none was found."""
    if overload(problem) is not None:
        return None
    if aim is None and first_plan(problem, ideas=FEW_IDEAS) is not None:
        return Amount(0, least=True)
    model = model_of(problem)
    post_rules(model)
    amount = aim(model) if aim is not None else None
    if amount is not None:
        model.cp.minimize(amount)
        _start_from(model, problem)
    effort = Effort(until, 2 if amount is not None else 1, search=search)
    found = run(model, effort)
    if found.sketch is None:
        return None
    return Amount(model.axis.seconds(found.least) if amount is not None else 0, found.proven)


def _start_from(model: Model, problem: Problem) -> None:
    """A greedy plan to better, when there is one: the least is then near from the beginning."""
    plan = first_plan(problem)
    sketch = sketch_of(model, plan) if plan is not None else None
    if sketch is not None:
        model.hint(sketch)


def _neat(seconds: Seconds) -> Seconds:
    return -(-seconds // NEAT_S) * NEAT_S


def _eat_later(problem: Problem, until: float) -> WayOut | None:
    def later(model: Model) -> Expr:
        if NEAT_S % model.axis.tick == 0:  # between closed hours the exact minute may do and the neat one not
            model.cp.add_modulo_equality(0, model.later, NEAT_S // model.axis.tick)
        return model.later

    asked, moves = problem.model_copy(update={"late_ok": True}), _moves_hands(problem)
    found = _least(asked, later, min(until, perf_counter() + ONE_TRY_S / 2) if moves else until, BY_BOUNDS)
    if moves:
        guess = NEAT_S if found is None else max(NEAT_S, _neat(found.seconds))
        found = _later_with_its_hands(problem, guess, until)
    if found is None or not found.seconds:
        return None
    late = _neat(found.seconds)
    at = f", at {clock(problem, problem.eat_at + late)}" if problem.zone is not None else ""
    return WayOut(said=f"Eat {duration_words(late)} later{at}{found.maybe}.", cost=late // 60)


def _moves_hands(problem: Problem) -> bool:
    return hands_later(problem.hands, NEAT_S, problem.not_before) != problem.hands


def _later_with_its_hands(problem: Problem, guess: Seconds, until: float) -> Amount | None:
    """How much later, when helpers come with the meal: the guess is doubled until it does, then halved back.

    More time may come with fewer hands at the wrong moment, so that nothing less does is said of the least step only.
    """
    low, high = 0, guess
    while _least(eaten_later(high)(problem), None, until) is None:
        low, high = high, 2 * high
        if high > MOST_LATER_S or until - perf_counter() < LEAST_TRY_S:
            return None
    while high - low > NEAT_S and until - perf_counter() >= LEAST_TRY_S:
        middle = _neat((low + high) // 2)
        if middle >= high:
            break
        low, high = (low, middle) if _least(eaten_later(middle)(problem), None, until) is not None else (middle, high)
    return Amount(high, least=high == NEAT_S)


def eaten_later(by_s: Seconds) -> Change:
    """The question of a meal so much later: courses, make-ahead limits and hands by time move with it."""

    def change(problem: Problem) -> Problem:
        goals = tuple(
            g.model_copy(update={"ready_by": g.ready_by + by_s, "ready_from": _plus(g.ready_from, by_s)})
            for g in problem.goals
        )
        tasks = tuple(t.model_copy(update={"earliest": _plus(t.earliest, by_s)}) for t in problem.tasks)
        hands = hands_later(problem.hands, by_s, problem.not_before)
        later = {"eat_at": problem.eat_at + by_s, "goals": goals, "tasks": tasks, "hands": hands, "late_ok": False}
        return problem.model_copy(update=later)

    return change


def _plus(at: Seconds | None, by_s: Seconds) -> Seconds | None:
    return None if at is None else at + by_s


def _stand_longer(dish: str) -> Trial:
    def trial(problem: Problem, until: float) -> WayOut | None:
        goal = next(g for g in problem.goals if g.dish == dish)
        eaten = (goal.ready_from or 0) + goal.hold_s

        def wait(model: Model) -> Expr:
            return model.axis.point(eaten) + model.later - model.ready[dish]

        found = _least(hold_of(dish, None)(problem), wait, until)
        if found is None:
            return None
        least = max(_neat(found.seconds), goal.hold_s)
        words = duration_words(least)
        if least <= max(3 * goal.hold_s, 3600):
            said = f"Let {the(dish)} stand ready for {words} instead of {duration_words(goal.hold_s)}{found.maybe}."
        else:
            said = f"Make {the(dish)} {words} ahead{found.maybe}, if it keeps that long."
        return WayOut(said=said, cost=(least - goal.hold_s) // 60)

    return trial


def _all_stand_longer(problem: Problem, until: float) -> WayOut | None:
    """When no single change is enough: the least that every dish would have to stand."""
    eased = problem
    for goal in problem.goals:
        eased = hold_of(goal.dish, None)(eased)

    def longest(model: Model) -> Expr:
        wait = model.cp.new_int_var(0, model.high - model.low, "longest wait")
        for goal in problem.goals:
            if goal.ready_from is not None:
                eaten = model.axis.point(goal.ready_from + goal.hold_s)
                model.cp.add(wait >= eaten + model.later - model.ready[goal.dish])
        return wait

    found = _least(eased, longest, until)
    if found is None:
        return None
    said = f"Let every dish stand ready for up to {duration_words(_neat(found.seconds))}{found.maybe}."
    return WayOut(said=said, cost=found.seconds // 60)


def _leave_out(problem: Problem, until: float) -> WayOut | None:
    """The fewest dishes less with which it can be cooked: of what is too much, that with the most work goes first."""
    left, out = problem, list[str]()
    while len(out) < MOST_LEFT_OUT and perf_counter() < until and (over := overload(left)) is not None:
        work = {dish: sum(t.least_s for t in over.tasks if t.dish == dish) for dish in over.dishes}
        out.append(max(over.dishes, key=lambda dish: work[dish]))
        left = only(problem, {t.dish for t in problem.tasks} - set(out))
    if not out or first_plan(left) is None:
        return None
    return WayOut(said=f"Leave out {sentence_list([the(dish) for dish in out])}.", cost=200 * len(out))


def _elsewhere(small: Problem, task: Task) -> Trial:
    heated = {p.name for p in small.places if p.heated}
    place = next(name for name, _ in task.uses if name in heated)
    uses = tuple((n, parts) for n, parts in task.uses if n != place)
    return _plain(f"A second {place} for {step_words(task)}.", 90, changed_task(task.id, {"uses": uses}))


def _wait_longer(task: Task, without: Change) -> Trial:
    def trial(problem: Problem, until: float) -> WayOut | None:
        def wait(model: Model) -> Expr:
            ends = [model.spans[a.task].end for a in task.after if a.task in model.spans]
            latest = model.cp.new_int_var(model.low, model.high, "latest before")
            model.cp.add_max_equality(latest, ends)
            return model.spans[task.id].start - latest

        found = _least(without(problem), wait, until)
        if found is None:
            return None
        said = f"Let {step_words(task)} wait up to {duration_words(_neat(found.seconds))}{found.maybe}."
        return WayOut(said=said, cost=20 + found.seconds // 60)

    return trial
