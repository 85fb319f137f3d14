"""Does what the caller says about the site contradict itself?

`validate` returns every contradiction at once, in document order. A plug that does not fit, a wrong voltage, too long a
cord are no contradictions: they are what the calculation is there to find.
Not here: texts that cannot be read (contract/reading_site.py).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice

from ampwright.engine.site.pointers import in_document_order
from ampwright.engine.site.use import Fault, Site
from ampwright.engine.site.validation_connections import connection_faults
from ampwright.engine.site.validation_source import source_faults
from ampwright.engine.site.validation_tools import cord_faults, tool_faults
from ampwright.engine.site.validation_use import case_faults, follow_faults, name_faults

MOST_FAULTS = 100  # of one request; explaining a fault is the costly part of refusing a hostile request


def validate(site: Site) -> tuple[Fault, ...]:
    """Contradictions in the site, the first MOST_FAULTS; empty when it is sound. Codes: contract/fault_codes.py."""
    return in_order(islice(_faults(site), MOST_FAULTS))


def _faults(site: Site) -> Iterator[Fault]:
    yield from name_faults(site)
    yield from source_faults(site.source)
    for tool in site.tools:
        yield from tool_faults(tool)
    for cord in site.cords:
        yield from cord_faults(cord)
    yield from follow_faults(site)
    yield from connection_faults(site)
    yield from case_faults(site)


def in_order(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """Faults in document order, each once."""
    return tuple(
        sorted(dict.fromkeys(faults), key=lambda fault: (in_document_order(fault.pointer), fault.code, fault.message))
    )
