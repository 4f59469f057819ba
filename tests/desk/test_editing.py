"""The editor's desk: nothing typed is lost, every step can be taken back, others' changes are taken in."""

from dataclasses import dataclass, field
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fakes import FakeWake, HandClock
from timerboard.core.menu_written import Plain, words_at
from timerboard.core.plan import NoPlan, Plan, Problem, Status
from timerboard.desk.editing import EditorDesk
from timerboard.desk.editor_ports import Aside, EditRefused, Stamp
from timerboard.desk.history import History
from timerboard.desk.live_plan import LivePlan
from timerboard.desk.merging import merged
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_document import MenuDocument, MenuOnDisk
from timerboard.shell.side_file import SideOnDisk

SAMPLES = sorted((Path(__file__).parents[2] / "sample_menus").glob("*.yaml"))
MENU = """\
menu: Supper   # for friends
serves: 4
kitchen:
  places:
    oven: {room: 2, heat: 60-250 C}
    hob: {room: 2}
courses:
  main: {eat: 0 min}
table: [stew, rice]
dishes:
  - dish: Stew
    course: main
    steps:
      - do: Brown   # in two goes
        on: hob
        work: 10 min
      - do: Simmer
        on: {hob: 1}
        takes: 50-60 min
  - dish: Rice
    steps:
      - do: Boil
        on: hob
        takes: 12 min
        after: [Stew/Brown]
"""


@dataclass
class MemoryFile:
    """A menu's file by hand; `other` writes it as somebody else would."""

    text: str = MENU
    stamp: int = 1
    full: bool = False
    name: str = "supper.yaml"

    def load(self) -> tuple[str, Stamp | None]:
        return self.text, self.look(None)

    def look(self, last: Stamp | None) -> Stamp | None:
        return Stamp(self.stamp, len(self.text), self.text) if self.stamp else None

    def save(self, text: str) -> Stamp:
        if self.full:
            raise EditRefused("the disk is full")
        self.other(text)
        return Stamp(self.stamp, len(text), text)

    def other(self, text: str) -> None:
        self.text, self.stamp = text, self.stamp + 1


@dataclass
class MemorySide:
    """A side file by hand."""

    aside: Aside | None = None
    full: bool = False

    def keep(self, aside: Aside, *, durable: bool) -> None:
        if self.full:
            raise EditRefused("unsaved work cannot be kept")
        self.aside = aside

    def take(self) -> Aside | None:
        return self.aside

    def drop(self) -> None:
        self.aside = None


@dataclass
class HandPlanner:
    """Keeps questions; `answer` gives the greedy plan, or what it is told."""

    asked: list[Problem] = field(default_factory=list)
    heard: object = None
    cancelled: bool = False

    def ask(self, problem, hint, *, on_progress, on_answer, on_forecast, on_trouble) -> None:
        self.asked.append(problem)
        self.heard, self.better = on_answer, on_progress

    def answer(self, said: Plan | NoPlan | None = None) -> None:
        self.heard(said or first_plan(self.asked[-1]))

    def cancel(self) -> None:
        self.cancelled = True


@dataclass
class Kitchen:
    """A desk with everything it needs, by hand."""

    store: MemoryFile = field(default_factory=MemoryFile)
    side: MemorySide = field(default_factory=MemorySide)
    planner: HandPlanner = field(default_factory=HandPlanner)
    wake: FakeWake = field(default_factory=FakeWake)

    def open(self, beginning: str = "") -> EditorDesk:
        desk = EditorDesk(MenuDocument(), self.store, self.side, LivePlan(self.planner, self.wake, HandClock()))
        desk.open(beginning)
        return desk


@pytest.fixture
def kitchen() -> Kitchen:
    return Kitchen()


STEW, BROWN = ("dishes", 0, "dish"), ("dishes", 0, "steps", 0, "do")


def type_in(desk: EditorDesk, path: tuple, words: str) -> None:
    """Clear a box and type into it, a key at a time, as a cook does."""
    desk.set_value(path, None)
    for n in range(1, len(words) + 1):
        desk.set_value(path, words[:n])


def test_every_key_is_kept_aside_at_once(kitchen):
    desk = kitchen.open()
    desk.set_value(("menu",), "S")
    assert kitchen.side.aside == Aside(desk.text, MENU)
    assert "menu: S   # for friends" in desk.text


