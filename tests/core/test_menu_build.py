"""From the written form to a menu: names, links, lengths, and what cannot be."""

import pytest

from timerboard.core.faults import MenuFaults, Positions
from timerboard.core.menu import Batches, Closed, Course, Cue, HandsFrom, Heat, Link, Place, Use, Work
from timerboard.core.menu_build import build_menu
from timerboard.core.values import Span

NOWHERE = Positions({(): (1, 1)}, {})


def document(*dishes, **more):
    return {"menu": "Supper", "serves": 4, "dishes": list(dishes), **more}


def dish(name, *steps, **more):
    return {"dish": name, "steps": list(steps), **more}


def built(*steps, **more):
    """The first dish's steps."""
    return build_menu(document(dish("Stew", *steps), **more), NOWHERE).dishes[0].steps


def told(*dishes, **more):
    with pytest.raises(MenuFaults) as faults:
        build_menu(document(*dishes, **more), NOWHERE)
    return [fault.said("m")[7:] for fault in faults.value.faults]


PLACES = {"kitchen": {"places": {"Oven": {"room": 2, "heat": "60-250 C"}, "hob": {"room": 4}, "counter": None}}}


def test_work_alone_is_a_hands_on_step_of_that_length():
    (step,) = built({"do": "Chop", "work": "10-16 min"})
    assert (step.span, step.work) == (Span(low=600, likely=840, high=960), Work(throughout=True))


def test_takes_alone_is_unattended():
    (step,) = built({"do": "Simmer", "takes": "20 min"})
    assert (step.span, step.work, step.elastic) == (Span.of(1200), Work(), False)


def test_work_beside_takes_is_at_the_start_or_at_both_ends():
    plain, ends = built(
        {"do": "Roast", "takes": "20 min", "work": "2 min"},
        {"do": "Rest", "lasts": "20 min", "work": {"start": "1 min", "end": "3 min"}},
    )
    assert plain.work == Work(start_s=120)
    assert (ends.work, ends.elastic) == (Work(start_s=60, end_s=180), True)


def test_work_all_is_hands_throughout():
    (step,) = built({"do": "Stir", "takes": "5 min", "work": "all"})
    assert step.work == Work(throughout=True)


def test_batches_follow_one_another_with_recovery_between_but_not_after():
    # 4 x (4 to 5 min) + 3 x (1 to 2 min): 19 min low, 26 min high
    (step,) = built({"do": "Fry", "work": "all", "batches": {"count": 4, "each": "4-5 min", "recover": "1-2 min"}})
    assert (step.span.low, step.span.high) == (19 * 60, 26 * 60)
    assert step.batches == Batches(
        count=4, each=Span(low=240, likely=280, high=300), recover=Span(low=60, likely=100, high=120)
    )


def test_steps_follow_in_the_order_written():
    one, two = built(
        {"do": "Chop", "work": "5 min"}, {"do": "Fry", "work": "5 min", "wait": "1 min", "within": "9 min"}
    )
    assert one.links == ()
    assert two.links == (Link(step="Stew/Chop", wait_s=60, within_s=540),)


def test_after_replaces_the_order():
    *_, last, free = built(
        {"do": "Chop", "work": "5 min"},
        {"do": "Boil", "work": "5 min", "id": "water"},
        {
            "do": "Join",
            "work": "5 min",
            "wait": "1 min",
            "after": ["CHOP", {"step": "stew / water", "within": "2 min"}],
        },
        {"do": "Free", "work": "5 min", "after": []},
    )
    assert last.links == (Link(step="Stew/Chop", wait_s=60), Link(step="Stew/water", wait_s=60, within_s=120, own=True))
    assert free.links == ()


def test_what_is_needed_comes_after_what_makes_it_across_dishes():
    menu = build_menu(
        document(
            dish("Gravy", {"do": "Stir", "work": "5 min", "needs": ["Drippings", "flour"]}),
            dish("Roast", {"do": "Roast", "takes": "1 h", "makes": ["drippings"]}),
        ),
        NOWHERE,
    )
    assert menu.steps["Gravy/Stir"].links == (Link(step="Roast/Roast"),)
    assert menu.steps["Gravy/Stir"].needs == ("Drippings", "flour")
    assert menu.steps["Roast/Roast"].makes == ("Drippings",)  # one spelling for both ends


def test_two_links_to_one_step_become_one_that_keeps_both():
    _, fry = built(
        {"do": "Melt", "work": "5 min", "makes": ["fat"]},
        {"do": "Fry", "work": "5 min", "needs": ["fat"], "within": "3 min"},
    )
    assert fry.links == (Link(step="Stew/Melt", within_s=180),)


