"""What the start window lists of kept cooks: what to go on with, what was cooked lately, and its record."""

import re

import pytest

from tests.journal_events import NOON, opened
from timerboard import past_cooks
from timerboard.core.events import CookClosed
from timerboard.shell.journal import SqlJournal
from timerboard.terminal import BadInput

HOUR = 3_600_000


class At:
    """A clock that stands."""

    boot = "boot 1"

    def __init__(self, wall_ms: int) -> None:
        self.ms = wall_ms

    def wall_ms(self) -> int:
        return self.ms

    def kitchen_ms(self) -> int:
        return self.ms

    def zone(self) -> str:
        return "UTC"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(past_cooks, "cooks_folder", lambda: tmp_path)
    return tmp_path


def keep(file, *events) -> None:
    journal = SqlJournal(file, "board")
    journal.append(events)
    journal.close()


def ended() -> CookClosed:
    return CookClosed(seq=2, at=NOON + HOUR, wall_ms=NOON + HOUR, boot="boot 1", board="board 1")


def test_an_ended_cook_is_of_the_past_and_an_open_one_is_gone_on_with(folder):
    keep(folder / "soup.cook", opened("Soup"), ended())
    keep(folder / "stew.cook", opened("Stew"))
    left, past = past_cooks.cooks_listed(At(NOON + 2 * HOUR))
    assert [cook.title for cook in left] == ["Stew"]
    assert left[0].said.startswith("Not finished: opened 12:00")
    assert [(cook.title, cook.open) for cook in past] == [("Soup", False)]
    assert past[0].said.startswith("Eaten on ")


def test_a_cook_that_nobody_ended_is_of_the_past_the_next_day_and_says_so(folder):
    keep(folder / "stew.cook", opened("Stew"))
    left, past = past_cooks.cooks_listed(At(NOON + 48 * HOUR))
    assert left == ()
    assert past[0].open
    assert re.fullmatch(r"For \w+ \d+ \w+ at \d\d:\d\d, never ended", past[0].said)


def test_another_day_is_named(folder):
    keep(folder / "stew.cook", opened("Stew"))
    today = past_cooks.cooks_listed(At(NOON + HOUR))[0][0].said
    tomorrow = past_cooks.cooks_listed(At(NOON + 13 * HOUR))[0][0].said
    assert today.startswith("Not finished: opened 12:00, ")
    assert re.match(r"Not finished: opened [A-Z][a-z]{2} 12:00, ", tomorrow)


def test_only_the_newest_are_listed(folder):
    for n in range(past_cooks.MOST + 3):
        keep(folder / f"soup-{n}.cook", opened(f"Soup {n}"), ended())
    assert len(past_cooks.cooks_listed(At(NOON + 2 * HOUR))[1]) == past_cooks.MOST


def test_the_record_of_a_past_cook_is_its_lines(folder):
    keep(folder / "soup.cook", opened("Soup"), ended())
    lines = past_cooks.record_lines(folder / "soup.cook")
    assert lines[0].startswith("Soup for ")
    assert any(line.endswith("meal ended") for line in lines)


def test_what_is_no_cook_is_refused_in_words(folder):
    (folder / "soup.cook").write_bytes(b"no journal at all")
    with pytest.raises(BadInput):
        past_cooks.record_lines(folder / "soup.cook")
