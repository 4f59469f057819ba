"""A menu for another number of people: amounts as a cook would measure them, and what does not grow in step said.

Spoons, cups and pounds: 3 tsp = 1 tbsp, 16 tbsp = 1 cup, 16 oz = 1 lb (US customary units, NIST Handbook 44, Appendix
C). The steps of rounding are common practice, no source.
"""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from timerboard.core.ingredient import plain, read_number, scale_line
from timerboard.core.menu_written import Plain, at
from timerboard.core.scaling import scaled
from timerboard.shell.menu_document import MenuDocument

SAMPLES = Path(__file__).parents[2] / "sample_menus"
DOCUMENT = MenuDocument()


@pytest.mark.parametrize(
    ("line", "factor", "wanted"),
    [
        ("600 g green beans", "3/2", "900 g green beans"),
        ("600 g green beans", "2", "1.2 kg green beans"),
        ("1.8 kg floury potatoes", "1/3", "600 g floury potatoes"),
        ("7 g yeast", "3/2", "11 g yeast"),
        ("35 g sugar", "3/2", "55 g sugar"),
        ("250 ml water", "1/3", "85 ml water"),
        ("700 ml stock", "2", "1.4 l stock"),
        ("2 l frying oil", "1/8", "250 ml frying oil"),
        ("1 tsp salt", "1/4", "¼ tsp salt"),
        ("1 tsp salt", "1/3", "¼ tsp salt"),
        ("1 tsp salt", "5/3", "1¾ tsp salt"),
        ("1 tsp salt", "3", "1 tbsp salt"),
        ("2 tbsp flour", "3/2", "3 tbsp flour"),
        ("1 tbsp flour", "1/3", "1 tsp flour"),
        ("1 1/2 cups milk", "2", "3 cups milk"),
        ("1 cup milk", "1/8", "2 tbsp milk"),
        ("1½ tsp cumin", "2", "1 tbsp cumin"),
        ("½ lemon", "2", "1 lemon"),
        ("4 eggs", "7/6", "5 eggs"),
        ("3 eggs", "1/2", "2 eggs"),
        ("1 egg", "3", "3 eggs"),
        ("2 eggs", "1/2", "1 egg"),
        ("6 egg yolks", "3/4", "5 egg yolks"),
        ("4 cloves garlic", "5/4", "5 cloves garlic"),
        ("3 onions", "1/2", "1½ onions"),
        ("1 onion", "1/2", "½ onion"),
        ("2-3 onions", "2", "4-6 onions"),
        ("200-250 g flour", "2", "400-500 g flour"),
        ("1 red cabbage, 1 kg", "2", "2 red cabbages, 2 kg"),
        ("4 shanks, 350 g each", "2", "8 shanks, 350 g each"),
        ("2 tins (400 g) tomatoes", "2", "4 tins (400 g) tomatoes"),
        ("0,5 l cream", "2", "1 l cream"),
        ("8 oz butter", "1/2", "4 oz butter"),
        ("2 lb shoulder", "1/4", "8 oz shoulder"),
        ("1 bunch mint", "3/2", "1½ bunches mint"),
        ("12 g salt", "1/24", "1 g salt"),
    ],
)
def test_amounts_are_what_a_cook_would_measure(line, factor, wanted):
    assert scale_line(line, Fraction(factor)).line == wanted


@pytest.mark.parametrize("line", ["salt", "parsley", "oil and vinegar", "a pinch of salt", ""])
def test_a_line_without_an_amount_is_left_alone(line):
    assert scale_line(line, Fraction(2)) is None


def test_how_far_a_rounded_amount_is_off_is_told():
    made = scale_line("4 eggs", Fraction(7, 6))
    assert (made.line, made.exact) == ("5 eggs", "4⅔")
    assert made.off == pytest.approx(5 / (14 / 3) - 1)