def test_after_a_crash_the_unsaved_work_is_there_and_undo_gives_the_file(kitchen):
    kitchen.open().set_value(("menu",), "Late supper")
    again = Kitchen(kitchen.store, kitchen.side).open()
    assert again.recovered
    assert again.changed
    assert words_at(again.reading.document, ("menu",)) == "Late supper"
    assert again.undo()
    assert again.text == MENU


def test_unsaved_work_is_merged_with_a_file_that_changed_since_the_crash(kitchen):
    kitchen.open().set_value(("menu",), "Late supper")
    kitchen.store.other(MENU.replace("takes: 12 min", "takes: 14 min"))
    again = Kitchen(kitchen.store, kitchen.side).open()
    assert again.outside is None
    assert "menu: Late supper" in again.text
    assert "takes: 14 min" in again.text


def test_what_cannot_be_read_stays_in_the_text_with_its_fault(kitchen):
    desk = kitchen.open()
    path = ("dishes", 1, "steps", 0, "takes")
    assert desk.set_value(path, Plain("12 mi")) == ""
    assert "takes: 12 mi\n" in desk.text
    assert desk.reading.menu is None
    assert "'mi' is not a unit of time" in desk.faults_at(path)[0].wrong
    desk.set_value(path, Plain("12 min"))
    assert desk.text == MENU


def test_a_run_of_keys_in_one_box_is_one_step_and_a_cleared_line_keeps_its_comment(kitchen):
    desk = kitchen.open()
    type_in(desk, ("menu",), "Feast")
    assert desk.text == MENU.replace("menu: Supper ", "menu: Feast ")
    path = ("dishes", 0, "steps", 1, "takes")
    desk.settle()
    type_in(desk, path, "70 min")
    assert desk.undo()
    assert "menu: Feast" in desk.text
    assert desk.undo()
    assert desk.text == MENU
    assert not desk.undo()
    assert desk.redo()
    assert desk.redo()
    assert "70 min" in desk.text


def test_undo_has_no_end():
    history, text = History(), MENU
    for n in range(20_000):
        history.note(text, f"{MENU}# {n}\n")
        text = f"{MENU}# {n}\n"
    steps = 0
    while (step := history.undo(text)) is not None:
        text, steps = step[0], steps + 1
    assert (text, steps) == (MENU, 20_000)


def test_a_renamed_dish_is_followed_on_the_table_and_in_links(kitchen):
    desk = kitchen.open()
    type_in(desk, STEW, "Ragout")
    desk.settle()
    assert "table: [Ragout, rice]" in desk.text
    assert "after: [Ragout/Brown]" in desk.text
    assert desk.reading.menu is not None
    desk.undo()
    assert desk.text == MENU


def test_a_renamed_step_place_and_course_are_followed(kitchen):
    desk = kitchen.open()
    type_in(desk, BROWN, "Sear")
    desk.settle()
    assert "after: [Stew/Sear]" in desk.text
    for n in range(3, 6):
        desk.rename(("kitchen", "places", ("hob", "rin", "ring")[n - 3]), "rings"[:n])
    assert desk.text.count("on: rings") == 2
    assert "on: {rings: 1}" in desk.text
    desk.rename(("courses", "main"), "dinner")
    assert "course: dinner" in desk.text
    assert desk.reading.menu is not None


def test_a_name_is_never_taken_away(kitchen):
    desk = kitchen.open()
    assert desk.rename(("kitchen", "places", "hob"), " ") == "write a name"
    assert desk.rename(("kitchen", "places", "hob"), "oven") == "there is a 'oven' already"
    assert desk.text == MENU


@pytest.mark.parametrize("path", [STEW, BROWN, ("dishes", 1, "steps", 0, "id")])
def test_a_crash_in_the_middle_of_a_rename_leaves_no_half_of_it(kitchen, path):
    kitchen.store.text = MENU.replace("        takes: 12 min", "        id: boil\n        takes: 12 min") + (
        "      - do: Fluff\n        takes: 2 min\n        after: [boil]\n"
    )
    type_in(kitchen.open(), path, "Goulash")  # and the box is never left
    half = kitchen.side.aside.text
    again = Kitchen(kitchen.store, kitchen.side).open()
    whole = again.text
    assert whole != half
    assert again.reading.faults == ()
    assert words_at(again.reading.document, path) == "Goulash"
    assert again.undo()
    assert again.text == kitchen.store.text
    left = Kitchen(kitchen.store).open()
    type_in(left, path, "Goulash")
    left.settle()
    assert left.text == whole


