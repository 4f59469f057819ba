"""A menu file read: what is refused, where, and in what words."""

import hashlib
import os
from pathlib import Path

import pytest

from timerboard.core.faults import MenuFaults
from timerboard.shell.menu_file import load_menu, read_menu

GOOD = """\
# a comment
menu: Supper
serves: 4
eat_at: 18:30
kitchen:
  places: {oven: {room: 2, heat: 60-250 C}, hob: {room: 4}, counter: }
dishes:
  - dish: Stew
    steps:
      - do: Chop
        work: 5 min
      - {do: Simmer, on: hob, takes: 1 h}
"""


def faults(text):
    with pytest.raises(MenuFaults) as told:
        read_menu(text)
    return [fault.said("m.yaml") for fault in told.value.faults]


def test_a_good_menu_is_read_with_its_hash_and_positions():
    loaded = read_menu(GOOD)
    assert loaded.menu.title == "Supper"
    assert loaded.menu.eat_at == "18:30"  # YAML 1.2: a time of day is no number
    assert list(loaded.menu.steps) == ["Stew/Chop", "Stew/Simmer"]
    assert loaded.hash == hashlib.sha256(GOOD.encode()).hexdigest()
    assert loaded.warnings == ()
    assert loaded.positions.value(("dishes", 0, "steps", 1, "takes")) == (12, 38)
    assert loaded.positions.key(("dishes", 0, "steps", 0, "work")) == (11, 9)


def test_what_is_not_written_stands_where_the_thing_around_it_does():
    assert read_menu(GOOD).positions.value(("dishes", 0, "steps", 0, "cues", 3, "do")) == (10, 9)


