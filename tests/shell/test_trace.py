"""What the trace writes, and that the moment of sounding comes from the device and not from the wish."""

import json

from timerboard.core.alarm_values import Alarm, Kind, Rank
from timerboard.shell.players import SilentPlayer
from timerboard.shell.sound import BurstSound
from timerboard.shell.trace import Trace


def alarm(name):
    return Alarm(name, Kind.TIMER, Rank.DUE, 1000, "", None, None, "Time is up:", name, "")


def written(path):
    return [(line["what"], line["alarm"], line["at"]) for line in map(json.loads, path.read_text().splitlines())]


def test_due_painted_sounds_and_sounded_of_an_alarm(tmp_path):
    trace = Trace(tmp_path / "t")
    trace.noted("due", alarm("eggs"), 1002)
    trace.noted("sounds", alarm("eggs"), 1003, 7)
    trace.painted(1020)
    trace.painted(1036)
    trace.sounded([(6, 900), (7, 1025), (7, 1026)])
    trace.close()
    trace.noted("due", alarm("rice"), 2000)
    assert written(tmp_path / "t") == [
        ("due", "eggs", 1002),
        ("sounds", "eggs", 1003),
        ("painted", "eggs", 1020),
        ("sounded", "eggs", 1025),
    ]


class DeviceByHand(SilentPlayer):
    def busy(self):
        return False


def test_a_burst_has_begun_when_the_device_says_so_and_is_told_once():
    clock = [5]
    player = DeviceByHand()
    sound = BurstSound(player, lambda: clock[0])
    sound.play(Rank.DUE, "Eggs", 0.4)
    assert sound.begun() == []
    clock[0] = 25
    player.handed()
    assert sound.begun() == [(1, 25)]
    assert sound.begun() == []


def test_a_burst_that_gave_way_before_it_was_taken_is_not_told():
    player = DeviceByHand()
    sound = BurstSound(player, lambda: 9)
    sound.play(Rank.DUE, "Eggs", 0.4)
    sound.play(Rank.DANGER, "Eggs", 0.7)
    player.handed()
    assert sound.begun() == [(2, 9)]


class ArmedByHand(DeviceByHand):
    """`begin` is what the device's own thread does at the moment of an armed burst."""

    armed = None

    def arm(self, pcm, due, begun):
        self.armed = (due, begun)

    def went(self):
        return self.armed is None

    def disarm(self):
        went, self.armed = self.armed is None, None
        return went

    def begin(self):
        due, begun = self.armed
        assert due()
        self.armed = None
        begun()


def test_a_burst_that_began_by_itself_is_told_under_the_number_it_then_has():
    clock, player = [5], ArmedByHand()
    sound = BurstSound(player, lambda: clock[0])
    sound.play(Rank.SOON, "Eggs", 0.3)
    sound.arm("eggs@40", Rank.DUE, "Eggs", 0.4, 40)
    clock[0] = 41
    player.begin()
    clock[0] = 300
    assert sound.begun() == []
    assert sound.went() == "eggs@40"
    assert (sound.went(), sound.disarm()) == ("", "")
    assert (sound.plays, sound.begun()) == (2, [(2, 41)])


def test_taking_back_what_has_begun_tells_its_name():
    player = ArmedByHand()
    sound = BurstSound(player, lambda: 50)
    sound.arm("eggs@40", Rank.DUE, "Eggs", 0.4, 40)
    assert sound.went() == ""
    player.begin()
    assert sound.disarm() == "eggs@40"
    assert (sound.disarm(), sound.plays) == ("", 1)


def test_a_burst_taken_back_leaves_no_number_out():
    player = ArmedByHand()
    sound = BurstSound(player, lambda: 9)
    sound.arm("eggs@40", Rank.DUE, "Eggs", 0.4, 40)
    assert sound.disarm() == ""
    sound.play(Rank.DUE, "Eggs", 0.4)
    player.handed()
    assert sound.begun() == [(1, 9)]


def test_nothing_is_armed_over_a_burst_of_higher_rank_that_plays():
    player = ArmedByHand()
    player.busy = lambda: True
    sound = BurstSound(player, lambda: 9)
    sound.play(Rank.DANGER, "Eggs", 0.7)
    sound.arm("eggs@40", Rank.DUE, "Eggs", 0.4, 40)
    assert player.armed is None


def test_dishes_of_one_cook_have_melodies_of_their_own_however_it_was_opened():
    given = []
    player = DeviceByHand()
    player.play = given.append
    names = tuple(f"Dish {n}" for n in range(60))
    for _ in range(2):
        sound = BurstSound(player, lambda: 0)
        sound.learn(names)
        for name in names:
            sound.play(Rank.DUE, name, 0.4)
    assert len(set(given[:60])) == 60
    assert given[:60] == given[60:]
