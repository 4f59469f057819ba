"""What the default player does about devices that swallow, hang or fail. Devices by hand stand in for real ones."""

from threading import Event, Thread
from time import perf_counter

import miniaudio
import pytest

from timerboard.shell import miniaudio_player
from timerboard.shell.burst import RATE
from timerboard.shell.miniaudio_player import MOST_CLOSING, NAMED_EVERY_MS, MiniaudioPlayer

PULSE = [miniaudio.Backend.PULSEAUDIO]


class Bench:
    """Devices by hand: `names` are the outputs, `fails` makes opening fail, `hang` makes closing wait."""

    def __init__(self):
        self.names, self.fails, self.opened = ["Speakers"], False, []
        self.go, self.answers = Event(), Event()
        self.go.set()
        self.answers.set()

    def device(self, **_kinds):
        self.answers.wait(20)
        if self.fails:
            raise miniaudio.MiniaudioError("none")
        self.opened.append(Device(self))
        return self.opened[-1]

    def devices(self, _backends):
        self.answers.wait(20)
        return self

    def get_playbacks(self):
        return [{"name": name} for name in self.names]


class Device:
    backend = "PulseAudio"

    def __init__(self, bench):
        self._bench = bench
        self.stream, self.closed = None, False

    def start(self, stream):
        self.stream = stream

    def pull(self, ms):
        return self.stream.send(RATE * ms // 1000)

    def close(self):
        self._bench.go.wait(20)
        self.closed = True


@pytest.fixture
def bench(monkeypatch):
    bench = Bench()
    monkeypatch.setattr(miniaudio_player.miniaudio, "PlaybackDevice", bench.device)
    monkeypatch.setattr(miniaudio_player.miniaudio, "Devices", bench.devices)
    yield bench
    bench.go.set()
    bench.answers.set()


def a_second_passes(player, bench):
    """Long enough for whatever answers at all, though no second is spent here."""
    for aside in (player._opening, player._naming):
        if aside is not None and bench.answers.is_set():
            aside._thread.join(20)


def run(player, bench, start_ms, seconds, flowing=True):
    """Look once a second; gives what was said at each look."""
    said = []
    for second in range(seconds):
        if flowing and bench.opened:
            bench.opened[-1].pull(1000)
        player.tend(start_ms + second * 1000)
        a_second_passes(player, bench)
        said.append(player.trouble())
    return said


def test_only_a_dummy_output_is_said_and_taken_back_when_a_speaker_comes(bench):
    bench.names = ["Dummy Output"]
    player = MiniaudioPlayer(PULSE)
    assert player.trouble() == "the sound server has only a dummy output"
    assert set(run(player, bench, 100_000, 8)) == {"the sound server has only a dummy output"}
    bench.names = ["Dummy Output", "Headphones"]
    assert run(player, bench, 108_000, 1 + NAMED_EVERY_MS // 1000)[-1] == ""


def test_a_device_that_hangs_when_it_is_closed_holds_nothing_up_and_is_not_opened_for_ever(bench):
    player = MiniaudioPlayer(PULSE)
    run(player, bench, 100_000, 5)
    bench.go.clear()
    said = run(player, bench, 105_000, 120, flowing=False)
    assert said[4] == said[-1] == "the sound device takes nothing any more"
    assert len(bench.opened) <= 1 + MOST_CLOSING
    bench.go.set()
    player.close()


def until_opened(player, bench, how_many, at_ms):
    """The device's thread comes when it comes: look until it has."""
    for _ in range(2_000):
        player.tend(at_ms)
        if len(bench.opened) == how_many and player._device is bench.opened[-1]:
            return
        Event().wait(0.01)
    raise AssertionError("never opened")


def test_a_sound_system_that_hangs_holds_nothing_up_is_told_within_five_seconds_and_taken_when_it_answers(bench):
    bench.answers.clear()
    began = perf_counter()
    player = MiniaudioPlayer(PULSE)
    player.play(b"\1\0" * 4800)
    said = run(player, bench, 100_000, 60)
    assert perf_counter() - began < 1
    assert said[0] == ""
    assert set(said[5:]) == {"the sound system does not answer"}
    bench.answers.set()
    until_opened(player, bench, 1, 160_000)
    assert any(bench.opened[0].pull(20))
    assert run(player, bench, 161_000, 6)[-1] == ""


def test_asking_for_the_names_of_devices_holds_nothing_up(bench):
    player = MiniaudioPlayer(PULSE)
    bench.answers.clear()
    began = perf_counter()
    assert set(run(player, bench, 100_000, 60)) == {""}
    assert perf_counter() - began < 1


def test_a_cook_under_way_is_never_held_up_by_names_or_by_a_device_opened_again(bench, monkeypatch):
    player, waited = MiniaudioPlayer(PULSE), []
    made = miniaudio_player.Aside

    def aside(work, name, patience_s=miniaudio_player.PATIENCE_S):
        waited.append((name, patience_s))
        return made(work, name, patience_s)

    monkeypatch.setattr(miniaudio_player, "Aside", aside)
    run(player, bench, 100_000, 5)
    run(player, bench, 105_000, 5, flowing=False)
    assert set(waited) == {("sound devices named", 0), ("sound device opening", 0)}


def test_what_is_opened_only_after_the_board_has_closed_is_let_go_of(bench):
    bench.answers.clear()
    player = MiniaudioPlayer(PULSE)
    player.close()
    bench.answers.set()
    for _ in range(2_000):
        if bench.opened and bench.opened[0].closed:
            break
        Event().wait(0.01)
    assert bench.opened[0].closed


def test_what_is_still_being_named_when_the_board_closes_is_let_go_of(bench, monkeypatch):
    asked, named = Event(), Event()

    def devices(_backends):
        asked.set()
        named.wait(20)
        return bench

    monkeypatch.setattr(miniaudio_player.miniaudio, "Devices", devices)
    player = MiniaudioPlayer(PULSE)
    assert asked.wait(20)
    player.close()
    assert not bench.opened[0].closed
    named.set()
    for _ in range(2_000):
        if bench.opened[0].closed:
            break
        Event().wait(0.01)
    assert bench.opened[0].closed


@pytest.mark.parametrize(("asked", "said"), [("PlaybackDevice", "no sound device"), ("Devices", "")])
def test_a_driver_that_fails_in_a_way_of_its_own_is_not_waited_for(bench, monkeypatch, asked, said):
    def fails(*_args, **_kinds):
        raise OSError("of its own")

    monkeypatch.setattr(miniaudio_player.miniaudio, asked, fails)
    player = MiniaudioPlayer(PULSE)
    assert player._opening is None
    assert player.trouble() == said


def test_after_a_loss_a_new_device_gets_time_to_prove_itself_and_the_rest_of_the_burst(bench):
    player = MiniaudioPlayer(PULSE)
    run(player, bench, 100_000, 5)
    player.play(b"\1\0" * RATE)
    assert run(player, bench, 105_000, 5, flowing=False)[-1] != ""
    again = run(player, bench, 110_000, 5)
    assert again[-1] == ""
    assert len(bench.opened) == 2
    assert not player.busy()


def test_what_was_lost_comes_back_when_a_device_does(bench):
    bench.fails = True
    player = MiniaudioPlayer(PULSE)
    assert set(run(player, bench, 100_000, 6)) == {"no sound device"}
    bench.fails = False
    assert run(player, bench, 106_000, 6)[-1] == ""


def test_the_first_sample_of_a_burst_is_told_once_when_it_is_taken(bench):
    told = []
    player = MiniaudioPlayer(PULSE)
    player.handed = lambda: told.append(player.busy())
    bench.opened[-1].pull(20)
    player.play(b"\1\0" * 4800)
    assert told == []
    for _ in range(10):
        bench.opened[-1].pull(20)
    assert len(told) == 1


class Meddled(list):
    """The cell of a tape: what the window does just as the device writes into it comes `meanwhile`."""

    meanwhile = None

    def __setitem__(self, at, what):
        meanwhile, self.meanwhile = self.meanwhile, None
        if meanwhile is not None:
            meanwhile.start()
            meanwhile.join(0.05)
        super().__setitem__(at, what)


@pytest.mark.parametrize(("wish", "heard"), [("play", b"\2\0"), ("stop", b"\0\0")])
def test_what_the_window_wants_while_the_device_notes_how_far_it_has_come_is_not_lost(bench, wish, heard):
    player = MiniaudioPlayer(PULSE)
    player.play(b"\1\0" * 48_000)
    cell = player._tape.playing = Meddled(player._tape.playing)
    wanted = {"play": lambda: player.play(b"\2\0" * 4800), "stop": player.stop}
    window = cell.meanwhile = Thread(target=wanted[wish])
    assert bench.opened[-1].pull(20)[:2] == b"\1\0"
    window.join(20)
    assert bench.opened[-1].pull(20)[:2] == heard


class TestArmed:
    """The device's own thread begins an armed burst; here it is pulled by hand."""

    def armed(self, bench):
        player, self.due, self.told = MiniaudioPlayer(PULSE), False, []
        player.arm(b"\1\0" * 4800, lambda: self.due, lambda: self.told.append(player.busy()))
        return player, bench.opened[-1]

    def test_it_begins_with_the_first_buffer_after_its_moment_and_nobody_has_to_look(self, bench):
        player, device = self.armed(bench)
        assert not any(device.pull(20))
        self.due = True
        assert any(device.pull(20))
        assert self.told == [True]
        assert player.busy()
        assert player.disarm()

    def test_taken_back_in_time_it_is_never_heard(self, bench):
        player, device = self.armed(bench)
        assert not player.disarm()
        self.due = True
        assert not any(device.pull(20))
        assert self.told == []

    def test_it_takes_the_place_of_what_plays(self, bench):
        player, device = self.armed(bench)
        player.play(b"\2\0" * 48_000)
        assert device.pull(20)[:2] == b"\2\0"
        self.due = True
        assert device.pull(20)[:2] == b"\1\0"

    def test_it_outlives_the_device_it_was_armed_on(self, bench):
        player, device = self.armed(bench)
        run(player, bench, 100_000, 5)
        run(player, bench, 105_000, 5, flowing=False)
        self.due = True
        assert len(bench.opened) == 2
        assert not any(device.pull(20))
        assert any(bench.opened[-1].pull(20))

    def test_the_device_does_not_wait_while_it_is_being_armed(self, bench):
        player, device = self.armed(bench)
        self.due = True
        with player._tape._arming:
            assert not any(device.pull(20))
        assert any(device.pull(20))
