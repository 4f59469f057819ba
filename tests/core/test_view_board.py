"""What the board says, word for word, at 17:42 of the supper in tests/board_scenes.py and around it."""

from tests.board_scenes import Told, at, minutes, step, supper
from timerboard.core import events as ev
from timerboard.core.alarm_values import Rank
from timerboard.core.alarms import alarms
from timerboard.core.commands import (
    ClearQuickTimer,
    DoCue,
    DropDish,
    EndStep,
    HearAlarm,
    NotYet,
    PassOverCue,
    PutOff,
    StartStep,
)
from timerboard.core.menu import Batches, Course, Dish, Link, Menu, Place, Work
from timerboard.core.plan import Forecast
from timerboard.core.values import Span
from timerboard.core.view import Extras, view
from timerboard.core.view_values import Notice, Part

NOW = at("17:42")


def strip(cook, now, name):
    """The strip of that name."""
    return next(s for s in view(cook, now).strips if s.name == name)


def texts(board):
    """Every string on a board, with where it stands."""
    head, foot = board.head, board.foot
    yield from (head.clock, head.title, head.eat, head.margin, head.chance, head.tightest, *head.places)
    yield from (foot.keys, foot.last, foot.saved, foot.sound, board.waiting, board.hushed)
    for item in board.hands:
        yield from (item.line, item.detail, item.answer_word, item.said)
    for one in board.strips:
        yield from (one.name, one.line, one.countdown, one.counts, one.matter, one.mark, one.answered, one.said)
        yield from (part.label for part in one.ribbon)
        yield from (act.word for act in one.acts)
    for notice in board.notices:
        yield from (notice.text, notice.take_word, notice.leave_word)


def test_the_head():
    forecast = Forecast(cooks=1000, on_time=0.87, late_likely_s=0, late_bad_s=60)
    head = view(supper().cook, NOW, Extras(forecast=forecast)).head
    assert head.clock == "17:42"
    assert head.title == "Solstice supper for 12"
    assert head.eat == "Eat at 18:30 · in 48 min"
    assert head.margin == "2 min in hand"
    assert head.tightest == "tightest: pork shoulder"
    assert head.chance == "on time 8 in 10"
    assert head.places == ("oven 200 °C, 220 °C at 18:03", "hob 1 of 4")
    assert not head.late
    assert abs(head.margin_share - 2 / 15) < 1e-9


def test_the_head_before_anything_is_lit():
    head = view(Told().cook, at("14:31")).head
    assert head.places == ("oven off, 200 °C at 14:43", "hob 0 of 4")
    assert head.eat == "Eat at 18:30 · in 3 h 59 min"


def test_the_head_in_fahrenheit():
    from tests.board_scenes import MENU

    story = Told(MENU.model_copy(update={"units": "F"}))
    assert view(story.cook, at("14:31")).head.places[0] == "oven off, 392 °F at 14:43"


def test_the_head_when_late_names_where_it_hangs():
    story = supper().tell("17:43", ev.StepEnded, step="Pear frangipane/Bake")
    story.tell("18:03", ev.StepEnded, step="Pork shoulder/Roast")
    story.tell("18:05", ev.StepStarted, step="Roast roots/Roast").tell(
        "18:05", ev.StepStarted, step="Gravy/Cook the roux"
    )
    head = view(story.cook, at("18:10")).head
    assert head.margin == "14 min late: mashed potatoes"
    assert head.late
    assert head.margin_share == 0.0
    assert head.tightest == ""


def test_after_the_meals_time_the_head_counts_on():
    assert view(supper().cook, at("18:35")).head.eat == "Eat at 18:30 · since 5 min"


def test_the_hands_line_says_verb_food_place_and_how_long():
    items = view(supper().cook, NOW).hands
    assert [(i.digit, i.line, i.detail) for i in items] == [
        (1, "Check the pear frangipane", "oven · just set? · now"),
        (2, "Baste the pork shoulder", "oven · 0:40 ago · same door"),
        (3, "Probe the pork shoulder", "oven · pull at 80 °C · in 9 min"),
        (4, "Stir the braised red cabbage", "hob · in 10 min"),
        (5, "Start: boil the mashed potatoes", "hob · in 10 min"),
    ]
    assert [i.rank for i in items] == [Rank.DUE, Rank.DUE, Rank.NOTE, Rank.NOTE, Rank.NOTE]
    assert view(supper().cook, NOW).waiting == ""


