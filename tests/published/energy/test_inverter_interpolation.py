"""Does interpolating input power from the no-load figure meet published inverters where efficiency does not?

Photovoltaic inverters stand in for vehicle and portable ones: they check the form of the model, not its use.
"""

import re

import numpy as np
import pytest
from ampwright.engine.physics.inverter_efficiency import input_power_points_w, input_power_w, output_power_w
from ampwright.engine.standards.inverter_part_load import pvwatts_ac_power_w, sandia_ac_power_w
from published.reference_rows import published
from scipy.optimize import brentq


def inverters():
    found = {}
    for row in published().values():
        if row.kind == "cec_model_case":
            found.setdefault(re.search(r"list row (\d+)", row.item)[1], row.given)
    return sorted(found.items())


@pytest.mark.parametrize(("list_row", "given"), inverters())
def test_input_power_is_what_to_interpolate(list_row, given):
    # Rows 09-0064 to 09-0111, CEC inverter list 2019-03-05, verified. Table at the loads of the CEC test (10 to 100 %)
    # and no load, questions between and below them, truth by the Sandia model, which meets those rows. Interpolated
    # input power stays within 0.2 %; efficiency, held at its lowest point for want of another, misses by a tenth and
    # more at 1 % load.
    rated_w = given["Paco"]
    loads = rated_w * np.array([0.10, 0.20, 0.30, 0.50, 0.75, 1.00])

    def truth_w(output_w):
        def missing_w(dc_w):
            return sandia_ac_power_w(dc_w, rated_w, given["Pdco"], given["Pso"], given["C0"]).value - output_w

        return brentq(missing_w, given["Pso"], given["Pdco"])

    # The clipped top of the model has no inverse: the last point is the rated direct-current power.
    inputs = np.array([truth_w(w) for w in loads[:-1]] + [given["Pdco"]])
    points_w, inputs_w = np.empty(7), np.empty(7)
    input_power_points_w(loads, loads / inputs, given["Pso"], points_w, inputs_w)
    for share in (0.01, 0.02, 0.05, 0.07, 0.15, 0.4, 0.6, 0.9):
        ours_w = input_power_w(share * rated_w, points_w, inputs_w)
        assert ours_w == pytest.approx(truth_w(share * rated_w), rel=0.002), (list_row, share)
        assert output_power_w(ours_w, points_w, inputs_w) == pytest.approx(share * rated_w, rel=1e-12)
    by_efficiency_w = 0.01 * rated_w / (loads[0] / inputs[0])
    assert by_efficiency_w < 0.9 * truth_w(0.01 * rated_w)


@pytest.mark.parametrize(
    "row", [row for row in published().values() if row.kind == "cec_partload"], ids=lambda row: row.id
)
def test_typical_curve_lies_between_the_tenth_and_ninetieth_of_listed_inverters(row):
    # Two independent publications against each other: PVWatts' curve for a typical inverter must lie inside the band of
    # 400 listed ones at every load.
    percent, quantile = re.search(r"at (\d+) % of rated AC, (P\d+)", row.item).groups()
    output_w = 9.6 * float(percent)
    input_w = 1000.0
    if output_w < 960.0:
        input_w = brentq(lambda w: pvwatts_ac_power_w(w, 1000.0).value - output_w, 1.0, 1000.0)
    efficiency = output_w / input_w
    assert efficiency > row.number if quantile == "P10" else efficiency < row.number
