"""Is a conductor size read as the key of its table, and never as something near it?"""

import re

import pytest
from ampwright.contract.quantities import QuantityFault
from ampwright.contract.size_text import read_size
from hypothesis import given, settings
from hypothesis import strategies as st

# Made sizes: ASTM B258 (AWG) and IEC 60228 (mm2).
MADE = ["18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "1 AWG", "1/0 AWG", "4/0 AWG", "1.5 mm2", "2.5 mm2", "16 mm2"]


@pytest.mark.parametrize("text", MADE)
def test_made_sizes_are_read(text: str) -> None:
    assert read_size(text) == text


def test_a_size_has_one_key() -> None:
    assert read_size("1.0 mm2") == "1 mm2"
    assert read_size("2.50 mm2") == "2.5 mm2"


REFUSED = [
    ("12/3", "not_a_size", "12 AWG"),
    ("12/3 AWG", "not_a_size", "12 AWG"),
    ("14-3 SOOW", "not_a_size", "14 AWG"),
    ("14 AWG/3", "not_a_size", "14 AWG"),
    ("14 ga", "not_a_size", "14 AWG"),
    ("14 gauge", "not_a_size", "14 AWG"),
    ("#14", "not_a_size", "14 AWG"),
    ("14AWG", "not_a_size", "14 AWG"),
    ("14 awg", "not_a_size", "14 AWG"),
    ("3G2.5", "not_a_size", "2.5 mm2"),
    ("3x1,5 mm2", "not_a_size", "1.5 mm2"),
    ("2.5 mm\u00b2", "not_a_size", "2.5 mm2"),
    ("2,5 mm2", "not_a_size", "2.5 mm2"),
    ("12", "unit_missing", None),  # 12 AWG and 12 mm2 are both possible to mean
    ("2.5", "unit_missing", None),
    ("12 AWG\n", "not_a_size", "12 AWG"),
    ("13.3 mm2", "unknown_size", "10 mm2"),  # the thinner neighbour: a hint must not flatter a cord
    ("3 mm2", "unknown_size", "2.5 mm2"),
    ("22 AWG", "unknown_size", "18 AWG"),
    ("0 AWG", "unknown_size", "1/0 AWG"),
    ("04 AWG", "unknown_size", "4 AWG"),
    ("5/0 AWG", "unknown_size", "4/0 AWG"),
    ("\u0661\u0662 AWG", "not_a_size", None),
    ("", "not_a_size", None),
]


@pytest.mark.parametrize(("text", "code", "hint"), REFUSED)
def test_what_is_no_size_is_a_fault(text: str, code: str, hint: str | None) -> None:
    with pytest.raises(QuantityFault) as refused:
        read_size(text)
    assert (refused.value.code, refused.value.did_you_mean) == (code, hint)
    if hint is not None:
        assert read_size(hint) == hint


def test_size_and_count_says_both() -> None:
    with pytest.raises(QuantityFault, match=r"size '12 AWG' and conductors 3"):
        read_size("12/3")


@given(text=st.text(max_size=30) | st.from_regex(r"[0-9]{1,2}(/0)? AWG|[0-9]{1,3}(\.[0-9]{1,2})? mm2", fullmatch=True))
@settings(max_examples=300, deadline=None)
def test_any_text_is_a_made_size_or_a_fault(text: str) -> None:
    found = read(text)
    if isinstance(found, str):
        assert re.fullmatch(r"[0-9]{1,2}(/0)? AWG|[0-9]{1,3}(\.[0-9]{1,2})? mm2", found)
    elif found.did_you_mean is not None:
        assert read_size(found.did_you_mean) == found.did_you_mean


def read(text: str) -> str | QuantityFault:
    try:
        return read_size(text)
    except QuantityFault as fault:
        return fault
