"""Any text gives a menu or faults in words, and never anything else."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from timerboard.core.faults import MOST_FAULTS, MenuFaults
from timerboard.shell.menu_file import load_menu, read_menu

SAMPLES = sorted((Path(__file__).parents[2] / "sample_menus").glob("*.yaml"))
TEXTS = [path.read_text(encoding="utf-8") for path in SAMPLES]
PIECES = (
    st.sampled_from(list("\t'\":[]{}|>%?#\n/~\\\r\x85\u2028\ufeff🍲P"))
    | st.sampled_from(
        [
            ": ",
            "- ",
            "&a ",
            "*a",
            "!!x ",
            "---\n",
            "\n\n",
            "null",
            "25",
            "-1",
            "1e9",
            "yes",
            "all",
            "0 min",
            "9999 days",
            "{}",
        ],
    )
    | st.sampled_from(["<<: *a", "steps:", "do:", "after: [x]", "on: oven", "[]", "10-5 min", "99 C"])
)


def read_or_told(text: str) -> None:
    told: tuple[object, ...] = ()
    try:
        read_menu(text)
    except MenuFaults as trouble:
        told = trouble.faults
        assert 0 < len(told) <= MOST_FAULTS
        lines = (
            text.count("\n") + text.count("\r") + text.count("\x85") + text.count("\u2028") + text.count("\u2029") + 2
        )
        for fault in trouble.faults:
            assert fault.wrong
            assert fault.right
            assert 1 <= fault.line <= lines
            assert fault.column >= 1
            assert "Input should" not in fault.wrong


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_every_sample_is_read_without_a_warning(path):
    assert load_menu(path).warnings == ()


def test_there_are_six_samples_or_more_with_a_time_to_eat():
    menus = [read_menu(text).menu for text in TEXTS]
    assert len(menus) >= 6
    assert all(menu.eat_at for menu in menus)


@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_a_sample_with_pieces_changed_is_read_or_told(data):
    lines = data.draw(st.sampled_from(TEXTS)).splitlines(keepends=True)
    first = data.draw(st.integers(0, max(0, len(lines) - 40)))
    text = "".join(lines[:14] + lines[first : first + 40])
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        cut = data.draw(st.integers(0, 12))
        text = text[:at] + data.draw(PIECES) + text[at + cut :]
    read_or_told(text)


@settings(max_examples=150, deadline=None)
@example("\ud800")
@example("a: \ud800")
@example("\x00")
@example("? ? ? a")
@example("- &a\n- *a")
@given(st.text(max_size=60) | st.lists(PIECES, max_size=20).map("".join))
def test_any_text_is_read_or_told(text):
    read_or_told(text)


KEYS = st.sampled_from(
    ["menu", "serves", "eat_at", "units", "kitchen", "hands", "closed", "places", "courses", "table", "dishes", "dish",
     "steps", "do", "on", "takes", "work", "cues", "batches", "after", "start", "count", "oven", "0", ""]
)  # fmt: skip
LEAVES = st.sampled_from(
    [
        "null",
        "1",
        "2.5",
        "true",
        "x",
        "5 min",
        "'5 min'",
        "-5 min",
        "all",
        "180 C",
        "oven",
        "18:30",
        "23:00-07:00",
        "C",
        "''",
    ]
)
FLOW = st.recursive(
    LEAVES,
    lambda inner: (
        st.lists(inner, max_size=3).map(lambda parts: f"[{', '.join(parts)}]")
        | st.dictionaries(KEYS, inner, max_size=4).map(
            lambda d: "{" + ", ".join(f'"{key}": {value}' for key, value in d.items()) + "}"
        )
    ),
    max_leaves=12,
)


@settings(max_examples=80, deadline=None)
@given(st.dictionaries(KEYS, FLOW, max_size=8), FLOW, FLOW)
def test_any_shape_under_any_key_is_read_or_told(document, step, dish):
    text = "".join(f"{key or 'x'}: {value}\n" for key, value in document.items() if key not in ("dishes", "menu"))
    text += f"menu: M\ndishes:\n  - {dish}\n  - dish: D\n"
    text += f"    steps: [{{do: a, takes: {step}, work: {dish}, on: {step}}}, {step}]\n"
    read_or_told(text)
