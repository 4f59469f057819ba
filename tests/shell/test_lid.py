"""A machine with a lid is told to keep it open; one without is told nothing."""

import sys

import pytest

from timerboard.shell import lid
from timerboard.shell.lid import WARNING, lid_warning

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="asks the Linux kernel and UPower")


@pytest.fixture
def no_bus(monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", str(tmp_path))
    return tmp_path


def busctl(folder, body):
    path = folder / "busctl"
    path.write_text(f"#!/bin/sh\n{body}\n")
    path.chmod(0o755)


def test_the_kernels_list_of_lids_is_enough(no_bus):
    state = no_bus / "lids" / "LID0" / "state"
    state.parent.mkdir(parents=True)
    state.write_text("state:      open\n")
    assert lid_warning(no_bus / "lids") == WARNING


def test_without_one_the_power_service_is_asked(no_bus):
    busctl(no_bus, "echo b true")
    assert lid_warning(no_bus / "none") == WARNING
    busctl(no_bus, "echo b false")
    assert lid_warning(no_bus / "none") == ""


def test_where_nobody_knows_nothing_is_said(no_bus):
    assert lid_warning(no_bus / "none") == ""
    busctl(no_bus, "exit 1")
    assert lid_warning(no_bus / "none") == ""


def test_a_bus_that_hangs_is_left_alone(no_bus, monkeypatch):
    monkeypatch.setattr(lid, "WAIT_S", 0.2)
    busctl(no_bus, "exec /bin/sleep 30")
    assert lid_warning(no_bus / "none") == ""
