"""Menu texts patched in place: what was not changed stays to the byte."""

import os
from difflib import unified_diff
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.menu_boxes import shown, typed, typed_over
from timerboard.core.menu_form import DISH, MENU, STEP, Field, Rows, Shape, Tick
from timerboard.core.menu_rows import box_change, rows_of
from timerboard.core.menu_written import Plain, Value, Written, at
from timerboard.desk.editor_ports import EditRefused
from timerboard.shell import menu_patch
from timerboard.shell.menu_document import MenuDocument, MenuOnDisk
from timerboard.shell.menu_file import read_menu
from timerboard.shell.menu_local import locally, section_of
from timerboard.shell.menu_spots import read_spots, spots_of
from timerboard.shell.yaml_tree import read_tree

SAMPLES = sorted((Path(__file__).parents[2] / "sample_menus").glob("*.yaml"))
TEXTS = {path.stem: path.read_bytes().decode() for path in SAMPLES}
DOCUMENT = MenuDocument()

HAND_WRITTEN = """\
# a meal written by hand
menu:   'Sunday'    # single quotes, three spaces
"serves": 4

kitchen: {hands: 1, places: {oven: {room: 2, heat: 60-250 C},   hob: {room: 4}, counter: }}

dishes:
# the main thing
- dish: Stew   # zero indent
  ingredients:
  - "1 kg beef"    # shin
  - 2 onions

  steps:
  - {do: Brown, on: hob, takes: 10 min}   # all on one line
  # this one takes its time
  - do: Simmer
    on: hob
    takes: 2-3 h   # low heat
    note: |
      It is done
      when it is done.

    work: {start: 1 min}

# the side
- dish: Bread
  steps:
  - do: "Bake"
    on: oven
    heat: 230 C
    takes: 30-35 min
"""


def changed_lines(old: str, new: str) -> list[str]:
    """Every line of a diff that is not context."""
    lines = list(unified_diff(old.splitlines(), new.splitlines(), n=0, lineterm=""))[2:]
    return [line for line in lines if not line.startswith("@@")]


def leaves(written: Written, path: tuple = ()):
    """Every single value with its path."""
    if isinstance(written, dict):
        for key, value in written.items():
            yield from leaves(value, (*path, key))
    elif isinstance(written, list):
        for n, value in enumerate(written):
            yield from leaves(value, (*path, n))
    else:
        yield path, written


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_saved_unchanged_is_the_same_to_the_byte(path, tmp_path):
    copy = tmp_path / path.name
    copy.write_bytes(path.read_bytes())
    store = MenuOnDisk(copy)
    text, _ = store.load()
    store.save(text)
    assert copy.read_bytes() == path.read_bytes()


def test_line_ends_and_a_byte_order_mark_are_kept(tmp_path):
    raw = b"\xef\xbb\xbf" + HAND_WRITTEN.replace("\n", "\r\n").encode()
    file = tmp_path / "menu.yaml"
    file.write_bytes(raw)
    store = MenuOnDisk(file)
    text, _ = store.load()
    store.save(text)
    assert file.read_bytes() == raw
    store.save(DOCUMENT.insert(text, ("dishes",), 1, {"dish": "Salad", "steps": [{"do": "Toss", "work": "5 min"}]}))
    added = file.read_bytes()
    assert added.count(b"\n") == added.count(b"\r\n") == raw.count(b"\n") + 5


@pytest.mark.parametrize("name", TEXTS)
def test_any_single_value_changes_one_line(name):
    """Every value of one sample, every third of the others."""
    text = TEXTS[name]
    every = [(path, words) for path, words in leaves(DOCUMENT.read(text).document) if words]
    for path, _ in every if name == "one-burner-weeknight" else every[::3]:
        new = DOCUMENT.set_value(text, path, "something else")
        old_lines, new_lines = text.splitlines(), new.splitlines()
        assert len(old_lines) == len(new_lines), path
        assert sum(one != other for one, other in zip(old_lines, new_lines, strict=True)) == 1, path


