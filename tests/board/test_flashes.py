"""The border of danger as it is painted, frame by frame on a clock by hand: never more than two flashes a second."""

import random
from dataclasses import replace

import pytest
from fixtures import SUPPER, troubled
from PySide6.QtCore import QPoint

from timerboard.board import ticker

FRAME_MS = 50
AT_MOST = 2  # the board's own rule; WCAG 2.2, SC 2.3.1 allows three in any one second


class HandTimer:
    """Keeps what `Ticker` uses of QTimer. Time moves only when a test moves it."""

    now = 0

    def __init__(self, _parent):
        self.timeout, self._due, self._interval = self, None, 0

    def connect(self, rings):
        self._rings = rings

    def setInterval(self, interval):
        self._interval = interval

    def isActive(self):
        return self._due is not None

    def start(self):
        self._due = HandTimer.now + self._interval

    def stop(self):
        self._due = None

    def advance(self, ms):
        HandTimer.now += ms
        if self._due is not None and HandTimer.now >= self._due:
            self._due += self._interval
            self._rings()


@pytest.fixture
def cranked(monkeypatch, make_window):
    monkeypatch.setattr(ticker, "QTimer", HandTimer)
    return make_window(640, 400)


def frames(window, dangers):
    """Whether the border is lit in each frame, 50 ms apart, while danger comes and goes."""
    calm, danger = SUPPER, replace(troubled(), notices=())
    lit = []
    for there in dangers:
        window.show_view(danger if there else calm)
        pixel = window.grab(window.rect().adjusted(0, 0, 0, 4 - window.height())).toImage().pixelColor(QPoint(1, 1))
        lit.append(pixel.name() != window.palette_.ground.lower())
        window.ticker._timer.advance(FRAME_MS)
    return lit


def most_flashes(lit):
    """The most times that it lights up within any one second."""
    ups = [FRAME_MS * n for n, (was, is_) in enumerate(zip([False, *lit], lit, strict=False)) if is_ and not was]
    return max((sum(up <= other < up + 1000 for other in ups) for up in ups), default=0)


def test_a_standing_danger_flashes_once_a_second_and_is_lit_half_the_time(cranked):
    lit = frames(cranked, [True] * 100)
    assert most_flashes(lit) == 1
    assert sum(lit) == 50
    assert lit[0]


def test_a_calm_board_is_never_lit(cranked):
    assert not any(frames(cranked, [False] * 60))


@pytest.mark.parametrize("lasts", [1, 2, 3, 5, 7, 11])
def test_a_danger_that_comes_and_goes_flashes_no_faster(cranked, lasts):
    lit = frames(cranked, [n // lasts % 2 == 0 for n in range(120)])
    assert 1 <= most_flashes(lit) <= AT_MOST


def test_dangers_as_they_may_come_flash_no_faster(cranked):
    chance = random.Random(4)
    lit = frames(cranked, [chance.random() < 0.5 for _ in range(400)])
    assert 1 <= most_flashes(lit) <= AT_MOST


def test_a_danger_that_is_answered_is_dark_at_once(cranked):
    lit = frames(cranked, [True, True, False, False])
    assert lit == [True, True, False, False]
