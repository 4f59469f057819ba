"""What the start window offers: every menu once."""

import shutil
from pathlib import Path

from timerboard.shell.recent_menus import RecentMenus
from timerboard.starting import _Menus, sample_files


def test_a_menu_that_was_cooked_in_two_folders_stands_once_the_last_one_first(tmp_path):
    sample, other, *_ = sample_files()
    copy = tmp_path / sample.name
    shutil.copy(sample, copy)
    menus = _Menus()
    lately = menus.tiles((copy, sample, other))
    assert [tile.key for tile in lately] == [str(copy), str(other)]
    samples = menus.tiles(sample_files())
    assert {tile.key for tile in samples} == {str(path) for path in sample_files()} - {str(sample), str(other)}
    copy.write_text(copy.read_text().replace("serves: ", "serves: 1", 1))
    assert [tile.key for tile in _Menus().tiles((copy, sample))] == [str(copy), str(sample)]


def test_tests_keep_nothing_in_the_users_own_folders():
    RecentMenus().note(sample_files()[0])
    state = RecentMenus()._path
    assert state.is_file()
    assert Path.home() not in state.parents
    state.unlink()
