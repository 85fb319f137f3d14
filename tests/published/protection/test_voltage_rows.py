"""Do the tolerance curves meet the published rows, and do the tables of different bodies agree through them?

Row ids are those of the reference values.
"""

import math

import numpy as np
import pytest
from ampwright.engine.physics.voltage_upset import (
    CONTACTOR_DROPS_BELOW_RATIO,
    CONTACTOR_HOLDS_ABOVE_RATIO,
    CONTACTOR_NEEDS_S,
    DROPS,
    HOLDS,
    ITI_ABOVE,
    ITI_BELOW,
    MAY_DROP,
    OK,
    OVERVOLTAGE,
    UPSET,
    contactor_outcome,
    voltage_upset,
)
from ampwright.engine.standards.loader import table
from hypothesis import given
from hypothesis import strategies as st

FOREVER = math.inf
ITI = (ITI_BELOW, ITI_ABOVE)
# SEMI F47-0706: 50 % for 0.2 s (07-0044, verified), 70 % for 0.5 s and 80 % for 1 s (07-0045, 07-0046, memory). A sag
# TO a level is inside, so the time allowed BELOW it is that of the level under it.
SEMI_F47 = (((0.8, 0.5), (0.7, 0.2), (0.5, 0.0)), ITI_ABOVE)


def upset(durations, ratios, curve=ITI):
    outcome, at_s = np.empty(1, np.int64), np.empty(1)
    voltage_upset(
        np.array([0, len(durations)]),
        np.array(durations, float),
        np.array(ratios, float),
        np.array(curve[0], float),
        np.array(curve[1], float),
        outcome,
        at_s,
    )
    return int(outcome[0]), float(at_s[0])


def sag(ratio, seconds, curve=ITI):
    return upset((1.0, seconds, 100.0), (1.0, ratio, 1.0), curve)[0]


@pytest.mark.parametrize(
    ("ratio", "seconds"),
    [
        (0.0, 0.02),  # 07-0038, verified
        (0.7, 0.5),  # verified in public texts: 70 % for 30 cycles at 60 Hz
        (0.8, 10.0),  # 07-0040, memory
        (0.9, FOREVER),  # 07-0041, verified
        (1.1, FOREVER),  # 07-0042, verified
        (1.2, 0.5),  # verified in public texts: 120 % from 3 ms to 0.5 s
    ],
)
def test_iti_curve_bears_its_points_and_nothing_beyond(ratio, seconds):
    assert sag(ratio, seconds) == OK
    if seconds < FOREVER:
        assert sag(ratio, seconds * 1.01) == (UPSET if ratio < 1.0 else OVERVOLTAGE)
    # A hundredth further from nominal belongs to the next level, which is shorter (0 V has no next level).
    beyond = ratio - 0.01 if ratio < 1.0 else ratio + 0.01
    if beyond >= 0.0:
        assert sag(beyond, min(seconds, 100.0)) != OK


def test_the_curve_agrees_with_the_cited_table():
    # Two copies of one number must not drift.
    cited = {row.number("voltage_percent"): row.number_or_none("seconds") for row in table("iti_curve")}
    for percent, seconds in cited.items():
        if percent > 0.0:
            assert sag(percent / 100.0, FOREVER if seconds is None else seconds) == OK
    assert sag(0.0, cited[0.0]) == OK


def test_iti_equipment_passes_class_2_of_iec_61000_4_11_and_not_class_3():
    # 07-0047, 07-0049 verified: class 2 is 0 % for half a cycle and 70 % for 25/30 cycles. 07-0050 to 07-0053 verified:
    # class 3 adds 40 % for 10/12 cycles, deeper than the ITI curve bears.
    assert sag(0.0, 0.5 / 50.0) == OK
    assert sag(0.0, 0.5 / 60.0) == OK
    assert sag(0.7, 25.0 / 50.0) == OK
    assert sag(0.7, 30.0 / 60.0) == OK
    assert sag(0.4, 10.0 / 50.0) == UPSET
    assert sag(0.4, 12.0 / 60.0) == UPSET
    assert sag(0.0, 250.0 / 50.0) == UPSET  # 07-0055, verified: short interruption


