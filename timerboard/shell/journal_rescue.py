"""What can still be read of a damaged cook.

SQLite itself stops at the first page that it cannot follow. The events are rows of one table, so every page of rows
that is whole can be read by itself, whatever became of the pages that lead to it: the file and its write-ahead log are
cut into pages, each page of rows is taken apart cell by cell, and what does not read as an event is left.

Format: "Database File Format", sqlite.org/fileformat2.html, sections 1.3 (header), 1.6 (b-tree pages, overflow), 2.1
(records) and 4.1 (write-ahead log), with no reserved bytes at the end of pages.

The log may end in frames of an earlier round, and in a transaction that was not finished. Rows are only ever added, so
an older page has nothing that is wrong, and what was being kept when the power went was asked for by somebody.
"""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

Pages: TypeAlias = dict[int, list[bytes]]
"""Page number -> its images, newest first."""

PAGE = 4096  # SQLite's page size since 3.12 (2016); these files are made with it
LEAF = 0x0D  # a page of rows
_WAL_HEADER, _FRAME_HEADER = 32, 24


def pages_of(file: Path) -> Pages:
    """Every page of a database file and of the write-ahead log beside it, damaged ones too."""
    pages: Pages = {}
    for frame in _frames(_bytes(file.with_name(file.name + "-wal"))):
        pages.setdefault(frame.page, []).insert(0, frame.image)
    whole = _bytes(file)
    for start in range(0, len(whole), PAGE):
        pages.setdefault(start // PAGE + 1, []).append(whole[start : start + PAGE].ljust(PAGE, b"\0"))
    return pages


def texts_of(pages: Pages, wanted: Callable[[str], bool]) -> Iterator[str]:
    """Every text for which `wanted` is true, the newest images first: by the rows of a page of rows (long ones go on on
    other pages), then wherever else one begins on any page, whatever became of the page's own list of its rows.
    """
    for images in pages.values():
        for page in images:
            if page[0] == LEAF:
                yield from filter(wanted, _texts_on(page, pages))
            yield from _scanned(page, wanted)


def logged_texts(file: Path, wanted: Callable[[str], bool]) -> Iterator[str]:
    """Every text for which `wanted` is true in the write-ahead log beside a file, as far as its last transaction that
    was finished. SQLite itself reads no further than the first frame whose checksum is wrong, and says nothing.
    """
    frames = list(_frames(_bytes(file.with_name(file.name + "-wal"))))
    last = max((place for place, frame in enumerate(frames) if frame.ends), default=-1)
    for frame in frames[: last + 1]:
        yield from _scanned(frame.image, wanted)


_BEGINS = re.compile(rb'[0-9a-f]{8} \{"')
_JSON = json.JSONDecoder()


def _scanned(page: bytes, wanted: Callable[[str], bool]) -> Iterator[str]:
    """What begins on a page like a checksum and JSON, ends with the JSON, and is wanted."""
    for found in _BEGINS.finditer(page):
        text = page[found.start() :].decode("utf-8", errors="replace")
        try:
            _, end = _JSON.raw_decode(text, 9)
        except (ValueError, RecursionError):
            continue
        if wanted(text[:end]):
            yield text[:end]


def _bytes(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError:
        return b""


@dataclass(frozen=True, slots=True)
class _Frame:
    """One page in a write-ahead log. `ends`: with it a transaction was finished."""

    page: int
    ends: bool
    image: bytes


def _frames(log: bytes) -> Iterator[_Frame]:
    """Every whole frame of a write-ahead log, oldest first."""
    for start in range(_WAL_HEADER, len(log), _FRAME_HEADER + PAGE):
        image = log[start + _FRAME_HEADER : start + _FRAME_HEADER + PAGE]
        if len(image) == PAGE:
            yield _Frame(int.from_bytes(log[start : start + 4], "big"), any(log[start + 4 : start + 8]), image)


def _texts_on(page: bytes, pages: Pages) -> Iterator[str]:
    """The text values of every cell of a page of rows that can be followed."""
    count = int.from_bytes(page[3:5], "big")
    for slot in range(8, min(8 + 2 * count, PAGE - 1), 2):
        cell = int.from_bytes(page[slot : slot + 2], "big")
        if 8 <= cell < PAGE:
            yield from _texts_in(_payload(page, cell, pages))


def _payload(page: bytes, cell: int, pages: Pages) -> bytes:
    """A cell's record: what lies on the page, and what its overflow pages add; empty when a page is missing."""
    length, after = _varint(page, cell)
    _row, after = _varint(page, after)
    here = _local(length)
    record = page[after : after + here]
    if here == length:
        return record
    following = int.from_bytes(page[after + here : after + here + 4], "big")
    for _ in range(length // (PAGE - 4) + 1):
        if len(record) >= length or following not in pages:
            break
        more = pages[following][0]
        record, following = record + more[4:], int.from_bytes(more[:4], "big")
    return record[:length] if len(record) >= length else b""


def _local(length: int) -> int:
    """How many bytes of a record of `length` lie on its own page (section 1.6, table leaf)."""
    most, least = PAGE - 35, (PAGE - 12) * 32 // 255 - 23
    if length <= most:
        return length
    fits = least + (length - least) % (PAGE - 4)
    return fits if fits <= most else least


def _texts_in(record: bytes) -> Iterator[str]:
    """The text values of a record (section 2.1): a header of serial types, then the values in that order."""
    size, at = _varint(record, 0)
    value = size
    while at < min(size, len(record)):
        kind, at = _varint(record, at)
        length = _length(kind)
        if kind >= 13 and kind % 2:
            yield record[value : value + length].decode("utf-8", errors="replace")
        value += length


def _length(kind: int) -> int:
    """Bytes of a value of a serial type."""
    return (kind - 12) // 2 if kind >= 12 else (0, 1, 2, 3, 4, 6, 8, 8, 0, 0, 0, 0)[kind]


def _varint(data: bytes, at: int) -> tuple[int, int]:
    """SQLite's integer of 1 to 9 bytes at `at`, and where it ends. Past the end of the data it reads as 0."""
    number = 0
    for index, byte in enumerate(data[at : at + 9]):
        if index == 8:
            return (number << 8) | byte, at + 9
        number = (number << 7) | (byte & 0x7F)
        if byte < 0x80:
            return number, at + index + 1
    return number, at + 9


def missing_of(seqs: list[int]) -> tuple[int, ...]:
    """Which numbers between 1 and the last one kept are not there."""
    kept = set(seqs)
    return tuple(seq for seq in range(1, max(kept, default=0) + 1) if seq not in kept)


def number_words(seqs: tuple[int, ...]) -> str:
    """`3, 5-8`: the numbers with runs drawn together."""
    runs: list[list[int]] = []
    for seq in seqs:
        if runs and runs[-1][-1] == seq - 1:
            runs[-1].append(seq)
        else:
            runs.append([seq])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs)