def test_every_call_carries_its_answers():
    check, baste, read, _, start = view(supper().cook, NOW).hands
    assert check.answer == EndStep("Pear frangipane/Bake")
    assert check.not_yet == NotYet("Pear frangipane/Bake")
    assert isinstance(check.put_off, PutOff)
    assert check.heard == HearAlarm(check.key)
    assert baste.answer == DoCue("Pork shoulder/Roast", "Baste")
    assert baste.pass_over == PassOverCue("Pork shoulder/Roast", "Baste")
    assert baste.not_yet is None
    assert read.wants_reading == "Pork shoulder/Roast"
    assert start.answer == StartStep("Mashed potatoes/Boil")
    assert start.heard is None
    assert check.said == "Now. Check the pear frangipane, oven, just set?, now. Key 1: end."


def test_setting_the_oven_is_a_job_of_its_own():
    first = view(Told().cook, at("14:31")).hands[0]
    assert (first.line, first.detail) == ("Set the oven to 200 °C", "for pork shoulder · in 12 min")
    assert first.answer == DoCue("@oven", "oven at 200 C for Pork shoulder/Roast")
    assert first.answer_word == "set"


def test_beyond_five_calls_are_counted():
    board = view(supper().cook, at("18:08"))
    assert len(board.hands) == 5
    assert all(item.rank is Rank.DUE for item in board.hands)
    assert len(alarms(supper().cook, at("18:08"))) == 8
    assert board.waiting == "and 3 more"


def test_a_call_put_off_is_quiet_and_says_when_it_comes_back():
    check = view(supper().cook, NOW).hands[0]
    story = supper().tell("17:42", ev.AlarmPutOff, alarm=check.key, until=at("17:44"))
    item = next(i for i in view(story.cook, at("17:42:30")).hands if i.key == check.key)
    assert item.muted
    assert item.detail.startswith("oven · just set? · back in 2 min")
    one = strip(story.cook, at("17:42:30"), "Pear frangipane")
    assert (one.juts, one.mark) == (False, "put off")


def test_a_running_strip_with_a_core():
    pork = strip(supper().cook, NOW, "Pork shoulder")
    assert (pork.line, pork.countdown, pork.counts) == ("Roast · oven · core 71 °C → 80 °C", "21:00", "to the pull")
    assert pork.matter == "reach 80 °C 18:03 ± 4"
    assert (pork.juts, pork.mark, pork.rank) == (True, "now", Rank.DUE)


def test_a_strip_in_its_range_and_over():
    tart = strip(supper().cook, at("17:43"), "Pear frangipane")
    assert (tart.countdown, tart.counts) == ("4:00", "to its latest end")
    assert tart.matter == "until just set · 4 min left at most"
    assert tart.mark == "look"
    over = strip(supper().cook, at("17:49:10"), "Pear frangipane")
    assert (over.countdown, over.counts, over.mark) == ("+2:10", "over its time", "over")
    assert over.matter == "until just set · 2 min past its longest"


def test_not_yet_counts_to_the_next_look():
    story = supper().tell("17:42", ev.GivenMoreTime, step="Pear frangipane/Bake", until=at("17:43:40"))
    tart = strip(story.cook, NOW, "Pear frangipane")
    assert (tart.countdown, tart.counts) == ("1:40", "to the next look")


def test_waiting_strips_say_what_for():
    cook = supper().cook
    roots, mash = strip(cook, NOW, "Roast roots"), strip(cook, NOW, "Mashed potatoes")
    beans, gravy = strip(cook, NOW, "Green beans"), strip(cook, NOW, "Gravy")
    assert (roots.line, roots.countdown) == ("Waiting for the oven · 220 °C at 18:06", "24:00")
    assert roots.matter == "may slip 2 min"
    assert (mash.line, mash.countdown, mash.counts) == ("Start in 10 min · hob", "10:00", "to its start")
    assert mash.matter == "may slip 4 min"
    assert (beans.line, beans.countdown, beans.matter) == ("Later", "38:00", "blanch at 18:20")
    assert (gravy.line, gravy.matter) == ("Later", "needs pork shoulder drippings")


