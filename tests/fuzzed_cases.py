"""How many cases did the fuzzer send, and were they enough?

Each test records what it sent; the sum over all processes is printed at the end. Where a number was asked for, a run of
the fuzzer fails below it; cases near the examples are printed too, and no number is asked of them.
"""

from __future__ import annotations

import os
from collections import Counter
from typing import Any

from hypothesis import HealthCheck, settings

SENT = "cases sent"
NEAR = "near examples"
ANSWERED = "answered 2xx"  # the rest are problems, as the document promises them
EXTENT = os.environ.get("AMPWRIGHT_TEST_FUZZ", "gate")
AT_LEAST = {"gate": 0, "long": 20_000, "all": 200_000}[EXTENT]


def same_each_time(**more: Any) -> settings:
    """The same cases in each run, however long they take: a change turns a run red, and chance does not."""
    return settings(deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck), **more)


def cases_sent(terminal: Any) -> Counter[str]:
    """Cases by phase, of every report that this process has heard of (with xdist: of all processes)."""
    counted: Counter[str] = Counter()
    for reports in terminal.stats.values():
        for report in reports:
            if getattr(report, "when", None) == "call":
                for name, sent in report.user_properties:
                    if name == SENT:
                        counted.update(sent)
    return counted


def enough(terminal: Any) -> bool:
    """Print the sum; whether the fuzzer sent what was asked for (a run without it is asked for nothing)."""
    counted = cases_sent(terminal)
    if not counted:
        return True
    answered = counted.pop(ANSWERED, 0)
    parts = ", ".join(f"{phase} {number}" for phase, number in sorted(counted.items()))
    terminal.write_line(
        f"fuzz: {counted.total()} cases sent ({parts}), {answered} of them answered 2xx; {AT_LEAST} asked for"
    )
    drawn = counted.total() - counted[NEAR]
    return drawn == 0 or drawn >= AT_LEAST
