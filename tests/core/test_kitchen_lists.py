"""Shopping, preparation, the oven card, thawing and the questions before the cook."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.kitchen_lists import kitchen_lists, list_lines
from timerboard.core.menu_questions import questions
from timerboard.core.oven_card import oven_card
from timerboard.core.prep_list import prep_list
from timerboard.core.question import question
from timerboard.core.shopping import read_wanted, shopping
from timerboard.core.thaw import fridge_s, must_thaw, thaw_list, water_s
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import read_menu

ZONE = "Europe/Paris"
EAT_AT = 1_797_871_800  # 2026-12-21 17:30 in Paris is 1797870600; this is 17:50
HEAD = """
menu: Test
serves: 4
kitchen: {places: {oven: {room: 2, heat: 60-250 C, preheat: 20 min}, hob: {room: 4}, fridge: {}, counter: {}}}
"""


def menu_of(dishes, head=HEAD):
    return read_menu(head + "dishes:\n" + dishes).menu


def plan_of(menu):
    plan = first_plan(question(menu, EAT_AT, ZONE))
    assert plan is not None
    return plan


def dishes_with(*ingredients):
    return menu_of(
        "".join(
            f'  - dish: D{n}\n    ingredients: ["{line}"]\n    steps: [{{do: Chop, work: 5 min}}]\n'
            for n, line in enumerate(ingredients)
        )
    )


def bought(*ingredients):
    return [line.words for group in shopping(dishes_with(*ingredients)).groups for line in group.lines]


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (("200 g butter", "50 g butter"), ["250 g butter"]),
        (("800 g flour", "400 g flour"), ["1.2 kg flour"]),
        (("1 kg potatoes", "500 g potatoes"), ["1.5 kg potatoes"]),
        (("1 l stock", "500 ml stock"), ["1.5 l stock"]),
        (("2 tbsp oil", "1 tbsp oil"), ["3 tbsp oil"]),
        (("1 onion", "2 onions, chopped"), ["3 onions"]),
        (("1 tomato", "2 tomatoes"), ["3 tomatoes"]),
        (("2 eggs", "4 eggs", "1 egg"), ["7 eggs"]),
        (("1-2 leeks", "1 leek"), ["3 leeks"]),
        (("salt", "salt"), ["salt"]),
        (("100 g butter", "2 tbsp butter"), ["100 g butter", "2 tbsp butter"]),  # a weight and a spoon do not add up
        (("1 red onion", "1 onion"), ["1 onion", "1 red onion"]),
        (("4 shanks, 350 g each", "2 shanks, 350 g each"), ["4 shanks, 350 g each", "2 shanks, 350 g each"]),
        (("300 ml water", "2 lemons"), ["2 lemons"]),
    ],
)
def test_amounts_of_one_thing_are_added_where_they_can_be(lines, words):
    assert sorted(bought(*lines)) == sorted(words)


def test_a_line_says_which_dishes_it_is_for_and_how_much_each_takes():
    page = shopping(dishes_with("200 g butter", "50 g butter"))
    assert page.groups[0].lines[0].small == "200 g butter: d0; 50 g butter: d1"


def test_meat_comes_first_and_frozen_things_last():
    page = shopping(dishes_with("500 g frozen peas", "2 carrots", "1 kg lamb shoulder"))
    assert [(g.heading, g.lines[0].words) for g in page.groups] == [
        ("Meat, fish and eggs", "1 kg lamb shoulder"),
        ("Everything else", "2 carrots"),
        ("Frozen, last of all", "500 g frozen peas"),
    ]


def test_what_is_needed_and_made_by_no_step_is_bought():
    menu = menu_of("  - dish: Gravy\n    steps: [{do: Warm, on: hob, takes: 5 min, needs: [stock]}]\n")
    (group,) = shopping(menu).groups
    assert [(line.words, line.small) for line in group.lines] == [("Stock", "gravy")]


@given(st.lists(st.tuples(st.integers(1, 5000), st.sampled_from(["g", "kg"])), min_size=1, max_size=6))
@settings(max_examples=40, deadline=None)
def test_the_total_of_weights_is_their_sum_to_within_a_cooks_rounding(weights):
    grams = sum(n * (1000 if unit == "kg" else 1) for n, unit in weights)
    (words,) = bought(*(f"{n} {unit} flour" for n, unit in weights))
    told = read_wanted(words, "")
    assert float(told.base) == pytest.approx(grams, rel=0.06)


@given(st.text(max_size=40))
@settings(max_examples=80, deadline=None)
def test_any_line_can_be_read_and_keeps_its_words(line):
    assert read_wanted(line, "A dish").line == line


# --- preparation -------------------------------------------------------------------------------------------------

LAMB = """  - dish: Leg of lamb
    hold: 30 min
    keep: under foil
    ingredients: ["2.2 kg leg of lamb"]
    steps:
      - {do: Rub, work: 12 min, on: counter, ahead: 2 days, keep: "covered, in the fridge"}
      - {do: Cure, on: fridge, lasts: 20-30 h}
      - {do: Roast, on: oven, heat: 180 C, takes: 80-90 min, work: {start: 2 min, end: 2 min}, pull_at: 56 C}
      - {do: Rest, on: counter, lasts: 20-30 min}
      - {do: Carve, work: 8 min}
  - dish: Beans
    ingredients: ["600 g beans"]
    steps:
      - {do: Trim, work: 6 min, ahead: 4 h}
      - {do: Boil, on: hob, takes: 5 min, work: {start: 1 min, end: 1 min}, until: just tender}
