"""What is a JSON value after some steps of RFC 6902? The three operations that answers of this service use."""

from __future__ import annotations

import copy
from collections.abc import Sequence
from typing import Any

Step = tuple[str, str, Any]  # op, path, value


def apply_steps(value: Any, steps: Sequence[Step]) -> Any | None:
    """A changed copy, None where a step does not fit what is there.

    Source: RFC 6902, 4.1 to 4.3 (add, remove, replace); RFC 6901 for the paths.
    """
    changed = copy.deepcopy(value)
    try:
        for op, path, new in steps:
            _apply(changed, op, path, copy.deepcopy(new))
    except (KeyError, IndexError, ValueError, TypeError):
        return None
    return changed


def _apply(value: Any, op: str, path: str, new: Any) -> None:
    *parents, last = [step.replace("~1", "/").replace("~0", "~") for step in path.split("/")[1:]]
    here = value
    for step in parents:
        here = here[_place(here, step)] if isinstance(here, list) else here[step]
    if isinstance(here, list):
        if op == "add":
            here.insert(len(here) if last == "-" else _place(here, last, beyond=1), new)
        elif op == "replace":
            here[_place(here, last)] = new
        else:
            del here[_place(here, last)]
    elif op == "add":
        if not isinstance(here, dict):
            raise TypeError("no object")
        here[last] = new
    elif last not in here:
        raise KeyError(last)
    elif op == "replace":
        here[last] = new
    else:
        del here[last]


def _place(items: list[Any], step: str, *, beyond: int = 0) -> int:
    if not step.isascii() or not step.isdecimal() or int(step) >= len(items) + beyond:
        raise IndexError(step)
    return int(step)
