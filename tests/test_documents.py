"""README and DEVELOPERS.md tell the truth where a test can know it."""

import re
from pathlib import Path

from timerboard.core.engine import transitions_markdown
from timerboard.shell.menu_file import read_menu

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_the_drawing_of_a_steps_life_is_the_engines_table():
    drawn = DEVELOPERS.split("transitions_markdown() -->")[1].split("<!-- end of transitions")[0]
    assert drawn.strip() == transitions_markdown().strip()


def test_every_file_named_in_the_documents_exists():
    named = set(
        re.findall(
            r"`((?:core|desk|shell|board|planner|tests|sample_menus|assets)/[\w./-]+\.\w+)`", README + DEVELOPERS
        )
    )
    missing = [name for name in named if not ((ROOT / name).exists() or (ROOT / "timerboard" / name).exists())]
    assert missing == []
    assert len(named) > 15


def test_the_menu_in_the_readme_can_be_cooked():
    example = README.split("```yaml")[1].split("```")[0]
    loaded = read_menu(example)
    assert loaded.warnings == ()
    assert len(loaded.menu.dishes) == 2


def test_every_module_at_the_top_of_the_house_is_on_its_map():
    modules = {path.name for path in (ROOT / "timerboard").glob("*.py")} - {"__init__.py"}
    assert sorted(name for name in modules if name not in DEVELOPERS) == []


def test_every_letter_that_the_board_obeys_is_in_the_readme():
    table = README.split("## Keys")[1].split("##")[0]
    told = set(re.findall(r"`([A-Z?+-])`", table))
    source = (ROOT / "timerboard" / "board" / "replies.py").read_text(encoding="utf-8")
    obeyed = {letter.upper() for letter in re.findall(r'^ {12}"(.)": ', source, flags=re.MULTILINE)}
    assert len(obeyed) > 15
    assert obeyed == told
