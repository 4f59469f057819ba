"""The picture of a pull in a strip's drawer: what was read, the fit with its band, and where it is going."""

from .cook import Cook, Reading
from .heat_values import PullForecast
from .heat_words import pull_line
from .menu import Step
from .quantity_words import celsius_words
from .scene import Scene
from .values import Moment
from .view_axis import labels
from .view_strip_words import forecast_of
from .view_values import PullPicture, Read
from .words import MINUTE

PAST_PULL = 5 * MINUTE
MARGIN_C = 5.0


def pull_picture(scene: Scene, step: Step) -> PullPicture | None:
    """None for a step that is not pulled, and before the first reading."""
    life = scene.cook.lives[step.id]
    cores = tuple(r for r in life.readings if r.of == "core")
    if step.pull_at_c is None or step.batches is not None or life.started is None or not cores:
        return None
    found = forecast_of(scene, step)
    end = max(scene.now, cores[-1].at, found.late or 0 if found else 0) + PAST_PULL
    end = min(end, scene.now + max(4 * (scene.now - life.started), 60 * MINUTE))
    curve = tuple(p for p in found.curve if p.at <= end) if found else ()
    seen_c = [r.celsius for r in cores] + [p.low_c for p in curve[:1]]
    return PullPicture(
        reads=tuple(_read(scene, r, found) for r in cores),
        curve=curve,
        pull_c=step.pull_at_c,
        pull_words=scene.heat(step.pull_at_c),
        now=scene.now,
        start=life.started,
        end=end,
        low_c=min(seen_c) - MARGIN_C,
        high_c=max([*seen_c, step.pull_at_c]) + MARGIN_C,
        at=found.at if found else None,
        at_words=scene.clock(found.at) if found and found.at is not None else "",
        labels=labels(scene.cook, life.started, end),
        said=_said(scene, cores, found),
    )


def _read(scene: Scene, reading: Reading, found: PullForecast | None) -> Read:
    doubtful = found is not None and reading.at in found.doubtful
    return Read(reading.at, reading.celsius, scene.heat(reading.celsius), doubtful)


def _said(scene: Scene, cores: tuple[Reading, ...], found: PullForecast | None) -> str:
    read = ", ".join(f"{scene.clock(r.at)} {scene.heat(r.celsius)}" for r in cores)
    fit = pull_line(found, scene.now, scene.cook.offset_ms, scene.cook.zone, scene.cook.menu.units) if found else ""
    return f"Core read: {read}. {fit}".strip()


def expected_c(found: PullForecast, at: Moment) -> float | None:
    """What the fit has for a moment, between the drawn points; None outside them."""
    for one, other in zip(found.curve, found.curve[1:], strict=False):
        if one.at <= at <= other.at and other.at > one.at:
            share = (at - one.at) / (other.at - one.at)
            return one.likely_c + share * (other.likely_c - one.likely_c)
    return None


def doubt_lines(cook: Cook, step: Step, found: PullForecast | None) -> list[str]:
    """'71 °C was expected at 17:20: is 17 °C right? Z takes it back': readings that do not go with the rest."""
    if found is None:
        return []
    units, lines = cook.menu.units, []
    for reading in cook.lives[step.id].readings:
        if reading.of == "core" and reading.at in found.doubtful:
            wanted = expected_c(found, reading.at)
            read = celsius_words(reading.celsius, units)
            said = f"{celsius_words(round(wanted), units)} was expected: " if wanted is not None else ""
            lines.append(f"{said}is {read} right?")
    return lines
