"""schema.org Recipe data in every form that its properties may have.

Property names and expected types: schema.org/Recipe (recipeIngredient, recipeInstructions, recipeYield, prepTime,
cookTime, totalTime; `ingredients` is superseded by recipeIngredient), schema.org/HowToSection, HowToStep,
HowToDirection (performTime), ItemList (itemListElement), QuantitativeValue (value, unitText), Duration (ISO 8601).
The examples are our own.
"""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.faults import Unreadable
from timerboard.core.menu_written import Plain
from timerboard.core.recipe_dish import dish_of
from timerboard.core.recipe_json import recipes_in
from timerboard.shell.menu_file import read_menu
from timerboard.shell.recipe_file import load_recipes, read_recipes
from timerboard.shell.recipe_writing import menu_text

BASE = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Baked beetroot",
    "recipeIngredient": ["600 g beetroot", "2 tbsp oil"],
    "recipeInstructions": "Wrap the beetroot in foil. Bake at 190C for 50 minutes.",
}


def one(**more):
    (recipe,) = recipes_in({**BASE, **more})
    return recipe


def steps(recipe):
    return dish_of(recipe).dish["steps"]


def takes(step):
    value = step.get("takes", step.get("lasts", step.get("work")))
    return value.text if isinstance(value, Plain) else value


@pytest.mark.parametrize(
    "data",
    [
        BASE,
        [BASE],
        {"@context": "https://schema.org", "@graph": [{"@type": "WebPage", "name": "A page"}, BASE]},
        [{"@type": "BreadcrumbList"}, [{"@graph": [[BASE]]}]],
        {"@type": "WebPage", "mainEntity": BASE},
        {**BASE, "@type": ["Recipe", "NewsArticle"]},
        {**BASE, "@type": "https://schema.org/Recipe"},
        {**BASE, "@type": "http://schema.org/Recipe"},
        {("@type" if key == "@type" else f"schema:{key.lstrip('@')}"): value for key, value in BASE.items()},
        [BASE, {**BASE}],
    ],
)
def test_a_recipe_is_found_wherever_it_lies(data):
    (recipe,) = recipes_in(data)
    assert recipe.title == "Baked beetroot"
    assert recipe.ingredients == ("600 g beetroot", "2 tbsp oil")
    assert [step["do"] for step in steps(recipe)] == ["Wrap the beetroot in foil", "Bake"]


@pytest.mark.parametrize("data", [{}, [], None, 4, "Recipe", {"@type": "Person"}, {"@type": 7}, {"@type": ["Recip"]}])
def test_data_without_a_recipe_gives_none(data):
    assert recipes_in(data) == ()


@pytest.mark.parametrize(
    ("written", "serves", "yields"),
    [
        ("4", 4, ""), (4, 4, ""), (4.0, 4, ""), ("4 servings", 4, ""), ("Serves 4-6", 4, ""), ("4 - 6", 4, ""),
        (["4", "4 servings"], 4, ""), (["8 rolls", "4 people"], 4, ""), ("12 rolls", None, "12 rolls"),
        ("1 loaf (900 g)", None, "1 loaf (900 g)"),
        ({"@type": "QuantitativeValue", "value": 6, "unitText": "servings"}, 6, ""),
        ({"@type": "QuantitativeValue", "value": "24", "unitText": "biscuits"}, None, "24 biscuits"),
        ({"@type": "QuantitativeValue", "minValue": 4, "maxValue": 6}, 4, ""),
        (None, None, ""), ("", None, ""), ("plenty", None, "plenty"), (0, None, ""), ([], None, ""), (True, None, ""),
    ],
)  # fmt: skip
def test_every_form_of_recipe_yield(written, serves, yields):
    recipe = one(recipeYield=written)
    assert (recipe.serves, recipe.yields) == (serves, yields)


@pytest.mark.parametrize(
    ("written", "seconds"),
    [
        ("PT25M", 1500), ("PT1H30M", 5400), ("P0DT1H", 3600), ("P0Y0M0DT0H35M0.000S", 2100), ("PT90M", 5400),
        ("P1DT2H", 93_600), ("pt40m", 2400), ("PT0S", None), ("P0D", None), ("PT", None), ("P1Y", None), ("", None),
        ("45 minutes", 2700), ("1 hour 10 mins", 4200), ({"@type": "Duration", "@value": "PT10M"}, 600),
        ({"@type": "QuantitativeValue", "minValue": "PT20M", "maxValue": "PT30M"}, 1800), (["PT5M"], 300),
        (90, None), (None, None),
    ],
)  # fmt: skip
def test_every_form_of_a_duration(written, seconds):
    assert one(cookTime=written).cooking_s == seconds
    assert one(prepTime=written).hands_s == seconds


