"""The few value types that everything shares.

Units, everywhere in the program: durations of menus and plans are whole seconds (names end in `_s`); moments of a
running cook are whole milliseconds on the kitchen clock (`Moment`); temperatures are degrees Celsius (names end in
`_c`) and are turned to the menu's unit only where words are made.
"""

from collections.abc import Mapping
from typing import Any, Self, TypeAlias, cast

from pydantic import BaseModel, ConfigDict

Seconds: TypeAlias = int
"""A duration, or a point on a plan's axis, in whole seconds."""

Moment: TypeAlias = int
"""Whole milliseconds on the kitchen clock. It is set to Unix time when a cook is opened and never steps after that."""

MS = 1000
"""Milliseconds in a second: the one factor between the plan's axis and the kitchen clock."""


class Frozen(BaseModel):
    """A value: validated when made, never changed, equal when its parts are equal."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """The same value with some fields changed, unvalidated. What cached properties knew of the old one is left."""
        kept = {name: getattr(self, name) for name in type(self).model_fields}
        return cast("Self", type(self).model_construct(**{**kept, **(update or {})}))


class Span(Frozen):
    """How long something takes, in whole seconds: 0 <= low <= likely <= high."""

    low: Seconds
    likely: Seconds
    high: Seconds

    @classmethod
    def of(cls, length: Seconds) -> "Span":
        """The span of something whose length is known exactly."""
        return cls(low=length, likely=length, high=length)

    @property
    def certain(self) -> bool:
        """True when nothing is left to the food or to the cook."""
        return self.low == self.high
