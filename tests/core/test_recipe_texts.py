"""Recipes in many styles, written for these tests: what must be found in each, and that no word of any is lost."""

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.menu_written import Plain
from timerboard.core.question import question
from timerboard.core.recipe_dish import dish_of
from timerboard.core.recipe_lines import label_of
from timerboard.core.recipe_text import read_recipe_text
from timerboard.planner.greedy import first_plan
from timerboard.shell.menu_file import read_menu
from timerboard.shell.recipe_writing import menu_text

FOLDER = Path(__file__).parent / "recipes"
TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.txt"))}

# recipe: (serves, ingredients, [(beginning of `do`, what the step must say)])
FACTS = {
    "leg-of-lamb": (6, 3, [
        ("Take the lamb out", {"on": "counter", "lasts": "1 h"}),
        ("Roast", {"on": "oven", "heat": "220 C", "takes": "20 min"}),
        ("Roast again", {"heat": "180 C", "takes": "1 h 20 min", "pull_at": "60 C"}),
        ("Roast again", {"cue": ("Baste", "every", "20 min")}),
        ("Boil the potatoes", {"on": "hob", "takes": "8-10 min", "after": ["Roast"]}),
        ("Rest the lamb", {"lasts": "30 min-1 h", "after": ["Roast again", "Drain and shake in the pan to roughen"]}),
    ]),
    "tomato-soup": (4, 4, [
        ("Roast", {"on": "oven", "heat": "200 C", "takes": "40-45 min", "until": "soft and charred at the edges"}),
        ("Tip into a pan", {"on": "hob", "takes": "10 min"}),
        ("Blend", {"until": "smooth", "work": "3-5 min"}),
    ]),
    "soda-bread": (None, 4, [
        ("Bake", {"heat": "200 C", "takes": "35-40 min", "until": "it sounds hollow when tapped underneath"}),
        ("Cool on a wire rack", {"on": "counter", "lasts": "30 min-1 h"}),
    ]),
    "beef-stew": (None, 5, [
        ("Brown the beef in two batches", {"on": "hob", "work": "all"}),
        ("Cover and simmer gently", {"takes": "2 h 30 min", "cue": ("Stir", "every", "30 min")}),
        ("Leave to stand", {"lasts": "10 min"}),
    ]),
    "overnight-oats": (2, 3, [("Chill", {"on": "fridge", "lasts": "8-16 h"})]),
    "roast-chicken": (4, 3, [
        ("Roast", {"heat": "425 F", "takes": "1 h 15 min", "pull_at": "165 F"}),
        ("Rest", {"lasts": "15 min"}),
    ]),
    "beef-by-weight": (6, 2, [
        ("Roast", {"heat": "240 C", "takes": "20 min"}),
        ("Roast again", {"heat": "190 C", "takes": "1 h-1 h 6 min"}),  # 2 kg at 15 min for 500 g
        ("Rest under foil", {"lasts": "30 min"}),
    ]),
    "risotto": (4, 3, [
        ("Fry the onion", {"on": "hob", "takes": "5 min", "work": "all"}),
        ("Stir in the rice", {"takes": "2 min", "work": "all"}),
        ("Add the stock", {"takes": "18-20 min", "until": "the rice is just tender"}),
        ("Rest off the heat", {"lasts": "2 min"}),
    ]),
    "lasagne": (6, 5, [
        ("Bake", {"heat": "190 C", "takes": "40-50 min", "until": "bubbling"}),
        ("Leave to settle", {"lasts": "10 min"}),
    ]),
    "pizza-dough": (None, 4, [
        ("Knead", {"work": "10 min"}),
        ("Cover and leave to rise", {"lasts": "1 h 30 min", "until": "doubled in size"}),
        ("Divide into four balls", {"lasts": "30 min"}),
        ("Bake each pizza", {"heat": "250 C", "takes": "6-8 min"}),
    ]),
    "pulled-pork": (None, 2, [
        ("Rub the pork", {"on": "fridge", "lasts": "8-16 h"}),
        ("Smoke", {"on": "smoker", "takes": "10-12 h", "pull_at": "95 C", "cue": ("Spritz", "every", "45 min")}),
        ("Wrap in paper", {"lasts": "2 h"}),
    ]),
    "rice": (4, 2, [
        ("Rinse the rice", {"until": "the water runs clear"}),
        ("Soak", {"lasts": "20 min"}),
        ("Cover and simmer", {"takes": "10 min"}),
        ("Take off the heat and stand", {"lasts": "10 min"}),
    ]),
    "fritters": (None, 4, [
        ("Heat the oil", {"heat": "180 C", "hazard": "hot oil"}),
        ("Deep-fry spoonfuls", {"heat": "180 C", "hazard": "hot oil", "until": "golden", "work": "all"}),
    ]),
    "chocolate-pots": (6, 3, [
        ("Heat the cream", {"on": "hob", "until": "just below the boil"}),
        ("Stir", {"until": "smooth"}),
        ("Pour into six pots", {"on": "fridge", "lasts": "2-4 h"}),
    ]),
    "gratin": (None, 3, [
        ("Cover with foil", {"heat": "160 C", "takes": "1 h"}),
        ("Uncover and bake", {"heat": "160 C", "takes": "30-35 min", "until": "golden and a knife slides in"}),
        ("Stand", {"lasts": "10 min"}),
    ]),
    "braised-cabbage": (8, 3, [
        ("Cover and cook", {"on": "hob", "takes": "1 h 30 min", "cue": ("Stir", "every", "5 min")}),
    ]),
    "dal": (None, 3, [
        ("Soak", {"lasts": "30 min"}),
        ("Simmer with the turmeric", {"takes": "25-30 min", "until": "collapsing"}),
        ("Slice the garlic", {"after": ["Drain"]}),
        ("Pour the garlic", {"after": ["Simmer with the turmeric and 1 litre water", "Fry the garlic in ghee"]}),
    ]),
    "yorkshire-style-puddings": (None, 3, [
        ("Rest the batter", {"lasts": "30 min"}),
        ("Pour in the batter", {"heat": "230 C", "takes": "20-25 min", "shut": "20 min"}),
    ]),
    "salmon": (4, 2, [("Bake", {"heat": "400 F", "takes": "12-15 min", "pull_at": "145 F"})]),
    "steak": (None, 2, [
        ("Take the steaks out", {"lasts": "30 min"}),
        ("Fry the steaks", {"takes": "4-6 min", "work": "all"}),
        ("Rest on a warm plate", {"lasts": "5 min"}),
    ]),
    "christmas-cake": (None, 5, [
        ("Soak the fruit", {"lasts": "8-16 h"}),
        ("Cream the butter", {"work": "5 min"}),
        ("Bake", {"heat": "150 C", "takes": "3 h 30 min-4 h", "cue": ("Cover with foil", "at", "2 h")}),
        ("Cool in the tin", {"lasts": "1 h"}),
    ]),
    "kedgeree": (4, 3, [
        ("Cook the rice", {"takes": "12 min", "after": []}),
        ("Boil the eggs", {"takes": "8 min"}),
        ("Warm through", {"takes": "2-3 min"}),
    ]),
    "ice-cream": (None, 3, [
        ("Whip the cream", {"work": "4 min", "until": "thick"}),
        ("Freeze", {"on": "freezer", "lasts": "6-16 h"}),
        ("Take out", {"lasts": "10 min"}),
    ]),
    "stock": (None, 3, [("Simmer very gently", {"takes": "3-4 h", "cue": ("Skim", "every", "20 min")})]),
    "ratatouille": (None, 4, [("Roast", {"heat": "210 C", "takes": "45 min", "cue": ("Turn", "at", "halfway")})]),
    "meringue": (None, 2, [
        ("Bake", {"heat": "120 C", "takes": "1 h 15 min"}),
        ("Turn off the oven", {"on": "counter", "lasts": "2-3 h"}),
    ]),
    "curry-paste": (4, 6, [
        ("Fry the paste", {"takes": "3-5 min", "until": "fragrant"}),
        ("Add the coconut milk", {"takes": "5 min"}),
        ("Add the chicken", {"takes": "12 min", "pull_at": "74 C"}),
    ]),
    "baked-beans": (None, 2, [
        ("Soak the beans", {"lasts": "12 h-1 day"}),
        ("Drain, cover with fresh water", {"on": "hob", "takes": "10 min"}),
        ("Simmer", {"takes": "1 h"}),
        ("Cover and bake", {"on": "oven", "heat": "150 C", "takes": "4-5 h"}),
        ("Cover and bake", {"cue": ("Top up with water", "every", "1 h")}),
    ]),
    "jam": (None, 3, [("Boil rapidly", {"takes": "8-10 min", "pull_at": "105 C"})]),
    "fish-pie": (5, 3, [
        ("Poach the fish", {"takes": "6 min", "after": []}),
        ("Bake", {"heat": "200 C", "takes": "35 min"}),
    ]),
    "pickle": (None, 4, [("Pour over the onions", {"lasts": "30 min"})]),
    "focaccia": (None, 2, [
        ("Cover and rest", {"lasts": "15 min"}),
        ("Tip into an oiled tin", {"lasts": "45 min-1 h"}),
        ("Bake", {"heat": "220 C", "takes": "20-25 min"}),
    ]),
    "slow-cooker": (6, 3, [("Cook on low", {"on": "slow cooker", "takes": "6-8 h"})]),
    "crumble": (None, 4, [("Bake", {"heat": "180 C", "takes": "45 min"})]),
    "noodle-salad": (None, 3, [
        ("Boil the noodles", {"takes": "4 min"}),
        ("Toss together", {"on": "fridge", "lasts": "1 h"}),
    ]),
    "goulash": (4, 3, [
        ("Soften the onions", {"takes": "15 min"}),
        ("Simmer, partly covered", {"takes": "1 h 45 min-2 h", "cue": ("Add the potatoes", "at", "1 h 25 min")}),
    ]),
    "tart": (None, 4, [
        ("Line the pastry", {"heat": "200 C", "takes": "15 min"}),
        ("Remove the paper", {"takes": "5 min"}),
        ("Sweat the leeks", {"takes": "12 min", "after": ["Line the pastry with paper and beans and bake blind"]}),
        ("Bake", {"heat": "180 C", "takes": "25-30 min", "until": "just set"}),
    ]),
    "duck": (None, 1, [
        ("Season the duck legs", {"on": "fridge", "lasts": "16 h-1 day"}),
        ("Put in a cold oven", {"heat": "160 C", "takes": "1 h 30 min-2 h", "cue": ("Baste", "every", "30 min")}),
        ("Cook", {"heat": "220 C", "takes": "15 min"}),
    ]),
    "prose": (None, 0, [
        ("Let it boil", {"on": "hob", "takes": "1 h"}),
        ("Chop a few carrots", {"takes": "20 min"}),
    ]),
    "wrapped-lines": (None, 3, [
        ("Bring together with a little water", {"on": "counter"}),
        ("Wrap and chill", {"on": "fridge", "lasts": "20 min"}),
        ("Bake", {"heat": "190 C", "takes": "12-15 min", "cue": ("Swap the trays", "at", "halfway"), "until": "crisp"}),
    ]),
    "no-title-structure": (None, 0, [("Poach", {"on": "hob", "takes": "3 min"})]),
    "microwave": (1, 3, [("Microwave on high", {"on": "microwave", "takes": "1 min 30 s"})]),
    "gammon": (None, 2, [
        ("Put in a pan of cold water", {"takes": "1 h 40 min-1 h 50 min"}),  # 1.8 kg at 20 min for 450 g, and 20 min
        ("Score the fat", {"heat": "200 C", "takes": "25 min", "cue": ("Brush with more honey", "at", "15 min")}),
    ]),
    "ferment": (None, 2, [
        ("Massage with the salt", {"work": "10 min"}),
        ("Pack into a jar", {"lasts": "5-7 days", "cue": ("Press down", "every", "1 day")}),
    ]),
    "moussaka": (6, 7, [
        ("Brush the aubergine", {"on": "oven", "heat": "200 C", "takes": "20 min"}),
        ("Add the onions", {"on": "hob", "takes": "10 min", "until": "softened"}),
        ("Stir in the tomatoes", {"takes": "30 min", "after": ["Brush the aubergine slices with oil and bake",
                                                              "Add the mince and cook"]}),
        ("Bake", {"heat": "200 C", "takes": "45 min", "until": "golden"}),
        ("Allow to stand", {"lasts": "15 min"}),
    ]),
    "cinnamon-rolls": (None, 3, [
        ("Mix on low speed", {"work": "10 min"}),  # 2 minutes on low, then 8 on medium
        ("Cover with plastic wrap", {"lasts": "1 h-1 h 30 min", "until": "doubled"}),
        ("Bake", {"heat": "375 F", "takes": "20-25 min", "pull_at": "190 F"}),
        ("Cool", {"lasts": "10 min"}),
    ]),
    "fish-cakes": (None, 0, [
        ("Chill", {"on": "fridge", "lasts": "30 min-1 h 30 min"}),
        ("Fry the cakes in 4 batches", {"heat": "175 C", "hazard": "hot oil", "until": "puffed & golden"}),
    ]),
    "sour-beef": (None, 2, [
        ("Cover and refrigerate", {"on": "fridge", "lasts": "3-5 days", "cue": ("Turn the meat", "every", "12 h")}),
        ("Brown on all sides", {"on": "hob", "takes": "15 min"}),
        ("Cover and braise", {"on": "oven", "heat": "160 C", "takes": "3 h", "cue": ("Check", "every", "1 h")}),
        ("Strain the sauce", {"until": "reduced by half"}),
    ]),
    "skewers": (4, 3, [
        ("Add chicken", {"on": "fridge", "lasts": "4-6 h"}),
        ("Grill", {"on": "grill", "takes": "12-16 min", "pull_at": "74 C"}),
    ]),
    "tomatoes-on-toast": (None, 3, [
        ("Into the oven", {"heat": "120 C", "takes": "2 h", "cue": ("Add the beans to the tray", "at", "1 h 30 min")}),
        ("Toast the bread", {"on": "grill", "takes": "6 min"}),
    ]),
    "numbered-words": (None, 0, [("Turn up the heat", {"takes": "3 min"})]),
}  # fmt: skip


