"""How long to wait before a call is sent again?

Sources: RFC 9110, 10.2.3 (Retry-After); the spread over time is common practice, no source.
"""

from __future__ import annotations

import random
import re

__all__ = ["backoff_s", "retry_after_s"]

_FIRST_S = 0.25
_LONGEST_S = 8.0


def retry_after_s(value: str | None, now_s: float) -> float | None:
    """Seconds to wait by a Retry-After header, None where there is none that can be read.

    now_s : seconds since 1970; an instant that has passed gives 0.
    """
    if value is None:
        return None
    value = value.strip()
    if re.fullmatch(r"[0-9]{1,9}", value):
        return float(value)
    from email.utils import parsedate_to_datetime

    try:
        return max(0.0, parsedate_to_datetime(value).timestamp() - now_s)
    except (ValueError, OverflowError):
        return None


def backoff_s(tries: int, asked_s: float | None) -> float:
    """Seconds to wait after `tries` tries, not before what the service asked for.

    Spread, so that callers that were turned away together do not come back together.
    """
    step = min(_LONGEST_S, _FIRST_S * 2.0 ** (tries - 1))
    if asked_s is not None:
        return asked_s + random.uniform(0.0, min(step, 0.25 * asked_s + 0.05))
    return random.uniform(0.5 * step, step)
