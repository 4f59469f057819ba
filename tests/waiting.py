"""Waiting in a test for what another thread or process does, by asking again."""

import select
from collections.abc import Callable
from time import perf_counter
from typing import Any


def until(wanted: Callable[[], object], seconds: float = 20, what: str = "") -> Any:
    """Ask again and again; gives what was wanted once it is there."""
    end = perf_counter() + seconds
    while perf_counter() < end:
        if found := wanted():
            return found
        select.select([], [], [], 0.01)
    raise AssertionError(f"{what or wanted}: not within {seconds} s")