def test_the_cooking_time_is_what_the_total_leaves_after_the_preparation():
    assert one(totalTime="PT1H", prepTime="PT15M").cooking_s == 2700


def test_the_cooking_time_goes_to_the_one_step_in_the_heat_that_has_none():
    recipe = one(recipeInstructions="Slice the beetroot. Bake until tender.", cookTime="PT50M", prepTime="PT10M")
    slice_it, bake = steps(recipe)
    assert (takes(slice_it), takes(bake)) == ("10 min", "50 min")


def section(name, *inner):
    return {"@type": "HowToSection", "name": name, "itemListElement": list(inner)}


def step(text, **more):
    return {"@type": "HowToStep", "text": text, **more}


@pytest.mark.parametrize(
    "written",
    [
        "Peel the beetroot. Boil for 40 minutes. Cool for 10 minutes.",
        "Peel the beetroot.\nBoil for 40 minutes.\n\nCool for 10 minutes.",
        "<p>Peel the beetroot.</p><ol><li>Boil for 40&nbsp;minutes.</li><li>Cool for 10 minutes.</li></ol>",
        ["Peel the beetroot.", "Boil for 40 minutes.", "Cool for 10 minutes."],
        [step("Peel the beetroot."), step("Boil for 40 minutes."), step("Cool for 10 minutes.")],
        [step("Peel the beetroot.", name="Peel the beetroot"), step("", name="Boil for 40 minutes"),
         {"@type": "HowToStep", "name": "Cool for 10 minutes."}],
        [step("Peel the beetroot."), "Boil for 40 minutes.", step("Cool for 10 minutes.")],
        [section("", step("Peel the beetroot.")), section("", step("Boil for 40 minutes."),
                                                            step("Cool for 10 minutes."))],
        [step("Peel the beetroot."), section("Then", step("Boil for 40 minutes."), "Cool for 10 minutes.")],
        section("All of it", section("A", step("Peel the beetroot.")), section("B", "Boil for 40 minutes.",
                                                                              "Cool for 10 minutes.")),
        {"@type": "ItemList", "itemListElement": [step("Peel the beetroot."), step("Boil for 40 minutes."),
                                                  step("Cool for 10 minutes.")]},
        {"@type": "ItemList", "itemListElement": [
            {"@type": "ListItem", "position": 1, "item": step("Peel the beetroot.")},
            {"@type": "ListItem", "position": 2, "item": step("Boil for 40 minutes.")},
            {"@type": "ListItem", "position": 3, "item": {"@type": "HowToStep", "text": "Cool for 10 minutes."}}]},
        [{"@type": "HowToStep", "itemListElement": [{"@type": "HowToDirection", "text": "Peel the beetroot."},
                                                   {"@type": "HowToDirection", "text": "Boil for 40 minutes."}]},
         {"@type": "HowToStep", "itemListElement": {"@type": "HowToDirection", "text": "Cool for 10 minutes."}}],
        [{"@type": "CreativeWork", "text": "Peel the beetroot. Boil for 40 minutes. Cool for 10 minutes."}],
    ],
)  # fmt: skip
def test_every_form_of_recipe_instructions_gives_the_same_steps(written):
    found = steps(one(recipeInstructions=written))
    assert [(s["do"].split()[0], takes(s)) for s in found] == [
        ("Peel", "5-8 min"),
        ("Boil", "40 min"),
        ("Cool", "10 min"),
    ]


def test_a_sections_name_and_a_tip_stay_as_notes():
    tip = {"@type": "HowToTip", "text": "Wear gloves: it stains."}
    (first,) = steps(one(recipeInstructions=[section("For the salad", step("Slice the beetroot."), tip)]))
    assert first["note"] == "For the salad. Slice the beetroot. Wear gloves: it stains." or first["note"].endswith(
        "For the salad. Slice the beetroot. Wear gloves: it stains."
    )


