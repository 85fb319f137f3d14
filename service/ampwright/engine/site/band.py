"""How sure is a figure? Three values of one quantity: low, typical, high."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

LOW, TYPICAL, HIGH = 0, 1, 2  # index of an estimate in every array that has an estimate axis


@dataclass(frozen=True, slots=True)
class Band:
    """Low, typical and high estimate of one figure, in the unit its owner's name carries.

    `open_top` marks a reading over a meter's range: the figure is at least `low`, and nothing bounds it above.
    """

    low: float
    typical: float
    high: float
    open_top: bool = False

    @classmethod
    def exactly(cls, value: float) -> Band:
        return cls(value, value, value)

    def at(self, estimate: int) -> float:
        """The value at LOW, TYPICAL or HIGH."""
        return (self.low, self.typical, self.high)[estimate]

    def map(self, function: Callable[[float], float]) -> Band:
        """The band of an increasing function of the figure."""
        return Band(function(self.low), function(self.typical), function(self.high), self.open_top)

    def times(self, factor: float) -> Band:
        return self.map(lambda value: value * factor)