# (what is changed in the good menu, into what, what is said): every kind of fault with its line and column
CASES = [
    # keys and shapes
    ("    steps:", "    stps:", ["8:5: a dish has no 'steps'", "9:5: a dish has no key 'stps'; did you mean 'steps'?"]),
    ("work: 5 min", "wrok: 5 min", ["11:9: a step has no key 'wrok'; did you mean 'work'?"]),
    ("serves: 4\n", "", ["2:1: a menu has no 'serves'; write serves: 4"]),
    ("room: 4", "zzz: 4", ["6:51: a place has no key 'zzz'; it may have room, heat, preheat"]),
    (
        "- dish: Stew",
        "- hello\n  - dish: Stew",
        ["8:5: a dish should be written as keys and values; write dish: Gravy"],
    ),
    ("takes: 1 h}", "takes: 1 h, cues: 3}", ["12:49: cues: should be a list"]),
    ("work: 5 min", "after: 3\n        work: 5 min", ["11:16: step: 3 is a number where words should be"]),
    # quantities
    ("takes: 1 h", "takes: 25", ["12:38: takes: 25 has no unit; write 25 min"]),
    ("takes: 1 h", "takes: 2-1 h", ["12:38: takes: '2-1 h' goes from long to short"]),
    ("takes: 1 h", "takes: 8 days", ["12:38: takes: '8 days' is too long; write at most 7 days"]),
    ("takes: 1 h", "takes: ", ["12:37: 'takes' has nothing written after it; write its value, or leave the key out"]),
    ("takes: 1 h", "takes: [1 h]", ["12:38: takes: a list is not a quantity; write 25 min"]),
    ("heat: 60-250 C", "heat: 250-60 C", ["6:34: heat: '250-60 C' goes from hot to cold"]),
    ("on: hob,", "on: hob, heat: 180,", ["12:37: heat: 180 has no unit; write 180 C"]),
    ("room: 4", "room: 0", ["6:57: room: 0 is not possible here; write a whole number from 1 to 1000"]),
    ("room: 4", "room: lots", ["6:57: room: 'lots' is not a whole number"]),
    ("serves: 4", "serves: true", ["3:9: serves: yes or no is not a whole number"]),
    ("18:30", "25:00", ["4:9: eat_at: there is no 25:00 on a clock; write 18:30 or 2026-12-21 18:30"]),
    ("18:30", "half past six", ["4:9: eat_at: 'half past six' is not a time of day"]),
    ("serves: 4", "serves: 4\nunits: K", ["4:8: units: 'K' is not a unit of temperature; write C or F"]),
    ("menu: Supper", "menu: 12", ['2:7: menu: 12 is a number where words should be; put it in quotes: "12"']),
    ("menu: Supper", 'menu: " "', ["2:7: menu: nothing is written here; write a few words"]),
    # meaning
    ("on: hob", "on: hub", ["12:26: there is no place 'hub' in the kitchen; did you mean 'hob'?"]),
    ("on: hob", "on: {hob: 5}", ["12:32: this takes 5 of hob, which has room for 4"]),
    ("on: hob,", "on: oven, heat: 300 C,", ["12:38: 300 °C is not possible in oven; it goes from 60 °C to 250 °C"]),
    ("        work: 5 min\n", "", ["10:9: 'Chop' does not say how long it is"]),
    ("work: 5 min", "work: all", ["11:15: work needs the step's time beside it"]),
    ("takes: 1 h", "takes: 1 h, after: [chip]", ["12:51: there is no step 'chip' in Stew; did you mean 'Chop'?"]),
    ("work: 5 min", "work: 5 min\n        after: [simmer]", ["12:16: these steps wait for one another"]),
    ("takes: 1 h", "takes: 1 h, within: 1 min, wait: 2 min", ["12:51: within 1 min is less than wait 2 min"]),
    ("takes: 1 h", "takes: 1 h, cues: [{do: Stir}]", ["12:50: 'Stir': says neither every nor at"]),
    ("- dish: Stew", "- dish: Stew\n    course: main", ["9:13: there is no course 'main'; write courses:"]),
    ("dishes:", "table: [stew, soup]\ndishes:", ["7:15: there is no dish 'soup'"]),
    (
        "- dish: Stew",
        "- {dish: stew, steps: [{do: x, work: 1 min}]}\n  - dish: Stew",
        ["9:11: there are two dishes 'Stew'"],
    ),
    # YAML
    ("menu: Supper", "menu: Supper\nmenu: Lunch", ["3:1: the key 'menu' stands here a second time; keep one of them"]),
    ("work: 5 min", "\twork: 5 min", ["11:9: a tab stands here; indent with spaces"]),
    ("menu: Supper", "menu: 'Supper", ["2:7: the quote that opens here is not closed"]),
    ("takes: 1 h}", "takes: 1 h", ["12:9: the '{' that opens here is not closed"]),
    ("menu: Supper", "menu: Supper: late", ["2:13: a second colon stands here; put text with a colon in quotes"]),
    ("        work: 5 min", "       work: 5 min", ["11:8: this line does not line up with those above it"]),
    ("serves: 4", "serves", ["3:1: a key has no colon; write key: value"]),
    ("menu: Supper", "menu: @Supper", ["2:7: a text cannot begin with this character; put it in quotes"]),
    ("menu: Supper", 'menu: "Supper\\q"', ["2:15: a backslash stands before a letter it cannot change"]),
    ("menu: Supper", "menu: !!python/object:os.system Supper", ["2:7: a tag stands here: tag:yaml.org,2002:python"]),
    ("menu: Supper", "menu: !secret Supper", ["2:7: a tag stands here: !secret; take it out; a menu has no tags"]),
    ("menu: Supper", "menu: *supper", ["2:7: '*supper' refers to nothing above it; write the text itself"]),
    ("menu: Supper", 'menu: "Supper\\0"', ["2:7: a control character (U+0000) stands in this text; take it out"]),
    ("menu: Supper", 'menu: "\\ud800"', ["2:7: a control character (U+D800) stands in this text; take it out"]),
    ("menu: Supper", "menu: Sup\x07per", ["2:10: a character that cannot be written in YAML stands here"]),
    ("menu: Supper", "? [a, b]\n: c\nmenu: Supper", ["2:3: a list or a group of keys stands where one key should be"]),
    ("# a comment", "%YAML 3.0\n---", ["1:1: this is another version of YAML; take out the %YAML line"]),
]


@pytest.mark.parametrize(("old", "new", "said"), CASES)
def test_every_fault_says_its_line_and_column(old, new, said):
    assert old in GOOD
    found = faults(GOOD.replace(old, new, 1))
    assert len(found) == len(said), found
    for one, start in zip(found, said, strict=True):
        assert one.startswith(f"m.yaml:{start}"), one


def test_all_faults_come_at_once_in_the_order_written():
    text = GOOD.replace("serves: 4", "serves: four").replace("5 min", "5").replace("on: hob", "on: hib")
    assert [said.split(":")[1] for said in faults(text)] == ["3", "11", "12"]


def test_a_doubled_key_comes_together_with_the_other_faults():
    text = GOOD.replace("serves: 4", "serves: 4\nserves: 5").replace("5 min", "5")
    assert [said.split(":")[1] for said in faults(text)] == ["4", "12"]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n"])
