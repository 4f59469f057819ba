"""With real keys: a reading moves the strip, its drawer shows the curve and the rules, and choices are made by key."""

import pytest
from pull_kitchen import LOIN, Notes, PullBoard, fry
from PySide6.QtCore import QRect, Qt

from timerboard.board.drawer_body import Body
from timerboard.core.alarm_values import Rank
from timerboard.core.food_kind import FoodKind
from timerboard.core.view_values import PullPicture

ROAST = LOIN.steps[0].id


@pytest.fixture
def board(qtbot):
    return shown(qtbot, PullBoard(eat_in=150))


def shown(qtbot, board: PullBoard, width=1366, height=768) -> PullBoard:
    qtbot.addWidget(board.window)
    board.window.resize(width, height)
    with qtbot.waitExposed(board.window):
        board.window.show()
    return board


def press(qtbot, board, *keys):
    for key in keys:
        qtbot.keyClick(board.window, key)


def type_reading(qtbot, board, text):
    """R, the figures, Enter: as a cook types them."""
    press(qtbot, board, Qt.Key.Key_R)
    qtbot.keyClicks(board.window.entry.line, text)
    qtbot.keyClick(board.window.entry.line, Qt.Key.Key_Return)


def read_three_times(qtbot, board):
    board.start()
    for after, text in ((25, "14"), (20, "26"), (15, "37")):
        board.wait(after)
        type_reading(qtbot, board, text)


def open_strip(board, name="Pork loin"):
    board.window.replies.open_strip(f"dish:{name}")
    return board.window.drawer


def test_each_reading_typed_changes_the_moment_on_the_strip(qtbot, board):
    board.start()
    said = []
    for after, text in ((25, "14"), (20, "26"), (15, "37")):
        board.wait(after)
        type_reading(qtbot, board, text)
        said.append(board.strip().matter)
    assert all(words.startswith("reach 60 °C 15:") and "±" in words for words in said)
    assert len(set(said)) == 3
    assert [e.kind for e in board.journal.read()].count("PullForeseen") == 3


def test_the_drawer_shows_the_curve_and_keeps_it_up_with_a_newer_reading(qtbot, board):
    read_three_times(qtbot, board)
    drawer = open_strip(board)
    assert isinstance(drawer.body.pull, PullPicture)
    assert [read.words for read in drawer.body.pull.reads] == ["14 °C", "26 °C", "37 °C"]
    assert "coast to" in " ".join(drawer.body.told)
    assert "26 °C" in drawer.accessibleName()
    board.wait(2)
    assert drawer.body.pull.now == board.desk.now()


def test_the_curve_is_painted_with_a_ring_for_what_is_doubted(qtbot, board):
    read_three_times(qtbot, board)
    drawer = open_strip(board)
    plain = drawer.grab(drawer._body_box).toImage()
    board.wait(10)
    type_reading(qtbot, board, "17")
    assert board.window.asks()  # a core does not cool in the oven: it is asked about at once
    press(qtbot, board, Qt.Key.Key_Y)
    board.wait(5)
    type_reading(qtbot, board, "47")
    drawer = open_strip(board)
    assert [read.doubtful for read in drawer.body.pull.reads] == [False, False, False, True, False]
    assert any("is 17 °C right?" in line for line in drawer.body.told)
    assert drawer.grab(drawer._body_box).toImage() != plain


def test_the_drawer_names_each_rule_whose_it_is_and_never_says_safe(qtbot, board):
    read_three_times(qtbot, board)
    told = open_strip(board).body.told
    assert any("62.8 °C and a rest of 3 min (USDA FSIS" in line and "No reading is at it" in line for line in told)
    assert any("FDA Food Code 2022, 3-401.11(B)(2)" in line for line in told)
    assert "local code and licensed practice" in told[-1]
    assert not any("safe" in line.lower().replace("safe minimum internal temperature chart", "") for line in told)


def test_a_pull_under_the_rule_asks_once_says_why_and_yes_ends_it(qtbot, board):
    read_three_times(qtbot, board)
    open_strip(board)
    press(qtbot, board, Qt.Key.Key_1)  # End the roast now
    notice = board.window.notices.notices[0]
    assert "37 °C is under the rule for meat in one piece: 62.8 °C and a rest of 3 min (USDA FSIS)" in notice.text
    assert "rest" in notice.text
    press(qtbot, board, Qt.Key.Key_Y)
    assert board.desk.cook.lives[ROAST].ended is not None


