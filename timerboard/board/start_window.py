"""The first window when no menu was named: what is unfinished first, then menus, then what was cooked lately."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QGuiApplication, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from timerboard.core.view_values import Axis, Strip

from . import look
from .editor_dress import fit, qt_palette, style_sheet
from .plan_ribbon import PlanPicture

TILE_WIDTH = 300
PICTURE_HEIGHT = 96
BUTTON_HIGH = 36  # with its padding 12 mm on a usual screen: this window stands in the kitchen as well


@dataclass(frozen=True, slots=True)
class Unfinished:
    """A cook that was not closed: its journal's key, its title, and when it was left."""

    key: str
    title: str
    said: str


@dataclass(frozen=True, slots=True)
class PastCook:
    """A cook of the past: its journal's key, its title, when it was eaten, and whether nobody ended it."""

    key: str
    title: str
    said: str
    open: bool = False


@dataclass(frozen=True, slots=True)
class MenuTile:
    """A menu file: its key, its title, and a line about it."""

    key: str
    title: str
    said: str = ""


@dataclass(frozen=True, slots=True)
class Choices:
    """Everything there is to begin with."""

    unfinished: tuple[Unfinished, ...] = ()
    past: tuple[PastCook, ...] = ()
    recent: tuple[MenuTile, ...] = ()
    samples: tuple[MenuTile, ...] = ()


@dataclass(frozen=True, slots=True)
class Ways:
    """What each choice does. `go_on` and `record` get a cook's key, `cook` and `edit` a menu's."""

    go_on: Callable[[str], object]
    cook: Callable[[str], object]
    edit: Callable[[str], object]
    new_meal: Callable[[], object]
    open_file: Callable[[], object]
    record: Callable[[str], object] = field(default=lambda _key: None)
    closed: Callable[[], object] = field(default=lambda: None)


class Tile(QFrame):
    """A menu as a picture of its plan, with its name and what can be done with it."""

    def __init__(self, tile: MenuTile, ways: Ways) -> None:
        super().__init__()
        self.tile = tile
        self.setProperty("role", "tile")
        self.setFixedWidth(TILE_WIDTH)
        self.picture = PlanPicture(lambda: ways.cook(tile.key))
        self.picture.setFixedHeight(PICTURE_HEIGHT)
        self.picture.setAccessibleName(f"The plan of {tile.title}")
        self.cook = _button("Cook", lambda: ways.cook(tile.key), f"Cook {tile.title}")
        self.edit = _button("Edit", lambda: ways.edit(tile.key), f"Edit {tile.title}")
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 10, 10, 10)
        column.setSpacing(5)
        column.addWidget(self.picture)
        column.addWidget(_label(tile.title, "heading"))
        column.addWidget(_label(tile.said, "hint"))
        line = QHBoxLayout()
        line.addWidget(self.cook)
        line.addWidget(self.edit)
        line.addStretch()
        column.addLayout(line)


