"""Who does what."""

from tests.tiny_kitchens import cue, finish, plan, problem, start, task, work
from timerboard.core.persons import with_persons
from timerboard.core.plan import HandsChange


def who(asked, **at):
    made = plan(asked, **at)
    found = with_persons(asked, made.placed, made.cues)
    return None if found is None else {p.id: p.person for p in found}


def test_side_by_side_takes_two_and_one_after_the_other_takes_the_first():
    asked = problem(work("chop", 300), work("whisk", 300), work("fry", 100), pairs=2)
    assert who(asked, chop=(0, 300), whisk=(100, 400), fry=(300, 400)) == {"chop": 1, "whisk": 2, "fry": 1}


def test_what_needs_no_hands_has_nobody():
    assert who(problem(task("soak", 300)), soak=(0, 300)) == {"soak": None}


def test_a_named_person_is_kept_free_for_what_names_them():
    # The whisking comes first, and person 1 has the piping in the middle of it: person 2 whisks.
    asked = problem(work("whisk", 300), work("pipe", 100, person=1), pairs=2)
    assert who(asked, whisk=(0, 300), pipe=(100, 200)) == {"whisk": 2, "pipe": 1}


def test_nobody_gets_a_job_that_lasts_longer_than_they_stay():
    # Person 2 is there until 500. The first job would go to person 1; then the second, which lasts until 800, has none.
    hands = (HandsChange(at=-10_000, pairs=2), HandsChange(at=500, pairs=1))
    asked = problem(work("chop", 500), work("stir", 700), hands=hands)
    assert who(asked, chop=(0, 500), stir=(100, 800)) == {"chop": 2, "stir": 1}


def test_without_enough_people_there_is_no_answer():
    asked = problem(work("pipe", 300, person=1), work("glaze", 300, person=1), pairs=2)
    assert who(asked, pipe=(0, 300), glaze=(200, 500)) is None


def test_small_jobs_bind_a_step_only_by_its_first():
    # The roast is put in by 1, who chops when it comes out; whoever is free takes it out.
    roast = task("roast", 1000, hands=(start(100), finish(50)), cues=(cue("baste", 500, work_s=50),))
    asked = problem(roast, work("chop", 900), work("fry", 300), pairs=2)
    found = who(asked, roast=(0, 1000), chop=(100, 1000), fry=(0, 300))
    assert found is not None
    assert found["chop"] != found["fry"]


def test_what_began_with_too_few_people_is_still_somebodys():
    asked = problem(work("chop", 300, started=0), work("stir", 300, started=0), not_before=100)
    assert who(asked, chop=(0, 300), stir=(0, 300)) == {"chop": 1, "stir": 1}