def taken(name):
    return dish_of(read_recipe_text(TEXTS[name]))


def plain(value):
    return value.text if isinstance(value, Plain) else value


def words(text):
    return " ".join(re.findall(r"[^\W_]+", text.casefold()))


def haystack(dish):
    """Every word that the dish kept, in order, without marks."""
    parts = [dish["dish"], *dish.get("ingredients", []), *(step.get("note", "") for step in dish["steps"])]
    return " \n ".join(words(part) for part in parts)


def test_there_are_at_least_forty_recipes_and_each_has_its_facts():
    assert set(FACTS) == set(TEXTS)
    assert len(TEXTS) >= 40


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_what_a_recipe_says_stands_in_its_steps(name):
    serves, ingredients, facts = FACTS[name]
    found = taken(name)
    if serves is None:
        assert found.serves_guess
    else:
        assert (found.serves, found.serves_guess) == (serves, "")
    assert len(found.dish.get("ingredients", [])) == ingredients
    for begins, said in facts:
        step = next((s for s in found.dish["steps"] if s["do"] == begins), None)
        step = step or next(s for s in found.dish["steps"] if s["do"].startswith(begins))
        for key, value in said.items():
            if key == "cue":
                do, when, length = value
                cues = {cue["do"]: plain(cue.get(when)) for cue in step.get("cues", [])}
                assert cues.get(do) == length, (step["do"], cues)
            else:
                assert plain(step.get(key)) == value, (step["do"], key)


