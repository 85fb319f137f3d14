"""Are quantities read as what they say, refused as what they are not, and never guessed?"""

import re

import pytest
from ampwright.contract import quantities
from ampwright.contract.quantities import DIMENSIONS, Dimension, QuantityFault, read_quantity
from ampwright.engine.site.band import Band
from hypothesis import given, settings
from hypothesis import strategies as st

# NIST SP 811 (2008), appendix B.8: factors to SI; those marked exact there are exact here.
NIST_SP_811 = [
    ("LENGTH", "1 ft", 0.3048, 0.0),
    ("LENGTH", "1 in", 0.0254, 0.0),
    ("LENGTH", "1 yd", 0.9144, 0.0),
    ("POWER", "1 hp", 745.6999, 5e-5),  # horsepower (550 ft lbf/s)
    ("POWER", "1 metric_hp", 735.4988, 5e-5),  # horsepower (metric)
    ("VOLUME", "1 gal_us", 3.785412e-3, 5e-10),
    ("VOLUME", "1 gal_imp", 4.54609e-3, 0.0),
    ("VOLUME", "1 l", 1e-3, 0.0),
    ("ENERGY", "1 kWh", 3.6e6, 0.0),
    ("ENERGY_PER_DISTANCE", "1 kWh/100mi", 3.6e6 / 160934.4, 0.0),  # 1 mi = 1609.344 m, exact
    ("ENERGY_PER_DISTANCE", "1 kWh/100km", 36.0, 0.0),
    ("DURATION", "1 h", 3600.0, 0.0),
    ("ANGLE", "180 deg", 3.14159265, 5e-9),
    ("TEMPERATURE", "212 degF", 100.0, 0.0),  # t/degC = (t/degF - 32)/1.8
    ("TEMPERATURE", "-40 degF", -40.0, 0.0),
]


@pytest.mark.parametrize(("dimension", "text", "expected", "rounding"), NIST_SP_811)
def test_units_have_the_published_factors(dimension: str, text: str, expected: float, rounding: float) -> None:
    found = read_quantity(text, getattr(quantities, dimension)).band
    assert found.typical == pytest.approx(expected, abs=rounding, rel=1e-12)


def test_three_ways_to_write_a_band() -> None:
    # by the contract: low..high, low..typical..high, >=low
    two = read_quantity("14..17 A", quantities.CURRENT).band
    three = read_quantity("14..15..17 A", quantities.CURRENT).band
    over = read_quantity(">=15 A", quantities.CURRENT).band
    assert (two.low, two.typical, two.high, two.open_top) == (14.0, 15.5, 17.0, False)
    assert (three.low, three.typical, three.high) == (14.0, 15.0, 17.0)
    assert (over.low, over.open_top) == (15.0, True)


