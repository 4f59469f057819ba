"""What is on the glass: lines where the axis says, words in their place, and no repaint without a change."""

from dataclasses import replace
from itertools import pairwise

import pytest
from fixtures import NOW, STRIPS, SUPPER, hours, sixty, troubled
from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QColor, QGuiApplication, QRegion
from PySide6.QtWidgets import QApplication

from timerboard.board.keys import Stroke
from timerboard.board.strip import StripWidget
from timerboard.core.view_values import Part

SIZES = [(1024, 600), (1366, 768), (1920, 1080), (3840, 2160)]


class Painted(QObject):
    """Keeps the region of every paint event of some widgets."""

    def __init__(self, *widgets):
        super().__init__()
        self.regions = {}
        for widget in widgets:
            widget.installEventFilter(self)

    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint:
            known = self.regions.get(watched, QRegion())
            self.regions[watched] = known.united(event.region())
        return False

    def area(self, widget):
        region = self.regions.get(widget, QRegion())
        return sum(box.width() * box.height() for box in region)


def settle(qtbot, window):
    """Let every paint that is due happen."""
    qtbot.waitUntil(window.isVisible)
    for _ in range(5):
        QGuiApplication.sync()
        QApplication.processEvents()


def watch(qtbot, window):
    settle(qtbot, window)
    strips = window.findChildren(StripWidget)
    return Painted(window, window.head, window.hands, window.foot, window.bay.axis_bar, window.bay.ground, *strips)


def one_second_on(view):
    """The view a second later: every running countdown one less."""
    strips = tuple(replace(s, countdown="20:59") if s.countdown == "21:00" else s for s in view.strips)
    return replace(view, strips=strips, axis=replace(view.axis, now=view.axis.now + 1000))


@pytest.mark.parametrize("theme", ["dark", "light", "contrast"])
def test_the_now_line_is_where_the_axis_says(make_window, theme):
    window = make_window(theme=theme)
    strip = window.bay.widgets["Beans"]
    image = strip.grab().toImage()
    axis = SUPPER.axis
    across = strip.across()
    wanted = across.left + (across.right - across.left) * (NOW - axis.start) / (axis.end - axis.start)
    line = QColor(window.palette_.now).rgb()
    row = 4  # above ribbons and words
    columns = [x for x in range(across.left, across.right) if image.pixel(x, row) == line]
    assert columns
    assert abs(sum(columns) / len(columns) - wanted) <= 1


def test_all_strips_share_the_axis(window):
    columns = set()
    for strip in window.bay.widgets.values():
        columns.add(strip.mapTo(window, strip.rect().topLeft()).x() + strip.across().x(NOW))
    assert len(columns) == 1
    bar = window.bay.axis_bar
    now = next(x for x, kind, _ in bar.marks() if kind == "now")
    assert abs(bar.mapTo(window, bar.rect().topLeft()).x() + now - columns.pop()) <= 1


def test_an_equal_view_paints_nothing(qtbot, window):
    painted = watch(qtbot, window)
    window.show_view(replace(SUPPER))
    settle(qtbot, window)
    assert painted.regions == {}


def test_a_second_repaints_only_the_countdown_that_changed(qtbot, window):
    painted = watch(qtbot, window)
    window.show_view(one_second_on(SUPPER))
    settle(qtbot, window)
    strip = window.bay.widgets["Duck legs"]
    assert set(painted.regions) == {strip}
    assert painted.regions[strip].subtracted(QRegion(strip.count_box())).isEmpty()


def test_a_minute_moves_the_now_line_by_its_columns_only(qtbot, window):
    painted = watch(qtbot, window)
    window.show_view(replace(SUPPER, axis=replace(SUPPER.axis, now=NOW + 60_000)))
    settle(qtbot, window)
    strip = window.bay.widgets["Green lentils"]
    assert 0 < painted.area(strip) <= 14 * strip.height()
    assert painted.area(window.head) == 0
    assert painted.area(window.hands) == 0


def test_a_clock_that_turns_repaints_the_clock(qtbot, window):
    painted = watch(qtbot, window)
    window.show_view(replace(SUPPER, head=replace(SUPPER.head, clock="18:13")))
    settle(qtbot, window)
    assert set(painted.regions) == {window.head}
    assert painted.regions[window.head].subtracted(QRegion(window.head.clock_box())).isEmpty()


def test_danger_flashes_the_border_and_never_a_word(qtbot, window):
    window.show_view(troubled())
    painted = watch(qtbot, window)
    window.ticker.turn()
    settle(qtbot, window)
    border = window._border()
    inner = QRegion(QRect(border, border, window.width() - 2 * border, window.height() - 2 * border))
    assert painted.regions[window].intersected(inner).isEmpty()
    assert set(painted.regions) == {window}


