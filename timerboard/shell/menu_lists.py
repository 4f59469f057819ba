"""Entries of a list put in, taken out and moved, with the comments above them; empty lines stay where they were."""

from dataclasses import dataclass

from timerboard.core.menu_written import Value
from timerboard.desk.editor_ports import EditRefused

from .menu_lines import after_line, column, joined, line_start, newline
from .menu_spots import Spot
from .menu_write import flow, item

ODD = "this list is written in a way that can only be changed as text"


@dataclass(frozen=True, slots=True)
class _Chunk:
    """An entry of a block list: the empty lines above it, and its lines with the comments above them."""

    lead: str
    body: str


def insert_item(text: str, spot: Spot, at: int, value: Value, name: str) -> str:
    """An entry more, at a position (0 to the number of entries)."""
    if spot.flow:
        return _insert_in_flow(text, spot, at, flow(value))
    start, end, chunks = _chunks(text, spot)
    as_block = name in ("dishes", "steps")
    body = joined(text, item(value, column(text, spot.start), as_block=as_block))
    apart = any(chunk.lead for chunk in chunks[1:]) or (name == "dishes" and len(chunks) < 2)
    lead = newline(text) if apart else ""
    leads = [chunk.lead for chunk in chunks]
    bodies = [chunk.body for chunk in chunks]
    leads.insert(max(1, at), lead)
    bodies.insert(at, body)
    return _put_together(text, start, end, leads, bodies)


def remove_item(text: str, spot: Spot, at: int) -> str:
    """Take an entry out; it is not the last one left of a block list."""
    if spot.flow:
        return _remove_from_flow(text, spot, at)
    start, end, chunks = _chunks(text, spot)
    leads = [chunk.lead for chunk in chunks]
    bodies = [chunk.body for chunk in chunks]
    del bodies[at], leads[max(at, 1) if len(leads) > 1 else 0]
    return _put_together(text, start, end, leads, bodies)


def move_item(text: str, spot: Spot, at: int, to: int) -> str:
    """Take an entry out and put it in so that it has position `to` afterwards."""
    if spot.flow:
        raw = [text[value.start : value.end] for _, value in spot.entries]
        raw.insert(to, raw.pop(at))
        for (_, value), words in reversed(list(zip(spot.entries, raw, strict=True))):
            text = text[: value.start] + words + text[value.end :]
        return text
    start, end, chunks = _chunks(text, spot)
    bodies = [chunk.body for chunk in chunks]
    bodies.insert(to, bodies.pop(at))
    return _put_together(text, start, end, [chunk.lead for chunk in chunks], bodies)


def _chunks(text: str, spot: Spot) -> tuple[int, int, list[_Chunk]]:
    """From where to where the list's lines go, and its entries."""
    first = line_start(text, spot.start)
    if text[first : spot.start].strip():
        raise EditRefused(ODD)
    start = at = _above(text, first)
    chunks = []
    for _, value in spot.entries:
        end = after_line(text, max(value.end, at))
        chunks.append(_parted(text[at:end]))
        at = end
    return start, at, chunks


def _above(text: str, first: int) -> int:
    """The first of the comment lines right above a line."""
    while first > 0:
        before = line_start(text, first - 1)
        if not text[before:first].lstrip().startswith("#"):
            return first
        first = before
    return 0


def _parted(region: str) -> _Chunk:
    lines = region.splitlines(keepends=True)
    blank = next((n for n, line in enumerate(lines) if line.strip()), 0)
    return _Chunk("".join(lines[:blank]), "".join(lines[blank:]))


def _put_together(text: str, start: int, end: int, leads: list[str], bodies: list[str]) -> str:
    ended = [body if body.endswith("\n") else body + newline(text) for body in bodies]
    whole = "".join(lead + body for lead, body in zip(leads, ended, strict=True))
    if end == len(text) and not text.endswith("\n"):
        whole = whole.rstrip("\r\n")
    return text[:start] + whole + text[end:]


def _insert_in_flow(text: str, spot: Spot, at: int, words: str) -> str:
    if not spot.entries:
        return f"{text[: spot.start]}[{words}]{text[spot.end :]}"
    if at < len(spot.entries):
        here = spot.entries[at][1].start
        return f"{text[:here]}{words}, {text[here:]}"
    here = spot.entries[-1][1].end
    return f"{text[:here]}, {words}{text[here:]}"


def _remove_from_flow(text: str, spot: Spot, at: int) -> str:
    held = [value for _, value in spot.entries]
    if len(held) == 1:
        return f"{text[: spot.start]}[]{text[spot.end :]}"
    if at:
        return text[: held[at - 1].end] + text[held[at].end :]
    return text[: held[0].start] + text[held[1].start :]
