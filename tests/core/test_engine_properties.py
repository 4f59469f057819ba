"""What holds of every cook, whatever people do: random histories of a small kitchen, and random events."""

from collections.abc import Callable
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.kitchen import MIN, OPENING, Kitchen, at, fritters, gravy, minutes, opened, pork, small_menu, step
from timerboard.core.alarm_values import Alarm, Kind
from timerboard.core.alarms import ENDED_BY_HEARING, alarms, next_change
from timerboard.core.commands import (
    AddDish,
    ClearQuickTimer,
    Command,
    DoCue,
    DropDish,
    EndStep,
    HearAlarm,
    Hush,
    Look,
    MoveEating,
    NotYet,
    PassOverCue,
    PutOff,
    ReopenStep,
    ReviseDuration,
    SetQuickTimer,
    StartStep,
    TakeReading,
    Undo,
)
from timerboard.core.cook import Cook, StepState
from timerboard.core.decide import Refusal, decide
from timerboard.core.events import EVENT, Event
from timerboard.core.fold import apply, fold
from timerboard.core.menu import Cue, Dish, Use, Work
from timerboard.core.readiness import unended
from timerboard.core.view import view

LAMB = Dish(
    name="Lamb",
    steps=(
        step(
            "Lamb",
            "Roast",
            minutes(40, 60),
            uses=(Use(place="oven"),),
            heat_c=180.0,
            pull_at_c=54.0,
            shut_s=900,
            work=Work(start_s=60),
            cues=(Cue(do="Turn", at_fraction=0.5), Cue(do="Baste", every_s=600, times=2)),
        ),
        step("Lamb", "Rest", minutes(10, 20), after=["Roast"], uses=(Use(place="counter"),), elastic=True),
    ),
)
TEA = Dish(name="Tea", steps=(step("Tea", "Brew", minutes(4)),))
MENU = small_menu(pork(), gravy(), fritters(), LAMB)
STEPS = (*MENU.steps, "Tea/Brew")

Op = tuple[int, int, int]
kinds = st.one_of(st.sampled_from((0, 1, 0, 1, 6)), st.integers(0, 16))  # starts, ends and readings lead on
ops = st.tuples(kinds, st.integers(0, 40), st.integers(0, 60))


def command_of(cook: Cook, now: int, op: Op) -> Command:
    """A command that may make sense now, picked by three numbers."""
    kind, pick, size = op
    one = STEPS[pick % len(STEPS)]
    live = [s for s, life in cook.lives.items() if life.state is StepState.RUNNING] or [one]
    going = live[pick % len(live)]
    ready = [s for s, life in cook.lives.items() if life.state is StepState.READY] or [one]
    begin = ready[pick % len(ready)] if size % 4 else one
    calling = list(alarms(cook, now))
    call = calling[pick % len(calling)] if calling else None
    cue = call.cue if call and call.cue and call.step else "Baste"
    cue_step = call.step if call and call.cue and call.step else going
    made: list[Callable[[], Command]] = [
        lambda: StartStep(begin),
        lambda: EndStep(going),
        lambda: ReopenStep(one),
        lambda: NotYet(going),
        lambda: DoCue(cue_step, cue),
        lambda: PassOverCue(cue_step, cue),
        lambda: TakeReading(going, 5.0 + size, confirmed=pick % 2 == 0),
        lambda: HearAlarm(call.id if call else "?"),
        lambda: PutOff(call.id if call else "?", 10 * size),
        lambda: Hush(3 * size),
        lambda: DropDish(("Gravy", "Fritters", "Tea")[pick % 3]) if size < 5 else EndStep(one),
        lambda: AddDish(TEA),
        lambda: ReviseDuration(one, minutes(1 + size, 10 + size)),
        lambda: MoveEating(now + size * MIN),
        lambda: SetQuickTimer(f"timer {pick % 3}", 1 + size * 20),
        lambda: ClearQuickTimer(f"timer {pick % 3}"),
        Undo,
    ]
    return made[kind]()


def played(history: list[Op], *, check: bool = False) -> Kitchen:
    """A kitchen in which all of this was tried, with time going by."""
    kitchen = Kitchen(MENU, eat_in=160, check=check)
    for op in history:
        kitchen.send(command_of(kitchen.cook, kitchen.now, op))
        kitchen.wait(op[2] / 5)
    return kitchen


def seen(kitchen: Kitchen) -> tuple[object, ...]:
    """The view but for the record: what was done last, and who answered a moment ago."""
    board = view(kitchen.cook, kitchen.now)
    strips = {s.key: replace(s, answered="", said="") for s in board.strips}
    return board.head, board.hands, board.waiting, strips, board.axis, board.danger, board.hushed


def facts(cook: Cook) -> Cook:
    """Everything but the record."""
    return replace(cook, record=())


histories = st.lists(ops, min_size=12, max_size=30)


