"""A line above the editor: something happened to the file, or has to be chosen."""

from collections.abc import Callable

from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton

Choice = tuple[str, Callable[[], object]]


class NoticeBar(QFrame):
    """Hidden while there is nothing to say."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "notice")
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.buttons: list[QPushButton] = []
        self._line = QHBoxLayout(self)
        self._line.addWidget(self.words, 1)
        self._choices: tuple[str, ...] = ()
        self.hide()

    def tell(self, words: str) -> None:
        """Say something."""
        self.ask(words)

    def ask(self, words: str, *choices: Choice) -> None:
        """Say something that takes an answer."""
        named = (words, *(name for name, _ in choices))
        if named != self._choices:
            self._choices = named
            self.words.setText(words)
            for button in self.buttons:
                button.hide()
                button.deleteLater()
            self.buttons = [self._button(name, act) for name, act in choices]
        self.show()

    def _button(self, name: str, act: Callable[[], object]) -> QPushButton:
        button = QPushButton(name)
        button.clicked.connect(lambda _=False: act())
        self._line.addWidget(button)
        return button

    def quiet(self) -> None:
        """Nothing to say."""
        self._choices = ()
        self.hide()
