"""Which plug fits which receptacle? ANSI/NEMA WD 6, CEE 7, IEC 60309, BS 1363; what is from memory says so."""

import pytest
from ampwright.engine.standards.plugs import configuration, designations, fit, fits, receptacles_for


@pytest.mark.parametrize(
    ("plug", "receptacle", "expected"),
    [
        ("5-15P", "5-15R", True),
        ("5-15P", "5-20R", True),  # the T slot
        ("5-20P", "5-15R", False),
        ("5-15P", "5-30R", False),
        ("1-15P", "5-15R", True),  # two-wire tools, from memory
        ("1-15P", "5-20R", True),
        ("6-15P", "6-20R", True),
        ("6-20P", "5-20R", False),
        ("TT-30P", "5-20R", False),
        ("TT-30P", "TT-30R", True),
        ("14-30P", "14-50R", False),
        ("14-50P", "14-30R", False),
        ("L5-20P", "5-20R", False),
        ("L14-30P", "L14-30R", True),
        ("L14-20P", "L14-30R", False),
        ("6-50P", "14-50R", False),
        ("CEE 7/7", "CEE 7/3", True),
        ("CEE 7/7", "CEE 7/5", True),
        ("CEE 7/17", "CEE 7/3", True),
        ("CEE 7/3", "CEE 7/3", False),  # a receptacle is no plug
        ("BS 1363", "BS 1363", True),
        ("BS 1363", "CEE 7/3", False),
        ("IEC 60309 16 A blue", "IEC 60309 16 A 2P+E blue", True),
        ("IEC 60309 16 A blue", "IEC 60309 32 A blue", False),
        ("IEC 60309 16 A blue", "IEC 60309 16 A yellow", False),
        ("IEC 60309 32 A red", "IEC 60309 32 A 3P+E red", False),
        ("5-15P", "CEE 7/3", False),
        ("5-15R", "5-15R", False),
    ],
)
def test_fit(plug, receptacle, expected):
    assert fits(plug, receptacle) is expected


def test_an_unknown_designation_has_no_answer():
    assert fit("5-17P", "5-20R") is None
    assert not fits("5-17P", "5-20R")
    assert configuration("") is None
    assert configuration("5-15r") is None


def test_a_larger_plug_never_enters_a_smaller_receptacle():
    # Whatever the table says: 06-0036, 06-0042 are the verified cases of this rule.
    plugs, receptacles = designations("plug"), designations("receptacle")
    for plug in plugs:
        for receptacle in receptacles:
            if fits(plug, receptacle):
                male, female = configuration(plug), configuration(receptacle)
                assert male.current_a <= female.current_a
                assert male.connection == female.connection
                assert male.locking == female.locking


def test_every_plug_has_a_receptacle():
    for plug in designations("plug"):
        assert receptacles_for(plug), plug


def test_what_a_configuration_promises():
    fourteen = configuration("14-50R")
    assert fourteen.marked_voltages_v == (125.0, 250.0)
    assert fourteen.has_neutral
    assert fourteen.has_earth
    assert not configuration("6-20R").has_neutral
    assert not configuration("1-15P").has_earth
    assert not configuration("10-30R").has_earth  # three poles, three wires: the old dryer outlet
    assert configuration("NEMA 5-15R") is configuration("5-15R")
    assert configuration("IEC 60309 63 A blue").has_pilot
    assert not configuration("IEC 60309 32 A blue").has_pilot