def test_sixty_strips_a_second_later_paint_no_more_than_the_countdowns_in_sight(qtbot, make_window):
    window = make_window()
    window.show_view(sixty(0))
    painted = watch(qtbot, window)
    window.show_view(sixty(1))
    settle(qtbot, window)
    size = window.bay.sizes
    seen = window.bay.viewport().height() // (size.row_least + size.gap) + 2
    strips = [widget for widget in painted.regions if isinstance(widget, StripWidget)]
    assert 0 < len(strips) <= seen
    assert all(painted.area(s) <= (size.count_width + 14) * s.height() for s in strips)


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("view", [SUPPER, troubled()], ids=["supper", "troubled"])
def test_nothing_lies_over_anything_else(make_window, width, height, view):
    window = make_window(width, height)
    window.show_view(view)
    parts = [window.head, window.hands, window.notices, window.bay.axis_bar, window.bay, window.foot]
    boxes = [part.geometry() for part in parts if part.height() > 0 and part.isVisible()]
    assert all(window.rect().contains(box) for box in boxes)
    for i, one in enumerate(boxes):
        assert not any(one.intersects(other) for other in boxes[i + 1 :])


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("view", [SUPPER, troubled()], ids=["supper", "troubled"])
def test_targets_keep_their_size_and_their_distance(make_window, width, height, view):
    window = make_window(width, height)
    window.show_view(view)
    least, gap = window.bay.sizes.target, window.bay.sizes.gap
    line = window.hands
    plates = [plate for plate in (*line.cards, *line.later, *line.mores, *window.foot.buttons) if plate.isVisible()]
    assert [p.size() for p in plates if min(p.width(), p.height()) < least] == []
    for row in {plate.parentWidget() for plate in plates}:
        boxes = sorted((p.geometry() for p in plates if p.parentWidget() is row), key=lambda b: (b.top(), b.left()))
        for one, other in pairwise(boxes):
            assert one.top() != other.top() or other.left() - one.right() > gap


def test_the_bay_scrolls_to_a_strip_that_begins_to_ring(qtbot, make_window, monkeypatch):
    monkeypatch.setattr("timerboard.board.motion.reduced", lambda: True)
    window = make_window(1024, 600)
    quiet = tuple(replace(s, juts=False, rank=None) for s in STRIPS)
    window.show_view(replace(SUPPER, strips=quiet))
    last = window.bay.widgets["timer Eggs"]
    box = QRect(last.mapTo(window.bay.viewport(), last.rect().topLeft()), last.size())
    assert not window.bay.viewport().rect().contains(box)
    window.show_view(replace(SUPPER, strips=(*quiet[:-1], replace(STRIPS[-1], juts=True, rank=STRIPS[0].rank))))
    box = QRect(last.mapTo(window.bay.viewport(), last.rect().topLeft()), last.size())
    assert window.bay.viewport().rect().contains(box)


def test_strips_out_of_sight_are_counted_on_a_button_that_goes_there(qtbot, make_window, monkeypatch):
    monkeypatch.setattr("timerboard.board.motion.reduced", lambda: True)
    window = make_window(1024, 600)
    pager = window.foot.pager
    assert pager.isVisible()
    below = int(pager.text().split()[1])
    assert 0 < below < len(STRIPS)
    while "below" in pager.text():
        pager.click()
    assert "above" in pager.text()
    pager.click()
    assert pager.text() == f"▼ {below} below"


def test_reordered_strips_glide_and_arrive(qtbot, window):
    turned = (STRIPS[1], STRIPS[0], *STRIPS[2:])
    window.show_view(replace(SUPPER, strips=turned))
    strip = window.bay.widgets["Plum tart"]
    assert strip.y() > 0  # on its way
    qtbot.waitUntil(lambda: strip.y() == 0, timeout=20_000)


def test_reduced_motion_moves_strips_at_once(window, monkeypatch):
    monkeypatch.setattr("timerboard.board.motion.reduced", lambda: True)
    window.show_view(replace(SUPPER, strips=(STRIPS[1], STRIPS[0], *STRIPS[2:])))
    assert window.bay.widgets["Plum tart"].y() == 0


def test_a_strip_that_needs_hands_juts_out_and_shows_its_digit(window):
    jutting, still = window.bay.widgets["Plum tart"], window.bay.widgets["Beans"]
    assert jutting.body().left() < still.body().left()
    assert (jutting.digit, still.digit) == (2, 0)


def test_a_dropped_dish_leaves_the_board(window):
    window.show_view(replace(SUPPER, strips=STRIPS[1:]))
    assert "Duck legs" not in window.bay.widgets


def test_ribbons_end_where_their_moments_are(window):
    strip = window.bay.widgets["Duck legs"]
    across = strip.across()
    pieces = {(p.part, p.label): (p.left, p.right) for p in strip._ribbon.pieces}
    rest = next(p for p in STRIPS[0].ribbon if p.label == "rest")
    assert pieces[Part.PLANNED, "rest"] == (across.x(rest.start), across.x(rest.end))
    assert across.x(SUPPER.axis.start - 1) == across.left


def test_sound_lost_takes_a_line_of_its_own_above_everything_else(window):
    window.show_view(troubled())
    first = window.notices.lines[0]
    assert first.notice.text.startswith("Sound lost")
    assert first.isVisible()
    assert first.width() == window.notices.width()


def test_countdown_helper_of_these_tests_writes_hours():
    assert (hours(3_900_000), hours(59_000)) == ("1:05:00", "0:59")


def test_an_unknown_letter_is_left_alone(window):
    assert not window.replies.stroke(Stroke(0, "q", shift=False), Qt.KeyboardModifier.NoModifier)