@pytest.mark.parametrize("name", TEXTS)
def test_every_box_that_nobody_touched_would_write_what_stands_there(name):
    """A box's line typed again as it is shown leaves the text as it was, for every field of every part."""
    text = TEXTS[name]
    document = DOCUMENT.read(text).document
    written: set[tuple] = set()

    def same(path: tuple, value: Value) -> None:
        kind = (*(part for part in path if isinstance(part, str)), str(value)[:12])
        if kind not in written:  # one of each kind of value in each field is enough
            written.add(kind)
            assert DOCUMENT.set_value(text, path, value) == text, path

    parts = [((), MENU)]
    for d, dish in enumerate(at(document, ("dishes",))):
        parts.append((("dishes", d), DISH))
        parts += [(("dishes", d, "steps", s), STEP) for s, _ in enumerate(at(dish, ("steps",)))]
    for base, sections in parts:
        for field in (part for section in sections for part in section.parts):
            if isinstance(field, Field) and (found := at(document, (*base, *field.at))) is not None:
                same((*base, *field.at), typed_over(field.shape, shown(field.shape, found), found))
            if isinstance(field, Rows):
                for row, lines in enumerate(rows_of(field, document, base)):
                    for column, line in enumerate(lines):
                        what, path, value = box_change(field, document, base, row, column, line)
                        if what == "set" and line:
                            same(path, value)


def test_every_key_of_the_format_has_a_box():
    from timerboard.core import menu_schema as schema

    def keys(sections) -> set[str]:
        found = set()
        for section in sections:
            for part in section.parts:
                found.add(part.at[0])
                if part.at[0] == "kitchen":
                    found.add(part.at[1])
        return found

    def columns(name: str) -> set[str]:
        parts = [part for form in (MENU, DISH, STEP) for section in form for part in section.parts]
        rows = next(part for part in parts if isinstance(part, Rows) and part.at[-1] == name)
        return {column.at[0] for column in rows.columns if column.at}

    def names(model) -> set[str]:
        return {field.alias or name for name, field in model.model_fields.items()}

    assert names(schema.WrittenMenu) - {"dishes"} | {"hands", "closed", "places"} == keys(MENU)
    assert names(schema.WrittenDish) - {"steps"} == keys(DISH)
    assert names(schema.WrittenStep) == keys(STEP)
    assert names(schema.WrittenCue) == columns("cues")
    assert names(schema.WrittenPlace) == columns("places")
    assert names(schema.WrittenCourse) == columns("courses")
    assert names(schema.WrittenHands) == columns("hands")
    assert names(schema.WrittenLink) == columns("after")
    ticks = [part for section in STEP for part in section.parts if isinstance(part, Tick)]
    assert [tick.at for tick in ticks] == [("after",)]


@pytest.mark.parametrize(
    ("path", "value", "lines"),
    [
        (("menu",), "Sunday: lunch", ["-menu:   'Sunday'    # single quotes, three spaces",
                                      "+menu:   'Sunday: lunch'    # single quotes, three spaces"]),
        (("dishes", 0, "steps", 1, "takes"), Plain("4 h"),
         ["-    takes: 2-3 h   # low heat", "+    takes: 4 h   # low heat"]),
        (("dishes", 0, "steps", 0, "takes"), Plain("12 min"),
         ["-  - {do: Brown, on: hob, takes: 10 min}   # all on one line",
          "+  - {do: Brown, on: hob, takes: 12 min}   # all on one line"]),
        (("dishes", 0, "steps", 0, "work"), "all",
         ["-  - {do: Brown, on: hob, takes: 10 min}   # all on one line",
          "+  - {do: Brown, on: hob, takes: 10 min, work: all}   # all on one line"]),
        (("dishes", 0, "ingredients", 1), "3 onions", ["-  - 2 onions", "+  - 3 onions"]),
        (("dishes", 0, "ingredients", 0), "2 kg beef", ['-  - "1 kg beef"    # shin', '+  - "2 kg beef"    # shin']),
        (("dishes", 1, "hold"), Plain("20 min"), ["+  hold: 20 min"]),
        (("dishes", 1, "steps", 0, "until"), "12", ['+    until: "12"']),
        (("dishes", 0, "steps", 1, "until"), "soft, # done", ['+    until: "soft, # done"']),
        (("kitchen", "places", "counter", "room"), Plain("2"),
         ["-kitchen: {hands: 1, places: {oven: {room: 2, heat: 60-250 C},   hob: {room: 4}, counter: }}",
          "+kitchen: {hands: 1, places: {oven: {room: 2, heat: 60-250 C},   hob: {room: 4}, counter: {room: 2} }}"]),
    ],
)  # fmt: skip
def test_one_field_of_a_hand_written_file_changes_one_line(path, value, lines):
    assert changed_lines(HAND_WRITTEN, DOCUMENT.set_value(HAND_WRITTEN, path, value)) == lines


