"""`python -m timerboard.planner`: the planner as a process of its own, for the board. See `worker.py` for its lines."""

import os
import sys

from .worker import Worker

NICE = 5
"""The board's own process is served first."""


def main() -> None:
    """Answers the lines on standard input until they end."""
    if hasattr(os, "nice"):
        os.nice(NICE)
    Worker(sys.stdin, sys.stdout).run()


if __name__ == "__main__":
    main()
