"""The window's one timer. It beats only while somebody needs it, and at most four times a second."""

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer

HALF_PERIOD_MS = 500  # on and off: one flash a second, half of the two that are allowed


class Ticker(QObject):
    """Calls `beat` with True and False in turn while it runs; with False once more when it stops.

    It goes on only at a beat of its timer, which outlives the last stop by up to one beat: a danger that comes and goes
    and comes again flashes twice a second at most.
    """

    def __init__(self, beat: Callable[[bool], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._beat = beat
        self._on = False
        self._wanted = False
        self._timer = QTimer(self)
        self._timer.setInterval(HALF_PERIOD_MS)
        self._timer.timeout.connect(self.turn)

    @property
    def running(self) -> bool:
        """True while it beats."""
        return self._wanted

    def run(self, wanted: bool) -> None:
        """Start or stop; asking twice does no harm."""
        if wanted == self._wanted:
            return
        self._wanted = wanted
        if not wanted:
            self._show(False)
        elif not self._timer.isActive():
            self._show(True)
            self._timer.start()

    def turn(self) -> None:
        """One beat."""
        if self._wanted:
            self._show(not self._on)
        else:
            self._timer.stop()

    def _show(self, on: bool) -> None:
        if on != self._on:
            self._on = on
            self._beat(on)