def test_the_reading_that_pulls_says_what_it_will_coast_to(qtbot, board):
    read_three_times(qtbot, board)
    press(qtbot, board, Qt.Key.Key_K, Qt.Key.Key_1, Qt.Key.Key_4)  # UK: no rule of its own for meat in one piece
    board.wait(44)  # as long as the three readings before let it take: sooner, the reading itself is doubted
    type_reading(qtbot, board, "63")
    assert "It will coast to" in board.window.notices.notices[0].text
    press(qtbot, board, Qt.Key.Key_N)
    assert board.desk.cook.lives[ROAST].ended is None


def test_whose_rules_room_and_height_are_chosen_by_key_and_undone(qtbot, board):
    press(qtbot, board, Qt.Key.Key_K)
    assert [b.text() for b in board.window.drawer.buttons] == [
        "Food rules: the stricter of FDA Food Code 2022 and USDA FSIS",
        "Room: at most 32 °C",
        "Height above sea, for what boils: off",
    ]
    press(qtbot, board, Qt.Key.Key_1, Qt.Key.Key_2)
    press(qtbot, board, Qt.Key.Key_K, Qt.Key.Key_2, Qt.Key.Key_2)
    press(qtbot, board, Qt.Key.Key_K, Qt.Key.Key_3, Qt.Key.Key_6)
    assert dict(board.desk.cook.chosen) == {"rules": "food code", "room": "hot", "height": "1500"}
    assert board.desk.cook.menu.steps["Beans/Boil"].span.low > 600
    press(qtbot, board, Qt.Key.Key_Z)
    assert board.desk.cook.menu.steps["Beans/Boil"].span.low == 600


def test_what_was_chosen_is_remembered_for_the_next_cook_but_for_the_room(qtbot):
    memory = Notes()
    first = shown(qtbot, PullBoard(memory=memory))
    press(qtbot, first, Qt.Key.Key_K, Qt.Key.Key_1, Qt.Key.Key_3)
    press(qtbot, first, Qt.Key.Key_K, Qt.Key.Key_2, Qt.Key.Key_2)
    second = PullBoard(memory=memory)
    assert dict(second.desk.cook.chosen) == {"rules": "fsis"}
    press(qtbot, first, Qt.Key.Key_Z, Qt.Key.Key_Z)
    assert dict(PullBoard(memory=memory).desk.cook.chosen) == {}


def test_what_food_a_dish_is_can_be_said(qtbot, board):
    drawer = open_strip(board, "Beans")
    place = next(b.key for b in drawer.buttons if b.text() == "Food: no raw animal food")
    press(qtbot, board, Qt.Key(ord(place)))
    kinds = [b.text() for b in drawer.buttons]
    press(qtbot, board, Qt.Key(ord(str(kinds.index(str(FoodKind.GROUND)) + 1))))
    assert "Food: minced meat" in [act.word for act in board.strip("Beans").acts]


def test_hot_oil_is_cautioned_about_before_and_its_drawer_says_what_to_do(qtbot):
    board = shown(qtbot, PullBoard(fry(), eat_in=14))
    board.wait(3)
    cautions = [n for n in board.window.view.notices if n.text.startswith("Hot oil")]
    assert [n.rank for n in cautions] == [Rank.NOTE]
    assert "water and ice flash to steam" in cautions[0].text
    press(qtbot, board, Qt.Key.Key_N)
    assert not [n for n in board.window.view.notices if n.text.startswith("Hot oil")]
    board.start(fry())
    board.paint()
    told = " ".join(open_strip(board, "Fritters").body.told)
    assert "If it smokes: heat off" in told
    assert "If it burns: heat off" in told
    assert "Never water" in told


@pytest.mark.parametrize(("width", "height"), [(1024, 600), (1366, 768), (1920, 1080), (3840, 2160)])
def test_the_buttons_beside_the_body_are_apart_and_inside_the_drawer(qtbot, width, height):
    board = shown(qtbot, PullBoard(eat_in=150), width, height)
    read_three_times(qtbot, board)
    drawer = open_strip(board)
    boxes = [button.geometry() for button in drawer.buttons]
    assert all(drawer.rect().contains(box) for box in boxes)
    assert not any(a.intersects(b) for i, a in enumerate(boxes) for b in boxes[:i])
    assert not any(box.intersects(drawer._body_box) for box in boxes)
    assert drawer._body_box.height() > 0


def test_a_plain_question_has_no_body(qtbot, board):
    open_strip(board)
    press(qtbot, board, Qt.Key.Key_K)
    assert board.window.drawer.body == Body()
    assert board.window.drawer._body_box == QRect()
