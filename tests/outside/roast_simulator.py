"""Roasts from an independent solution: finite volumes in one dimension, stepped by scipy's BDF.

It shares nothing with the program's model: the surface takes heat from the air and loses it by evaporation (Lewis
relation, vapour pressure by Magnus's formula), dries as it loses water; the oven swings, its thermostat is off, its
door is opened.
"""

from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp

CELLS = 24
LATENT = 2.3e6  # J/kg, water near 70 °C; from memory
KELVIN_PER_PA = 0.622 * LATENT / (1005.0 * 101_325.0)  # Lewis number 1: h_m L dp / h


@dataclass(frozen=True)
class Roast:
    """Seconds and true core temperatures, what was read, and what the cook believed beforehand."""

    seconds: np.ndarray
    core: np.ndarray
    pull_c: float
    pull_s: float
    oven_c: float
    read_s: tuple[float, ...]
    read_c: tuple[float, ...]
    span_s: tuple[int, int, int]


def vapour_pa(celsius):
    """Magnus's formula over water, Pa (WMO guide no. 8, annex 4.B)."""
    return 611.2 * np.exp(17.62 * celsius / (243.12 + celsius))


def roast(seed: int) -> Roast:
    """A random roast."""
    rng = np.random.default_rng(seed)
    for _ in range(100):
        found = _one(rng)
        if found is not None:
            return found
    raise AssertionError("no roast reached its pull temperature")


def _one(rng):
    power = rng.integers(0, 3)  # 0 slab, 1 cylinder, 2 sphere
    radius = {0: rng.uniform(0.02, 0.045), 1: rng.uniform(0.025, 0.06), 2: rng.uniform(0.035, 0.09)}[int(power)]
    alpha, k = rng.uniform(1.2e-7, 1.5e-7), rng.uniform(0.43, 0.52)
    oven = float(rng.choice([110, 120, 140, 150, 160, 170, 180, 190, 200, 220]))
    pull = float(rng.integers(50, min(90, int(oven) - 35)))
    start = rng.uniform(3, 20)
    h = rng.uniform(10, 30)
    dry_after, wet_at_last = rng.uniform(0.1, 1.0), rng.uniform(0.02, 0.15)  # kg/m2, share of a wet surface
    moist = rng.uniform(1500, 9000)  # Pa of vapour in the oven
    off, swing, phase = rng.normal(0, 6), rng.uniform(2, 10), rng.uniform(0, 600)
    longest = 1.5 * radius**2 / alpha
    doors = [(t, rng.uniform(10, 60), rng.uniform(40, 90)) for t in rng.uniform(0, longest * 0.5, rng.integers(0, 7))]
    edges = np.linspace(0, radius, CELLS + 1)
    middle = (edges[1:] + edges[:-1]) / 2
    face = edges**power
    volume = (edges[1:] ** (power + 1) - edges[:-1] ** (power + 1)) / (power + 1)

    def air(t):
        warm = oven + off + swing * np.sin(2 * np.pi * (t + phase) / 600)
        for at, lasted, drop in doors:
            if at <= t < at + lasted:
                warm -= drop
            elif t >= at + lasted:
                warm -= drop * np.exp(-(t - at - lasted) / 60)
        return warm

    def rate(t, y):
        temps, lost = y[:-1], y[-1]
        wet = wet_at_last + (1 - wet_at_last) * np.exp(-lost / dry_after)
        surface = temps[-1]
        for _ in range(6):  # the surface itself: conduction to it from half a cell in equals what it takes up
            pull_in = h * (air(t) - surface) - h * wet * KELVIN_PER_PA * max(vapour_pa(surface) - moist, 0.0)
            slope = h + h * wet * KELVIN_PER_PA * vapour_pa(surface) * 0.05 + k / (radius - middle[-1])
            surface += (pull_in - k * (surface - temps[-1]) / (radius - middle[-1])) / slope
        flux = np.empty(CELLS + 1)
        flux[0] = 0.0
        flux[1:-1] = alpha * (temps[1:] - temps[:-1]) / (middle[1:] - middle[:-1])
        flux[-1] = alpha * (surface - temps[-1]) / (radius - middle[-1])
        change = (face[1:] * flux[1:] - face[:-1] * flux[:-1]) / volume
        losing = h * wet * KELVIN_PER_PA * max(vapour_pa(surface) - moist, 0.0) / LATENT
        return np.append(change, losing)

    def reached(t, y):
        return y[0] - pull

    reached.terminal = True
    y0 = np.append(np.full(CELLS, start), 0.0)
    run = solve_ivp(
        rate,
        (0, 4 * longest),
        y0,
        "LSODA",
        rtol=1e-4,
        atol=1e-3,
        events=reached,
        max_step=longest / 40,
        lband=1,
        uband=1,
    )
    if not len(run.t_events[0]):
        return None
    end = float(run.t_events[0][0])
    if end < 900:
        return None
    read_s = _moments(rng, end)
    exact = np.interp(read_s, run.t, run.y[0])
    read_c = np.round(exact + rng.normal(0, 0.7, len(read_s)))
    for i in range(len(read_c)):
        if rng.random() < 0.03:  # mistyped
            read_c[i] += rng.choice([-30, -20, -10, 10, 20, 30])
    likely = end * np.exp(rng.normal(0, 0.2))
    return Roast(
        run.t,
        run.y[0],
        pull,
        end,
        oven,
        tuple(read_s),
        tuple(read_c),
        (int(likely * 0.88), int(likely), int(likely * 1.12)),
    )


def _moments(rng, end):
    """When the cook reads: first somewhere in the first half, then about half way to the end each time."""
    at = [rng.uniform(0.15, 0.5) * end]
    while end - at[-1] > 300 and len(at) < 7:
        at.append(at[-1] + rng.uniform(0.25, 0.6) * (end - at[-1]))
    return np.asarray(at)
