"""Which longer cords would a crew bring where those of the kit end before the work?

A cord of the next usual length that reaches by itself, in place of one of the kit: of the same size first, since a crew
may have that lying about, then of the thicker sizes that a longer run may ask for; last, where the kit leaves open how
it is plugged in, one cord more. Whether a job holds with it is not judged here: each is a kit of its own.
Source: usual lengths, common practice, no source; marks, UL 817 through engine/standards/cord_ratings.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from ampwright.engine.calculations.choosing.kit_plugging import OWN_CORD_M
from ampwright.engine.calculations.reverse.break_even_candidates import OUTDOOR_CORD, thicker, usual_mark_a
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.settle_cord import THIN

FOOT_M = 0.3048
USUAL_FT = (25, 50, 75, 100, 150, 200, 250, 300)
USUAL_M = (10, 15, 20, 25, 30, 40, 50, 75, 100)
USUAL_NEW = {True: "12 AWG", False: "2.5 mm2"}  # of a cord more, by whether sizes are AWG
MOST_CORDS = 4


@dataclass(frozen=True, slots=True)
class LongerCord:
    """cord : id of the cord in whose place it comes, None for one more. members : of the cord, as a request has them.
    text : what a crew would call it."""

    cord: str | None
    members: tuple[tuple[str, object], ...]
    text: str


def longer_cords(cords: Collection[Cord], distance_m: float, *, awg: bool, one_more: bool) -> Iterator[LongerCord]:
    """Cords to try, the simplest first.

    distance_m : [m] the longest way to the work. awg : whether sizes and lengths are American. one_more : whether a
    cord may be added. Errors: none.
    """
    needed_m = distance_m - OWN_CORD_M
    some = sorted((one for one in cords if not _damaged(one)), key=lambda one: (-_length_m(one), one.id))[:MOST_CORDS]
    steps: list[list[LongerCord]] = []
    for cord in some:
        american = (cord.size or THIN[awg]).endswith("AWG")
        length = _usual(max(needed_m, _length_m(cord)), american=american)
        if length is None:
            continue
        text, length_m = length
        sizes: list[str | None] = [None, *thicker(cord.size or THIN[awg])]
        for n, size in enumerate(sizes):
            made = _instead(cord, text, length_m, size, size or cord.size or THIN[awg])
            if made is not None:
                steps += [[] for _ in range(n + 1 - len(steps))]
                steps[n].append(made)
    for at_one_size in steps:
        yield from at_one_size
    length = _usual(needed_m, american=awg)
    if one_more and length is not None:
        text = length[0]
        kind = USUAL_NEW[awg]
        said = {"length": text, "size": kind, "type": OUTDOOR_CORD[awg], "conductors": 3, "laid": "straight"}
        yield LongerCord(None, tuple(said.items()), f"one more cord, of {text} and {kind}")


def _instead(cord: Cord, text: str, length_m: float, size: str | None, has: str) -> LongerCord | None:
    said: dict[str, object] = {"length": text}
    if size is not None:
        said["size"] = size
    if cord.marked_a is not None:
        # the mark is that of the cord which is left at home
        mark = usual_mark_a(has, length_m, cord.plug, cord.outlets.type if cord.outlets is not None else None)
        if mark is None:
            return None
        said["marked"] = f"{mark:g} A"
    of = "" if size is None else f" and {size}"
    return LongerCord(cord.id, tuple(said.items()), f"a cord of {text}{of} in place of {cord.id}")


def _usual(needed_m: float, *, american: bool) -> tuple[str, float] | None:
    """The first usual length that is enough, as a request writes it, and [m]; None where none is."""
    unit, unit_m, lengths = ("ft", FOOT_M, USUAL_FT) if american else ("m", 1.0, USUAL_M)
    enough = next((one for one in lengths if one * unit_m >= needed_m), None)
    return None if enough is None else (f"{enough} {unit}", enough * unit_m)


def _length_m(cord: Cord) -> float:
    return 0.0 if cord.length_m is None else cord.length_m.high


def _damaged(cord: Cord) -> bool:
    return cord.plug_state == "damaged" or (cord.outlets is not None and cord.outlets.state == "damaged")