"""


def test_preparation_is_listed_by_day_and_component_without_what_comes_after_the_heat():
    menu = menu_of(LAMB)
    page = prep_list(menu, plan_of(menu), ZONE)
    told = {(group.heading, line.words) for group in page.groups for line in group.lines}
    days = {heading.split(":")[0] for heading, _ in told if "Leg of lamb" in heading}
    assert len(days) == 1
    assert days.pop() in ("Sat", "Sun")  # 2026-12-21 is a Monday
    assert {words for heading, words in told if "lamb" in heading} == {"Rub", "Cure"}
    assert {words for heading, words in told if heading.endswith(": Beans")} == {"Trim"}
    assert all(line.tick for group in page.groups for line in group.lines)
    rub = next(line for group in page.groups for line in group.lines if line.words == "Rub")
    assert rub.small == "12 min, then covered, in the fridge"


# --- the oven card ----------------------------------------------------------------------------------------------


def test_the_oven_card_says_when_it_is_set_what_goes_in_and_when_it_is_turned_off():
    menu = menu_of(LAMB)
    plan = plan_of(menu)
    (group,) = oven_card(menu, plan, ZONE).groups
    assert group.heading == "Oven"
    words = [line.words for line in group.lines]
    assert words == ["Set it to 180 °C", "In: roast the leg of lamb", "Turn it off"]
    (setting,) = plan.settings
    assert group.lines[0].small.startswith("hot by ")
    assert setting.ready - setting.at == 1200  # the whole preheat, from cold
    assert "out about" in group.lines[1].small


# --- thawing ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kilos", "fridge_h", "water_h"),
    [
        # USDA FSIS: fridge 24 h for each 4-5 lb (the slower end here), cold water 30 min for each lb; 1 lb = 0.4536 kg
        (0.45, 24, 0.5),
        (1.814, 24, 2.0),  # 4 lb
        (3.629, 49, 4.5),  # a shade over 8 lb: up to the next hour, and to the next change of water
        (5.443, 72, 6.0),  # just under 12 lb: 3 days, 6 hours
        (9.07, 120, 10.0),  # 20 lb: 5 days, 10 hours
    ],
)
def test_thawing_takes_as_long_as_the_published_rule_at_its_slower_end(kilos, fridge_h, water_h):
    assert fridge_s(kilos) == fridge_h * 3600
    assert water_s(kilos) == water_h * 3600


@pytest.mark.parametrize(("pounds", "least_h", "most_h"), [(4, 24, 72), (14, 72, 96), (18, 96, 120), (22, 120, 144)])
def test_large_birds_thaw_within_the_published_table(pounds, least_h, most_h):
    """USDA FSIS turkey thawing times, refrigerator: 4-12 lb 1-3 days, 12-16 lb 3-4, 16-20 lb 4-5, 20-24 lb 5-6."""
    assert least_h * 3600 <= fridge_s(pounds * 0.4536) <= most_h * 3600


@pytest.mark.parametrize(
    ("line", "thawed"),
    [("2 kg frozen chicken", True), ("500 g frozen prawns", True), ("400 g frozen peas", False),
     ("2 kg chicken", False), ("300 g spinach, defrosted", True)],
)  # fmt: skip
def test_frozen_meat_is_thawed_and_frozen_peas_go_into_the_pot(line, thawed):
    assert must_thaw(line) is thawed


def test_the_thawing_is_counted_back_from_the_first_step_of_the_dish():
    dishes = """  - dish: Chicken
    ingredients: ["2 kg frozen chicken"]
    steps: [{do: Joint, work: 10 min}, {do: Bake, on: oven, heat: 200 C, takes: 50 min, work: 2 min, pull_at: 74 C}]
