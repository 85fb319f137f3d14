"""Who is noted down as the writer of something?

What a caller says of itself, with the key that it showed: a name alone can be anybody's.
"""

from __future__ import annotations

from msgspec import UNSET, UnsetType

from ampwright.api.operations import Call
from ampwright.api.problems import ProblemError, ProblemFault


def writer(call: Call, by: str | UnsetType = UNSET) -> str:
    """`fleet desk`, `fleet desk (key 3fa9...)` or `key 3fa9...`. Raises ProblemError where there is neither."""
    if by is not UNSET:
        return by if call.key is None else f"{by} ({call.who})"
    if call.key is None:
        fault = ProblemFault(
            code="writer_unknown", message="Say who writes: no access key was shown that would.", pointer="/by"
        )
        raise ProblemError("contradictory-request", fault.message, errors=[fault])
    return call.who