def test_an_empty_file_says_how_to_begin(text):
    assert faults(text)[0].split(": ", 1)[1] in (
        "the file is empty; begin with 'menu: ' and its title",
        "this is not a menu; begin with 'menu: ' and its title, then 'serves:' and 'dishes:'",
    )


def test_a_second_document_is_refused_where_it_begins():
    assert faults(GOOD + "---\nmenu: Lunch\n") == [
        "m.yaml:13:1: a second document begins here; keep one menu to a file: take out the '---'"
    ]


def test_an_alias_stands_for_what_it_names():
    text = GOOD.replace("work: 5 min", "work: &five 5 min").replace("takes: 1 h", "takes: *five")
    assert read_menu(text).menu.steps["Stew/Simmer"].span.high == 300


@pytest.mark.parametrize(
    "bomb",
    [
        # a billion laughs: ten levels of ten
        "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n"
        + "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]\n" for n in range(1, 11)),
        # one long text, named often
        "a: &a " + "x" * 20_000 + "\nb: [" + ", ".join(["*a"] * 100) + "]\n",
    ],
)
def test_an_alias_bomb_is_refused_before_it_grows(bomb):
    assert "this is more than a menu can hold" in faults(bomb)[0]


def test_an_alias_of_itself_is_refused():
    assert faults("a: &a [*a]\n")[0].startswith("m.yaml:1:8: '*a' refers to nothing above it")


@pytest.mark.parametrize(
    "bomb", ["[" * 100_000, "{a: " * 50_000, "- " * 50_000, "? " * 50_000, "a: " + "[[" * 30 + "]]" * 30]
)
def test_a_depth_bomb_is_refused_in_words(bomb):
    (said,) = faults(bomb)
    assert "nested too deep" in said or "a second colon" in said


def test_aliases_cannot_make_it_deeper():
    chain = "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [{'[' * 18}*a{n - 1}{']' * 18}]\n" for n in range(1, 20))
    assert any("nested too deep" in said for said in faults(chain))


def test_a_file_over_a_mebibyte_is_refused(tmp_path: Path):
    path = tmp_path / "m.yaml"
    path.write_text(GOOD + "#" * (1 << 20))
    with pytest.raises(MenuFaults) as told:
        load_menu(path)
    assert told.value.faults[0].said("m").startswith("m:1:1: this file is too large; a menu file is at most 1 MiB")


def test_too_many_dishes_are_refused():
    dishes = "".join(f"  - {{dish: d{n}, steps: [{{do: x, work: 1 min}}]}}\n" for n in range(501))
    assert faults(f"menu: M\nserves: 2\ndishes:\n{dishes}") == [
        "m.yaml:4:3: the menu has 501 dishes; a menu has at most 500: make two of it"
    ]


def test_a_byte_order_mark_and_windows_lines_are_fine(tmp_path: Path):
    path = tmp_path / "m.yaml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert load_menu(path).menu == read_menu(GOOD).menu


@pytest.mark.parametrize(
    ("raw", "place"), [("menu: Café".encode("latin-1"), "1:10"), ("menu: x".encode("utf-16"), "1:1")]
)
def test_what_is_not_utf8_is_refused_where_it_goes_wrong(tmp_path: Path, raw, place):
    path = tmp_path / "m.yaml"
    path.write_bytes(raw)
    with pytest.raises(MenuFaults) as told:
        load_menu(path)
    assert told.value.faults[0].said("m") == f"m:{place}: this is not UTF-8 text; save the file as UTF-8"


def test_no_file_a_folder_and_a_strange_name_are_said(tmp_path: Path):
    for path, said in [
        (tmp_path / "none.yaml", "there is no such file"),
        (tmp_path, "this is a folder"),
        (tmp_path / ("x" * 300), "this file cannot be opened"),
        (Path("a\0b"), "this file cannot be opened"),
    ]:
        with pytest.raises(MenuFaults) as told:
            load_menu(path)
        assert told.value.faults[0].said("m").startswith(f"m:1:1: {said}")


def test_a_pipe_with_nobody_at_the_other_end_is_not_waited_for(tmp_path: Path):
    path = tmp_path / "pipe"
    os.mkfifo(path)
    with pytest.raises(MenuFaults) as told:
        load_menu(path)
    assert told.value.faults[0].wrong == "this is not a file"


def test_warnings_have_positions_too():
    (warning,) = read_menu(GOOD.replace("takes: 1 h", "takes: 10-40 min")).warnings
    assert warning.said("m") == ("m:12:38: warning: 10-40 min is a wide range; a narrower one makes a better plan")