def test_a_note_of_several_lines_gives_way_to_one():
    new = DOCUMENT.set_value(HAND_WRITTEN, ("dishes", 0, "steps", 1, "note"), "Taste it.")
    assert changed_lines(HAND_WRITTEN, new) == [
        "-    note: |", "-      It is done", "-      when it is done.", "+    note: Taste it.",
    ]  # fmt: skip


def test_a_moved_dish_takes_its_comments_along_and_empty_lines_stay():
    new = DOCUMENT.move(HAND_WRITTEN, ("dishes",), 1, 0)
    assert new.index("# the side") < new.index("- dish: Bread") < new.index("\n\n# the main thing\n- dish: Stew")
    assert DOCUMENT.move(new, ("dishes",), 1, 0) == HAND_WRITTEN


def test_a_moved_step_on_one_line_stays_on_one_line():
    new = DOCUMENT.move(HAND_WRITTEN, ("dishes", 0, "steps"), 0, 1)
    assert "  - {do: Brown, on: hob, takes: 10 min}   # all on one line\n\n# the side" in new
    assert DOCUMENT.read(new).menu.dishes[0].steps[1].do == "Brown"


@pytest.mark.parametrize("name", TEXTS)
def test_there_and_back_is_the_same_text(name):
    text = TEXTS[name]
    dishes = len(at(DOCUMENT.read(text).document, ("dishes",)))
    for one in range(0, dishes, 3):
        for other in {0, dishes // 2, dishes - 1}:
            assert DOCUMENT.move(DOCUMENT.move(text, ("dishes",), one, other), ("dishes",), other, one) == text
        new = DOCUMENT.insert(text, ("dishes",), one, {"dish": "Rolls", "steps": [{"do": "Warm", "takes": "5 min"}]})
        assert DOCUMENT.remove(new, ("dishes", one)) == text


def test_the_last_dish_taken_out_leaves_a_list_that_takes_another():
    text = DOCUMENT.remove(DOCUMENT.remove(HAND_WRITTEN, ("dishes", 1)), ("dishes", 0))
    assert at(DOCUMENT.read(text).document, ("dishes",)) == []
    text = DOCUMENT.insert(text, ("dishes",), 0, {"dish": "Soup", "steps": [{"do": "Heat", "takes": Plain("5 min")}]})
    assert DOCUMENT.read(text).menu.dishes[0].name == "Soup"


def test_a_renamed_place_keeps_what_stands_beside_it():
    new = DOCUMENT.rename(HAND_WRITTEN, ("kitchen", "places", "hob"), "rings")
    assert new == HAND_WRITTEN.replace("   hob: {room: 4}", "   rings: {room: 4}")


def test_a_name_that_is_taken_is_refused_in_words():
    with pytest.raises(EditRefused, match="there is a 'hob' already"):
        DOCUMENT.rename(HAND_WRITTEN, ("kitchen", "places", "oven"), "hob")


def test_a_text_that_is_no_yaml_is_refused_and_read_with_its_fault():
    broken = "menu: [Sunday\nserves: 4\n"
    with pytest.raises(EditRefused, match="mend it as text"):
        DOCUMENT.set_value(broken, ("serves",), Plain("5"))
    reading = DOCUMENT.read(broken)
    assert reading.document is None
    assert reading.faults[0].line == 1


def test_what_is_written_through_an_alias_is_refused():
    text = "menu: A\nserves: 2\ndishes:\n  - dish: B\n    steps: &s\n      - {do: x, takes: 5 min}\n"
    text += "  - dish: C\n    steps: *s\n"
    assert at(DOCUMENT.read(text).document, ("dishes", 1, "steps", 0, "do")) == "x"
    with pytest.raises(EditRefused):
        DOCUMENT.set_value(text, ("dishes", 1, "steps", 0, "do"), "y")


WORDS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=24).map(str.strip).filter(bool)


