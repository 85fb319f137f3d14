"""Which of the media types on offer does the caller prefer?

Source: RFC 9110, 12.5.1 (Accept), 12.5.3 (Accept-Encoding) and 8.3.1 (media types). A range that cannot be read is
passed over, so that no header can do more harm than being ignored.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ampwright.api.problems import ProblemError

JSON = "application/json"
LINES = "application/x-ndjson"
_QUALITY = re.compile(r"\A(?:0(?:\.[0-9]{0,3})?|1(?:\.0{0,3})?)\Z")
_MOST_RANGES = 64


def essence(header: str) -> tuple[str, dict[str, str]]:
    """Type and parameters of a media type header, in lower case: ("application/json", {"charset": "utf-8"})."""
    kind, *rest = header.split(";")
    parameters = {}
    for one in rest:
        name, _, value = one.partition("=")
        parameters[name.strip().lower()] = value.strip().strip('"').lower()
    return kind.strip().lower(), parameters


def choose(accept: str | None, offered: Sequence[str]) -> str:
    """The media type to send.

    accept : value of the Accept header, None where there is none; offered : what can be sent, the usual one first.
    Raises ProblemError "not-acceptable" where the header excludes all of them.
    """
    if accept is None or not accept.strip():
        return offered[0]
    ranges: list[tuple[str, float]] = []
    for part in accept.split(",")[:_MOST_RANGES]:
        kind, parameters = essence(part)
        quality = parameters.get("q", "1")
        if "/" in kind and _QUALITY.match(quality):
            ranges.append((kind, float(quality)))
    if not ranges:
        return offered[0]
    best, best_weight = "", 0.0
    for one in offered:
        weight = _weight(one, ranges)
        if weight > best_weight:
            best, best_weight = one, weight
    if not best:
        raise ProblemError("not-acceptable", f"This resource can be sent as {', '.join(offered)}.")
    return best


def takes_gzip(accept_encoding: str) -> bool:
    """Whether the answer may be packed, and is not liked better as it is.

    accept_encoding : value of the header, empty where there is none, which is taken for no.
    """
    weights: dict[str, float] = {}
    for part in accept_encoding.split(",")[:_MOST_RANGES]:
        coding, parameters = essence(part)
        quality = parameters.get("q", "1")
        if _QUALITY.match(quality):
            weights.setdefault(coding, float(quality))
    packed = max((weights[one] for one in ("gzip", "x-gzip") if one in weights), default=weights.get("*", 0.0))
    return packed > 0.0 and packed >= weights.get("identity", 0.0)


def _weight(offered: str, ranges: list[tuple[str, float]]) -> float:
    kind, _ = essence(offered)
    # The most specific range decides, wherever it stands.
    for wanted in (kind, kind.split("/")[0] + "/*", "*/*"):
        weights = [weight for named, weight in ranges if named == wanted]
        if weights:
            return max(weights)
    return 0.0
