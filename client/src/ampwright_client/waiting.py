"""How long to wait before a call is sent again?

Sources: RFC 9110, 10.2.3 (Retry-After) and 5.6.7 (its dates, all of them UTC); the spread over time is common practice,
no source.
"""

from __future__ import annotations

import math
import random
import re
from datetime import UTC

__all__ = ["backoff_s", "retry_after_s"]

_FIRST_S = 0.25
_LONGEST_S = 8.0


def retry_after_s(value: str | None, now_s: float) -> float | None:
    """Seconds to wait by a Retry-After header, None where there is none that can be read.

    now_s : seconds since 1970; an instant that has passed gives 0, more digits than a number holds give infinity.
    """
    if value is None:
        return None
    value = value.strip()
    if re.fullmatch(r"[0-9]+", value):
        return float(value)
    from email.utils import parsedate_to_datetime

    try:
        at = parsedate_to_datetime(value)
        # The form of asctime names no zone; without one it would be read as local time.
        at = at.replace(tzinfo=UTC) if at.tzinfo is None else at
        return max(0.0, at.timestamp() - now_s)
    except (ValueError, OverflowError):
        return None


def backoff_s(tries: int, asked_s: float | None, left_s: float = math.inf) -> float:
    """Seconds to wait after `tries` tries, not before what the service asked for.

    left_s : patience that is left; the spread over what was asked for does not go beyond it.

    Spread, so that callers that were turned away together do not come back together.
    """
    step = min(_LONGEST_S, _FIRST_S * 2.0 ** (tries - 1))
    if asked_s is not None:
        spread_s = min(step, 0.25 * asked_s + 0.05, max(0.0, left_s - asked_s))
        return asked_s + random.uniform(0.0, spread_s)
    return random.uniform(0.5 * step, step)
