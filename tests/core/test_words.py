"""Grammar of the board's sentences."""

import pytest

from timerboard.core.words import (
    ago_words,
    done_form,
    in_words,
    job_sentence,
    length_words,
    lower_first,
    names,
    plural,
    sentence_list,
    the,
    what_was_done,
)


@pytest.mark.parametrize(
    ("do", "dish", "said"),
    [
        ("Roast", "Pork shoulder", "Roast the pork shoulder"),
        ("Cool on a rack", "Pear frangipane", "Cool the pear frangipane on a rack"),
        ("Bring to the boil", "Gravy", "Bring the gravy to the boil"),
        ("Cook gently", "Leeks", "Cook the leeks gently"),
        ("Peel, cut and boil", "Swede", "Peel, cut and boil the swede"),
        ("Roast", "Roast roots", "Roast the roots"),
        ("Mash", "Mashed potatoes", "Mash the potatoes"),
        ("Season and tray up", "Baked trout", "Season and tray up the baked trout"),
        ("Lay out on a tray", "Bacon", "Lay the bacon out on a tray"),
        ("Take off the heat", "Gravy", "Take the gravy off the heat"),
        ("Whisk over the heat", "Sabayon", "Whisk the sabayon over the heat"),
        ("Toss in the pan", "Green beans", "Toss the green beans in the pan"),
        ("Pour into the glasses", "Plum fool", "Pour the plum fool into the glasses"),
        ("Cut into the thinnest slices", "Cured trout", "Cut the cured trout into the thinnest slices"),
        ("Brown in the oven", "Leg of lamb", "Brown the leg of lamb in the oven"),
        ("Cool in the tea", "Pears in tea", "Cool the pears in the tea"),
        ("Pull apart", "Pulled shoulder", "Pull the shoulder apart"),
    ],
)
def test_a_bare_verb_takes_its_dish(do, dish, said):
    assert job_sentence(do, dish) == (said, True)


@pytest.mark.parametrize(
    "do",
    [
        "Score and salt the skin",
        "Turn the tray",
        "Chop onions",
        "Cook the roux",
        "Take off the chill",
        "Boil down the juices",
        "Lift out the fish",
        "Break in the eggs and cover",
        "Whisk into the yolks and fill the cups",
        "Fold in the cream",
        "Layer and pour over",
        "Pour over the sauce",
    ],
)
def test_a_job_with_its_own_object_keeps_it(do):
    assert job_sentence(do, "Pork shoulder") == (do, False)


@pytest.mark.parametrize(
    ("verb", "done"),
    [
        ("Stir", "stirred"),
        ("Baste", "basted"),
        ("Fry", "fried"),
        ("Turn", "turned"),
        ("Cut", "cut"),
        ("Par-cook", "par-cooked"),
        ("Spray", "sprayed"),
        ("Take", "taken"),
    ],
)
def test_past_participles(verb, done):
    assert done_form(verb) == done


def test_acts_of_the_past():
    assert what_was_done("Stir", "Red cabbage") == "red cabbage stirred"
    assert what_was_done("Turn the tray", "Roast roots") == "tray turned"
    assert what_was_done("Wash and dry", "Salad") == "salad washed and dried"
    assert what_was_done("Move the tray up", "Tart") == "tray moved up"
    assert what_was_done("Take off the lid", "Red cabbage") == "lid taken off"
    assert (
        what_was_done("Break in the eggs and cover", "Tomato sauce")
        == "tomato sauce: break in the eggs and cover, done"
    )
    assert what_was_done("Whisk into the yolks", "Custards") == "custards: whisk into the yolks, done"


def test_plurals():
    assert plural(1, "dish") == "1 dish"
    assert plural(2, "dish") == "2 dishes"
    assert plural(0, "call") == "0 calls"


def test_articles_and_capitals():
    assert the("Pork shoulder") == "the pork shoulder"
    assert the("The good beans") == "the good beans"
    assert lower_first("BBQ ribs") == "BBQ ribs"
    assert lower_first("T-bone") == "T-bone"
    assert the("") == ""


def test_a_sentence_names_its_dish_by_its_last_word_too():
    assert names("Turn the roots", "Roast roots")
    assert not names("Cook the roux", "Gravy")


def test_lists():
    assert sentence_list([]) == ""
    assert sentence_list(["a"]) == "a"
    assert sentence_list(["a", "b", "c"]) == "a, b and c"


def test_how_long_ago_and_how_soon():
    assert ago_words(0, 40_000) == "0:40 ago"
    assert ago_words(0, 3_000) == "now"
    assert ago_words(61_000, 0) == "in 2 min"
    assert ago_words(30_000, 0) == "in 30 s"
    assert ago_words(0, 3_900_000) == "1 h 5 min ago"
    assert in_words(48 * 60_000) == "in 48 min"
    assert in_words(-5 * 60_000 - 1) == "since 5 min"


def test_lengths():
    assert length_words(59_999) == "59 s"
    assert length_words(2 * 3_600_000) == "2 h"
    assert length_words(51 * 3_600_000) == "2 days 3 h"
    assert length_words(-5) == "0 s"