@settings(max_examples=50, deadline=None)
@given(histories)
def test_a_legal_history_replays_to_the_same_cook_after_every_event(history):
    kitchen = played(history, check=True)
    stored = [EVENT.validate_json(event.model_dump_json()) for event in kitchen.events]
    assert fold(stored) == kitchen.cook


@settings(max_examples=50, deadline=None)
@given(histories)
def test_what_people_and_the_board_do_always_has_its_effect(history):
    kitchen = played(history)
    idle = [n for n in kitchen.cook.record if n.effect and not n.undone]
    assert all("taken back" in n.effect for n in idle), idle


@settings(max_examples=50, deadline=None)
@given(histories)
def test_a_running_step_has_nothing_unended_before_it(history):
    cook = played(history).cook
    for one in cook.menu.steps.values():
        if cook.lives[one.id].state is StepState.RUNNING:
            assert unended(one, cook.lives) == ()


@settings(max_examples=50, deadline=None)
@given(histories)
def test_a_cue_never_waits_twice_and_no_name_is_given_twice(history):
    kitchen = played(history)
    calling = kitchen.alarms()
    cues = [(a.step, a.cue) for a in calling if a.kind is Kind.CUE]
    assert len(cues) == len(set(cues))
    assert len({a.id for a in calling}) == len(calling)


@settings(max_examples=50, deadline=None)
@given(histories, ops)
def test_undo_brings_back_the_facts_and_the_alarms(history, op):
    kitchen = played(history)
    kitchen.send(Look())
    before, calling, board = facts(kitchen.cook), kitchen.alarms(), seen(kitchen)
    command = command_of(kitchen.cook, kitchen.now, op)
    told = len(kitchen.events)
    answer = kitchen.send(command)
    if isinstance(command, Undo) or isinstance(answer, Refusal) or len(kitchen.events) == told:
        return
    kitchen.must(Undo())
    assert facts(kitchen.cook) == before
    assert kitchen.alarms() == calling
    assert seen(kitchen) == board


@settings(max_examples=50, deadline=None)
@given(histories)
def test_everything_can_be_taken_back_one_by_one(history):
    kitchen = played(history)
    while not isinstance(kitchen.send(Undo()), Refusal):
        pass
    fresh = Kitchen(MENU, eat_in=160).cook
    assert replace(facts(kitchen.cook), heats={}) == replace(facts(fresh), heats={})


LOOKS = (Kind.HEADS_UP, Kind.READ, Kind.CHECK, Kind.PULL, Kind.OVER, Kind.DANGER)
"""A look that nobody answers goes further along this row, in the name of the same step."""


def went_further(left: Alarm, now: tuple[Alarm, ...]) -> bool:
    if left.kind is Kind.HEADS_UP and any(a.id == left.id.removeprefix(f"{Kind.HEADS_UP}|") for a in now):
        return True
    if left.kind is Kind.DANGER and any(a.id == left.id.replace("|before|", "|past|") for a in now):
        return "|before|" in left.id
    if left.kind is Kind.AWAY:  # what is left, once everything of it calls as a danger of its own
        return any(a.kind is Kind.DANGER and a.dish for a in now)
    if left.kind is Kind.SERVE:  # what was to be brought in, once it must not be served any more
        return any(a.dish == left.dish and a.verb == "Do not serve" for a in now)
    further = LOOKS[LOOKS.index(left.kind) + 1 :] if left.kind in LOOKS else ()
    return any(a.step == left.step and a.kind in further for a in now)


@settings(max_examples=50, deadline=None)
@given(histories, st.lists(st.integers(1, 3000), min_size=1, max_size=6))
def test_time_alone_ends_no_alarm(history, gaps):
    kitchen = played(history)
    now, calling = kitchen.now, kitchen.alarms()
    for gap in gaps:
        now += gap * 1000
        later = alarms(kitchen.cook, now)
        gone = [a for a in calling if a.id not in {b.id for b in later}]
        assert [a for a in gone if not went_further(a, later)] == []
        calling = later


@settings(max_examples=50, deadline=None)
@given(histories, st.lists(st.floats(0, 1), max_size=6))
def test_nothing_changes_before_the_next_change(history, shares):
    kitchen = played(history)
    calling = kitchen.alarms()
    change = next_change(kitchen.cook, kitchen.now) or kitchen.now + 10_000 * MIN
    assert change > kitchen.now
    for share in shares:
        between = kitchen.now + int((change - 1 - kitchen.now) * share)
        assert alarms(kitchen.cook, between) == calling
        assert decide(kitchen.cook, Look(), at(between, 999)) == ()


CONCERNS = {"StepStarted", "StepEnded", "StepReopened", "GivenMoreTime", "CueDone", "CuePassedOver", "ReadingTaken"}


def _after(before: str, cook: Cook) -> set[str]:
    return {one.id for one in cook.menu.steps.values() if any(link.step == before for link in one.links)}