@settings(max_examples=150, deadline=None)
@given(WORDS, st.integers(0, 400), st.booleans())
def test_any_words_in_any_place_are_read_back_and_nothing_else_changes(words, which, quoted):
    every = [path for path, value in leaves(DOCUMENT.read(HAND_WRITTEN).document) if value and path[-1] != "serves"]
    path = every[which % len(every)]
    new = DOCUMENT.set_value(HAND_WRITTEN, path, words if quoted else Plain(words))
    document = DOCUMENT.read(new).document
    assert at(document, path) == words
    others = {p: v for p, v in leaves(document) if p != path}
    assert others == {p: v for p, v in leaves(DOCUMENT.read(HAND_WRITTEN).document) if p != path}
    if quoted and words.isprintable():
        assert at_plain(read_tree(new)[0], path) == words  # words stay words: '12' is no number


def at_plain(document: object, path: tuple) -> object:
    for part in path:
        document = document[part]
    return document


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 9), st.integers(0, 9)), min_size=1, max_size=8))
def test_any_row_of_edits_leaves_a_menu_that_can_be_read(edits):
    """Dishes and steps added, moved, taken out and filled in: the text is read at every point, comments survive."""
    text = TEXTS["one-burner-weeknight"]
    comments = [line for line in text.splitlines() if line.startswith("#")]
    for kind, a, b in edits:
        dishes = at(DOCUMENT.read(text).document, ("dishes",))
        count = len(dishes)
        dish = a % count if count else 0
        match kind:
            case 0:
                text = DOCUMENT.insert(text, ("dishes",), a % (count + 1), {"dish": f"New {a}", "steps": [{"do": "x"}]})
            case 1 if count:
                text = DOCUMENT.remove(text, ("dishes", dish))
            case 2 if count:
                text = DOCUMENT.move(text, ("dishes",), dish, b % count)
            case 3 if count:
                text = DOCUMENT.insert(text, ("dishes", dish, "steps"), b, {"do": "Stir", "work": Plain("1 min")})
            case 4 if count and at(dishes[dish], ("steps",)):
                text = DOCUMENT.remove(text, ("dishes", dish, "steps", b % len(at(dishes[dish], ("steps",)))))
            case 5:
                text = DOCUMENT.set_value(text, ("kitchen", "places", f"shelf {a}", "room"), Plain(str(b + 1)))
        reading = DOCUMENT.read(text)
        assert reading.document is not None
    assert [line for line in text.splitlines() if line.startswith("#")] == comments


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([*TEXTS, "hand written"]), st.integers(0, 999), WORDS, st.sampled_from(["set", "new", "remove"]))
def test_a_change_in_the_lines_of_a_step_is_the_change_in_the_whole_text(name, which, words, kind):
    """And where its parts stand is known without reading it all again."""
    text = TEXTS.get(name, HAND_WRITTEN)
    every = [path for path, value in leaves(DOCUMENT.read(text).document) if value]
    path = every[which % len(every)]
    path = (*path[:-1], "until") if kind == "new" and isinstance(path[-1], str) and "steps" in path else path
    change = menu_patch.remove if kind == "remove" else lambda t, p: menu_patch.set_value(t, p, words)
    try:
        whole = change(text, path)
    except EditRefused:
        assert locally(change, text, path) is None
        return
    made = locally(change, text, path)
    if made is not None:
        assert made == whole
        assert spots_of(made) == read_spots(made)


