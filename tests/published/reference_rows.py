"""What has been published about cords, devices, motors, sources and batteries, and how sure is each figure?

`reference/*.csv` hold the published values with their source, status and how each was checked; they come from outside
this project and are never changed to suit it. `dispositions.csv` says for each what the project does with it.
"""

import csv
import json
import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from pathlib import Path

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Published:
    """One published value, as text, with its unit, conditions and source."""

    id: str
    kind: str
    item: str
    value: str
    unit: str
    conditions: str
    source: str
    status: str
    checked: str
    notes: str

    @property
    def number(self) -> float:
        return float(self.value)

    @property
    def half_digit(self) -> float:
        """Half of the last printed digit: what rounding alone explains."""
        exponent = Decimal(self.value).as_tuple().exponent
        return 0.5 * 10.0**exponent * (1 + 1e-9)

    def rounds_to(self, computed: float) -> None:
        """Assert that a computed figure is the published one within half of its last printed digit."""
        assert abs(computed - self.number) <= self.half_digit, f"{self.id}: {computed} against {self.value}"

    def is_served(self, served: float) -> None:
        """Assert that a table of ours gives exactly the published figure (one part in 10^12 for change of unit)."""
        assert abs(served - self.number) <= 1e-12 * max(abs(self.number), 1e-300), f"{self.id}: {served}"

    def parts(self, pattern: str) -> tuple[str, ...]:
        """Groups of a pattern that must match the whole item."""
        found = re.fullmatch(pattern, self.item)
        assert found, f"{self.id}: {self.item!r} does not match {pattern!r}"
        return found.groups()

    @property
    def given(self) -> dict:
        """Conditions written as JSON."""
        return json.loads(self.conditions)


@dataclass(frozen=True)
class Disposition:
    """What is done with a published value: computed, looked up, refuted or waits; by which check, and why."""

    row: str
    disposition: str
    by: str
    reason: str


@cache
def published() -> dict[str, Published]:
    found: dict[str, Published] = {}
    for path in sorted((HERE / "reference").glob("*.csv")):
        with path.open(newline="", encoding="utf-8") as lines:
            for cells in csv.DictReader(lines):
                assert cells["id"] not in found, cells["id"]
                found[cells["id"]] = Published(**cells)
    return found


@cache
def dispositions() -> tuple[Disposition, ...]:
    with (HERE / "dispositions.csv").open(newline="", encoding="utf-8") as lines:
        return tuple(Disposition(**cells) for cells in csv.DictReader(lines))
