"""A pull forecast as a cook meets it: from no reading on, with slips of the finger, standing still, and at the pull."""

import pytest

from timerboard.core.heat_pull import forecast_pull
from timerboard.core.heat_sense import fitting, odd, plateau
from timerboard.core.heat_values import CoreReading, HeatQuestion, PullForecast
from timerboard.core.heat_words import coast_words, pull_line
from timerboard.core.next_reading import next_reading
from timerboard.core.values import Span

MIN = 60_000
SPAN = Span(low=180 * 60, likely=207 * 60, high=220 * 60)


def asked(*pairs, **more) -> HeatQuestion:
    readings = tuple(CoreReading(at=round(m * MIN), celsius=c) for m, c in pairs)
    fields = {"oven_c": 160.0, "span": SPAN, "pull_c": 80.0, "now": readings[-1].at if readings else 0} | more
    return HeatQuestion(step="Pork/Roast", started=0, readings=readings, **fields)


GOOD = ((60, 22), (90, 36), (120, 49), (150, 60))


def width(found: PullForecast) -> int:
    assert found.early is not None
    assert found.late is not None
    return found.late - found.early


def test_before_any_reading_it_is_what_the_menu_says():
    found = forecast_pull(asked())
    assert found.at is not None
    assert 190 * MIN < found.at < 225 * MIN


def test_two_readings_are_enough_and_more_narrow_it():
    widths = [width(forecast_pull(asked(*GOOD[:n]))) for n in (0, 2, 4)]
    assert widths[0] > widths[1] > widths[2]


def test_the_same_readings_give_the_same_answer():
    assert forecast_pull(asked(*GOOD)) == forecast_pull(asked(*GOOD))


def test_it_travels_as_json():
    found = forecast_pull(asked(*GOOD))
    assert PullForecast.model_validate_json(found.model_dump_json()) == found


def test_a_mistyped_reading_hardly_moves_it_and_is_named():
    plain = forecast_pull(asked(*GOOD))
    slip = forecast_pull(asked(*GOOD[:3], (135, 94), GOOD[3]))
    assert slip.doubtful == (135 * MIN,)
    assert plain.at is not None
    assert slip.at is not None
    assert abs(slip.at - plain.at) < 12 * MIN


def test_a_slip_above_the_pull_is_no_arrival():
    found = forecast_pull(asked(*GOOD[:3], (121, 94)))
    assert found.why == ""
    assert found.doubtful == (121 * MIN,)


def test_at_the_pull_it_says_where_it_coasts():
    found = forecast_pull(asked(*GOOD, (205, 80.5)))
    assert found.at == 205 * MIN
    assert found.peak_c is not None
    assert 80.5 < found.peak_c < 90
    assert pull_line(found, 205 * MIN, 0, "UTC").startswith("pull now, it will coast to")
    assert "(" in coast_words(found)


def test_an_oven_that_is_too_cool_never_gets_there():
    found = forecast_pull(asked(*GOOD, oven_c=80.0))
    assert found.at is None
    assert pull_line(found, 0, 0, "UTC") == "will not reach 80 °C: the oven is not hot enough for that"


def test_standing_still_is_recognised_said_and_widens_the_late_end():
    still = asked((60, 22), (120, 55), (150, 66), (175, 66.5), (200, 66.7))
    assert plateau(still)
    found = forecast_pull(still)
    assert found.plateau
    assert found.late is not None
    assert found.at is not None
    assert found.early is not None
    assert found.late - found.at > found.at - found.early
    assert pull_line(found, still.now, 0, "UTC").startswith("stands still")
    assert not plateau(asked(*GOOD))


def test_the_curve_goes_from_the_start_to_the_late_end_inside_its_band():
    found = forecast_pull(asked(*GOOD))
    assert (found.curve[0].at, found.curve[-1].at) == (0, found.late)
    assert all(p.low_c <= p.likely_c <= p.high_c for p in found.curve)
    likely = [p.likely_c for p in found.curve]
    assert likely == sorted(likely)


def test_the_strip_s_line():
    found = forecast_pull(asked(*GOOD))
    line = pull_line(found, 150 * MIN, 0, "UTC")
    assert line.startswith("reach 80 °C 03:")
    assert " ± " in line


def test_without_a_menu_time_or_an_oven_it_still_answers():
    found = forecast_pull(asked(*GOOD, oven_c=None, span=None, weight_kg=2.4, shape="cylinder"))
    assert found.early is not None
    assert found.at is not None
    assert found.early > 150 * MIN
    assert found.at < 400 * MIN


@pytest.mark.parametrize(
    ("new", "why"),
    [((151, 200), "hot or cold"), ((155, 50), "cool"), ((152, 85), "risen so fast"), ((160, 63), "")],
)
def test_which_readings_look_mistyped(new, why):
    before = asked(*GOOD).readings
    said = odd(before, CoreReading(at=new[0] * MIN, celsius=new[1]), 0)
    assert (why in said) if why else said == ""


def test_readings_that_go_together_are_kept():
    assert [r.celsius for r in fitting(asked(*GOOD[:3], (125, 94), GOOD[3]))] == [22, 36, 49, 60]


def test_a_cold_core_that_warms_late_is_no_slip():
    """A thick joint: at first nothing, then fast. Each of these used to count as mistyped after the first."""
    cold = asked((60, 4), (110, 40), (125, 50), (150, 64), (170, 75), (185, 81))
    assert len(fitting(cold)) == 6
    assert forecast_pull(cold).why == "it has got there"


def test_a_slip_upwards_does_not_make_slips_of_all_that_follow():
    assert [r.celsius for r in fitting(asked(*GOOD[:2], (100, 80), *GOOD[2:]))] == [22, 36, 49, 60]


# when to ask again


def test_without_readings_it_asks_half_way_through_what_the_menu_says():
    assert next_reading(0, None, None, SPAN) == SPAN.likely * 1000 // 2


@pytest.mark.parametrize("count", [2, 3, 4])
def test_it_asks_at_the_latest_half_way_and_five_minutes_before(count):
    question = asked(*GOOD[:count])
    found = forecast_pull(question)
    last = question.readings[-1].at
    ask = next_reading(0, last, found, SPAN)
    assert ask is not None
    assert found.at is not None
    assert last + 4 * MIN <= ask <= min(last + (found.at - last) / 2 + 1, found.at - 5 * MIN)


def test_never_more_often_than_every_four_minutes():
    question = asked(*GOOD, (203, 79.0))
    ask = next_reading(0, 203 * MIN, forecast_pull(question), SPAN)
    assert ask == 207 * MIN


def test_at_the_pull_it_asks_no_more():
    assert next_reading(0, 205 * MIN, forecast_pull(asked(*GOOD, (205, 80.5))), SPAN) is None
