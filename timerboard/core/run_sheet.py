"""The run sheet as values: when, what, where, who, until, then. Paper, terminal and calendar all read it.

The columns are those that written work-back plans share (time, order of work, place, person, test of doneness, what
comes next): common practice, no source. A line is there for somebody to do something: what goes on by itself right
after another step is told in that step's line, and so are small jobs that come every few minutes.
"""

from dataclasses import dataclass

from .civil import clock_words
from .menu import Course, Menu, Step
from .plan import HeatSetting, Placed, PlacedCue, Plan
from .quantity_words import celsius_words, duration_words, span_words
from .survey import Survey
from .values import MS, Seconds
from .words import dots, job_sentence, lower_first, names, sentence_list, upper_first

OFTEN_S = 600
"""Small jobs that come as often as this are told once, in the line of their step."""
AT_ONCE_S = 600
"""What goes on by itself is put there as soon as hands are done; a plan may have it a few minutes later."""


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One job on the sheet. `at` and `ends` are on the plan's axis; `ends` equals `at` for a job of a moment."""

    at: Seconds
    ends: Seconds
    what: str  # verb and food: 'Baste the leg of lamb'
    dish: str
    where: str = ""
    who: str = ""
    until: str = ""  # the sign that it is done; never a length
    then: str = ""
    hands: bool = True  # False: it starts by itself and asks for nobody
    length: str = ""  # 'for 12 min', 'for 45-55 min, to about 18:30'
    meanwhile: str = ""  # small jobs while it runs: 'stir every 6 min'
    name: str = ""  # its name in every plan of the menu, whenever it is: a step's id, and the cue or what is set

    @property
    def food(self) -> str:
        """The dish, when `what` says no word of it: 'Fry the courgettes' is clear for 'Courgette fritters'."""
        said = self.what.casefold()
        words = [word.rstrip("s") for word in self.dish.casefold().split() if len(word) >= 4]
        return "" if names(self.what, self.dish) or any(word in said for word in words) else self.dish


def run_sheet(menu: Menu, plan: Plan, zone: str = "") -> tuple[SheetLine, ...]:
    """Every start, cue and oven setting of a plan, and the meals, by time. With a zone, ends are told as times."""
    sheet = _Sheet(menu, plan, zone, Survey(menu))
    placed = [p for p in plan.placed if p.id in menu.steps]
    lines = [sheet.step_line(p) for p in placed if not sheet.told_before(p)]
    lines += [sheet.cue_line(cue) for cue in plan.cues if cue.step in menu.steps and not sheet.often(cue)]
    lines += [sheet.setting_line(setting) for setting in plan.settings]
    lines += _table_lines(menu, plan, zone)
    return tuple(sorted(lines, key=lambda line: (line.at, line.where == "table", line.ends, line.what)))


def doneness(menu: Menu, step: Step) -> str:
    """The test of doneness of a step: what to look for, what to read on the probe."""
    read = ""
    if step.pull_at_c is not None:
        read = f"{celsius_words(step.pull_at_c, menu.units)} in the middle"
        if step.until and _tells_degrees(step.until, step.pull_at_c, menu.units):
            read = ""
    return ", ".join(word for word in (step.until or "", read) if word)


def _tells_degrees(until: str, celsius: float, units: str) -> bool:
    number = celsius_words(celsius, units).split()[0]
    return number in until.replace("°", " ").split()