def test_semi_f47_bears_sags_that_the_iti_curve_does_not():
    assert sag(0.5, 0.2, SEMI_F47) == OK  # 07-0044, verified
    assert sag(0.7, 0.5, SEMI_F47) == OK  # 07-0045, memory
    assert sag(0.8, 1.0, SEMI_F47) == OK  # 07-0046, memory
    assert sag(0.5, 0.2) == UPSET
    assert sag(0.49, 0.2, SEMI_F47) == UPSET


# ISO 8528-5 table 4: deviation on a sudden increase (-) and decrease (+) of power, and recovery time, taken as
# rectangles, the worst reading. G1: 08-0002, 08-0003, 08-0004 memory; G2: -20 % memory, 08-0011, 08-0012 verified;
# G3: 08-0018, 08-0019, 08-0020 memory.
@pytest.mark.parametrize(
    ("dip", "rise", "recovery_s", "on_dip"), [(-25, 35, 10.0, UPSET), (-20, 25, 6.0, OK), (-15, 20, 4.0, OK)]
)
def test_electronics_on_generator_classes(dip, rise, recovery_s, on_dip):
    assert sag(1.0 + dip / 100.0, recovery_s) == on_dip
    assert sag(1.0 + rise / 100.0, recovery_s) == OVERVOLTAGE


def test_electronics_on_a_mobile_set():
    # MIL-DTL-53133/6B 3.21, verified: 08-0028 and 08-0030, 75 % on a motor start and back to 95 % within 0.7 s, may be
    # too long below 80 %; 08-0031, 88 % on full load, stable in 0.5 s, is not.
    assert sag(0.75, 0.7) == UPSET
    assert sag(0.75, 0.5) == OK
    assert sag(0.88, 0.5) == OK


def test_a_sag_in_steps_counts_each_level_without_a_break():
    # 0.3 s at 75 % and 0.3 s at 72 % are 0.6 s below 80 %, of 0.5: upset 0.5 s after the start of the sag.
    assert upset((1.0, 0.3, 0.3, 9.0), (1.0, 0.75, 0.72, 1.0)) == (UPSET, pytest.approx(1.5))
    assert upset((1.0, 0.3, 0.1, 0.3, 9.0), (1.0, 0.75, 0.95, 0.72, 1.0)) == (OK, math.inf)


@given(st.floats(0.0, 1.0), st.floats(0.001, 20.0), st.floats(0.0, 1.0), st.floats(1.0, 3.0))
def test_deeper_or_longer_is_never_better(ratio, seconds, deeper, longer):
    if sag(ratio, seconds) == UPSET:
        assert sag(ratio * deeper, seconds) == UPSET
        assert sag(ratio, seconds * longer) == UPSET


def test_a_batch_equals_its_rows():
    rng = np.random.default_rng(11)
    first = np.arange(0, 501, 5)
    durations, ratios = rng.uniform(0.001, 1.0, 500), rng.uniform(0.6, 1.3, 500)
    outcome, at_s = np.empty(100, np.int64), np.empty(100)
    voltage_upset(first, durations, ratios, np.array(ITI_BELOW), np.array(ITI_ABOVE), outcome, at_s)
    alone = [upset(durations[a : a + 5], ratios[a : a + 5]) for a in first[:-1]]
    assert list(zip(outcome.tolist(), at_s.tolist(), strict=True)) == alone
    assert {OK, UPSET, OVERVOLTAGE} >= set(outcome.tolist())
    assert len(set(outcome.tolist())) > 1


@pytest.mark.parametrize(
    ("ratio", "seconds", "expected"),
    [
        (0.85, FOREVER, HOLDS),  # IEC 60947-4-1 operating limit, from memory: works at 85 %
        (0.75, FOREVER, HOLDS),  # drop-out lies between 20 % and 75 %, from memory
        (0.6, 1.0, MAY_DROP),
        (0.2, 1.0, MAY_DROP),
        (0.19, 1.0, DROPS),
        (0.0, 0.004, MAY_DROP),  # less than half a cycle, common practice, no source
        (0.0, 0.02, DROPS),
    ],
)
def test_contactor(ratio, seconds, expected):
    outcome = np.empty(1, np.int64)
    contactor_outcome(
        np.array([0, 3]),
        np.array([1.0, seconds, 1.0]),
        np.array([1.0, ratio, 1.0]),
        CONTACTOR_DROPS_BELOW_RATIO,
        CONTACTOR_HOLDS_ABOVE_RATIO,
        CONTACTOR_NEEDS_S,
        outcome,
    )
    assert outcome[0] == expected
