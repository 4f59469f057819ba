"""Dishes and their steps as an outline: choose, drag to another place, mark what is wrong."""

from collections.abc import Callable

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTreeWidget, QTreeWidgetItem

from timerboard.core.draft_words import is_beginning
from timerboard.core.faults import Path
from timerboard.core.menu_boxes import shown
from timerboard.core.menu_form import Shape
from timerboard.core.menu_written import Written, at, entries_at
from timerboard.desk.editing import EditorDesk

PATH = Qt.ItemDataRole.UserRole


class Outline(QTreeWidget):
    """`chosen` gets the path of what is selected: () for the meal, a dish's, or a step's; `refused` hears why a drag
    was not done."""

    def __init__(self, desk: EditorDesk, chosen: Callable[[Path], None], refused: Callable[[str], None]) -> None:
        super().__init__()
        self._desk, self._chosen, self._refused = desk, chosen, refused
        self.setColumnCount(2)
        self.setHeaderHidden(True)
        self.setUniformRowHeights(True)
        self.setAccessibleName("Dishes and steps")
        self.header().setStretchLastSection(False)
        self.header().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.header().setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)
        self.currentItemChanged.connect(self._current)

    # what it shows

    def show_menu(self) -> None:
        """Show the menu as it stands; what was open, selected and in view stays so."""
        document = self._desk.reading.document
        with QSignalBlocker(self):
            meal = self._row(self.invisibleRootItem(), 0)
            serves = shown(Shape.WORDS, at(document, ("serves",)))
            self._fill(meal, (), "The meal and its kitchen", f"for {serves}" if serves else "")
            dishes = entries_at(document, ("dishes",))
            for n, dish in enumerate(dishes):
                self._fill_dish(self._row(self.invisibleRootItem(), n + 1), ("dishes", n), dish)
            self._trim(self.invisibleRootItem(), len(dishes) + 1)
        first = self.topLevelItem(0)
        if self.currentItem() is None and first is not None:
            self.setCurrentItem(first)

    def show_selected(self) -> None:
        """Show what is selected as it stands: all that changes while its boxes are typed in."""
        item, path = self.currentItem(), self.path
        if item is None or not path:
            return
        written = at(self._desk.reading.document, path) or ""
        with QSignalBlocker(self):
            if len(path) == 2:
                self._fill(item, path, _named(written, "dish"), "")
            else:
                self._fill(item, path, _named(written, "do"), length_of(written))

    def _fill_dish(self, item: QTreeWidgetItem, path: Path, dish: Written) -> None:
        self._fill(item, path, _named(dish, "dish"), "")
        steps = entries_at(dish, ("steps",))
        for n, step in enumerate(steps):
            self._fill(self._row(item, n), (*path, "steps", n), _named(step, "do"), length_of(step))
        self._trim(item, len(steps))

    def _row(self, parent: QTreeWidgetItem, n: int) -> QTreeWidgetItem:
        known = parent.child(n)
        if known is not None:
            return known
        item = QTreeWidgetItem(parent)
        item.setExpanded(True)
        return item

    def _trim(self, parent: QTreeWidgetItem, count: int) -> None:
        while parent.childCount() > count:
            parent.takeChild(parent.childCount() - 1)

    def _fill(self, item: QTreeWidgetItem, path: Path, name: str, detail: str) -> None:
        found = self._desk.faults_at(path)
        if not path:
            begins = is_beginning(self._desk.reading.faults)
            found = tuple(f for f in found if f.path[:1] != ("dishes",) or (len(f.path) < 2 and not begins))
        faults = sum(not fault.warning for fault in found)
        mark = "✕ " if faults else "△ " if found else ""
        item.setText(0, f"{mark}{name}")
        item.setText(1, detail)
        item.setData(0, PATH, path)
        counted = f"{faults} fault{'s' if faults != 1 else ''}" if faults else "a warning" if found else ""
        item.setData(0, Qt.ItemDataRole.AccessibleTextRole, ", ".join(word for word in (name, detail, counted) if word))
        item.setToolTip(0, counted)
        font = item.font(0)
        if font.bold() != (len(path) == 2):
            font.setBold(len(path) == 2)
            item.setFont(0, font)
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsDropEnabled
        flags = flags | Qt.ItemFlag.ItemIsDragEnabled if path else flags
        if item.flags() != flags:
            item.setFlags(flags)

    # what is chosen

    @property
    def path(self) -> Path:
        """The path of what is selected."""
        item = self.currentItem()
        return path_of(item) if item is not None else ()

    def choose(self, path: Path) -> None:
        """Select a part of the menu (or what it stands in)."""
        item: QTreeWidgetItem | None = self.topLevelItem(0)
        if len(path) > 1 and isinstance(path[1], int) and path[0] == "dishes":
            item = self.topLevelItem(path[1] + 1)
            if item is not None and len(path) > 3 and path[2] == "steps" and isinstance(path[3], int):
                item = item.child(path[3]) or item
        if item is not None:
            self.setCurrentItem(item)
            self.scrollToItem(item)

    def _current(self, item: QTreeWidgetItem | None, _: QTreeWidgetItem | None) -> None:
        if item is not None:
            self._chosen(path_of(item))

    # moving

    def dropEvent(self, event: QDropEvent) -> None:
        """A dish goes among dishes, a step among the steps of a dish; the text moves, then the outline follows it."""
        source = self.path
        to = self._drop_place(source, event)
        event.setDropAction(Qt.DropAction.IgnoreAction)
        event.accept()
        if to is None or not source:
            return
        if to[:-1] == source[:-1]:
            here, wanted = int(source[-1]), int(to[-1])
            self.move_to(source, wanted - (wanted > here))
        elif refused := self._desk.carry(source, to):
            self._refused(refused)
        else:
            self.choose(self._desk.carried)

    def _drop_place(self, source: Path, event: QDropEvent) -> Path | None:
        """Before which position of which list a dropped part should stand; None: it can stand nowhere there."""
        item, where = self.itemAt(event.position().toPoint()), self.dropIndicatorPosition()
        last: Path = ("dishes", self.topLevelItemCount() - 2)
        target = path_of(item) if item is not None else last
        below = where is QAbstractItemView.DropIndicatorPosition.BelowItem or item is None
        if where is QAbstractItemView.DropIndicatorPosition.OnItem:  # on it: to its place, whichever way that is
            below = target[: len(source)] > source
        if len(source) == 2:
            return ("dishes", int(target[1]) + (below or len(target) > 2)) if target else ("dishes", 0)
        if len(target) > 2:
            return (*target[:3], int(target[3]) + below)
        return (*target, "steps", 0) if target else None

    def move_to(self, source: Path, to: int) -> None:
        """Move a dish or a step to another position among its like, and keep it selected."""
        count = len(entries_at(self._desk.reading.document, source[:-1]))
        if source and 0 <= to < count and to != source[-1]:
            self._desk.move(source[:-1], int(source[-1]), to)
            self.choose((*source[:-1], to))


def _named(part: Written, key: str) -> str:
    """What a dish or a step is called."""
    return shown(Shape.WORDS, at(part, (key,))) or f"unnamed {'dish' if key == 'dish' else 'step'}"


def path_of(item: QTreeWidgetItem) -> Path:
    """The path that a row stands for."""
    found = item.data(0, PATH)
    return tuple(found) if found else ()


def length_of(step: Written) -> str:
    """How long a step is, as it is written."""
    for key in ("takes", "lasts"):
        if words := shown(Shape.QUANTITY, at(step, (key,))):
            return words
    count, each = (shown(Shape.QUANTITY, at(step, ("batches", key))) for key in ("count", "each"))
    if count or each:
        return f"{count} x {each}"
    work = at(step, ("work",))
    return work if isinstance(work, str) else ""
