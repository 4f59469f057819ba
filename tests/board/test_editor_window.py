"""A meal made from nothing in the editor's window, with keys and mouse; what it saves passes the reader."""

from dataclasses import dataclass, field
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QMessageBox, QPushButton

from timerboard.board.editor_box import Line
from timerboard.board.editor_dress import qt_palette, style_sheet
from timerboard.board.editor_window import EditorWindow, Hooks
from timerboard.board.look import THEMES, contrast
from timerboard.core.menu_written import words_at
from timerboard.core.plan import Plan
from timerboard.core.scaling import scaled
from timerboard.desk.editing import EditorDesk
from timerboard.desk.live_plan import LivePlan
from timerboard.planner.greedy import first_plan
from timerboard.shell.kitchen_store import USUAL, new_meal
from timerboard.shell.menu_document import MenuDocument, MenuOnDisk
from timerboard.shell.menu_file import load_menu
from timerboard.shell.side_file import SideOnDisk

SAMPLES = Path(__file__).parents[2] / "sample_menus"
LEFT = Qt.MouseButton.LeftButton


class AtOnce:
    """Wakes when told, plans at once: the planner's own process has its own tests."""

    def __init__(self) -> None:
        self.look = None

    def at(self, delay_ms, look) -> None:
        self.look = look if delay_ms is not None else None

    def ring(self) -> None:
        if self.look is not None:
            self.look()

    def ask(self, problem, hint, *, on_answer, **others) -> None:
        on_answer(first_plan(problem))

    def stop(self) -> None:
        self.look = None

    cancel = stop


class MorningClock:
    """Half past nine in the morning of a day without a change of clocks."""

    boot = "1"

    def kitchen_ms(self) -> int:
        return 0

    def wall_ms(self) -> int:
        return 1_795_167_000_000

    def zone(self) -> str:
        return "UTC"


def scale(desk: EditorDesk, people: int) -> tuple[str, ...]:
    made = scaled(desk.reading.document, desk.reading.menu, people)
    desk.change(made.changes)
    return made.said