NUMBERS = st.one_of(
    st.integers(1, 5000).map(str),
    st.tuples(st.integers(1, 9), st.sampled_from("½¼¾⅓⅔")).map(lambda pair: f"{pair[0]}{pair[1]}"),
    st.integers(1, 999).map(lambda n: f"{n / 10:g}"),
)
UNITS = st.sampled_from(["g", "kg", "ml", "l", "tsp", "tbsp", "cup", "oz", "lb", ""])


@settings(max_examples=200, deadline=None)
@given(NUMBERS, UNITS, st.fractions(Fraction(1, 4), 8, max_denominator=12))
def test_any_amount_can_be_read_again_and_is_near_the_exact_one(number, unit, factor):
    made = scale_line(f"{number} {unit} thing".replace("  ", " "), factor)
    again = scale_line(made.line, Fraction(1))
    assert again is not None
    assert again.line == made.line  # what was rounded once stays as it is
    exact = read_number(number) * factor
    steps = {"g": 10, "ml": 10, "kg": Fraction(1, 40), "l": Fraction(1, 40), "oz": 1, "lb": 1, "": Fraction(1, 2)}
    most = max(float(steps.get(unit, Fraction(1, 2))), 0.26)
    assert abs(made.off) * float(exact) <= most + 1e-9 or abs(made.off) <= 0.25


def test_fractions_are_shown_as_they_are_said():
    assert [plain(Fraction(n)) for n in ("1/2", "3/2", "3", "1/3", "14/3")] == ["½", "1½", "3", "⅓", "4⅔"]


def menu(name: str):
    reading = DOCUMENT.read((SAMPLES / f"{name}.yaml").read_text())
    return reading.document, reading.menu


def test_what_does_not_grow_in_step_is_said():
    said = "\n".join(scaled(*menu("solstice-supper"), 16).said)
    assert "Go by the temperature: roast (leg of lamb)" in said
    assert "Jobs by hand get longer" in said
    assert "Seasoning does not grow in step" in said
    assert "Pans and tins may have to be larger" in said
    assert "No amount is written for salt." in said


def test_food_that_fills_the_oven_twice_is_said():
    text = (
        (SAMPLES / "solstice-supper.yaml")
        .read_text()
        .replace("on: oven\n        heat: 160", "on: {oven: 2}\n        heat: 160")
    )
    reading = DOCUMENT.read(text)
    said = scaled(reading.document, reading.menu, 12).said
    assert any(line.startswith("There may be no room for it at once: roast (leg of lamb)") for line in said)


def test_loads_of_a_pan_grow_and_are_said():
    document, fritters = menu("fritter-night")
    made = scaled(document, fritters, 8)
    path = next(p for p, _ in made.changes if p[-1] == "count")
    assert at(document, path) == "3"
    assert dict(made.changes)[path] == Plain("4")
    assert "fry the courgettes 4 instead of 3" in made.said[0]


def test_fewer_people_get_fewer_of_everything():
    document, supper = menu("solstice-supper")
    made = scaled(document, supper, 4)
    assert dict(made.changes)[("serves",)] == Plain("4")
    assert dict(made.changes)[("dishes", 0, "ingredients", 0)] == "1.1 kg leg of lamb"
    assert not any("room" in line for line in made.said)


def test_as_many_as_before_changes_nothing():
    made = scaled(*menu("solstice-supper"), 8)
    assert made.changes == ()
    assert made.said == ("It serves 8 already.",)


def test_the_scaled_text_passes_the_reader_and_changes_only_what_it_must():
    text = (SAMPLES / "solstice-supper.yaml").read_text()
    new = text
    for path, value in scaled(*menu("solstice-supper"), 12).changes:
        new = DOCUMENT.set_value(new, path, value)
    assert DOCUMENT.read(new).menu.serves == 12
    different = [one for one, other in zip(text.splitlines(), new.splitlines(), strict=True) if one != other]
    assert all("ingredients:" in line or "serves:" in line for line in different)