def test_a_start_that_is_late_counts_up():
    mash = strip(supper().cook, at("17:53:30"), "Mashed potatoes")
    assert (mash.line, mash.countdown, mash.counts) == ("Start now · hob", "+1:30", "late to start")
    assert mash.matter == "may slip 2 min"


def test_a_ready_strip_says_how_long_it_holds():
    story = supper().tell("18:08:10", ev.StepEnded, step="Braised red cabbage/Simmer")
    cabbage = strip(story.cook, at("18:10"), "Braised red cabbage")
    assert (cabbage.line, cabbage.countdown, cabbage.counts) == ("Ready · lid on", "20:00", "to eating")
    assert cabbage.matter == "holds 58 min more"
    assert cabbage.mark == "ready"
    assert cabbage.ribbon[-1].part is Part.HOLD


def test_who_answered_is_shown_for_a_minute():
    cook = supper().cook
    assert strip(cook, NOW, "Braised red cabbage").answered == "stirred 17:41, Ana"
    assert strip(cook, at("17:42:11"), "Braised red cabbage").answered == ""


def test_the_accessible_name_says_the_whole_state():
    said = strip(supper().cook, NOW, "Pear frangipane").said
    assert said == (
        "Pear frangipane. Bake, oven. 5:00 to its latest end. Until just set, 5 min left at most. Look. "
        "Check the pear frangipane."
    )


def test_the_ribbon_has_done_running_uncertain_and_planned_parts():
    tart = strip(supper().cook, NOW, "Pear frangipane").ribbon
    assert [(p.part, p.start, p.end, p.label) for p in tart] == [
        (Part.RUNNING, at("17:17"), at("17:42"), "bake"),
        (Part.UNCERTAIN, at("17:42"), at("17:47"), ""),
        (Part.PLANNED, at("17:47"), at("18:30"), "cool on a rack 30 min-1 h"),
    ]
    late = strip(supper().cook, at("17:49"), "Pear frangipane").ribbon
    assert (late[2].part, late[2].start, late[2].end) == (Part.OVER, at("17:47"), at("17:49"))


def test_an_elastic_step_is_drawn_to_where_it_will_be_ended():
    story = supper().tell("18:02", ev.StepEnded, step="Pork shoulder/Roast")
    story.tell("18:02", ev.StepStarted, step="Pork shoulder/Rest", by_itself=True)
    rest = strip(story.cook, at("18:05"), "Pork shoulder")
    assert (rest.ribbon[1].part, rest.ribbon[1].start, rest.ribbon[1].end) == (Part.RUNNING, at("18:02"), at("18:28"))
    assert (rest.line, rest.countdown, rest.counts) == ("Rest · counter", "23:00", "to its end")


def test_half_a_minute_is_not_late():
    # Boil begun at 17:56:30 of a plan for 17:52: 4:30 later, half a minute more than it might slip.
    head = view(supper().cook, at("17:56:30")).head
    assert (head.margin, head.late) == ("just in time", False)
    head = view(supper().cook, at("17:57")).head
    assert (head.margin, head.late) == ("1 min late: mashed potatoes", True)


def test_cues_are_ticks_done_due_and_to_come():
    ticks = strip(supper().cook, NOW, "Pork shoulder").ticks
    assert [t.at for t in ticks if t.done] == [at("15:32"), at("16:01"), at("16:36"), at("17:11:20")]
    assert [t.at for t in ticks if t.due] == [at("17:41:20")]
    assert [t.at for t in strip(supper().cook, NOW, "Roast roots").ticks] == [at("18:17")]


