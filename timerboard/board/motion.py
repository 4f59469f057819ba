"""Moves that the eye can follow: a strip glides to its new place, or is there at once with reduced motion."""

from PySide6.QtCore import QEasingCurve, QPoint, QPropertyAnimation, QRect
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QScrollBar, QWidget

GLIDE_MS = 350


def reduced() -> bool:
    """True when the system asks for less motion (read where Qt tells)."""
    access = getattr(QGuiApplication.styleHints(), "accessibility", None)
    preference = getattr(access(), "motionPreference", None) if access else None
    return preference is not None and "Reduced" in preference().name


def place(widget: QWidget, box: QRect, glide: bool) -> None:
    """Put a widget into a box: its size at once, its place gliding when asked for and it was elsewhere."""
    running = widget.findChild(QPropertyAnimation, "glide")
    if running and running.endValue() == box.topLeft() and widget.size() == box.size():
        return
    if running:
        running.stop()
        running.setObjectName("")
        running.deleteLater()
    if not glide or not widget.isVisible() or widget.pos() == box.topLeft():
        widget.setGeometry(box)
        return
    widget.resize(box.size())
    _run(QPropertyAnimation(widget, b"pos", widget), widget.pos(), box.topLeft())


def scroll(bar: QScrollBar, to: int, glide: bool) -> None:
    """Bring a scroll bar to a value."""
    if glide and bar.value() != to:
        _run(QPropertyAnimation(bar, b"value", bar), bar.value(), to)
    else:
        bar.setValue(to)


def _run(animation: QPropertyAnimation, start: QPoint | int, end: QPoint | int) -> None:
    animation.setObjectName("glide")
    animation.setDuration(GLIDE_MS)
    animation.setEasingCurve(QEasingCurve.Type.InOutCubic)
    animation.setStartValue(start)
    animation.setEndValue(end)
    animation.start(QPropertyAnimation.DeletionPolicy.DeleteWhenStopped)
