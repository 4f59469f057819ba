"""How long does a long record take to come back? 100,000 events as JSON lines, read and folded."""

import gc
import time

from tests.kitchen import OPENING, at, opened, small_menu
from timerboard.core.events import (
    EVENT,
    AlarmHeard,
    CueDone,
    Event,
    EventUndone,
    GivenMoreTime,
    QuickTimerCleared,
    QuickTimerSet,
    ReadingTaken,
    StepEnded,
    StepReopened,
    StepStarted,
)
from timerboard.core.fold import apply, fold

COUNT = 100_000


def record(count: int) -> list[Event]:
    """A busy cook that never ends: starts, cues, readings, reopenings, timers, and an act in twenty taken back."""
    events: list[Event] = [opened(small_menu())]

    def add(kind: type, **fields: object) -> None:
        seq = len(events) + 1
        events.append(kind(**at(OPENING + seq * 1000, seq).fields(), **fields))

    add(StepStarted, step="Pork/Salt")
    add(StepEnded, step="Pork/Salt")
    add(StepStarted, step="Pork/Roast")
    while len(events) < count:
        add(CueDone, step="Pork/Roast", cue="Baste")
        if len(events) % 100 < 5:
            add(ReadingTaken, step="Pork/Roast", celsius=60.0)
        add(GivenMoreTime, step="Pork/Roast", until=OPENING + len(events) * 1000 + 60_000)
        add(QuickTimerSet, timer="eggs", ends=OPENING + len(events) * 1000)
        add(AlarmHeard, alarm=f"cue|Pork/Roast|Baste|{len(events) % 50}")
        add(QuickTimerCleared, timer="eggs")
        add(StepEnded, step="Pork/Roast")
        add(StepStarted, step="Pork/Rest", by_itself=True)
        add(StepReopened, step="Pork/Roast")
        if len(events) % 2:
            add(EventUndone, undone=len(events) - 5)
    return events[:count]


def main() -> None:
    """Print the seconds and whether the goal (under one second) is kept."""
    lines = [event.model_dump_json() for event in record(COUNT)]
    gc.collect()
    begun, worked = time.perf_counter(), time.process_time()
    events = [EVENT.validate_json(line) for line in lines]
    read = time.perf_counter()
    cook = fold(events)
    done, spent = time.perf_counter(), time.process_time() - worked
    print(f"{COUNT} events: read {read - begun:.2f} s, folded {done - read:.2f} s, together {done - begun:.2f} s")
    print(f"of one core {spent:.2f} s (the rest is other programs' time)")
    undone = sum(noted.undone for noted in cook.record)
    idle = sum(bool(noted.effect) for noted in cook.record)
    print(f"of them {undone} taken back and {idle} without effect")
    begun = time.perf_counter()
    apply(cook, QuickTimerSet(**at(OPENING, COUNT + 1).fields(), timer="eggs", ends=OPENING))
    print(f"one more event: {(time.perf_counter() - begun) * 1000:.1f} ms; goal: together under 1 s")


if __name__ == "__main__":
    main()