LABELS = ("ingredients", "method", "directions", "instructions", "preparation", "what you need", "what to do",
          "you will need", "you ll need", "here s how", "step")  # fmt: skip


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_no_sentence_of_a_recipe_is_lost(name):
    kept = haystack(taken(name).dish)
    for written in TEXTS[name].splitlines():
        line = re.sub(r"^\W*(?:\d+ ?[.)–-]\W*|\d+ (?=[A-Z])|[a-d]\) ?)?", "", written)
        for sentence in re.split(r"(?<=[.!?])\s+", re.sub(r"^(?:ingredients?|method):? ", "", line, flags=re.I)):
            said = words(sentence)
            if said and not said.startswith(LABELS):
                assert _kept(said, kept), sentence


def _kept(said, kept):
    """In one piece, or (a title with its yield, a list on one line) in pieces that follow the line's own marks."""
    return said in kept or said in kept.replace(" \n ", " ") or all(word in kept.split() for word in said.split())


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_the_menu_of_a_recipe_is_read_without_faults_and_its_guesses_are_marked(name):
    found = taken(name)
    text = menu_text((found,))
    menu = read_menu(text).menu
    assert [step.do for step in menu.dishes[0].steps] == [step["do"] for step in found.dish["steps"]]
    assert text.count("# guessed:") >= 1
    for guess in found.guesses:
        assert guess.said in text


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_an_imported_recipe_can_be_planned_as_it_is_and_nothing_is_to_be_warned_about(name):
    loaded = read_menu(menu_text((taken(name),)))
    assert [w.wrong for w in loaded.warnings] == []
    assert first_plan(question(loaded.menu, 1_797_870_600, "Europe/Paris")) is not None


