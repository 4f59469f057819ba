"""What `decide` is given beside a command, and what it says when it will not."""

from dataclasses import dataclass, replace
from typing import Any

from .commands import Command
from .values import Moment


@dataclass(frozen=True, slots=True)
class At:
    """When, where and by whom a command is given. `seq` is the next free number of the record."""

    at: Moment
    wall_ms: int
    boot: str
    board: str
    who: str | None
    seq: int

    def fields(self, more: int = 0) -> dict[str, Any]:
        """The stamp of an event that is written `more` places further on."""
        return {
            "seq": self.seq + more,
            "at": self.at,
            "wall_ms": self.wall_ms,
            "boot": self.boot,
            "board": self.board,
            "who": self.who,
        }

    def further(self, more: int) -> "At":
        """The same moment, `more` numbers on."""
        return replace(self, seq=self.seq + more)


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why nothing happened, for the cook. `ask` is the command to send when the cook says that it is meant so."""

    said: str
    ask: Command | None = None