def test_keys_are_kept_at_once_and_judged_when_they_rest(kitchen):
    pause = FakeWake()
    desk = EditorDesk(
        MenuDocument(), kitchen.store, kitchen.side, LivePlan(kitchen.planner, kitchen.wake, HandClock()), pause
    )
    desk.open()
    takes = ("dishes", 1, "steps", 0, "takes")
    desk.set_value(takes, Plain("14 mi"))
    assert "takes: 14 mi\n" in kitchen.side.aside.text
    assert words_at(desk.reading.document, takes) == "14 mi"
    assert desk.reading.faults == ()
    assert not desk.judged
    assert pause.delay_ms == 150
    pause.ring()
    assert desk.judged
    assert "'mi' is not a unit" in desk.reading.faults[0].wrong
    desk.set_value(takes, Plain("14 min"))
    assert desk.save()
    assert desk.judged
    assert desk.reading.menu is not None
    desk.set_value(takes, Plain("15 min"))
    desk.insert(("dishes",), 2, {"dish": "Salad", "steps": [{"do": "Toss", "work": "5 min"}]})
    assert len(desk.reading.menu.dishes) == 3


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_opened_and_saved_is_the_same_and_one_field_is_one_line(sample, tmp_path):
    file = tmp_path / sample.name
    file.write_bytes(sample.read_bytes())
    wake = FakeWake()
    plan = LivePlan(HandPlanner(), wake, HandClock())
    desk = EditorDesk(MenuDocument(), MenuOnDisk(file), SideOnDisk(file, tmp_path / "unsaved"), plan)
    desk.open()
    assert desk.save()
    assert file.read_bytes() == sample.read_bytes()
    before = sample.read_text().splitlines()
    last = len(desk.reading.menu.dishes) - 1
    for path, words in (
        (("menu",), "Feast"), (("serves",), Plain("40")), (("dishes", 0, "dish"), "Dumplings"),
        (("dishes", last, "steps", 0, "do"), "Peel slowly"), (("dishes", 1, "steps", 0, "do"), "Wash"),
    ):  # fmt: skip
        desk.set_value(path, words)
        assert desk.save()
        after = file.read_text().splitlines()
        changed = [one for one, other in zip(before, after, strict=True) if one != other]
        assert len(changed) == 1 or path[-1] in ("dish", "do"), path  # a name may be called elsewhere too
        assert desk.undo()
        assert desk.save()
        assert file.read_bytes() == sample.read_bytes(), path


@pytest.mark.parametrize(
    ("source", "to", "said"),
    [
        (("dishes", 0, "steps", 0), ("dishes", 1, "steps", 0), "'Boil' follows this step: change that first"),
        (("dishes", 1, "steps", 0), ("dishes", 0, "steps", 0), "Rice would have no steps"),
        (("dishes", 2, "steps", 0), ("dishes", 0, "steps", 2), "this step follows others by name"),
        (("dishes", 2, "steps", 1), ("dishes", 0, "steps", 2), "Stew has a step of that name already"),
    ],
)
def test_a_step_that_is_tied_to_others_is_not_carried_to_another_dish(kitchen, source, to, said):
    kitchen.store.text = MENU + (
        "  - dish: Beans\n    steps:\n      - {do: Drain, work: 1 min, after: [Rice/Boil]}\n"
        "      - {do: Simmer, on: hob, takes: 5 min}\n      - {do: Salt, work: 1 min}\n"
    )
    desk = kitchen.open()
    assert said in desk.carry(source, to)
    assert desk.text == kitchen.store.text


def test_a_step_is_carried_to_another_dish_as_one_step_of_undo(kitchen):
    desk = kitchen.open()
    assert desk.carry(("dishes", 0, "steps", 1), ("dishes", 1, "steps", 1)) == ""
    stew, rice = desk.reading.menu.dishes
    assert [step.do for step in stew.steps] == ["Brown"]
    assert [step.do for step in rice.steps] == ["Boil", "Simmer"]
    assert rice.steps[1].uses[0].place == "hob"
    assert desk.carried == ("dishes", 1, "steps", 1)
    assert desk.undo()
    assert desk.text == MENU


