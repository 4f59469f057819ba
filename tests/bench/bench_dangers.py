"""Every danger alarm of rehearsed evenings, with its cause: `python -m tests.bench.bench_dangers [--short] [SEEDS]`.

Six sample menus, each cooked by a punctual, a late and a forgetful cook, through the real desk and to the moment when
everything is put away. A danger that a sensible cook would call a nuisance shows up here: food that does not spoil, a
clock that should not have begun, two alarms for one cause. Nothing is measured; the numbers are counts.
"""

import sys
from collections import Counter
from pathlib import Path

from timerboard import rehearsing
from timerboard.core.alarm_values import Alarm, Rank
from timerboard.core.alarms import alarms
from timerboard.core.civil import clock_words
from timerboard.core.cook import Cook
from timerboard.core.question import question
from timerboard.core.values import Moment
from timerboard.desk.by_hand import CrankedClock
from timerboard.desk.rehearsal import Tally
from timerboard.desk.rehearsed_cook import Manner, RehearsedCook
from timerboard.planner.answer import answer
from timerboard.planner.greedy import first_plan
from timerboard.terminal import meal

SAMPLES = Path(__file__).resolve().parents[2] / "sample_menus"
MORNING_MS = 1_797_840_000_000
SEEDS = 5


class Dangers(Tally):
    """Counts as every tally does, and keeps each danger with the moment it was first seen."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: dict[str, tuple[Moment, Alarm]] = {}

    def look(self, cook: Cook, now: Moment) -> None:
        """Also what is dangerous."""
        super().look(cook, now)
        for alarm in alarms(cook, now):
            if alarm.rank is Rank.DANGER:
                self.seen.setdefault(alarm.id, (now, alarm))


def dangers(sample: Path, manner: Manner, seeds: range) -> list[tuple[int, str, Alarm]]:
    """Seed, clock time and alarm of every danger."""
    at_table = meal(sample, None, CrankedClock(MORNING_MS, "UTC"), "0")
    problem = question(at_table.menu, at_table.eat_at, at_table.zone)
    plan = answer(problem, limit_s=5.0, hint=first_plan(problem))
    found = []
    for seed in seeds:
        run = rehearsing.rehearsal(at_table, plan, RehearsedCook(manner, seed), lambda _ms: None)
        run.tally = tally = Dangers()
        for _ in run.run():
            pass
        found += [(seed, clock_words(now, at_table.zone), alarm) for now, alarm in tally.seen.values()]
    return found


def main() -> None:
    """Print every danger, then how many there were for each menu and manner."""
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    seeds = range(1 if "--short" in sys.argv else numbers[0] if numbers else SEEDS)
    counts: Counter[tuple[str, str]] = Counter()
    for sample in sorted(SAMPLES.glob("*.yaml")):
        for manner in Manner:
            for seed, clock, alarm in dangers(sample, manner, seeds):
                counts[sample.stem, manner.value] += 1
                print(f"{sample.stem:22} {manner.value:10} {seed:2} {clock}  {alarm.sentence}: {alarm.detail}")
    evenings = len(seeds)
    for sample in sorted(SAMPLES.glob("*.yaml")):
        told = ", ".join(f"{m.value} {counts[sample.stem, m.value]}" for m in Manner)
        print(f"{sample.stem:22} dangers in {evenings} evenings each: {told}")
    print(f"{sum(counts.values())} dangers in {evenings * 18} evenings")


if __name__ == "__main__":
    main()
