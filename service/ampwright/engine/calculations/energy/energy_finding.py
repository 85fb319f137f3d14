"""What is one finding of a day before its words, and what does a sentence call the source?"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.wording import and_list
from ampwright.engine.site.use import Site


@dataclass(frozen=True, slots=True)
class Told:
    """A finding before its words: `verdict` as it counts in its aspect."""

    code: str
    pointer: str
    subject: str
    verdict: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    text: str = ""


MOST_NAMED = 5


def some_of(tools: tuple[str, ...]) -> str:
    """`saw, compressor and lamp`; of many the first ones and how many more."""
    if len(tools) <= MOST_NAMED:
        return and_list(tools)
    return f"{', '.join(tools[: MOST_NAMED - 1])} and {len(tools) - MOST_NAMED + 1} more"


def name_of(site: Site) -> str:
    """What a sentence calls the source."""
    return site.source.name or {
        "vehicle": "the vehicle", "battery_station": "the battery", "engine_generator": "the generator",
    }.get(site.source.kind, "the supply")  # fmt: skip