def test_what_can_be_done_to_a_strip():
    acts = strip(supper().cook, NOW, "Pork shoulder").acts
    assert [a.word for a in acts] == [
        "End the roast now",
        "Give the roast 5 min more",
        "Enter a temperature",
        "Food: meat in one piece",
        "Drop the pork shoulder",
    ]
    assert acts[-1].command == DropDish("Pork shoulder")
    assert acts[2].reading_for == "Pork shoulder/Roast"
    ended = supper().tell("17:44", ev.StepEnded, step="Pear frangipane/Bake")
    words = [a.word for a in strip(ended.cook, at("17:44"), "Pear frangipane").acts]
    assert "Go on with the bake: it was not done" in words


def test_batches_are_counted_one_by_one():
    span = Span(low=3 * 240, likely=3 * 270, high=3 * 300)
    each = Batches(count=3, each=Span(low=240, likely=270, high=300), recover=Span(low=60, likely=60, high=60))
    fry = step("Fritters", "Fry", span, "hob", hazard="hot oil", batches=each, work=Work(throughout=True))
    menu = Menu(title="T", serves=2, places=(Place(name="hob", room=4),), dishes=(Dish(name="Fritters", steps=(fry,)),))
    story = Told(menu, plan=None).tell("18:00", ev.StepStarted, step="Fritters/Fry")
    one = strip(story.cook, at("18:01"), "Fritters")
    assert (one.line, one.countdown, one.counts) == ("Fry · batch 1 of 3 · hob", "3:00", "to lifting batch 1")
    assert "lift" not in one.matter


def test_a_loose_countdown_is_a_strip_and_a_call():
    story = supper().tell("17:30", ev.QuickTimerSet, timer="eggs", ends=at("17:36:30"))
    board = view(story.cook, at("17:37:40"))
    eggs = next(s for s in board.strips if s.key == "timer:eggs")
    assert (eggs.name, eggs.countdown, eggs.matter, eggs.juts) == ("Eggs", "+1:10", "set for 6 min 30 s", True)
    item = next(i for i in board.hands if i.answer == ClearQuickTimer("eggs"))
    assert item.line == "Time is up: eggs"


def test_dropped_and_eaten_dishes_leave_the_board():
    story = supper().tell("17:43", ev.DishDropped, dish="Gravy")
    assert "Gravy" not in [s.name for s in view(story.cook, at("17:43")).strips]
    story.tell("18:08", ev.StepEnded, step="Braised red cabbage/Simmer")
    assert "Braised red cabbage" in [s.name for s in view(story.cook, at("18:34")).strips]
    assert "Braised red cabbage" not in [s.name for s in view(story.cook, at("18:35")).strips]


def test_a_starter_is_eaten_before_the_meal():
    soup = Dish(name="Soup", course="starter", steps=(step("Soup", "Heat", minutes(10), "hob"),))
    menu = Menu(
        title="T", serves=2, places=(Place(name="hob"),), courses=(Course(name="starter", eat_s=-1800),), dishes=(soup,)
    )
    story = (
        Told(menu, plan=None)
        .tell("17:40", ev.StepStarted, step="Soup/Heat")
        .tell("17:50", ev.StepEnded, step="Soup/Heat")
    )
    assert strip(story.cook, at("17:55"), "Soup").countdown == "5:00"


def test_the_axis_near_the_meal_and_far_from_it():
    near = view(supper().cook, NOW).axis
    assert (near.start, near.now, near.eat) == (at("17:32"), NOW, at("18:30"))
    assert near.end > at("18:40")
    assert near.labels[0] == (at("17:40"), "17:40")
    far = view(Told().cook, at("14:31")).axis
    assert (far.start, far.end) == (at("14:21"), at("17:31"))
    assert far.eat == at("18:30")  # beyond the axis: the head says when, and no line stands where it is not
    assert [words for _, words in far.labels] == ["14:30", "15:00", "15:30", "16:00", "16:30", "17:00", "17:30"]


def test_the_foot():
    foot = view(supper().cook, NOW, Extras(saved="saved 17:41:10")).foot
    assert foot.last == "last: 17:41 braised red cabbage stirred"
    assert (foot.saved, foot.saved_ok, foot.sound, foot.sound_ok) == ("saved 17:41:10", True, "sound ok", True)
    lost = view(supper().cook, NOW, Extras(sound="sound lost: no device")).foot
    assert (lost.sound, lost.sound_ok) == ("sound lost: no device", False)


