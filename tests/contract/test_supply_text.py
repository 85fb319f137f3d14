"""Is a nominal voltage read as the supply system it names?"""

import math
import re

import pytest
from ampwright.contract.document_parts import SUPPLY_PATTERN
from ampwright.contract.quantities import QuantityFault
from ampwright.contract.supply_text import read_supply
from ampwright.engine.site.source import SupplySystem
from hypothesis import given, settings
from hypothesis import strategies as st

# Nominal voltages of IEC 60038 table 1 and ANSI C84.1 table 1; reduced low voltage of BS 7671 section 411.8.
SYSTEMS = [
    ("120 V", "single", 120.0, (0.0,)),
    ("230 V", "single", 230.0, (0.0,)),
    ("120/240 V", "split_phase", 120.0, (0.0, 180.0)),
    ("240/120 V", "split_phase", 120.0, (0.0, 180.0)),
    ("115/230 V", "split_phase", 115.0, (0.0, 180.0)),
    ("208Y/120 V", "three_phase", 120.0, (0.0, -120.0, 120.0)),
    ("120/208 V", "three_phase", 120.0, (0.0, -120.0, 120.0)),
    ("230/400 V", "three_phase", 230.0, (0.0, -120.0, 120.0)),
    ("220/380 V", "three_phase", 220.0, (0.0, -120.0, 120.0)),
    ("480Y/277 V", "three_phase", 277.0, (0.0, -120.0, 120.0)),
    ("400/690 V", "three_phase", 400.0, (0.0, -120.0, 120.0)),
    ("55-0-55 V", "centre_tapped", 55.0, (0.0, 180.0)),
    ("12 V DC", "dc", 12.0, (0.0,)),
    ("48 V DC", "dc", 48.0, (0.0,)),
]


@pytest.mark.parametrize(("text", "kind", "leg_voltage_v", "angles_deg"), SYSTEMS)
def test_supply_systems(text: str, kind: str, leg_voltage_v: float, angles_deg: tuple[float, ...]) -> None:
    found = read_supply(text)
    assert (found.text, found.kind, found.leg_voltage_v) == (text, kind, leg_voltage_v)
    assert [math.degrees(angle) for angle in found.angles_rad] == pytest.approx(angles_deg)


@pytest.mark.parametrize(("text", "kind"), [(row[0], row[1]) for row in SYSTEMS if row[1] != "dc"])
def test_the_higher_voltage_is_that_between_the_legs(text: str, kind: str) -> None:
    # Kirchhoff: the voltage between two legs is the difference of their phasors. The texts round to whole volts.
    found = read_supply(text)
    if len(found.angles_rad) < 2:
        return
    one, two = found.angles_rad[:2]
    between = found.leg_voltage_v * abs(complex(math.cos(one) - math.cos(two), math.sin(one) - math.sin(two)))
    printed = [float(part) for part in re.findall(r"[0-9]+", text)]
    expected = sum(printed) if kind == "centre_tapped" else max(printed)
    assert between == pytest.approx(expected, rel=0.01)


REFUSED = [
    ("120", "not_a_supply", "120 V"),
    ("120v", "not_a_supply", "120 V"),
    ("120 VAC", "not_a_supply", "120 V"),
    ("12VDC", "not_a_supply", "12 V DC"),
    ("120/240", "not_a_supply", "120/240 V"),
    ("120/208Y", "not_a_supply", "208Y/120 V"),
    ("110-120 V", "not_a_supply", None),
    ("\u0661\u0662\u0660 V", "not_a_supply", None),
    ("120 V\n", "not_a_supply", "120 V"),
    ("120Y/208 V", "supply_ratio", "208Y/120 V"),
    ("120/250 V", "supply_ratio", "120/240 V"),
    ("00/000 V", "out_of_range", None),
    ("12 V", "supply_ambiguous", "12 V DC"),
    ("999Y/577 V", None, None),  # a ratio of 1.73: strange, and no contradiction
    ("55-0-63 V", "supply_ratio", "55-0-55 V"),
    ("120-0-120 V", "out_of_range", "120/240 V"),
    ("00 V", "out_of_range", None),
    ("00 V DC", "out_of_range", None),
]


@pytest.mark.parametrize(("text", "code", "hint"), [row for row in REFUSED if row[1]])
def test_what_names_no_supply_is_a_fault(text: str, code: str, hint: str | None) -> None:
    with pytest.raises(QuantityFault) as refused:
        read_supply(text)
    assert (refused.value.code, refused.value.did_you_mean) == (code, hint)
    if hint is not None:
        read_supply(hint)


def test_two_voltages_on_a_tools_plate_are_two_options() -> None:
    # "115/230 V, 16/8 A" on a plate means either; a range with two legs and a neutral means both
    with pytest.raises(QuantityFault) as refused:
        read_supply("115/230 V", of_tool=True)
    assert refused.value.code == "dual_voltage"
    assert "'115 V'" in refused.value.message
    assert "'230 V'" in refused.value.message
    assert read_supply("120/240 V", of_tool=True, both_voltages=True).kind == "split_phase"
    assert read_supply("230/400 V", of_tool=True).kind == "three_phase"


@given(text=st.from_regex(re.compile(SUPPLY_PATTERN, re.ASCII)), of_tool=st.booleans())
@settings(max_examples=300, deadline=None)
def test_the_published_pattern_gives_a_supply_or_a_fault(text: str, of_tool: bool) -> None:
    found = read(text, of_tool)
    if isinstance(found, QuantityFault):
        assert found.code in ("supply_ratio", "supply_ambiguous", "dual_voltage", "out_of_range")
    else:
        assert found.leg_voltage_v > 0.0
        assert 1 <= len(found.angles_rad) <= 3


@given(text=st.text(max_size=40))
@settings(max_examples=200, deadline=None)
def test_any_text_gives_a_supply_or_a_fault(text: str) -> None:
    found = read(text)
    accepted = re.search(SUPPLY_PATTERN, text, re.ASCII) is not None
    assert isinstance(found, QuantityFault) or accepted


def read(text: str, of_tool: bool = False) -> SupplySystem | QuantityFault:
    try:
        return read_supply(text, of_tool=of_tool)
    except QuantityFault as fault:
        return fault