def test_the_plan_is_asked_for_once_the_keys_rest(kitchen):
    desk = kitchen.open()
    kitchen.wake.ring()
    kitchen.planner.answer()
    assert isinstance(desk.planned.plan, Plan)
    for words in ("1", "14", "14 ", "14 m", "14 mi", "14 min"):
        desk.set_value(("dishes", 1, "steps", 0, "takes"), Plain(words))
    assert len(kitchen.planner.asked) == 1
    kitchen.wake.ring()
    assert len(kitchen.planner.asked) == 2
    kitchen.planner.answer()
    assert desk.planned.menu == desk.reading.menu
    assert desk.planned.doing == ""


def test_while_the_menu_cannot_be_read_the_old_plan_stays_in_view_and_nothing_is_asked(kitchen):
    desk = kitchen.open()
    kitchen.wake.ring()
    kitchen.planner.answer()
    old = desk.planned.plan
    desk.set_value(("serves",), Plain("fo"))
    assert kitchen.wake.delay_ms is None
    assert len(kitchen.planner.asked) == 1
    assert desk.planned.plan is old
    assert desk.planned.doing == "the plan waits"


def test_an_answer_that_comes_too_late_is_not_shown(kitchen):
    desk = kitchen.open()
    kitchen.wake.ring()
    late = kitchen.planner.heard
    desk.set_value(("dishes", 1, "steps", 0, "takes"), Plain("20 min"))
    late(NoPlan(status=Status.IMPOSSIBLE, reasons=("too late",)))
    assert desk.planned.plan is None


def test_words_alone_ask_for_no_new_plan(kitchen):
    desk = kitchen.open()
    kitchen.wake.ring()
    kitchen.planner.answer()
    desk.set_value(("dishes", 0, "keep"), "warm")
    kitchen.wake.ring()
    assert len(kitchen.planner.asked) == 1
    assert desk.planned.menu == desk.reading.menu


def test_planning_can_be_called_off_and_the_plan_so_far_stays(kitchen):
    desk = kitchen.open()
    kitchen.wake.ring()
    so_far = first_plan(kitchen.planner.asked[-1])
    kitchen.planner.better(so_far)
    desk.call_off_plan()
    assert kitchen.planner.cancelled
    assert desk.planned.plan is so_far
    assert desk.planned.doing == "planning was called off"
    desk.set_value(("dishes", 0, "keep"), "warm")  # words only: but that plan was never the answer
    kitchen.wake.ring()
    assert len(kitchen.planner.asked) == 2
    assert desk.planned.doing == "planning"


def test_what_was_called_off_before_it_was_asked_is_not_asked_until_somebody_wants_it(kitchen):
    desk = kitchen.open()
    desk.call_off_plan()
    assert kitchen.wake.delay_ms is None
    assert kitchen.planner.asked == []
    desk.plan_again()
    assert len(kitchen.planner.asked) == 1
    kitchen.planner.answer()
    assert isinstance(desk.planned.plan, Plan)
    assert desk.planned.doing == ""
    desk.call_off_plan()  # nothing is being planned
    assert desk.planned.doing == ""


def test_a_change_taken_back_while_it_is_planned_is_not_shown_with_the_plan_of_the_change(kitchen):
    desk = kitchen.open()
    kitchen.wake.ring()
    kitchen.planner.answer()
    first = desk.planned.plan
    desk.set_value(("dishes", 1, "steps", 0, "takes"), Plain("25 min"))
    kitchen.wake.ring()
    kitchen.planner.better(first_plan(kitchen.planner.asked[-1]))
    assert desk.planned.plan != first
    assert desk.undo()
    kitchen.wake.ring()
    kitchen.planner.answer()
    assert desk.planned.plan == first
    assert kitchen.planner.asked[-1] == kitchen.planner.asked[0]


def test_words_changed_while_it_plans_lose_no_answer(kitchen):
    desk = kitchen.open()
    kitchen.wake.ring()
    kitchen.planner.better(first_plan(kitchen.planner.asked[-1]))
    desk.set_value(("dishes", 0, "keep"), "warm")
    kitchen.wake.ring()
    assert desk.planned.doing == "planning"
    kitchen.planner.answer()
    assert desk.planned.doing == ""
    assert desk.planned.menu == desk.reading.menu


def test_a_file_changed_elsewhere_in_other_lines_is_taken_in(kitchen):
    desk = kitchen.open()
    desk.set_value(("menu",), "Feast")
    kitchen.store.other(MENU.replace("takes: 12 min", "takes: 14 min"))
    desk.look_outside()
    assert desk.outside is None
    assert "menu: Feast   # for friends" in desk.text
    assert "takes: 14 min" in desk.text
    assert desk.save()
    assert kitchen.store.text == desk.text
    assert kitchen.side.aside is None