def test_perform_time_counts_where_the_words_give_no_time():
    found = steps(
        one(recipeInstructions=[{"@type": "HowToDirection", "text": "Simmer gently.", "performTime": "PT35M"}])
    )
    assert takes(found[0]) == "35 min"
    found = steps(one(recipeInstructions=[step("Simmer for 20 minutes.", performTime="PT35M")]))
    assert takes(found[0]) == "20 min"


@pytest.mark.parametrize(
    "more",
    [
        {"recipeIngredient": "600 g beetroot\n2 tbsp oil"},
        {"recipeIngredient": None, "ingredients": ["600 g beetroot", "2 tbsp oil"]},
        {"recipeIngredient": ["600&nbsp;g beetroot", " 2 tbsp <b>oil</b> "]},
        {"recipeIngredient": [{"@type": "PropertyValue", "name": "600 g beetroot"}, "2 tbsp oil"]},
    ],
)
def test_every_form_of_ingredients(more):
    assert one(**more).ingredients == ("600 g beetroot", "2 tbsp oil")


def test_what_is_neither_step_nor_ingredient_is_kept_as_a_note():
    more = {"description": "A dish of our grandmother's.", "recipeYield": "12 rolls", "totalTime": "PT2H"}
    found = dish_of(one(**more))
    notes = " ".join(step["note"] for step in found.dish["steps"])
    assert all(words in notes for words in ("A dish of our grandmother's.", "12 rolls", "PT2H"))
    assert found.serves_guess == "the recipe says 12 rolls"


PAGE = """<!doctype html><html><head><title>A page</title>
<script>var a = "<script type='application/ld+json'>";</script>
<script type="application/ld+json">{"@type": "WebSite"}</script>
<script type="application/ld+json">{ this is broken</script>
<SCRIPT TYPE="application/ld+json; charset=utf-8">%s</SCRIPT>
</head><body><p>Words &amp; more</p></body></html>"""


def test_a_saved_page_gives_its_recipe(tmp_path):
    path = tmp_path / "page.html"
    path.write_text(PAGE % json.dumps(BASE), encoding="utf-8")
    (recipe,) = load_recipes(path)
    assert recipe.title == "Baked beetroot"


def test_a_page_without_data_is_read_as_text():
    page = (
        "<html><body><h1>Peas</h1><p>Serves 2</p><ul><li>200 g peas</li></ul><p>Boil the peas for 4 minutes.</p></body>"
    )
    (recipe,) = read_recipes(page)
    assert (recipe.title, recipe.serves, recipe.ingredients) == ("Peas", 2, ("200 g peas",))
    assert takes(steps(recipe)[0]) == "4 min"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_files_in_old_encodings_are_read(tmp_path, encoding):
    path = tmp_path / "x.txt"
    path.write_bytes("Crème\n\nMethod\nBake at 180°C for 20 minutes.".encode(encoding))
    (recipe,) = load_recipes(path)
    assert recipe.title == "Crème"
    assert steps(recipe)[0]["heat"] == Plain("180 C")


@pytest.mark.parametrize("text", ["", "  \n", "{}", '{"@type": "Person"}', "<html></html>", "[1, 2]", "x" * 300_000])
def test_a_file_without_a_recipe_is_refused_in_words(text):
    with pytest.raises(Unreadable) as refused:
        read_recipes(text)
    assert refused.value.wrong
    assert refused.value.right


SCRAP = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=True) | st.text(max_size=12)
    | st.sampled_from(["PT20M", "4 servings", "Bake for 20 minutes.", "HowToStep", "HowToSection", "Recipe", "<p>"]),
    lambda inner: st.lists(inner, max_size=4)
    | st.dictionaries(st.sampled_from(["@type", "text", "name", "itemListElement", "value"]), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


@given(st.dictionaries(st.sampled_from([*BASE, "recipeYield", "cookTime", "prepTime", "description", "tool"]), SCRAP))
@settings(max_examples=120, deadline=None)
def test_damaged_data_never_raises_and_always_gives_a_readable_menu(scrap):
    recipes = recipes_in({**scrap, "@type": "Recipe"})
    assert len(recipes) == 1
    read_menu(menu_text((dish_of(recipes[0]),)))
