"""The editor's clothes: the board's palettes on an ordinary desktop form."""

from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QWidget

from .look import Palette

TEXT_PX = 15
SMALL_PX = 13
HEADING_PX = 17


TITLE_BAR = 40
"""What a desktop's own frame may take of the height."""


def fit(window: QWidget, width: int, height: int) -> None:
    """Give a window that size, or less where the screen has no room for it and its frame."""
    screen = window.screen()
    if screen is not None:
        room = screen.availableGeometry()
        width, height = min(width, room.width()), min(height, room.height() - TITLE_BAR)
    window.resize(max(width, window.minimumWidth()), max(height, window.minimumHeight()))


def qt_palette(colours: Palette) -> QPalette:
    """Qt's roles in the board's colours."""
    made = QPalette()
    role = QPalette.ColorRole
    for where, colour in (
        (role.Window, colours.bar),
        (role.WindowText, colours.ink),
        (role.Base, colours.strip),
        (role.AlternateBase, colours.bar),
        (role.Text, colours.ink),
        (role.Button, colours.button.ground),
        (role.ButtonText, colours.button.ink),
        (role.PlaceholderText, colours.quiet),
        (role.Highlight, colours.left.ground),
        (role.HighlightedText, colours.left.ink),
        (role.ToolTipBase, colours.strip),
        (role.ToolTipText, colours.ink),
        (role.Mid, colours.edge),
        (role.Link, colours.eat),
    ):
        made.setColor(where, QColor(colour))
    for where in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, where, QColor(colours.edge))
    return made


def style_sheet(colours: Palette) -> str:
    """Edges that can be seen (3:1), a focus ring that cannot be missed, and a fault that is a bar and words."""
    c = colours
    return f"""
    QWidget {{ font-size: {TEXT_PX}px; color: {c.ink}; }}
    QMainWindow, QDialog, QMenuBar, QToolBar, QStatusBar, QScrollArea, QScrollArea > QWidget > QWidget {{
        background: {c.bar}; }}
    QLineEdit, QPlainTextEdit, QComboBox, QSpinBox {{
        background: {c.strip}; placeholder-text-color: {c.quiet};
        border: 1px solid {c.edge}; border-radius: 4px; padding: 4px 7px;
        selection-background-color: {c.left.ground}; selection-color: {c.left.ink}; }}
    QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus, QSpinBox:focus {{
        border: 2px solid {c.focus}; padding: 3px 6px; }}
    QLineEdit[fault="true"], QPlainTextEdit[fault="true"] {{ border-left: 6px solid {c.danger.edge}; }}
    QLineEdit[fault="warning"], QPlainTextEdit[fault="warning"] {{ border-left: 6px solid {c.due.edge}; }}
    QLabel {{ background: transparent; }}
    QLabel[role="label"] {{ color: {c.quiet}; font-size: {SMALL_PX}px; }}
    QLabel[role="hint"] {{ color: {c.quiet}; font-size: {SMALL_PX}px; }}
    QLabel[role="heading"] {{ font-size: {HEADING_PX}px; font-weight: 600; }}
    QLabel[role="title"] {{ font-size: {HEADING_PX + 5}px; font-weight: 600; }}
    QLabel[role="fault"] {{ color: {c.ink}; font-size: {SMALL_PX}px; font-weight: 600; }}
    QLabel[role="warning"] {{ color: {c.ink}; font-size: {SMALL_PX}px; }}
    QFrame[role="notice"] {{ background: {c.due.ground}; border-radius: 4px; }}
    QFrame[role="notice"] QLabel {{ color: {c.due.ink}; }}
    QFrame[role="rule"] {{ background: {c.rule}; border: none; max-height: 1px; min-height: 1px; }}
    QPushButton, QToolButton {{
        background: {c.button.ground}; color: {c.button.ink}; border: 1px solid {c.button.edge};
        border-radius: 4px; padding: 5px 12px; }}
    QToolButton {{ padding: 5px 10px; }}
    QPushButton:focus, QToolButton:focus {{ border: 2px solid {c.focus}; padding: 4px 11px; }}
    QToolButton:focus {{ padding: 4px 9px; }}
    QPushButton:pressed, QToolButton:pressed {{ background: {c.left.ground}; color: {c.left.ink}; }}
    QPushButton:disabled, QToolButton:disabled {{ color: {c.edge}; border-color: {c.rule}; }}
    QPushButton[role="main"] {{ background: {c.left.ground}; color: {c.left.ink}; font-weight: 600; }}
    QCheckBox:focus {{ border: 2px solid {c.focus}; border-radius: 4px; }}
    QTreeView {{ background: {c.strip}; border: 1px solid {c.edge}; border-radius: 4px; outline: none; }}
    QTreeView:focus {{ border: 2px solid {c.focus}; }}
    QTreeView::item {{ padding: 4px 2px; color: {c.ink}; }}
    QTreeView::item:selected {{ background: {c.left.ground}; color: {c.left.ink}; }}
    QMenu {{ background: {c.strip}; border: 1px solid {c.edge}; }}
    QMenu::item {{ padding: 5px 24px; }}
    QMenu::item:selected, QMenuBar::item:selected {{ background: {c.left.ground}; color: {c.left.ink}; }}
    QMenu::item:disabled {{ color: {c.edge}; }}
    QAbstractItemView {{ background: {c.strip}; selection-background-color: {c.left.ground};
        selection-color: {c.left.ink}; border: 1px solid {c.edge}; }}
    QToolBar {{ border: none; spacing: 6px; padding: 4px 6px; }}
    QToolBar::separator {{ background: {c.rule}; width: 1px; margin: 4px 6px; }}
    QSplitter::handle {{ background: {c.rule}; }}
    QScrollBar:vertical {{ background: {c.bar}; width: 14px; }}
    QScrollBar::handle:vertical {{ background: {c.edge}; border-radius: 5px; min-height: 30px; margin: 2px; }}
    QScrollBar:horizontal {{ background: {c.bar}; height: 14px; }}
    QScrollBar::handle:horizontal {{ background: {c.edge}; border-radius: 5px; min-width: 30px; margin: 2px; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    """