@dataclass
class Maker:
    """Opens editors on files of a folder."""

    qtbot: object
    folder: Path
    world: AtOnce = field(default_factory=AtOnce)
    windows: list = field(default_factory=list)

    def open(self, file: Path, beginning: str = "", **hooks) -> EditorWindow:
        side = SideOnDisk(file, self.folder / "unsaved")
        plan = LivePlan(self.world, self.world, MorningClock())
        desk = EditorDesk(MenuDocument(), MenuOnDisk(file), side, plan)
        desk.open(beginning)
        window = EditorWindow(desk, Hooks(scale=scale, **hooks), theme="light")
        self.windows.append(window)
        self.qtbot.addWidget(window, before_close_func=lambda w: w.desk.discard())
        with self.qtbot.waitActive(window):
            window.show()
            window.activateWindow()
        window.outline.setFocus()
        return window

    def key(self, key, modifier=Qt.KeyboardModifier.NoModifier) -> None:
        """A key to whatever has the keyboard."""
        self.qtbot.keyClick(QApplication.focusWidget() or self.windows[-1], key, modifier)

    def type(self, words: str) -> None:
        """Words, to whatever has the keyboard."""
        self.qtbot.keyClicks(QApplication.focusWidget(), words)

    def fill(self, name: str, words: str) -> None:
        """Into the box of that name in the form that is shown, as a cook would: click, mark, type."""
        box = self.box(name)
        self.windows[-1].fields.ensureWidgetVisible(box)
        self.qtbot.mouseClick(box, LEFT)
        self.qtbot.keyClick(box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        self.qtbot.keyClick(box, Qt.Key.Key_Delete)
        self.qtbot.keyClicks(box, words)

    def box(self, name: str):
        form = self.windows[-1].fields.form
        boxes = [*form.boxes, *(box for rows in form.rows for row in rows.boxes for box in row)]
        return next(box.editor for box in boxes if box.editor.accessibleName() == name)

    def press(self, name: str) -> None:
        """A button, by its words or its accessible name."""
        buttons = self.windows[-1].fields.form.findChildren(QPushButton)
        self.qtbot.mouseClick(next(b for b in buttons if name in (b.text(), b.accessibleName())), LEFT)


CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def maker(qtbot, tmp_path):
    return Maker(qtbot, tmp_path)


@pytest.fixture
def supper(tmp_path) -> Path:
    copy = tmp_path / "supper.yaml"
    copy.write_bytes((SAMPLES / "solstice-supper.yaml").read_bytes())
    return copy


def test_a_meal_of_four_dishes_made_from_nothing(maker, tmp_path):
    file = tmp_path / "new.yaml"
    window = maker.open(file, new_meal(USUAL, "C"))
    maker.fill("Title", "Friday supper")
    maker.fill("Serves", "4")
    for dish, steps in (
        ("Roast chicken", (("Season", "", "", "10 min", "counter"),
                           ("Roast", "60-75 min", "190 C", "2 min at the start", "oven"))),
        ("Potatoes", (("Peel", "", "", "12 min", "counter"), ("Boil", "18-22 min", "", "1 min at the start", "hob"))),
        ("Beans", (("Steam", "6 min", "", "all", "hob"),)),
        ("Salad", (("Toss", "", "", "8 min", "counter"),)),
    ):  # fmt: skip
        maker.key(Qt.Key.Key_D, CTRL)
        maker.type(dish)
        for n, (do, takes, heat, work, on) in enumerate(steps):
            if n:
                maker.key(Qt.Key.Key_T, CTRL)
            else:
                window.outline.choose((*window.outline.path, "steps", 0))
            maker.fill("Do", do)
            maker.fill("Takes", takes)
            maker.fill("Heat", heat)
            maker.fill("Hands", work)
            maker.fill("On", on)
        window.outline.choose(window.outline.path[:2])
    maker.world.ring()
    assert window.desk.reading.faults == ()
    assert isinstance(window.desk.planned.plan, Plan)
    assert len(window.ribbon.what[0]) == 4
    assert "4 dishes, 6 steps · Begin " in window.plan_line.text()
    window.outline.choose(("dishes", 0))
    maker.fill("Ingredients", "")
    for line in ("1 chicken, 1.6 kg", "2 tsp salt"):
        maker.type(line)
        maker.key(Qt.Key.Key_Return)
    maker.key(Qt.Key.Key_S, CTRL)
    menu = load_menu(file).menu
    assert [dish.name for dish in menu.dishes] == ["Roast chicken", "Potatoes", "Beans", "Salad"]
    assert menu.dishes[0].ingredients == ("1 chicken, 1.6 kg", "2 tsp salt")
    assert menu.steps["Roast chicken/Roast"].heat_c == 190
    assert not window.isWindowModified()
    said = scale(window.desk, 8)
    maker.world.ring()
    assert words_at(window.desk.reading.document, ("dishes", 0, "ingredients", 0)) == "2 chickens, 3.2 kg"
    assert any("Seasoning" in line for line in said)
    assert isinstance(window.desk.planned.plan, Plan)


def test_a_new_meal_says_how_to_begin_and_blames_nobody(maker, tmp_path):
    window = maker.open(tmp_path / "new.yaml", new_meal(USUAL, "C"))
    assert "add one with Ctrl+D" in window.plan_line.text()
    assert "add one with Ctrl+D" in window.fields.form.trouble.text()
    meal = window.outline.topLevelItem(0)
    assert (meal.text(0), meal.text(1)) == ("The meal and its kitchen", "for 4")
    maker.key(Qt.Key.Key_D, CTRL)
    assert "1 fault to mend" in window.plan_line.text() or "faults to mend" in window.plan_line.text()


def test_one_field_changed_by_keys_is_one_line_of_the_file(maker, supper):
    before = supper.read_text().splitlines()
    window = maker.open(supper)
    window.outline.choose(("dishes", 0, "steps", 3))
    maker.fill("Takes", "80-90 min")
    maker.key(Qt.Key.Key_S, CTRL)
    after = supper.read_text().splitlines()
    assert [new for old, new in zip(before, after, strict=True) if old != new] == ["        takes: 80-90 min"]


def test_a_fault_is_said_at_its_field_as_it_is_typed_and_goes_when_it_is_mended(maker, supper):
    window = maker.open(supper)
    window.outline.choose(("dishes", 0, "steps", 3))
    maker.fill("Takes", "80 mi")
    box = next(box for box in window.fields.form.boxes if box.field.label == "Takes")
    assert "'mi' is not a unit of time" in box.trouble.text()
    assert box.editor.accessibleDescription() == box.trouble.text()
    assert "'mi' is not a unit" in window.plan_line.text()
    assert window.outline.currentItem().text(0) == "✕ Roast"
    maker.type("n")
    assert box.editor.text() == "80 min"
    assert box.trouble.text() == ""
    assert window.outline.currentItem().text(0) == "Roast"


def test_what_is_typed_is_never_rewritten(maker, supper):
    window = maker.open(supper)
    window.outline.choose(("dishes", 0, "steps", 0))
    for typed in ("2 min at the start , 3 min at", "start 2 min", "all ", "5  min"):
        maker.fill("Hands", typed)
        assert maker.box("Hands").text() == typed
    maker.fill("On", "hob x2, ")
    assert maker.box("On").text() == "hob x2, "
    window.outline.choose(("dishes", 0, "steps", 1))
    window.outline.choose(("dishes", 0, "steps", 0))
    assert maker.box("On").text() == "hob x2"


def test_undo_and_redo_go_to_where_it_was(maker, supper):
    text = supper.read_text()
    window = maker.open(supper)
    window.outline.choose(("dishes", 1))
    maker.fill("Dish", "Chips")
    window.outline.choose(())
    assert "table: [leg of lamb, Chips," in window.desk.text
    maker.key(Qt.Key.Key_Z, CTRL)
    assert window.desk.text == text
    assert window.outline.path == ("dishes", 1)
    assert maker.box("Dish").text() == "Roast potatoes"
    maker.key(Qt.Key.Key_Z, CTRL | SHIFT)
    assert maker.box("Dish").text() == "Chips"


def test_dishes_and_steps_are_moved_by_keys_and_by_dragging(maker, supper):
    window = maker.open(supper)
    window.outline.choose(("dishes", 0))
    maker.key(Qt.Key.Key_Down, CTRL | SHIFT)
    assert window.outline.path == ("dishes", 1)
    assert [d.name for d in window.desk.reading.menu.dishes][:2] == ["Roast potatoes", "Leg of lamb"]
    drop(window, ("dishes", 1), ("dishes", 0), below=False)
    assert [d.name for d in window.desk.reading.menu.dishes][:2] == ["Leg of lamb", "Roast potatoes"]
    assert window.desk.text == supper.read_text()
    drop(window, ("dishes", 0, "steps", 0), ("dishes", 0, "steps", 2), below=True)
    assert [s.do for s in window.desk.reading.menu.dishes[0].steps][:3] == [
        "Take off the chill", "Brown in the oven", "Rub with garlic and fennel",
    ]  # fmt: skip


def test_a_step_is_dragged_into_another_dish_or_it_is_said_why_not(maker, supper):
    text = supper.read_text()
    window = maker.open(supper)
    drop(window, ("dishes", 0, "steps", 0), ("dishes", 1, "steps", 0), below=True)
    dishes = window.desk.reading.menu.dishes
    assert dishes[1].steps[1].do == "Rub with garlic and fennel"
    assert dishes[0].steps[0].do == "Take off the chill"
    assert window.outline.path == ("dishes", 1, "steps", 1)
    assert window.outline.currentItem().text(0).endswith("Rub with garlic and fennel")
    maker.key(Qt.Key.Key_Z, CTRL)
    assert window.desk.text == text
    window.desk.insert(("dishes",), 0, {"dish": "Bread", "steps": [{"do": "Slice", "work": "5 min"}]})
    text = window.desk.text
    drop(window, ("dishes", 0, "steps", 0), ("dishes", 2), below=True)
    assert "would have no steps" in window.notice.words.text()
    assert window.desk.text == text


def drop(window: EditorWindow, source: tuple, target: tuple, *, below: bool) -> None:
    """Drag a row of the outline on to the edge of another: the drop that Qt would deliver."""
    from PySide6.QtCore import QMimeData
    from PySide6.QtGui import QDragMoveEvent, QDropEvent

    outline = window.outline
    outline.choose(target)
    item = outline.currentItem()
    outline.choose(source)
    box = outline.visualItemRect(item)
    point = QPoint(box.center().x(), box.bottom() if below else box.top() + 1)
    data = outline.model().mimeData([outline.currentIndex()]) or QMimeData()
    moves, buttons, none = Qt.DropAction.MoveAction, LEFT, Qt.KeyboardModifier.NoModifier
    outline.setState(outline.State.DraggingState)
    outline.dragMoveEvent(QDragMoveEvent(point, moves, data, buttons, none))
    outline.dropEvent(QDropEvent(point.toPointF(), moves, data, buttons, none))
    outline.setState(outline.State.NoState)


def test_completion_offers_places_units_and_steps(maker, supper, qtbot):
    window = maker.open(supper)
    window.outline.choose(("dishes", 0, "steps", 3))
    maker.fill("On", "ov")
    assert maker.box("On").completer().completionModel().index(0, 0).data() == "oven"
    maker.fill("Takes", "25")
    offered = maker.box("Takes").completer()
    offered.popup().hide()
    qtbot.keyClick(maker.box("Takes"), Qt.Key.Key_Down)
    assert offered.completionModel().index(0, 0).data() == "25 min"
    offered.activated.emit("25 min")
    offered.popup().hide()
    maker.press("Add a step it follows")
    qtbot.keyClicks(maker.box("step it follows 1: Step"), "bake")
    model = maker.box("step it follows 1: Step").completer().completionModel()
    assert "Batter puddings/bake" in [model.index(n, 0).data() for n in range(model.rowCount())]
    QApplication.activePopupWidget() and QApplication.activePopupWidget().hide()


def test_places_hands_courses_and_cues_have_rows(maker, tmp_path):
    window = maker.open(tmp_path / "new.yaml", new_meal(USUAL, "C"))
    maker.press("Add a place")
    maker.type("smoker")
    maker.fill("place 5: Heat", "80-140 C")
    maker.fill("place 5: Room", "1")
    maker.press("Add a change of hands")
    maker.press("Add a course")
    maker.type("pudding")
    maker.fill("course 1: Eaten", "60 min")
    assert "    smoker: {room: 1, heat: 80-140 C}\n" in window.desk.text
    assert "    - {from: start, pairs: 1}\n    - {from: -30 min, pairs: 2}\n" in window.desk.text
    assert "courses:\n  pudding: {eat: 60 min}\n" in window.desk.text
    maker.key(Qt.Key.Key_D, CTRL)
    window.outline.choose(("dishes", 0, "steps", 0))
    maker.press("Add a cue")
    maker.type("Stir")
    assert "        cues:\n          - {do: Stir, every: 10 min}\n" in window.desk.text, window.desk.text


def test_follows_nothing_is_a_tick(maker, supper, qtbot):
    window = maker.open(supper)
    window.outline.choose(("dishes", 0, "steps", 3))
    tick = window.fields.form.ticks[0]
    window.fields.ensureWidgetVisible(tick)
    qtbot.mouseClick(tick, LEFT, pos=QPoint(8, tick.height() // 2))
    assert "        after: []\n" in window.desk.text
    qtbot.mouseClick(tick, LEFT, pos=QPoint(8, tick.height() // 2))
    assert window.desk.text == supper.read_text()


def test_a_text_that_cannot_be_read_is_mended_as_text(maker, tmp_path, qtbot):
    file = tmp_path / "broken.yaml"
    file.write_text("menu: [Supper\nserves: 4\ndishes: []\n")
    window = maker.open(file)
    assert window.pages.currentIndex() == 1
    assert "is not closed" in window.text_trouble.text()
    window.text.setFocus()
    window.text.moveCursor(window.text.textCursor().MoveOperation.EndOfLine)
    qtbot.keyClicks(window.text, "]")
    assert window.desk.reading.document is not None
    assert window.text.toPlainText() == "menu: [Supper]\nserves: 4\ndishes: []\n"


def test_a_tap_on_the_plan_goes_to_the_step(maker, supper, qtbot):
    window = maker.open(supper)
    maker.world.ring()
    strips, axis = window.ribbon.what
    part = next(p for p in strips[1].ribbon if p.step == "Roast potatoes/Roast until crisp")
    x = next(x for x in range(window.ribbon.width()) if window.ribbon.step_at(QPoint(x, 60)) == part.step)
    qtbot.mouseClick(window.ribbon, LEFT, pos=QPoint(x + 1, 60))
    assert window.outline.path == ("dishes", 1, "steps", 3)
    assert axis.start < part.start


def test_closing_with_unsaved_work_asks_and_cancel_keeps_the_window(maker, supper, monkeypatch):
    window = maker.open(supper)
    maker.fill("Title", "Feast")
    monkeypatch.setattr(QMessageBox, "question", lambda *_: QMessageBox.StandardButton.Cancel)
    window.close()
    assert window.isVisible()
    monkeypatch.setattr(QMessageBox, "question", lambda *_: QMessageBox.StandardButton.Save)
    window.close()
    assert not window.isVisible()
    assert "menu: Feast" in supper.read_text()


def test_a_change_from_outside_in_the_same_line_is_asked_about_in_the_window(maker, supper, qtbot):
    window = maker.open(supper)
    maker.fill("Title", "Feast")
    supper.write_text(supper.read_text().replace("menu: Solstice supper", "menu: Midwinter"))
    window.desk.look_outside()
    assert window.notice.isVisible()
    assert [button.text() for button in window.notice.buttons] == ["Keep mine", "Take the other"]
    qtbot.mouseClick(window.notice.buttons[1], LEFT)
    assert not window.notice.isVisible()
    assert maker.box("Title").text() == "Midwinter"


def test_cook_this_saves_first(maker, supper):
    cooked = []
    window = maker.open(supper, cook=lambda desk: cooked.append(desk.changed))
    maker.fill("Title", "Feast")
    window.acts.cook.trigger()
    assert cooked == [False]
    assert "menu: Feast" in supper.read_text()


def test_every_box_has_a_name_and_the_keyboard_reaches_it(maker, supper):
    window = maker.open(supper)
    for path in ((), ("dishes", 0), ("dishes", 0, "steps", 3)):
        window.outline.choose(path)
        boxes = [box.editor for box in window.fields.form.boxes]
        assert all(box.accessibleName() for box in boxes)
        boxes[0].setFocus()
        reached = set()
        for _ in range(80):
            maker.key(Qt.Key.Key_Tab)
            reached.add(QApplication.focusWidget())
        assert {box for box in boxes if isinstance(box, QLineEdit)} <= reached | {boxes[0]}


SOUP = """Tomato soup

Serves 4
1 kg tomatoes
1 onion

Chop the onion.
Simmer for 20-25 minutes, stirring every 5 minutes, until soft.
"""


@pytest.mark.parametrize("beginning", ["new", "sample"])
def test_recipes_are_taken_in_and_can_be_taken_back(maker, tmp_path, supper, monkeypatch, beginning):
    from timerboard.editors import take_in

    told = []
    monkeypatch.setattr(QMessageBox, "information", lambda *words: told.append(words[-1]))
    file = tmp_path / "new.yaml" if beginning == "new" else supper
    window = maker.open(file, new_meal(USUAL, "C"), take_in=take_in)
    before = window.desk.text
    window.take_in(SOUP)
    window.take_in(SOUP.replace("Tomato soup", "Pepper soup").replace("tomatoes", "peppers"))
    menu = window.desk.reading.menu
    assert [dish.name for dish in menu.dishes][-2:] == ["Tomato soup", "Pepper soup"]
    assert window.outline.path == ("dishes", len(menu.dishes) - 1)
    assert [cue.do for step in menu.dishes[-1].steps for cue in step.cues] == ["Stir"]
    for _ in range(2):
        maker.key(Qt.Key.Key_Z, CTRL)
    assert window.desk.text == before


def test_what_is_no_recipe_is_said(maker, supper):
    from timerboard.editors import take_in

    window = maker.open(supper, take_in=take_in)
    window.take_in("  ")
    assert window.desk.text == supper.read_text()
    assert "nothing" in window.notice.words.text()


def test_the_lists_are_printed_by_their_own_key_once_the_menu_is_whole(maker, supper):
    asked = []
    window = maker.open(supper, print_lists=asked.append)
    assert window.acts.print_lists.text().replace("&", "") == "Print the lists…"
    maker.key(Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert asked == [window.desk]
    window.desk.replace_text("menu: Half a menu")
    window.show_desk()
    assert not window.acts.print_lists.isEnabled()


def test_what_a_field_is_for_is_said_while_the_cook_is_in_it(maker, supper):
    window = maker.open(supper)
    window.outline.choose(("dishes", 0, "steps", 2))
    takes = next(e for e in window.fields.findChildren(QLineEdit) if e.accessibleName() == "Takes")
    lasts = next(e for e in window.fields.findChildren(QLineEdit) if e.accessibleName() == "Or lasts")
    takes.setFocus()
    assert window.statusBar().currentMessage().startswith("The food decides")
    lasts.setFocus()
    assert window.statusBar().currentMessage().startswith("The cook may end it")


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_examples_in_empty_boxes_can_be_read_and_are_told_from_what_was_typed(qtbot, theme):
    """7:1 (WCAG 2.2, success criterion 1.4.6); a style sheet alone would thin them to half."""
    line = Line(lambda: None)
    qtbot.addWidget(line)
    line.setPalette(qt_palette(theme))
    line.setStyleSheet(style_sheet(theme))
    line.ensurePolished()
    colour = line.palette().placeholderText().color()
    assert colour.alpha() == 255
    assert contrast(colour.name(), theme.strip) >= 7


def test_an_example_says_that_it_is_one(maker, tmp_path):
    window = maker.open(tmp_path / "new.yaml", new_meal(USUAL, "C"))
    window.add_dish()
    empty = [line.placeholderText() for line in window.findChildren(QLineEdit) if line.placeholderText()]
    assert empty
    assert all(text.startswith("e.g. ") for text in empty)


def test_planning_is_called_off_and_taken_up_again_with_one_button(maker, supper, qtbot):
    window = maker.open(supper)
    button = window.plan_button
    assert (button.text(), button.isEnabled()) == ("Cancel planning", True)
    assert button.width() >= button.sizeHint().width()  # its words are whole
    qtbot.mouseClick(button, LEFT)
    assert (button.text(), button.isEnabled()) == ("Plan again", True)
    assert "planning was called off" in window.plan_line.text()
    assert window.desk.planned.plan is None
    qtbot.mouseClick(button, LEFT)
    assert isinstance(window.desk.planned.plan, Plan)
    assert (button.text(), button.isEnabled()) == ("Cancel planning", False)
