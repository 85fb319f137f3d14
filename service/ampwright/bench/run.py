"""Which rows are measured, and how are they told?

Each group is a function that yields rows as they are measured; a group that fails says so, and the others go on.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from importlib import import_module
from pathlib import Path

from ampwright.bench.measured import Row, told

# by the word that asks for it: module and function; imported when asked for, because the engine takes a while to load
GROUPS = {
    "networks": ("engine_rows", "network_rows"),
    "load-checks": ("engine_rows", "load_check_rows"),
    "growth": ("engine_rows", "growth_rows"),
    "choosing": ("choosing_rows", "choosing_rows"),
    "cost": ("cost_rows", "cost_rows"),
    "service": ("service_rows", "service_rows"),
    "catalogue": ("catalogue_rows", "catalogue_rows"),
    "reference": ("engine_rows", "reference_rows"),
}


def run_bench(chosen: Sequence[str], *, quick: bool, stored: Path) -> int:
    """Measure and print. stored : folder of the tests, for `reference`. The exit status is 1 where a group failed."""
    print("Ratios and rates of this run on this machine; other work on it makes them worse.")
    status = 0
    for name in chosen or GROUPS:
        try:
            print(told(name.upper(), list(_rows(name, quick=quick, stored=stored))), flush=True)
        except Exception as error:
            print(f"ampwright: {name} could not be measured: {error}", file=sys.stderr)
            status = 1
    return status


def _rows(name: str, *, quick: bool, stored: Path) -> Iterator[Row]:
    module, function = GROUPS[name]
    measure = getattr(import_module(f"ampwright.bench.{module}"), function)
    rows: Iterator[Row] = measure(stored) if name == "reference" else measure(quick=quick)
    return rows