def test_an_act_that_was_taken_back_is_said_until_the_next_one():
    story = supper()
    story.tell("17:41:30", ev.EventUndone, undone=story.events[-1].seq)
    assert view(story.cook, NOW).foot.last == "last: 17:41 took back: braised red cabbage stirred"
    story.tell("17:41:50", ev.ReadingTaken, step="Pork shoulder/Roast", celsius=72.0, of="core")
    assert view(story.cook, NOW).foot.last == "last: 17:41 pork shoulder: core 72 °C read"


def test_what_happened_to_a_step_is_said_before_which_step_it_was():
    story = supper().tell("17:42", ev.StepEnded, step="Braised red cabbage/Simmer")
    assert view(story.cook, NOW).foot.last == "last: 17:42 braised red cabbage ended: simmer"


def test_a_new_plan_puts_every_strip_in_its_place_at_once():
    was = tuple(reversed([strip.key for strip in view(supper().cook, NOW).strips]))
    story = supper()
    assert [s.key for s in view(story.cook, NOW, Extras(order=was)).strips] != [
        s.key for s in view(story.cook, NOW).strips
    ]
    story.tell("17:42", ev.PlanAdopted, plan=story.cook.plan)
    taken = view(story.cook, NOW, Extras(order=was)).strips
    assert [s.key for s in taken] == [s.key for s in view(story.cook, NOW).strips]


def test_a_stepped_clock_is_told_and_moves_no_countdown():
    before = strip(supper().cook, NOW, "Pork shoulder").countdown
    story = supper().tell("17:42", ev.ClockStepped, by_ms=-3_600_000, offset_ms=-3_600_000)
    board = view(story.cook, NOW)
    notice = board.notices[0]
    assert notice.text == "The wall clock moved 1 h back: no countdown changed; eat in 48 min"
    assert notice.leave == HearAlarm(notice.key)
    assert board.head.clock == "16:42"
    assert strip(story.cook, NOW, "Pork shoulder").countdown == before


def test_what_came_due_while_the_board_was_away_is_told():
    story = supper().tell("17:43", ev.BoardReturned, away_ms=100_000)
    text = view(story.cook, at("17:43")).notices[0].text
    assert text == "The board was away 1 min: 2 calls came due (check the pear frangipane, baste the pork shoulder)"


def test_an_absence_is_told_no_longer_than_something_waits_from_it():
    story = supper().tell("17:43", ev.BoardReturned, away_ms=100_000)
    story.tell("17:43:10", ev.CueDone, step="Pork shoulder/Roast", cue="Baste")
    story.tell("17:43:12", ev.StepEnded, step="Pear frangipane/Bake")
    assert [n.text for n in view(story.cook, at("17:43:20")).notices if "away" in n.text] == []


def test_a_long_absence_stays_told_and_does_not_deny_what_was_answered_since():
    story = supper().tell("17:43", ev.BoardReturned, away_ms=400_000)
    story.tell("17:43:10", ev.CueDone, step="Pork shoulder/Roast", cue="Baste")
    story.tell("17:43:12", ev.StepEnded, step="Pear frangipane/Bake")
    told = [n.text for n in view(story.cook, at("17:43:20")).notices]
    assert told == ["The board was away 6 min: no call waits from then"]


def test_a_strip_that_is_late_still_says_what_comes_next():
    story = supper().tell("17:42", ev.EatTimeMoved, eat_at=at("18:20"))
    beans = strip(story.cook, NOW, "Green beans")
    assert beans.matter == "blanch at 18:20 · late by 7 min"


def test_an_act_without_effect_says_why_for_a_minute():
    story = supper().tell("17:42", ev.StepEnded, step="Gravy/Simmer")
    texts_ = [n.text for n in view(story.cook, NOW).notices]
    assert len(texts_) == 1
    assert texts_[0].startswith("That had no effect: ")
    assert view(story.cook, at("17:43:01")).notices == ()


def test_notices_of_others_pass_through():
    notice = Notice("plan", "New plan: start the beans 6 min later; eat at 18:38", Rank.NOTE)
    assert view(supper().cook, NOW, Extras(notices=(notice,))).notices == (notice,)


