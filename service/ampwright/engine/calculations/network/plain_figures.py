"""Which figures do rows have, as plain numbers?

Checks and answers take figures one by one; out of arrays, one at a time costs more than the solve.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from ampwright.engine.calculations.network.load_network import RowFigures

Triples = list[list[tuple[float, float, float]]]


def triples(figures: npt.NDArray[np.float64]) -> Triples:
    """(row, estimate, item) by row and item, all at once."""
    return [[(x[0], x[1], x[2]) for x in row] for row in figures.transpose(0, 2, 1).tolist()]


@dataclass(frozen=True, slots=True)
class PlainFigures:
    """Low, typical and high of every figure of RowFigures, by row and item; outcome by row and estimate."""

    outcome: list[list[int]]
    tool_v: Triples
    tool_a: Triples
    tool_w: Triples
    circuit_a: Triples
    circuit_neutral_a: Triples
    receptacle_a: Triples
    receptacle_v: Triples
    cord_a: Triples
    cord_drop_v: Triples
    cord_c: Triples
    leg_a: Triples
    leg_v: Triples
    limit_va: Triples
    limit_w: Triples
    limit_a: Triples
    limit_peak_a: Triples

    @classmethod
    def of(cls, figures: RowFigures) -> PlainFigures:
        numbers = {item.name: triples(getattr(figures, item.name)) for item in fields(cls) if item.name != "outcome"}
        return cls(figures.outcome.tolist(), **numbers)
