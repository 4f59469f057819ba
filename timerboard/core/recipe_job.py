"""A step in the making: what one clause of a method tells somebody to do."""

from dataclasses import dataclass, field

from .recipe_cues import CueFound
from .recipe_times import Role
from .recipe_values import Range
from .recipe_verbs import Kind

LENGTHS = (Role.LENGTH, Role.LEAST, Role.MOST, Role.PER_WEIGHT)
"""What a time may be for it to say how long the step is."""


@dataclass(slots=True)
class Job:
    """One job. `said` names what was guessed, by the step's key."""

    do: str
    kind: Kind
    place: str
    span: Range
    said: dict[str, str] = field(default_factory=dict)
    heat: str = ""  # '180 C'
    until: str = ""
    pull_at: str = ""
    cues: list[CueFound] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    after: list[int] | None = None  # positions of the steps it follows; None: the one before it
    throughout: bool = False
    hazard: str = ""
    batches: int = 0
    shut_s: int = 0
    ahead_s: int = 0
    timed: bool = True  # False: its length is a guess by its verb alone
    per_kilo: tuple[int, int] | None = None  # seconds a kilogram, and seconds on top
    guessed_span: str = ""