def test_wait_and_within_count_from_what_makes_what_is_needed_too():
    # The menu format: between the end of the latest step it follows and its start; `needs` is followed like the rest.
    *_, stir = built(
        {"do": "Render", "work": "5 min", "makes": ["fat"]},
        {"do": "Chop", "work": "5 min", "after": []},
        {"do": "Stir", "work": "5 min", "needs": ["fat"], "wait": "1 min", "within": "3 min"},
    )
    limits = {"wait_s": 60, "within_s": 180}
    assert set(stir.links) == {Link(step="Stew/Render", **limits), Link(step="Stew/Chop", **limits)}


def test_a_second_step_of_one_name_gets_a_number():
    steps = built(
        *({"do": "Turn", "work": "1 min"} for _ in range(3)), {"do": "End", "work": "1 min", "after": ["turn 2"]}
    )
    assert [s.id for s in steps] == ["Stew/Turn", "Stew/Turn 2", "Stew/Turn 3", "Stew/End"]
    assert steps[3].links == (Link(step="Stew/Turn 2"),)


def test_the_first_of_several_can_be_called_by_number():
    steps = built(
        *({"do": "Turn", "work": "1 min"} for _ in range(2)), {"do": "End", "work": "1 min", "after": ["turn 1"]}
    )
    assert steps[2].links == (Link(step="Stew/Turn"),)


def test_only_an_ambiguous_reference_is_wrong():
    turns = [{"do": "Turn", "work": "1 min"}] * 2
    said = told(dish("Stew", *turns, {"do": "End", "work": "1 min", "after": ["turn"]}))
    assert said == ["'turn' could be 2 steps of Stew; write 'Turn 1' or 'Turn 2'"]


def test_places_hands_hours_and_courses_are_resolved():
    menu = build_menu(
        document(
            dish(
                "Stew", {"do": "Roast", "takes": "1 h", "on": {"oven": 2}, "heat": "356 F"}, course="MAIN", hold="0 min"
            ),
            kitchen={
                "hands": [{"from": "-40 min", "pairs": 2}, {"from": "start", "pairs": 1}],
                "closed": ["23:00-07:00", "14:00–15:00"],
                "places": {"Oven": {"room": 2, "heat": "60-250 C", "preheat": "25 min"}, "counter": None},
            },
            courses={"Main": {"eat": "-10 min", "until": "1 h"}},
            table=["stew"],
        ),
        NOWHERE,
    )
    assert menu.hands == (HandsFrom(from_s=None, pairs=1), HandsFrom(from_s=-2400, pairs=2))
    assert menu.closed == (Closed(start_min=1380, end_min=420), Closed(start_min=840, end_min=900))
    assert menu.places == (
        Place(name="Oven", room=2, heat=Heat(low_c=60, high_c=250, preheat_s=1500)),
        Place(name="counter"),
    )
    assert menu.courses == (Course(name="Main", eat_s=-600, until_s=3600),)
    assert (menu.table, menu.dishes[0].course, menu.dishes[0].hold_s) == (("Stew",), "Main", 0)
    step = menu.steps["Stew/Roast"]
    assert (step.uses, step.heat_c, step.heat_within_c) == ((Use(place="Oven", parts=2),), 180, 5)


def test_a_menu_that_says_little_gets_the_defaults():
    menu = build_menu(document(dish("Stew", {"do": "Chop", "work": "5 min"})), NOWHERE)
    assert (menu.hands, menu.units, menu.table) == ((HandsFrom(from_s=None, pairs=1),), "C", None)
    assert menu.dishes[0].hold_s == 1800


