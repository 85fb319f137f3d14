"""What is a request after the steps of a change? RFC 6902 section 4, as far as changes use it: add, replace, remove."""

from __future__ import annotations

import copy
from collections.abc import Iterable
from typing import Any


def patched(request: dict[str, Any], steps: Iterable[dict[str, Any]]) -> dict[str, Any]:
    """The request after every step in turn; KeyError or IndexError where a step points nowhere, as the RFC asks."""
    document = copy.deepcopy(request)
    for step in steps:
        *way, last = [part.replace("~1", "/").replace("~0", "~") for part in step["path"].split("/")[1:]]
        here: Any = document
        for part in way:
            here = here[int(part)] if isinstance(here, list) else here[part]
        if isinstance(here, list):
            _in_list(here, last, step)
        elif step["op"] == "remove":
            del here[last]
        else:
            if step["op"] == "replace" and last not in here:
                raise KeyError(step["path"])
            here[last] = step["value"]
    return document


def _in_list(here: list[Any], last: str, step: dict[str, Any]) -> None:
    place = len(here) if last == "-" else int(last)
    if step["op"] == "add":
        if place > len(here):
            raise IndexError(step["path"])
        here.insert(place, step["value"])
    elif step["op"] == "remove":
        del here[place]
    else:
        here[place] = step["value"]
