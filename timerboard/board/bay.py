"""The bay of strips: the axis above, the strips in the order the view gives, scrolled to the one that rings."""

from collections.abc import Callable

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from timerboard.core.alarm_values import Rank
from timerboard.core.view_values import Axis, HandsItem, Strip

from . import motion
from .axis_bar import AxisBar
from .look import DARK, Palette
from .measure import Sizes, row_heights
from .plate import USUAL_SIZES
from .ribbon import AxisMap, lines_reach, paint_eat, paint_now
from .strip import NO_AXIS, StripWidget, axis_columns


def digit_for(strip: Strip, hands: tuple[HandsItem, ...]) -> int:
    """The digit of the most pressing job that belongs to a strip, 0 for none."""
    return next((item.digit for item in hands if item.strip == strip.key), 0)


class Ground(QFrame):
    """What lies under the strips: the now line and the eat line, seen between them."""

    def __init__(self) -> None:
        super().__init__()
        self.axis = NO_AXIS
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.setAccessibleName("Dishes")
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def across(self) -> AxisMap:
        """The columns of the strips, which stand a little to the right."""
        return AxisMap.of(self.axis, *axis_columns(self.width() - self.sizes.pad, self.sizes))

    def column(self, across: AxisMap, moment: int) -> int:
        """Where a moment of the strips lies here."""
        return across.x(moment) + self.sizes.pad

    def show_axis(self, axis: Axis) -> None:
        """Take a new axis; only the columns that a line left or entered are repainted."""
        old = self.across()
        lines = [self.column(old, self.axis.now), self.column(old, self.axis.eat)]
        self.axis = axis
        new, reach = self.across(), lines_reach(self.sizes.line)
        for x, moment in zip(lines, (axis.now, axis.eat), strict=True):
            to = self.column(new, moment)
            if to != x:
                for column in (x, to):
                    self.update(QRect(column - reach, 0, 2 * reach + 1, self.height()))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Both lines on the plain ground; strips draw their own stretch of them."""
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(self.palette_.ground))
        across = self.across()
        if self.axis.start <= self.axis.eat <= self.axis.end:
            paint_eat(painter, self.column(across, self.axis.eat), self.height(), self.palette_, self.sizes.line)
        if self.axis.start < self.axis.now:
            paint_now(painter, self.column(across, self.axis.now), self.height(), self.palette_, self.sizes.line)


class Bay(QScrollArea):
    """One StripWidget a strip. `opened` gets the key of a tapped one, `hidden` how many are above and below."""

    def __init__(
        self, opened: Callable[[str], None], hidden: Callable[[int, int], None], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._hidden = opened, hidden
        self.widgets: dict[str, StripWidget] = {}
        self.order: tuple[str, ...] = ()
        self._ringing: frozenset[str] = frozenset()
        self._heights: tuple[int, ...] = ()
        self.palette_: Palette = DARK
        self.sizes: Sizes = USUAL_SIZES
        self.ground = Ground()
        self.axis_bar = AxisBar()
        self.setWidget(self.ground)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalScrollBar().valueChanged.connect(lambda _: self._tell_hidden())

    def dress(self, palette: Palette, sizes: Sizes) -> None:
        """Change colours and lengths."""
        self.palette_, self.sizes = palette, sizes
        self.ground.palette_, self.ground.sizes = palette, sizes
        self.axis_bar.dress(palette, sizes)
        for widget in self.widgets.values():
            widget.dress(palette, sizes)
        self.lay_out(glide=False)
        self.ground.update()

    def show_strips(self, strips: tuple[Strip, ...], axis: Axis, hands: tuple[HandsItem, ...]) -> bool:
        """Take new values. True when the order of strips changed."""
        order = tuple(strip.key for strip in strips)
        came = order != self.order
        fresh = self._match(order)
        for strip in strips:
            self.widgets[strip.key].show_strip(strip, axis, digit_for(strip, hands))
        self.axis_bar.show_axis(axis)
        self.ground.show_axis(axis)
        if came or self._row_heights() != self._heights:
            self.lay_out(glide=not fresh and not motion.reduced())
        self._follow(strips)
        return came

    def _match(self, order: tuple[str, ...]) -> bool:
        """One widget for each key, no more and no less. True when one was made."""
        for key in set(self.widgets) - set(order):
            gone = self.widgets.pop(key)
            gone.hide()
            gone.deleteLater()
        fresh = [key for key in order if key not in self.widgets]
        for key in fresh:
            self.widgets[key] = StripWidget(self._opened, self.ground)
            self.widgets[key].dress(self.palette_, self.sizes)
        self.order = order
        return bool(fresh)

    def _row_heights(self) -> tuple[int, ...]:
        wanting = sum(self.widgets[key].strip.juts for key in self.order)
        return row_heights(self.viewport().height(), len(self.order), wanting, self.sizes)

    def lay_out(self, glide: bool) -> None:
        """Strips from the top, each in its height."""
        self._heights = self._row_heights()
        top, wide = 0, self.viewport().width()
        total = sum(self._heights) + self.sizes.gap * len(self._heights)
        self.ground.resize(wide, max(total, self.viewport().height()))
        for key, high in zip(self.order, self._heights, strict=True):
            motion.place(self.widgets[key], QRect(self.sizes.pad, top, wide - self.sizes.pad, high), glide)
            self.widgets[key].show()
            top += high + self.sizes.gap
        self._tell_hidden()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size, other rows."""
        super().resizeEvent(event)
        self.lay_out(glide=False)

    def _follow(self, strips: tuple[Strip, ...]) -> None:
        """Bring what newly rings into sight, the most pressing of it first."""
        ringing = [s for s in strips if s.juts or (s.rank is not None and s.rank >= Rank.DUE)]
        new = [s for s in ringing if s.key not in self._ringing]
        self._ringing = frozenset(s.key for s in ringing)
        if new:
            first = max(new, key=lambda s: -1 if s.rank is None else s.rank)
            self.bring(first.key)

    def bring(self, key: str) -> None:
        """Scroll so that a strip can be seen whole."""
        top = self._top_of(key)
        bar, room = self.verticalScrollBar(), self.viewport().height()
        high = self._heights[self.order.index(key)]
        if not bar.value() <= top <= bar.value() + room - high:
            motion.scroll(bar, min(top, bar.maximum()), self.isVisible() and not motion.reduced())

    def _top_of(self, key: str) -> int:
        return sum(high + self.sizes.gap for high in self._heights[: self.order.index(key)])

    def page_down(self) -> None:
        """On to the strips below; from the last ones back to the top."""
        bar = self.verticalScrollBar()
        to = 0 if bar.value() >= bar.maximum() else self._next_page()
        motion.scroll(bar, to, not motion.reduced())

    def _next_page(self) -> int:
        bar, room = self.verticalScrollBar(), self.viewport().height()
        cut = [self._top_of(key) for key in self.order if self._top_of(key) + self._height_of(key) > bar.value() + room]
        return min(bar.maximum(), cut[0] if cut else bar.maximum())

    def _height_of(self, key: str) -> int:
        return self._heights[self.order.index(key)]

    def _tell_hidden(self) -> None:
        """Say how many strips are out of sight, above and below."""
        low = self.verticalScrollBar().value()
        high = low + self.viewport().height()
        above = sum(self._top_of(key) < low for key in self.order)
        below = sum(self._top_of(key) + self._height_of(key) > high for key in self.order)
        self._hidden(above, below)
