"""Sentences and clauses of a method."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from timerboard.core.recipe_sentences import MOST_SENTENCE, clauses, sentences, verbs_in


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("Chop the onion. Fry it.", 2),
        ("Add 2 tbsp. oil and stir. Serve!", 2),
        ("Cook for approx. 20 mins. Then rest.", 2),
        ("Heat to 180 C. Bake.", 2),
        ("Use 1.5 kg beef.", 1),
        ("Is it done? Look inside.", 2),
        ("", 0),
    ],
)
def test_a_sentence_ends_at_its_stop_and_not_at_an_abbreviation(text, count):
    assert len(sentences(text)) == count


@pytest.mark.parametrize(
    ("sentence", "parts"),
    [
        ("Roast for 20 minutes, then turn down and roast for 1 hour", 2),
        ("Fry for 5 minutes, stirring, then add the stock and simmer for 20 minutes", 2),
        ("Bake for 20 minutes; rest for 5 minutes", 2),
        ("Bake for 20 minutes for rare and 30 minutes for medium", 1),
        ("Peel, slice and salt the cucumber", 1),
        ("Mix the flour, yeast, salt and water", 1),
        ("Simmer for 20 to 25 minutes and season", 1),
    ],
)
def test_a_sentence_is_parted_where_each_part_has_its_own_time(sentence, parts):
    assert len(clauses(sentence)) == parts


@pytest.mark.parametrize(
    ("clause", "words"),
    [
        ("In a large bowl, whisk the eggs", ["whisk"]),
        ("Cook over a medium heat", ["cook"]),
        ("Bake until golden brown", ["bake"]),
        ("Thicken with flour and butter", ["thicken"]),
        ("Butter the dish", ["butter"]),
        ("Leave to cool", ["cool"]),
        ("Gently fold in the whites", ["fold"]),
        ("The rest of the stock", []),
        ("It tastes better the next day", []),
    ],
)
def test_only_words_that_tell_somebody_to_do_something_are_verbs(clause, words):
    assert [said.word for said in verbs_in(clause)] == words


@given(st.lists(st.sampled_from(["bake", "for", "1", "1/2", "minutes", "and", "then", "until", ","]), max_size=1500))
def test_words_without_end_are_looked_through_in_parts_and_all_kept(words):
    text = " ".join(words)
    parts = sentences(text)
    assert " ".join(parts).split() == text.split()
    assert all(len(part) <= MOST_SENTENCE for part in parts)
