"""Which of several verdicts counts?"""

from __future__ import annotations

from collections.abc import Iterable

ORDER = ("pass", "marginal", "unknown", "fail")  # better first


def worst(verdicts: Iterable[str]) -> str:
    """The worst of some verdicts; pass where there are none."""
    return max(verdicts, key=ORDER.index, default="pass")


def over(typical: float, high: float, limit: float, limit_low: float | None = None) -> str:
    """Verdict of a figure that must not exceed a limit: to pass, its high estimate must hold at the limit's low one."""
    if typical > limit:
        return "fail"
    return "marginal" if high > (limit if limit_low is None else limit_low) else "pass"


def under(typical: float, low: float, limit: float) -> str:
    """Verdict of a figure that must not fall below a limit."""
    if typical < limit:
        return "fail"
    return "marginal" if low < limit else "pass"
