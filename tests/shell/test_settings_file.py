"""The board's small memory: written whole, read back, and no trouble when it is spoilt."""

import pytest

from timerboard.shell.settings_file import SettingsFile


def test_what_is_remembered_is_there_next_time(tmp_path):
    path = tmp_path / "deep" / "settings.json"
    SettingsFile(path).remember("loudest", 70)
    again = SettingsFile(path)
    again.remember("names", ["Ana", "Jürgen"])
    assert SettingsFile(path).recall() == {"loudest": 70, "names": ["Ana", "Jürgen"]}
    assert [p.name for p in path.parent.iterdir()] == ["settings.json"]


@pytest.mark.parametrize("spoilt", [b"", b"{", b"[1]", b"\xff\xfe", b"[" * 100_000])
def test_a_spoilt_file_is_an_empty_memory_and_is_replaced(tmp_path, spoilt):
    path = tmp_path / "settings.json"
    path.write_bytes(spoilt)
    memory = SettingsFile(path)
    assert memory.recall() == {}
    memory.remember("voice", False)
    assert SettingsFile(path).recall() == {"voice": False}


def test_where_nothing_can_be_written_the_value_holds_until_the_end(tmp_path):
    blocked = tmp_path / "file"
    blocked.write_text("in the way")
    memory = SettingsFile(blocked / "settings.json")
    memory.remember("loudest", 50)
    assert memory.recall() == {"loudest": 50}