@dataclass(frozen=True, slots=True)
class _Sheet:
    menu: Menu
    plan: Plan
    zone: str
    survey: Survey

    def step_line(self, placed: Placed) -> SheetLine:
        """The start of a step."""
        step = self.menu.steps[placed.id]
        hands = self._asks(step)
        return SheetLine(
            at=placed.start,
            ends=placed.end,
            what=job_sentence(step.do, step.dish)[0],
            dish=step.dish,
            where=_where(self.menu, step),
            who=self._who(placed) if hands else "",
            until=doneness(self.menu, step),
            then=self._then(step),
            hands=hands,
            length=self._length(step, placed),
            meanwhile=_meanwhile(step),
            name=step.id,
        )

    def cue_line(self, cue: PlacedCue) -> SheetLine:
        """A small job while a step runs."""
        step = self.menu.steps[cue.step]
        what = job_sentence(cue.cue, step.dish)[0]
        name = f"{step.id}|{cue.id}"
        return SheetLine(at=cue.at, ends=cue.at, what=what, dish=step.dish, where=_places(step), name=name)

    def setting_line(self, setting: HeatSetting) -> SheetLine:
        """A temperature to set, and what for."""
        step = self.menu.steps.get(setting.for_step)
        hot = f"hot by {clock_words(setting.ready * MS, self.zone)}" if self.zone else "hot first"
        then = "" if step is None else _named(step)
        return SheetLine(
            at=setting.at,
            ends=setting.ready,
            what=f"Set the {setting.place} to {celsius_words(setting.heat_c, self.menu.units)}",
            dish="",
            then=f"{hot}, for: {lower_first(then)}" if then else hot,
            name=f"{setting.place}|{setting.for_step}",
        )

    def often(self, cue: PlacedCue) -> bool:
        """True for a cue that is told in its step's line."""
        found = self.menu.steps[cue.step].cue(cue.cue)
        return found is not None and found.every_s is not None and found.every_s <= OFTEN_S

    def told_before(self, placed: Placed) -> bool:
        """True for what goes on by itself as soon as the step before has ended, and has no sign to be looked for."""
        step = self.menu.steps[placed.id]
        return not self._asks(step) and self._plain(step) and self._comes_at_once(step, placed)

    def _plain(self, step: Step) -> bool:
        cues = [cue for cue in step.cues if cue.every_s is None or cue.every_s > OFTEN_S]
        return not (step.until or step.pull_at_c is not None or step.heat_c is not None or cues)

    def _comes_at_once(self, step: Step, placed: Placed) -> bool:
        before = [p for link in step.links if (p := self.plan.of(link.step)) is not None]
        if len(before) != 1 or placed.start - before[0].end > AT_ONCE_S:
            return False
        first = self.menu.steps[before[0].id]
        return first.dish == step.dish and (self._asks(first) or not self._plain(first))  # it has a line of its own

    @staticmethod
    def _asks(step: Step) -> bool:
        return step.work.attended_start or step.hazard is not None or not step.links

    def _who(self, placed: Placed) -> str:
        several = any((p.person or 1) > 1 for p in self.plan.placed)
        return f"cook {placed.person}" if several and placed.person is not None else ""

    def _length(self, step: Step, placed: Placed) -> str:
        if step.span.certain:
            return f"for {duration_words(step.span.low)}"
        about = "to" if step.elastic else "to about"
        end = f", {about} {clock_words(placed.end * MS, self.zone)}" if self.zone else ""
        return f"for {span_words(step.span.low, step.span.high)}{end}"

    def _then(self, step: Step) -> str:
        """What comes next: a step by itself with how long it goes on, the next job, or that it is ready."""
        following = self.survey.followers.get(step.id, [])
        own = next((after for after, _ in following if after.dish == step.dish), None)
        after = own or next((after for after, _ in following), None)
        if after is None:
            return end_words(self.menu, step)
        placed = self.plan.of(after.id)
        if placed is not None and self.told_before(placed):
            by_itself = f"{lower_first(after.do)} by itself {self._length(after, placed)}"
            return f"{by_itself}{_keep(after) if not self._goes_on(after) else ''}"
        return lower_first(after.do) if after.dish == step.dish else lower_first(_named(after))

    def _goes_on(self, step: Step) -> bool:
        return bool(self.survey.followers.get(step.id))


def end_words(menu: Menu, step: Step) -> str:
    """What happens to a dish whose last step this is: taken out of the heat, and kept as the menu says."""
    dish = menu.dish(step.dish)
    keep = step.keep or (dish.keep if dish is not None else None) or ""
    hot = any((place := menu.place(use.place)) is not None and place.heat is not None for use in step.uses)
    return ", ".join(part for part in ("out" if hot else "", keep) if part) or "ready"


def _keep(step: Step) -> str:
    return f", {step.keep}" if step.keep else ""


def _named(step: Step) -> str:
    sentence = job_sentence(step.do, step.dish)[0]
    return sentence if names(sentence, step.dish) else f"{sentence} ({lower_first(step.dish)})"


def _places(step: Step) -> str:
    return ", ".join(use.place for use in step.uses)


def _where(menu: Menu, step: Step) -> str:
    heat = "" if step.heat_c is None else celsius_words(step.heat_c, menu.units)
    loads = f"{step.batches.count} loads" if step.batches is not None else ""
    return dots(" ".join(word for word in (_places(step), heat) if word), loads)


def _meanwhile(step: Step) -> str:
    often = [cue for cue in step.cues if cue.every_s is not None and cue.every_s <= OFTEN_S]
    return sentence_list([f"{lower_first(cue.do)} every {duration_words(cue.every_s or 0)}" for cue in often])


def _table_lines(menu: Menu, plan: Plan, zone: str) -> list[SheetLine]:
    """The meal: a line for each time, and one for each window in which dishes come as they are ready."""
    courses = {(menu.course_of(d).eat_s, menu.course_of(d).until_s) for d in menu.dishes if menu.on_table(d)}
    return [_table_line(menu, plan, course, zone) for course in sorted(courses, key=lambda c: (c[0], c[1] or 0))]


def _table_line(menu: Menu, plan: Plan, course: tuple[Seconds, Seconds | None], zone: str) -> SheetLine:
    eat_s, until_s = course
    dishes = [d for d in menu.dishes if menu.on_table(d) and _eaten(menu.course_of(d)) == course]
    last = plan.eat_at + (until_s if until_s is not None else eat_s)
    window = "" if until_s is None else ", as it is ready"
    if window and zone:
        window = f"{window}, until {clock_words(last * MS, zone)}"
    what = upper_first(f"to the table{window}: {', '.join(lower_first(d.name) for d in dishes)}")
    name = f"table|{dishes[0].course or ''}"
    return SheetLine(at=plan.eat_at + eat_s, ends=last, what=what, dish="", where="table", name=name)


def _eaten(course: Course) -> tuple[Seconds, Seconds | None]:
    return course.eat_s, course.until_s
