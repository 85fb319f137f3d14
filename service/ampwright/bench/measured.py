"""How is a time taken and a row printed?

Times of pure calculation are of this process's own processor time, the least of several: what else runs on the machine
then counts little. Times of a service are by the clock, the middle one of several.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median


@dataclass(frozen=True, slots=True)
class Row:
    """One line: what, how much, in which unit, and what it is a multiple of (in the same run)."""

    what: str
    value: float
    unit: str
    beside: str = ""


def least_s(act: Callable[[], object], times: int) -> float:
    """[s] of processor time of this process, the least of several."""
    taken = []
    for _ in range(max(1, times)):
        start = time.process_time()
        act()
        taken.append(time.process_time() - start)
    return min(taken)


def middle_s(acts: Callable[[], object], times: int) -> float:
    """[s] by the clock, the middle one of several."""
    taken = []
    for _ in range(max(1, times)):
        start = time.perf_counter()
        acts()
        taken.append(time.perf_counter() - start)
    return median(taken)


def resident_mb(process: int | str = "self") -> float:
    """[MB] of memory of a process now; NaN where the system does not tell."""
    try:
        pages = int(Path(f"/proc/{process}/statm").read_text().split()[1])
    except (OSError, ValueError):
        return float("nan")
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6


def process_s(process: int) -> float:
    """[s] of processor time that another process has used; NaN where the system does not tell."""
    try:
        fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    except OSError:
        return float("nan")
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def told(title: str, rows: Sequence[Row]) -> str:
    """A block of lines."""
    lines = [title]
    for row in rows:
        value = f"{row.value:.3g}" if row.value < 1000 else f"{row.value:.0f}"
        lines.append(f"  {row.what:64}{value:>9} {row.unit:12} {row.beside}".rstrip())
    return "\n".join(lines)