def concerned(alarm: Alarm, event: Event, cook: Cook) -> bool:
    """True when an event is an answer to an alarm, or ended what it is about."""
    kind = event.kind
    if kind in ("EventUndone", "PlanAdopted", "DishDropped", "DurationRevised", "EatTimeMoved", "DishAdded"):
        return True
    if kind == "AlarmHeard":
        return event.alarm == alarm.id and alarm.kind in ENDED_BY_HEARING
    if kind in ("QuickTimerSet", "QuickTimerCleared"):
        return alarm.cue == event.timer
    if kind in CONCERNS and alarm.kind is Kind.AWAY:  # one call for all that is left: it names them
        return event.step.split("/")[0].lower() in f"{alarm.food} {alarm.detail}".lower()
    if kind in CONCERNS:
        settings_of_it = alarm.kind in (Kind.SET, Kind.HOT, Kind.HEADS_UP) and alarm.dish == event.step.split("/")[0]
        after_it = alarm.kind in (Kind.START, Kind.HEADS_UP, Kind.SERVE)  # an end or a start moves what follows
        taken_back = kind == "StepReopened" and alarm.step in _after(event.step, cook)  # it waits again
        return alarm.step == event.step or settings_of_it or after_it or taken_back
    return False


@settings(max_examples=50, deadline=None)
@given(histories)
def test_an_alarm_leaves_only_when_an_event_concerns_it(history):
    kitchen = Kitchen(MENU, eat_in=160)
    cook = kitchen.cook
    for op in history:
        kitchen.send(command_of(kitchen.cook, kitchen.now, op))
        kitchen.wait(op[2] / 5)
    for event in kitchen.events[2:]:
        before, cook = alarms(cook, event.at), apply(cook, event)
        names = {a.id for a in alarms(cook, event.at)}
        assert [a for a in before if a.id not in names and not concerned(a, event, cook)] == []


def event_strategy() -> st.SearchStrategy[Event]:
    """Any event, sensible or not: unknown steps, repeated numbers, moments in any order."""
    steps = st.sampled_from([*STEPS, "Pork/Fly", "@oven", "@oven?", ""])
    moment = st.integers(OPENING - 10**7, OPENING + 3 * 10**7)
    text = st.sampled_from(["Baste", "Turn", "oven at 160 C for Pork/Roast", "Lift the batch", "eggs", "danger|x"])
    span = st.tuples(st.integers(0, 9000), st.integers(0, 9000), st.integers(0, 9000)).map(
        lambda n: {"low": n[0], "likely": n[1], "high": n[2]}
    )
    opening = opened(MENU)
    again = {name: st.just(getattr(opening, name)) for name in ("menu_text", "menu_hash", "menu", "eat_at", "zone")}
    per_kind: dict[str, dict[str, st.SearchStrategy[object]]] = {
        "CookOpened": again,
        "StepStarted": {"step": steps, "by_itself": st.booleans()},
        "StepEnded": {"step": steps, "by_reading": st.booleans()},
        "StepReopened": {"step": steps},
        "GivenMoreTime": {"step": steps, "until": moment},
        "CueDone": {"step": steps, "cue": text},
        "CuePassedOver": {"step": steps, "cue": text},
        "ReadingTaken": {"step": steps, "celsius": st.floats(width=32), "of": st.sampled_from(["core", "oil", "oven"])},
        "AlarmHeard": {"alarm": text},
        "AlarmPutOff": {"alarm": text, "until": moment},
        "Hushed": {"until": moment},
        "DishDropped": {"dish": st.sampled_from(["Pork", "Gravy", "Lamb", "Tea", "Trifle"])},
        "DishAdded": {"dish": st.sampled_from([TEA, LAMB, Dish(name="Pork 2", steps=pork().steps)])},
        "DurationRevised": {"step": steps, "span": span},
        "EatTimeMoved": {"eat_at": moment},
        "QuickTimerSet": {"timer": text, "ends": moment},
        "QuickTimerCleared": {"timer": text},
        "ClockStepped": {"by_ms": st.integers(-(10**8), 10**8), "offset_ms": st.integers(-(10**8), 10**8)},
        "BoardReturned": {"away_ms": st.integers(0, 10**9), "rebooted": st.booleans()},
        "EventUndone": {"undone": st.integers(-1, 40)},
        "CookClosed": {},
    }
    stamp = {
        "seq": st.integers(1, 40),
        "at": moment,
        "wall_ms": moment,
        "boot": st.just("b"),
        "board": st.just("t"),
    }
    kinds = [st.fixed_dictionaries({"kind": st.just(k), **stamp, **fields}) for k, fields in per_kind.items()]
    return st.one_of(kinds).map(EVENT.validate_python)


@settings(max_examples=50, deadline=None)
@given(st.lists(event_strategy(), min_size=10, max_size=40), st.integers(OPENING - 10**7, OPENING + 3 * 10**7))
def test_any_sequence_of_events_folds_and_can_be_looked_at(events, now):
    told: list[Event] = [Kitchen(MENU).events[0], *events]
    cook = fold(told[:1])
    for event in events:
        cook = apply(cook, event)
    assert cook == fold(told)
    assert [n.event for n in cook.record] == told
    alarms(cook, now)
    next_change(cook, now)