def test_cues_are_every_so_often_or_at_a_moment():
    (step,) = built(
        {
            "do": "Roast",
            "takes": "2 h",
            "cues": [
                {"do": "Baste", "every": "30 min", "work": "1 min", "times": 2},
                {"do": "Turn", "at": "halfway"},
                {"do": "Turn", "at": "20 min"},
            ],
        }
    )
    assert step.cues == (
        Cue(do="Baste", every_s=1800, times=2, work_s=60),
        Cue(do="Turn", at_fraction=0.5),
        Cue(do="Turn 2", at_s=1200),
    )


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({}, "'x' does not say how long it is; write work: 5 min for hands"),
        ({"work": "all"}, "work needs the step's time beside it; write takes: 10 min as well"),
        ({"work": {"start": "1 min"}}, "work needs the step's time beside it"),
        ({"takes": "5 min", "work": {}}, "work says neither start nor end"),
        ({"takes": "5 min", "lasts": "5 min"}, "takes and lasts both say how long it is; keep one of them"),
        ({"takes": "5 min", "batches": {"count": 2, "each": "1 min"}}, "takes and batches both say how long"),
        ({"takes": "5-9 min", "work": "6 min"}, "6 min of work does not fit into a step that may be 5 min long"),
        ({"takes": "9 min", "work": "2-3 min"}, "hands at the start take one time, not a range"),
        ({"takes": "0 min"}, "'x' takes no time"),
        ({"takes": "8 days"}, "takes: '8 days' is too long; write at most 7 days"),
        ({"batches": {"count": 200, "each": "1 h"}}, "8 days 8 h is too long for a step; at most 7 days"),
        ({"takes": "1 h", "on": "ovn"}, "there is no place 'ovn' in the kitchen; did you mean 'Oven'?"),
        ({"takes": "1 h", "on": "moon"}, "there is no place 'moon' in the kitchen; the kitchen has Oven, hob, counter"),
        ({"takes": "1 h", "on": {"hob": 5}}, "this takes 5 of hob, which has room for 4"),
        (
            {"takes": "1 h", "on": "oven", "heat": "300 C"},
            "300 °C is not possible in Oven; it goes from 60 °C to 250 °C",
        ),
        ({"takes": "1 h", "heat_within": "5 C"}, "heat_within has no heat to be near"),
        ({"takes": "1 h", "person": 2}, "person 2 is not there; the kitchen has 1 cook"),
        ({"takes": "1 h", "wait": "5 min", "within": "2 min"}, "within 2 min is less than wait 5 min"),
        ({"takes": "1 h", "shut": "20 min"}, "shut has no place to keep shut"),
        ({"takes": "10 min", "on": "oven", "shut": "20 min"}, "shut is 20 min, but the step is over after 10 min"),
        ({"takes": "1 h", "after": ["y"]}, "there is no step 'y' in Stew"),
        ({"takes": "1 h", "after": ["x"]}, "'x' cannot come after itself"),
        ({"takes": "1 h", "makes": ["a"], "needs": ["a"]}, "'x' needs what it makes itself"),
        ({"takes": "1 h", "id": "a/b"}, "the id 'a/b' has a '/'"),
        ({"takes": "1 h", "cues": [{"do": "c"}]}, "'c': says neither every nor at; write every: 30 min"),
        ({"takes": "1 h", "cues": [{"do": "c", "every": "9 min", "at": "9 min"}]}, "'c': says both every and at"),
        ({"takes": "1 h", "cues": [{"do": "c", "at": "9 min", "times": 2}]}, "'c': times goes with every"),
        ({"takes": "1 h", "cues": [{"do": "c", "at": "1 h"}]}, "'c': at 1 h comes after a step of 1 h"),
        ({"takes": "1 h", "cues": [{"do": "c", "every": "5 s"}]}, "'c': every 5 s is too often to call"),
        ({"takes": "6 days", "cues": [{"do": "c", "every": "1 min"}]}, "'c': it would call more than 500 times"),
    ],
)
def test_a_step_that_cannot_be_says_why(step, said):
    (only,) = told(dish("Stew", {"do": "x", **step}), **PLACES)
    assert only.startswith(said)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"table": ["stw"]}, "there is no dish 'stw'; did you mean 'Stew'?"),
        ({"dishes": []}, "the menu has no dishes"),
        (
            {"dishes": [dish("A", {"do": "a", "work": "1 min"}), dish("a", {"do": "a", "work": "1 min"})]},
            "there are two dishes 'a'",
        ),
        ({"dishes": [dish("A")]}, "'A' has no steps"),
        (
            {"dishes": [dish("A", {"do": "a", "work": "1 min"}, course="mian")]},
            "there is no course 'mian'; write courses:",
        ),
        ({"courses": {"Main": {"eat": "0 min"}, "main": {"eat": "0 min"}}}, "there are two of the course 'main'"),
        ({"courses": {"main": {"eat": "0 min", "until": "-5 min"}}}, "main is eaten from 0 min until -5 min"),
        ({"courses": {"main": {}}}, "a course has no 'eat'; write eat: 0 min"),
        ({"kitchen": {"places": {"oven": {"preheat": "9 min"}}}}, "oven has preheat but no heat"),
        ({"kitchen": {"places": {"Hob": {}, "hob": {}}}}, "there are two of the place 'hob'"),
        ({"kitchen": {"places": {" ": {}}}}, "a place has no name"),
        ({"kitchen": {"hands": [{"from": "-5 min", "pairs": 1}]}}, "hands does not say how many cook at first"),
        ({"kitchen": {"hands": [{"from": "start", "pairs": 0}]}}, "nobody cooks"),
        ({"kitchen": {"hands": []}}, "hands is an empty list"),
        ({"kitchen": {"hands": [{"from": "start", "pairs": 1}] * 2}}, "two entries of hands begin at the same time"),
        ({"kitchen": {"closed": "23:00"}}, "closed: '23:00' is not a stretch of the day"),
        ({"kitchen": {"closed": "23:00-23:00"}}, "closed: '23:00-23:00' begins and ends at the same time"),
    ],
)
def test_a_menu_that_cannot_be_says_why(more, said):
    (only,) = told(dish("Stew", {"do": "x", "work": "1 min"}), **more)
    assert only.startswith(said)