@pytest.mark.parametrize("name", TEXTS)
def test_every_step_of_a_sample_has_lines_of_its_own(name):
    text = TEXTS[name]
    document = DOCUMENT.read(text).document
    for d, dish in enumerate(at(document, ("dishes",))):
        for s, _ in enumerate(at(dish, ("steps",))):
            path = ("dishes", d, "steps", s, "do")
            section = section_of(text, spots_of(text), path)
            assert section.part == path[:4]
            assert section.end - section.start < 700
        assert locally(lambda t, p: menu_patch.set_value(t, p, "Soup"), text, ("dishes", d, "dish")) is not None
        assert spots_of(text) == read_spots(text)


def test_lists_change_by_their_entries():
    new = DOCUMENT.set_value(HAND_WRITTEN, ("dishes", 0, "ingredients"), ["1 kg beef", "1 carrot", "3 onions"])
    assert '  - "1 kg beef"    # shin\n  - 1 carrot\n  - 3 onions\n' in new


def test_a_file_is_whole_or_as_it_was(tmp_path, monkeypatch):
    file = tmp_path / "menu.yaml"
    store = MenuOnDisk(file)
    store.save(HAND_WRITTEN)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(EditRefused, match="no space left"):
        store.save("menu: other\n")
    monkeypatch.undo()
    assert file.read_text() == HAND_WRITTEN
    assert [p.name for p in tmp_path.iterdir()] == ["menu.yaml"]


def test_rights_of_a_file_stay(tmp_path):
    file = tmp_path / "menu.yaml"
    file.write_text(HAND_WRITTEN)
    file.chmod(0o600)
    MenuOnDisk(file).save(HAND_WRITTEN + "# more\n")
    assert file.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("/dev/zero", "zero is a folder or a device, and no menu file"),
        ("/", "is a folder or a device"),
        ("a" * 300, "cannot be opened (file name too long)"),
        ("\0", "cannot be opened (no file can be called so)"),
    ],
)
def test_what_is_no_file_is_refused_at_once_in_words(name, words):
    with pytest.raises(EditRefused) as told:
        MenuOnDisk(Path(name)).load()
    assert words in told.value.said
    assert len(told.value.said) < 120


def test_a_file_larger_than_a_menu_is_refused(tmp_path):
    file = tmp_path / "menu.yaml"
    file.write_bytes(b"#" * ((1 << 20) + 4))
    with pytest.raises(EditRefused, match="1 MiB is the most"):
        MenuOnDisk(file).load()


def test_shapes_that_boxes_show_are_read_back():
    assert typed(Shape.WORK, "2 min at the start, 3 min at the end") == {"start": Plain("2 min"), "end": Plain("3 min")}
    assert typed(Shape.WORK, "start 2 min") == {"start": Plain("2 min")}
    assert typed(Shape.WORK, "2 min at the") == Plain("2 min at the")
    assert typed(Shape.USES, "hob x2, counter") == {"hob": Plain("2"), "counter": 1}
    assert typed(Shape.USES, "box oven") == "box oven"
    assert typed(Shape.NAMES, "drippings, stock,") == ["drippings", "stock"]
    assert read_menu(
        DOCUMENT.set_value(HAND_WRITTEN, ("dishes", 0, "steps", 0, "on"), typed(Shape.USES, "hob x2"))
    ).menu


def test_a_text_nested_beyond_reason_is_given_up_early():
    reading = DOCUMENT.read("a: " + "[" * 20_000)
    assert reading.document is None
    assert reading.faults