def test_a_pause_of_sounds_is_shown():
    story = supper().tell("17:42", ev.Hushed, until=at("17:44"))
    assert view(story.cook, at("17:42:20")).hushed == "sound paused 1:40 left"
    assert view(story.cook, at("17:44")).hushed == ""


def test_strips_stay_where_they_are_until_one_rings():
    cook = supper().cook
    calm = at("17:41:15")  # the pork calls from 17:41:20 on
    order = tuple(s.key for s in view(cook, calm).strips)
    upside_down = order[::-1]
    still = [s for s in view(cook, calm, Extras(order=upside_down)).strips if not (s.juts or s.answered)]
    moved = {s.key for s in view(cook, calm).strips if s.juts or s.answered}
    assert [s.key for s in still] == [key for key in upside_down if key not in moved]
    rung = view(cook, NOW, Extras(order=upside_down)).strips
    assert {s.name for s in rung[:2]} == {"Pork shoulder", "Pear frangipane"}


def test_no_string_shouts_or_is_broken():
    for clock in ("14:31", "15:00", "17:42", "17:50", "18:08", "18:29", "18:31", "20:00"):
        for text in texts(view(supper().cook, at(clock))):
            assert "!" not in text
            assert "  " not in text
            assert not text.startswith((" ", "·"))
            assert "None" not in text


def test_a_cook_with_nothing_left_has_a_view():
    story = Told()
    for dish in story.cook.menu.dishes:
        story.tell("14:31", ev.DishDropped, dish=dish.name)
    board = view(story.cook, at("14:32"))
    assert board.strips == ()
    assert board.head.margin == "no dishes left"


def test_a_heads_up_counts_to_the_moment_itself():
    item = next(i for i in view(supper().cook, at("17:51:20")).hands if i.line == "Start: boil the mashed potatoes")
    assert (item.rank, item.detail) == (Rank.SOON, "hob · in 40 s")
    assert item.answer == StartStep("Mashed potatoes/Boil")


def test_time_is_up_is_not_said_before_it_is():
    peas = Dish(name="Peas", steps=(step("Peas", "Boil", minutes(10), "hob"),))
    menu = Menu(title="T", serves=2, places=(Place(name="hob"),), dishes=(peas,))
    story = Told(menu, plan=None).tell("18:00", ev.StepStarted, step="Peas/Boil")
    for clock, detail in [("18:02", "in 8 min"), ("18:09:20", "in 40 s"), ("18:10:20", "time is up · 0:20 ago")]:
        item = view(story.cook, at(clock)).hands[0]
        assert (item.line, item.detail) == ("Finish: boil the peas", f"hob · {detail}")


def test_a_need_is_named_after_its_dish_without_saying_a_word_twice():
    lamb = Dish(name="Lamb shoulder", steps=(step("Lamb shoulder", "Roast", minutes(60), makes=("shoulder juices",)),))
    link = (Link(step="Lamb shoulder/Roast"),)
    jus = Dish(name="Jus", steps=(step("Jus", "Reduce", minutes(5), needs=("shoulder juices",), links=link),))
    story = Told(Menu(title="T", serves=2, dishes=(lamb, jus)), plan=None)
    assert strip(story.cook, at("17:00"), "Jus").matter == "needs lamb shoulder juices"


def test_a_component_stays_until_nothing_waits_for_it():
    stock = Dish(name="Stock", steps=(step("Stock", "Simmer", minutes(10), "hob"),))
    soup = Dish(name="Soup", steps=(step("Soup", "Boil", minutes(5), "hob", links=(Link(step="Stock/Simmer"),)),))
    menu = Menu(title="T", serves=2, places=(Place(name="hob"),), table=("Soup",), dishes=(stock, soup))
    story = Told(menu, plan=None).tell("18:00", ev.StepStarted, step="Stock/Simmer")
    story.tell("18:10", ev.StepEnded, step="Stock/Simmer")
    assert [s.name for s in view(story.cook, at("18:11")).strips] == ["Soup", "Stock"]
    story.tell("18:12", ev.StepStarted, step="Soup/Boil")
    assert [s.name for s in view(story.cook, at("18:13")).strips] == ["Soup"]