def test_a_step_of_another_dish_is_named_with_its_dish():
    said = told(
        dish("Sauce", {"do": "Reduce", "takes": "1 h"}), dish("Stew", {"do": "x", "work": "1 min", "after": ["reduce"]})
    )
    assert said == ["there is no step 'reduce' in Stew; did you mean 'Sauce/Reduce'?"]
    said = told(
        dish("Sauce", {"do": "Reduce", "takes": "1 h"}), dish("Stew", {"do": "x", "work": "1 min", "after": ["sauce"]})
    )
    assert said == ["there is no step 'sauce' in Stew; name one of its steps, as 'Sauce/Reduce'"]


def test_each_circle_is_said_once():
    def pair(one, other, first, second):
        return (
            dish(one, {"do": first, "work": "1 min", "after": [f"{other}/{second}"]}),
            dish(other, {"do": second, "work": "1 min", "after": [f"{one}/{first}"]}),
        )

    said = told(*pair("A", "B", "a", "b"), *pair("C", "D", "c", "d"))
    assert len(said) == 2
    assert all(s.startswith("these steps wait for one another: ") for s in said)


def test_a_long_chain_of_links_is_no_circle():
    steps = built(*({"do": f"s{n}", "work": "1 min"} for n in range(2000)))
    assert steps[-1].links == (Link(step="Stew/s1998"),)


def test_faults_of_form_and_of_meaning_come_together():
    said = told(
        dish("Stew", {"do": "Chop", "takes": 25}, {"do": "Fry", "work": "1 min", "on": "hib"}), **PLACES, serves="4"
    )
    assert [s.split(";")[0] for s in sorted(said)] == [
        "serves: '4' is in quotes",
        "takes: 25 has no unit",
        "there is no place 'hib' in the kitchen",
    ]


def test_what_could_not_be_read_makes_no_second_fault():
    """An unreadable place, course or name is not said to be missing where it is used."""
    said = told(
        dish(
            "Stew",
            {"do": 3, "work": "1 min"},
            {"do": "Fry", "work": "1 min", "on": "hob", "after": ["3"]},
            course="main",
        ),
        kitchen={"places": {"hob": 4}},
        courses={"main": 5},
    )
    assert len(said) == 3


def test_at_most_fifty_faults_are_said():
    assert len(told(dish("Stew", *({"do": f"s{n}", "takes": n} for n in range(80))))) == 50


@pytest.mark.parametrize(
    "nonsense", [None, 3, "words", [], [1], {}, {"dishes": 3}, {"dishes": [None, {"steps": [None]}]}]
)
def test_what_is_no_menu_at_all_is_said_in_words(nonsense):
    with pytest.raises(MenuFaults) as faults:
        build_menu(nonsense, NOWHERE)
    assert all(fault.wrong for fault in faults.value.faults)


@pytest.mark.parametrize(("dishes", "steps", "what"), [(501, 1, "501 dishes"), (1, 5001, "5001 steps")])
def test_a_menu_too_large_is_refused(dishes, steps, what):
    (said,) = told(*(dish(f"d{n}", *({"do": "x", "work": "1 min"} for _ in range(steps))) for n in range(dishes)))
    assert said.startswith(f"the menu has {what}")


def test_a_note_is_kept_as_written():
    (step,) = built({"do": "Chop", "work": "5 min", "note": "Fine.\nNot too fine."})
    assert step.note == "Fine.\nNot too fine."


def test_a_web_of_makes_and_needs_is_refused_before_it_grows():
    steps = [{"do": f"s{n}", "work": "1 min", "makes": ["x"], "after": []} for n in range(200)]
    steps += [{"do": f"t{n}", "work": "1 min", "needs": ["x"], "after": []} for n in range(200)]
    (said,) = told(dish("Stew", *steps))
    assert said.startswith("'x' and other things are made and needed by too many steps")


def test_thousands_of_unknown_names_are_told_at_once():
    """Only the fifty that are said are looked for; with all of them this would take minutes."""
    dishes = [
        dish(f"d{n}", *({"do": f"s{m}", "work": "1 min", "after": [f"q{m}"]} for m in range(10))) for n in range(300)
    ]
    assert len(told(*dishes)) == 50