def test_a_guess_is_marked_on_the_line_that_holds_it():
    text = menu_text((taken("steak"),))
    line = next(line for line in text.splitlines() if "serves:" in line)
    assert line == "serves: 4  # guessed: the recipe does not say"
    heat = next(line for line in text.splitlines() if "takes: 5-8 min" in line)
    assert heat.endswith("# guessed: the recipe gives no time")


ALPHABET = st.sampled_from(
    ["\n", "\n\n", "1. ", "- ", "Bake ", "for ", "20 ", "minutes", " until ", "golden", ". ", "½", " hour", "180C", "/",
     "Meanwhile", ", ", "every ", "overnight", ":", "Ingredients", "Method:", "#", "{", "}", "'", '"', "\t", "a", "°",
     "at least ", "before ", "chill ", "2 kg", " per ", "g", "then ", "after ", "Serves ", "0", "99999999999", "\x00",
     "\ud800", "\u2028", "\x85", "é", "…", "to ", "do not open ", "gas mark ", "in batches", "|", ">", "&", "*", "!"]
)  # fmt: skip


@given(st.lists(ALPHABET, max_size=40).map("".join) | st.text(max_size=60))
@settings(max_examples=120, deadline=None)
def test_any_text_gives_a_menu_that_can_be_read(text):
    menu = read_menu(menu_text((dish_of(read_recipe_text(text)),))).menu
    assert menu.dishes[0].steps