HOSTILE = [
    ("CURRENT", "15", "unit_missing", None),
    ("CURRENT", "15 V", "wrong_unit", None),
    ("CURRENT", "15 A\n", "not_a_quantity", "15 A"),
    ("CURRENT", " 15 A", "not_a_quantity", "15 A"),
    ("CURRENT", "\u0661\u0665 A", "not_a_quantity", None),  # Arabic digits
    ("CURRENT", "15\u00a0A", "not_a_quantity", None),  # no-break space
    ("CURRENT", "NaN A", "not_a_quantity", None),
    ("CURRENT", "1e3 A", "wrong_unit", None),
    ("CURRENT", "inf A", "not_a_quantity", None),
    ("CURRENT", "-15 A", "out_of_range", None),
    ("CURRENT", "15A", "not_a_quantity", "15 A"),
    ("CURRENT", "15 amps", "not_a_quantity", "15 A"),
    ("CURRENT", "17..14 A", "band_out_of_order", None),
    ("CURRENT", ">=14..17 A", "not_a_quantity", None),
    ("CURRENT", "12/3", "not_a_quantity", None),
    ("CURRENT", "1,800 A", "comma_in_number", None),  # could be 1.8 or 1800
    ("CURRENT", "1,5 A", "comma_in_number", "1.5 A"),
    ("CURRENT", "0 A", "not_above_zero", None),
    ("CURRENT", "999999999 A", "out_of_range", None),
    ("CURRENT", "__import__('os') A", "not_a_quantity", None),
    ("CURRENT", "", "not_a_quantity", None),
    ("CURRENT", "16/8 A", "two_figures", None),  # one for each of two voltages, and no 2 A
    ("POWER", "1-1/2 hp", "fraction", "1.5 hp"),
    ("POWER", "1 1/2 hp", "fraction", "1.5 hp"),
    ("POWER", "3/4 hp", "fraction", "0.75 hp"),
    ("POWER", "1650 VA", "wrong_unit", None),  # volt-amperes are no watts
    ("POWER", "1,5 PS", "comma_in_number", "1.5 metric_hp"),
    ("APPARENT_POWER", "4 kW", "wrong_unit", None),
    ("LENGTH", "100'", "not_a_quantity", "100 ft"),
    ("LENGTH", "0 ft", "not_above_zero", None),
    ("LENGTH", "30", "unit_missing", None),
    ("DURATION", "30 m", "wrong_unit", None),  # metres are no minutes
    ("TEMPERATURE", "77 F", "not_a_quantity", "77 degF"),
    ("ENERGY", "2000 W", "wrong_unit", None),  # an inverter's watts are no battery's watt-hours
    ("ENERGY", "100 Ah", "wrong_unit", None),
]


@pytest.mark.parametrize(("dimension", "text", "code", "hint"), HOSTILE)
def test_what_is_no_quantity_is_a_fault(dimension: str, text: str, code: str, hint: str | None) -> None:
    wanted: Dimension = getattr(quantities, dimension)
    with pytest.raises(QuantityFault) as refused:
        read_quantity(text, wanted, above_zero=True)
    assert (refused.value.code, refused.value.did_you_mean) == (code, hint)
    assert refused.value.message.isprintable()
    if hint is not None:
        read_quantity(hint, wanted)  # what is offered is accepted


def read(text: str, dimension: Dimension) -> Band | QuantityFault:
    try:
        return read_quantity(text, dimension).band
    except QuantityFault as fault:
        return fault


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda dimension: dimension.name)
@given(data=st.data())
@settings(max_examples=40, deadline=None)
def test_the_published_pattern_accepts_what_can_be_read(dimension: Dimension, data: st.DataObject) -> None:
    text = data.draw(st.from_regex(re.compile(dimension.pattern, re.ASCII)))
    band = read(text, dimension)
    if isinstance(band, QuantityFault):
        # right in form, and impossible as a figure: only the value may be to blame
        assert band.code in ("band_out_of_order", "out_of_range")
    else:
        assert dimension.lowest <= band.low <= band.typical <= band.high <= dimension.highest


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda dimension: dimension.name)
@given(text=st.text(max_size=60) | st.from_regex(r"[0-9.,/\-'>= ]{1,12}[ ]?[a-zA-Z%\u00b0'\"]{0,6}", fullmatch=True))
@settings(max_examples=40, deadline=None)
def test_what_the_pattern_refuses_is_a_fault(dimension: Dimension, text: str) -> None:
    accepted = re.search(dimension.pattern, text, re.ASCII) is not None
    fault = read(text, dimension)
    if isinstance(fault, QuantityFault):
        assert not accepted or fault.code in ("band_out_of_order", "out_of_range")
        assert len(fault.message) < 400
        if fault.did_you_mean is not None and fault.code != "unit_missing":
            assert re.search(dimension.pattern, fault.did_you_mean, re.ASCII)
    else:
        assert accepted


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("15 A..17 A", "15..17 A"),
        ("15A-17A", "15..17 A"),
        ("15 amps to 17 amps", "15..17 A"),
        ("15 A..17 V", None),
        ("15 A..17", None),
    ],
)
def test_a_unit_written_twice_is_written_once(text: str, meant: str | None) -> None:
    with pytest.raises(QuantityFault) as refused:
        read_quantity(text, quantities.CURRENT)
    assert refused.value.did_you_mean == meant