"""
    menu = menu_of(dishes)
    plan = plan_of(menu)
    (group,) = thaw_list(menu, plan, ZONE).groups
    fridge, water = group.lines
    assert fridge.words == "Into the fridge: 2 kg frozen chicken (chicken)"
    assert fridge.when.split()[0] == "Sun"
    assert fridge.small == "1 day 3 h at the slowest; not before " + fridge.small.rpartition("before ")[2]
    assert water.small == "2 h 30 min, the water changed 4 times; then cook it at once"


# --- questions --------------------------------------------------------------------------------------------------


def asked(dishes, head=HEAD):
    return [q.said for q in questions(menu_of(dishes, head))]


@pytest.mark.parametrize(
    ("dishes", "said"),
    [
        ("  - dish: Soup\n    steps: [{do: Boil bones, on: hob, takes: 2 h, work: 2 min, makes: [stock]}]\n",
         "The stock is made, but nothing uses it: what for?"),
        ("  - dish: Gravy\n    steps: [{do: Stir, work: 2 min, needs: [drippings]}]\n",
         "The drippings are needed, but no step makes them: bought?"),
        ("  - dish: Rolls\n    steps: [{do: Bake, on: oven, heat: 200 C, takes: 20 min, work: 2 min}]\n",
         "No one takes the rolls out of the oven ('Bake'): who does?"),
        ("  - dish: Rolls\n    steps: [{do: Bake, on: oven, heat: 200 C, takes: 20 min, work: {end: 2 min}}]\n",
         "No one puts the rolls into the oven ('Bake'): who does?"),
        ("  - dish: Rolls\n    steps: [{do: Bake, on: oven, takes: 20 min, work: {start: 1 min, end: 1 min}}]\n",
         "How hot is the oven for 'Bake' (rolls)?"),
        ("  - dish: Chicken\n    steps: [{do: Roast, on: oven, heat: 200 C, takes: 1 h, "
         "work: {start: 1 min, end: 1 min}}]\n",
         "How is it known that the chicken is done? 'Roast' has no temperature to pull at."),
        ("  - dish: Leg of lamb\n    steps: [{do: Roast, on: oven, heat: 200 C, takes: 1 h, pull_at: 56 C, "
         "work: {start: 1 min, end: 1 min}}]\n",
         "Does the leg of lamb rest before it is cut? No step says so."),
        ("  - dish: Mash\n    hold: 45 min\n    steps: [{do: Mash, work: 5 min}]\n",
         "How does the mash wait, for up to 45 min? Nothing says how it is kept."),
        ("  - dish: Tart\n    steps: [{do: Bake, on: oven, heat: 180 C, takes: 20-30 min, "
         "work: {start: 1 min, end: 1 min}}]\n",
         "What shows that it is done? No sign is written for tart, 'Bake' (20-30 min)."),
        ('  - dish: Slaw\n    ingredients: [carrots, cabbage, lemon, walnuts]\n'
         '    steps: [{do: Shred carrots and cabbage, work: 5 min, note: Dress with lemon.}]\n',
         "Where does 'walnuts' go in the slaw? No step speaks of it."),
    ],
)  # fmt: skip
def test_what_a_second_cook_would_ask_is_asked(dishes, said):
    assert said in asked(dishes)


def test_a_dish_for_no_table_and_no_other_dish_is_asked_about():
    head = HEAD + "table: [Soup]\n"
    dishes = (
        "  - dish: Soup\n    steps: [{do: Stir, work: 2 min}]\n  - dish: Rolls\n    steps: [{do: Cut, work: 2 min}]\n"
    )
    assert asked(dishes, head) == ["The rolls are cooked, but for no table and no other dish: for whom?"]


def test_a_menu_that_answers_everything_is_asked_nothing():
    assert asked(LAMB) == []


def test_the_lists_are_printed_with_boxes_and_only_when_there_is_something_on_them():
    menu = menu_of(LAMB)
    pages = kitchen_lists(menu, plan_of(menu), ZONE)
    assert [page.title for page in pages] == ["Shopping", "Preparation", "Oven card"]
    lines = list_lines(pages)
    assert lines[0] == "SHOPPING"
    assert "[ ] 2.2 kg leg of lamb (leg of lamb)" in lines
