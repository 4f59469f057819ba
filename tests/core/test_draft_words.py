"""Faults as the editor says them: in the words of its form, not in the keys of the file."""

import pytest

from timerboard.core.draft_words import form_words, menu_words
from timerboard.core.faults import Fault, MenuFaults
from timerboard.shell.menu_file import read_menu

MENU = """menu: Supper
serves: 2
dishes:
  - dish: Soup
    steps:
"""


def faults(steps: str) -> tuple[Fault, ...]:
    with pytest.raises(MenuFaults) as found:
        read_menu(MENU + steps)
    return found.value.faults


@pytest.mark.parametrize(
    ("steps", "said", "told"),
    [
        ("      - {do: '', takes: 5 min}", "still empty; write a few words", "'Do': still empty"),
        ("      - {takes: 5 min}", "'Do' is still empty; write Simmer", "'Do' is still empty"),
        (
            "      - {do: Fry, work: all, batches: {each: 4 min}}",
            "'Or in batches' is still empty; write 4",
            "'Or in batches' is still empty",
        ),
    ],
)
def test_a_fault_names_the_box_and_not_the_key(steps, said, told):
    found = faults(steps)
    assert [form_words(fault) for fault in found] == [said]
    assert menu_words(None, found, ()) == f"1 fault to mend: {told}"


def test_what_is_wrong_with_a_value_is_said_below_its_box_and_with_its_name_elsewhere():
    (found,) = faults("      - {do: Fry, takes: soon}")
    assert "takes: " not in form_words(found)
    assert form_words(found).endswith(found.right)
    assert menu_words(None, (found,), ()).startswith("1 fault to mend: 'Takes': ")


def test_a_fault_without_a_key_is_said_as_it_is():
    fault = Fault(1, 1, "this goes round in a circle", "take one of them out")
    assert form_words(fault) == "this goes round in a circle; take one of them out"