class StartWindow(QWidget):
    """Shows choices; `show_picture` adds a menu's plan when it is known."""

    def __init__(self, choices: Choices, ways: Ways, *, theme: str | None = None) -> None:
        super().__init__()
        self.ways = ways
        self.palette_ = look.palette_named(theme) if theme else look.system_palette()
        self._follows_system = theme is None
        self.tiles: list[Tile] = []
        self.go_on: list[QPushButton] = []
        self._grids: list[tuple[QGridLayout, list[Tile]]] = []
        self.setWindowTitle("timerboard")
        self._build(choices)
        self._keys()
        self.dress(self.palette_)
        (self.go_on[0] if self.go_on else self.new_meal).setFocus()
        self.setMinimumSize(480, 360)
        fit(self, 1040, 700)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._system_changed)

    def _build(self, choices: Choices) -> None:
        inside = QWidget()
        self._column = QVBoxLayout(inside)
        self._column.setContentsMargins(28, 22, 28, 22)
        self._column.setSpacing(10)
        for cook in choices.unfinished:
            self._column.addWidget(self._unfinished(cook, first=not self.go_on))
        self._column.addLayout(self._begin_line())
        self._section("Your menus", choices.recent)
        self._past(choices.past)
        self._section("Sample menus", choices.samples)
        self._column.addStretch()
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(inside)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scroll)

    def _unfinished(self, cook: Unfinished, *, first: bool) -> QFrame:
        bar = QFrame()
        bar.setProperty("role", "unfinished" if first else "tile")
        line = QHBoxLayout(bar)
        words = QVBoxLayout()
        words.addWidget(_label(cook.title, "title" if first else "heading"))
        words.addWidget(_label(cook.said, "hint"))
        line.addLayout(words, 1)
        button = _button("Go on cooking", lambda: self.ways.go_on(cook.key), f"Go on cooking {cook.title}, {cook.said}")
        if first:
            button.setProperty("role", "main")
        self.go_on.append(button)
        line.addWidget(button)
        return bar

    def _past(self, cooks: tuple[PastCook, ...]) -> None:
        """What was cooked lately, with the way to its record; one that nobody ended can still be gone on with."""
        if not cooks:
            return
        self._column.addSpacing(8)
        self._column.addWidget(_label("Cooked lately", "heading"))
        for cook in cooks:
            bar = QFrame()
            bar.setProperty("role", "tile")
            line = QHBoxLayout(bar)
            words = QVBoxLayout()
            words.addWidget(_label(cook.title, "heading"))
            words.addWidget(_label(cook.said, "hint"))
            line.addLayout(words, 1)
            if cook.open:
                line.addWidget(_button("Go on", partial(self.ways.go_on, cook.key), f"Go on with {cook.title}"))
            name = f"Open the record of {cook.title}, {cook.said}"
            line.addWidget(_button("Open the record", partial(self.ways.record, cook.key), name))
            self._column.addWidget(bar)

    def _begin_line(self) -> QHBoxLayout:
        line = QHBoxLayout()
        self.new_meal = _button("A new meal", self.ways.new_meal, "Make a new meal")
        self.open_file = _button("Open a file…", self.ways.open_file, "Open a menu file")
        if not self.go_on:
            self.new_meal.setProperty("role", "main")
        line.addWidget(self.new_meal)
        line.addWidget(self.open_file)
        line.addStretch()
        return line

    def _section(self, title: str, menus: tuple[MenuTile, ...]) -> None:
        if not menus:
            return
        self._column.addSpacing(8)
        self._column.addWidget(_label(title, "heading"))
        grid = QGridLayout()
        grid.setSpacing(14)
        grid.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        tiles = [Tile(menu, self.ways) for menu in menus]
        self.tiles += tiles
        self._grids.append((grid, tiles))
        self._column.addLayout(grid)
        self._arrange()

    def _keys(self) -> None:
        QShortcut(QKeySequence(QKeySequence.StandardKey.New), self, self.ways.new_meal)
        QShortcut(QKeySequence(QKeySequence.StandardKey.Open), self, self.ways.open_file)

    def show_picture(self, key: str, what: tuple[tuple[Strip, ...], Axis]) -> None:
        """A menu's plan, as small as its tile."""
        for tile in self.tiles:
            if tile.tile.key == key:
                tile.picture.show_plan(what)

    def _arrange(self) -> None:
        across = max(1, (self.width() - 60) // (TILE_WIDTH + 14))
        for grid, tiles in self._grids:
            for n, tile in enumerate(tiles):
                grid.addWidget(tile, n // across, n % across)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """As many tiles in a row as there is room for."""
        super().resizeEvent(event)
        self._arrange()

    def dress(self, palette: look.Palette) -> None:
        """Wear a palette."""
        self.palette_ = palette
        self.setPalette(qt_palette(palette))
        own = f"""
        QFrame[role="tile"] {{ background: {palette.strip}; border: 1px solid {palette.edge}; border-radius: 6px; }}
        QFrame[role="unfinished"] {{ background: {palette.due.ground}; border-radius: 6px; }}
        QFrame[role="unfinished"] QLabel {{ color: {palette.due.ink}; }}
        StartWindow {{ background: {palette.bar}; }}
        QPushButton {{ min-height: {BUTTON_HIGH}px; padding: 5px 16px; }}
        QLabel[role="hint"] {{ font-size: 15px; }}
        """
        self.setStyleSheet(style_sheet(palette) + own)
        for tile in self.tiles:
            tile.picture.dress(palette)

    def _system_changed(self) -> None:
        if self._follows_system:
            self.dress(look.system_palette())

    def closeEvent(self, event: QCloseEvent) -> None:
        """Nothing was chosen."""
        self.ways.closed()
        event.accept()


def _label(words: str, role: str) -> QLabel:
    label = QLabel(words)
    label.setProperty("role", role)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label


def _button(words: str, act: Callable[[], object], name: str) -> QPushButton:
    button = QPushButton(words)
    button.setAccessibleName(name)
    button.setAutoDefault(True)  # Enter presses the button that has the keyboard
    button.clicked.connect(lambda _=False: act())
    return button
