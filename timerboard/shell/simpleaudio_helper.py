"""The process that holds simpleaudio: reads bursts from standard input, says `played` or what went wrong.

Protocol: four bytes of length (little endian), then that many bytes of PCM; a length of nought stops what plays.
"""

import sys
import threading
from collections.abc import Callable
from typing import BinaryIO


def main(rate: int, source: BinaryIO) -> None:
    """Play until the input ends."""
    import simpleaudio  # only here: importing it must not be able to harm the board

    while len(head := source.read(4)) == 4:
        length = int.from_bytes(head, "little")
        simpleaudio.stop_all()
        if length:
            _play(simpleaudio, source.read(length), rate)


def _play(simpleaudio: object, pcm: bytes, rate: int) -> None:
    try:
        playing = simpleaudio.play_buffer(pcm, 1, 2, rate)  # type: ignore[attr-defined]
    except Exception:  # the library raises its own and plain errors alike; each means nothing was heard
        _say("no sound device")
        return
    # a thread, so that the next burst may cut this one short
    threading.Thread(target=_report, args=(playing.wait_done,), daemon=True).start()


def _report(wait_done: Callable[[], None]) -> None:
    wait_done()
    _say("played")


def _say(word: str) -> None:
    sys.stdout.write(word + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(int(sys.argv[1]), sys.stdin.buffer)
