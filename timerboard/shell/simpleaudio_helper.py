"""The process that holds simpleaudio: reads bursts from standard input, says what became of each.

Protocol: four bytes of length (little endian), then that many bytes of PCM; a length of nought stops what plays. Bursts
are numbered from one as they come. Said of each, a line each: `begun N` and later `played N`, or `failed N`.
"""

import sys
import threading
from collections.abc import Callable
from typing import BinaryIO


def main(rate: int, source: BinaryIO) -> None:
    """Play until the input ends."""
    import simpleaudio  # only here: importing it must not be able to harm the board

    number = 0
    while len(head := source.read(4)) == 4:
        length = int.from_bytes(head, "little")
        simpleaudio.stop_all()
        if length:
            number += 1
            _play(simpleaudio, source.read(length), rate, number)


def _play(simpleaudio: object, pcm: bytes, rate: int, number: int) -> None:
    try:
        playing = simpleaudio.play_buffer(pcm, 1, 2, rate)  # type: ignore[attr-defined]
    except Exception:  # the library raises its own and plain errors alike; each means nothing was heard
        _say(f"failed {number}")
        return
    _say(f"begun {number}")
    # a thread, so that the next burst may cut this one short
    threading.Thread(target=_report, args=(playing.wait_done, number), daemon=True).start()


def _report(wait_done: Callable[[], None], number: int) -> None:
    wait_done()
    _say(f"played {number}")


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(int(sys.argv[1]), sys.stdin.buffer)
