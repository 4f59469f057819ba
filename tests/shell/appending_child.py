"""Boards that only append, one process each, and say every number once it is durable. Their test kills them.

A line of orders on stdin, `FILE FIRST COUNT LIMIT_BYTES`, forks one board (so that a test pays for the imports once);
when it is gone, "gone" is said. A limit above 0 is the most bytes that any of its files may have.
"""

import os
import signal
import sys
from pathlib import Path

from tests.journal_events import act, opened
from timerboard.desk.ports import JournalTrouble
from timerboard.shell.journal import SqlJournal


def limit(size: int) -> None:
    """No file of this process may grow past `size` bytes; the system then refuses the write."""
    import resource

    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, resource.RLIM_INFINITY))


def append(file: Path, first: int, count: int, size: int) -> None:
    journal = SqlJournal(file, "child")
    print("open", os.getpid(), flush=True)
    if size:
        limit(size)
    for seq in range(first, first + count):
        event = opened() if seq == 1 else act(seq)
        try:
            journal.append([event])
        except JournalTrouble as trouble:
            print("trouble", trouble.said, flush=True)
            return
        print("kept", event.seq, flush=True)


def main() -> None:
    for line in sys.stdin:
        file, *numbers = line.split()
        board = os.fork()
        if not board:
            append(Path(file), *map(int, numbers))
            os._exit(0)
        os.waitpid(board, 0)
        print("\ngone", flush=True)


if __name__ == "__main__":
    main()
