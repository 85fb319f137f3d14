"""Does every published value have exactly one disposition, and does that hold?

computed: our formula or model gives it with its own conditions and its printed rounding.
looked up: a table or rule that only a document can give; our table serves it.
refuted: the published figure contradicts its own conditions; the check shows by how much.
waits: needs a calculation that is not built; the row fails as soon as the module named in `by` exists.
"""

import dataclasses
import importlib
import importlib.util
import re

import pytest
from published.reference_rows import dispositions, published

KINDS = ("computed", "looked up", "refuted", "waits")


def test_every_row_has_exactly_one_disposition():
    rows = [each.row for each in dispositions()]
    assert len(rows) == len(set(rows))
    assert set(rows) == set(published())


def test_dispositions_are_told_in_known_words():
    for each in dispositions():
        assert each.disposition in KINDS, each
        assert each.by, each
        if each.disposition in ("refuted", "waits"):
            assert each.reason, each


@pytest.mark.parametrize("each", dispositions(), ids=lambda each: each.row)
def test_disposition_holds(each):
    if each.disposition == "waits":
        try:
            built = importlib.util.find_spec(each.by)
        except ModuleNotFoundError:
            built = None
        assert built is None, f"{each.row} waited for {each.by}, which is there now: compute it"
        return
    module, _, check = each.by.partition(".")
    getattr(importlib.import_module(f"published.checks.{module}"), check)(published()[each.row])


OTHER_WORD = {"yes": "no", "no": "yes", "purple": "white", "white": "purple", "yellow": "blue", "blue": "red"}


def changed(value: str) -> str:
    """The value with its first number off by two last digits (5 % for a thousand and more), or another word."""
    number = re.search(r"\d+(\.\d+)?", value)
    if number is None:
        return OTHER_WORD.get(value, f"no {value}")
    digits = len(number[0].partition(".")[2])
    found = float(number[0])
    wrong = found * 1.05 if found >= 1000 and not digits else found + 2 * 10.0**-digits
    return f"{value[: number.start()]}{wrong:.{digits}f}{value[number.end() :]}"


@pytest.mark.parametrize(
    "each",
    [each for each in dispositions() if each.disposition in ("computed", "looked up")],
    ids=lambda each: each.row,
)
def test_a_wrong_figure_would_be_noticed(each):
    module, _, check = each.by.partition(".")
    row = published()[each.row]
    wrong = dataclasses.replace(row, value=changed(row.value))
    # A check may also stumble over a value that makes no sense any more; passing is what it must not do.
    with pytest.raises((AssertionError, KeyError, ValueError, AttributeError, TypeError)):
        getattr(importlib.import_module(f"published.checks.{module}"), check)(wrong)