@pytest.mark.parametrize("theirs", [True, False])
def test_a_file_changed_elsewhere_in_the_same_line_is_asked_about(kitchen, theirs):
    desk = kitchen.open()
    desk.set_value(("menu",), "Feast")
    other = MENU.replace("Supper", "Dinner")
    kitchen.store.other(other)
    assert not desk.save()
    assert kitchen.store.text == other
    assert "choose first" in desk.trouble
    desk.choose_outside(theirs=theirs)
    assert ("menu: Dinner" in desk.text) is theirs
    assert desk.save()
    assert desk.undo() is True


def test_what_cannot_be_saved_stays_unsaved_and_is_said(kitchen):
    desk = kitchen.open()
    desk.set_value(("menu",), "Feast")
    kitchen.store.full = True
    assert not desk.save()
    assert desk.trouble == "the disk is full"
    assert desk.changed
    assert kitchen.side.aside is not None


def test_a_side_file_that_cannot_be_kept_is_said_and_the_work_goes_on(kitchen):
    kitchen.side.full = True
    desk = kitchen.open()
    desk.set_value(("menu",), "Feast")
    assert desk.trouble == "unsaved work cannot be kept"
    assert "Feast" in desk.text


def test_a_new_meal_is_unsaved_until_there_is_a_file(kitchen):
    kitchen.store = MemoryFile("", 0)
    desk = kitchen.open("menu: New\nserves: 4\ndishes: []\n")
    assert desk.is_new
    assert desk.changed
    assert desk.save()
    assert not desk.is_new
    assert kitchen.store.text.startswith("menu: New")


def test_real_files_lose_nothing_either(tmp_path: Path):
    file = tmp_path / "supper.yaml"
    file.write_text(MENU)

    def desk() -> EditorDesk:
        made = EditorDesk(
            MenuDocument(), MenuOnDisk(file), SideOnDisk(file, tmp_path / "unsaved"),
            LivePlan(HandPlanner(), FakeWake(), HandClock()),
        )  # fmt: skip
        made.open()
        return made

    desk().set_value(("menu",), "Feast")
    again = desk()
    assert again.recovered
    file.write_text(MENU.replace("serves: 4", "serves: 5"))
    again.look_outside()
    assert "serves: 5" in again.text
    assert again.save()
    assert file.read_text() == MENU.replace("serves: 4", "serves: 5").replace("menu: Supper", "menu: Feast")
    assert not desk().recovered


def test_a_spoilt_side_file_is_left_out(tmp_path: Path):
    side = SideOnDisk(tmp_path / "a.yaml", tmp_path)
    side.keep(Aside("x", "y"), durable=True)
    assert side.take() == Aside("x", "y")
    next(tmp_path.glob("*.json")).write_text("{")
    assert side.take() is None


LINES = st.lists(st.sampled_from("abcd"), max_size=7).map(lambda lines: "".join(f"{line}\n" for line in lines))


@settings(max_examples=200, deadline=None)
@given(LINES, LINES, LINES)
def test_a_merge_never_invents_and_is_the_same_from_both_sides(base, mine, theirs):
    joined = merged(base, mine, theirs)
    assert joined == merged(base, theirs, mine)
    assert merged(base, mine, base) == mine
    assert merged(base, base, theirs) == theirs
    assert merged(base, mine, mine) == mine
    if joined is not None:
        assert set(joined.splitlines()) <= set((mine + theirs).splitlines())


def test_lines_added_beside_a_changed_one_are_not_joined():
    assert merged("a\nb\nc\n", "a\nX\nc\n", "a\nb\nY\n") == "a\nX\nY\n"
    assert merged("a\nb\n", "a\nX\n", "a\nb\nY\n") is None
    assert merged("a\nb\nc\n", "X\nb\nc\n", "a\nb\nY\n") == "X\nb\nY\n"
    assert merged("a\n", "a\nX\n", "a\nY\n") is None


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(st.text("ab\n", max_size=8), st.sampled_from([None, "one", "two"])), max_size=12))
def test_undoing_everything_gives_the_beginning_and_redoing_the_end(edits):
    history, text = History(), "start"
    for new, about in edits:
        history.note(text, new, about)
        text = new
    end = text
    while (step := history.undo(text)) is not None:
        text = step[0]
    assert text == "start"
    while (step := history.redo(text)) is not None:
        text = step[0]
    assert text == end
