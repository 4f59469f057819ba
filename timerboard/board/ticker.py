"""The window's one timer. It beats only while somebody needs it, and at most four times a second."""

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer

HALF_PERIOD_MS = 500  # on and off: one flash a second, half of the two that are allowed


class Ticker(QObject):
    """Calls `beat` with True and False in turn while it runs; with False once more when it stops."""

    def __init__(self, beat: Callable[[bool], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._beat = beat
        self._on = False
        self._timer = QTimer(self)
        self._timer.setInterval(HALF_PERIOD_MS)
        self._timer.timeout.connect(self.turn)

    @property
    def running(self) -> bool:
        """True while it beats."""
        return self._timer.isActive()

    def run(self, wanted: bool) -> None:
        """Start or stop; asking twice does no harm."""
        if wanted and not self.running:
            self._on = True
            self._beat(True)
            self._timer.start()
        elif not wanted and self.running:
            self._timer.stop()
            self._on = False
            self._beat(False)

    def turn(self) -> None:
        """One beat."""
        self._on = not self._on
        self._beat(self._on)