NO_WORDS = {"step", "stage", "one", "two", "three"}


@given(st.data())
@settings(max_examples=60, deadline=None)
def test_recipes_with_lines_shuffled_and_lost_still_give_a_menu_and_keep_every_word(data):
    lines = TEXTS[data.draw(st.sampled_from(sorted(TEXTS)))].splitlines()
    lines = data.draw(st.permutations(lines))[: data.draw(st.integers(0, len(lines)))]
    dish = dish_of(read_recipe_text("\n".join(lines)))
    read_menu(menu_text((dish,)))
    kept = set(haystack(dish.dish).split()) | NO_WORDS
    told = {word for line in lines if not label_of(line) for word in words(line).split() if len(word) > 2}
    assert told - kept == set()


@given(st.lists(st.sampled_from(["Roast the beets at 190C for 20 to 25 minutes.", "Rest for 5 min!", "It is good.",
                                 "Meanwhile, boil the peas for 3 mins.", "Stir in 2 tbsp of oil.", "Serve.",
                                 "Do not stir.", "Turn after 10 minutes.", "Chill overnight; whisk, then serve."]),
                min_size=1, max_size=12))  # fmt: skip
@settings(max_examples=80, deadline=None)
def test_every_sentence_of_a_method_is_in_a_note_as_it_was_written(said):
    dish = dish_of(read_recipe_text("Beets\n\nMethod\n" + " ".join(said))).dish
    notes = "\n".join(step.get("note", "") for step in dish["steps"])
    assert all(sentence in notes for sentence in said)
