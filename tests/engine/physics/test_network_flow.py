"""Do networks obey the laws and the closed forms that anybody can work out by hand?"""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest
from ampwright.engine.physics.network_flow import COLLAPSED, SOLVED, NetworkBatch, NetworkResult, solve_networks
from engine.physics.network_cases import (
    L1,
    L2,
    L3,
    Load,
    N,
    impedance_load,
    join,
    network,
    random_network,
)
from scipy.optimize import root


def test_without_load_nothing_drops() -> None:
    # Ohm's law: no current, no drop.
    result = solve_networks(network([-1, 0, 1], [0.1, 0.5j, 2.0], [120.0, -120.0], []))
    assert (result.node_v == [120.0, -120.0, 0.0, 0.0]).all()
    assert (result.branch_current_a == 0.0).all()
    assert result.outcome[0] == SOLVED


def test_two_wire_drop() -> None:
    # Ohm's law, exact: 120 V behind 2 x (0.4 + 0.1j) ohm into 14.4 ohm (1000 W at 120 V).
    current_a = 120.0 / (14.4 + 0.8 + 0.2j)
    result = solve_networks(network([-1, 0], [0.0, 0.4 + 0.1j], [120.0], [impedance_load(1, L1, N, 1000.0, 120.0)]))
    assert result.load_current_a[0] == pytest.approx(current_a, rel=1e-9)
    assert result.load_v[0] == pytest.approx(14.4 * current_a, rel=1e-9)
    assert result.node_v[1, N] == pytest.approx((0.4 + 0.1j) * current_a, rel=1e-8)
    assert result.branch_current_a[0, N] == pytest.approx(-current_a, rel=1e-9)


def test_constant_power_on_two_wires() -> None:
    # Closed form of a resistive two-wire circuit: U = E/2 + sqrt(E^2/4 - R P).
    resistance_ohm, power_w = 0.9, 1500.0
    expected_v = 60.0 + np.sqrt(60.0**2 - resistance_ohm * power_w)
    result = solve_networks(network([-1], [[resistance_ohm, 0, 0, 0]], [120.0], [Load(0, L1, N, power_w, 120.0)]))
    assert result.load_v[0] == pytest.approx(expected_v, rel=1e-8)


def test_constant_current_on_two_wires() -> None:
    # Ohm's law: 10 A at unity power factor lose 10 A x 2 x 0.3 ohm whatever the voltage.
    result = solve_networks(network([-1], [0.3], [120.0], [Load(0, L1, N, 1200.0, 120.0, current_ratio=1.0)]))
    assert result.load_v[0] == pytest.approx(114.0, rel=1e-9)


@pytest.mark.parametrize("length", [1, 3, 12])
def test_ladder_of_equal_impedances(length: int) -> None:
    # Continued fraction of a ladder: seen from each rung, Z' = z + Z R / (Z + R); dual terms for both wires in z.
    z, rung_ohm = 0.1 + 0.02j, 30.0
    seen = [complex(rung_ohm)]
    for _ in range(length - 1):
        behind = z + seen[-1]
        seen.append(behind * rung_ohm / (behind + rung_ohm))
    volts = [120.0 * seen[-1] / (seen[-1] + z)]
    for rung in range(length - 1, 0, -1):
        volts.append(volts[-1] * seen[rung - 1] / (seen[rung - 1] + z))
    loads = [impedance_load(node, L1, N, 120.0**2 / rung_ohm, 120.0) for node in range(length)]
    result = solve_networks(network(range(-1, length - 1), [z / 2.0] * length, [120.0], loads))
    np.testing.assert_allclose(result.load_v, volts, rtol=1e-8)


def test_balanced_three_phase_leaves_the_neutral_cold() -> None:
    # By symmetry: three equal loads on legs 120 degrees apart; each leg behaves as if alone on its own impedance.
    emf = 230.0 * np.exp(-2j * np.pi / 3.0 * np.arange(3))
    loads = [Load(0, leg, N, 2000.0 + 900.0j, 230.0) for leg in (L1, L2, L3)]
    result = solve_networks(network([-1], [0.4 + 0.1j], list(emf), loads))
    alone = solve_networks(network([-1], [[0.4 + 0.1j, 0, 0, 0]], [230.0], loads[:1]))
    assert abs(result.node_v[0, N]) < 1e-6
    np.testing.assert_allclose(np.abs(result.load_v), abs(alone.load_v[0]), rtol=1e-8)


def test_legs_in_phase_add_up_in_the_neutral() -> None:
    # Kirchhoff's current law; 16 A from each of two legs in phase make 32 A in the neutral (trade warning; exact here).
    loads = [Load(0, leg, N, 16.0 * 120.0, 120.0, current_ratio=1.0) for leg in (L1, L2)]
    in_phase = solve_networks(network([-1], [0.01], [120.0, 120.0], loads))
    opposite = solve_networks(network([-1], [0.01], [120.0, -120.0], loads))
    assert in_phase.branch_current_a[0, N] == pytest.approx(-32.0, rel=1e-9)
    assert abs(opposite.branch_current_a[0, N]) < 1e-9


def test_reduced_low_voltage_has_two_live_poles() -> None:
    # 55-0-55 V, the neutral not carried: 110 V between the poles, Ohm's law over both wires.
    result = solve_networks(network([-1], [0.2], [55.0, -55.0], [impedance_load(0, L1, L2, 1100.0, 110.0)]))
    assert result.load_v[0] == pytest.approx(110.0 * 11.0 / 11.4, rel=1e-9)
    assert result.node_v[0, L1] == pytest.approx(55.0 - 0.2 * 110.0 / 11.4, rel=1e-9)


@pytest.mark.parametrize("supply_v", [12.0, 24.0, 48.0])
def test_direct_current(supply_v: float) -> None:
    # Closed form as for constant power above, at supply voltage and 5 % of the most that can be transferred.
    resistance_ohm = 0.02
    power_w = 0.05 * supply_v**2 / (4.0 * resistance_ohm)
    expected_v = supply_v / 2.0 * (1.0 + np.sqrt(1.0 - 0.05))
    result = solve_networks(network([-1], [resistance_ohm / 2.0], [supply_v], [Load(0, L1, N, power_w, supply_v)]))
    assert result.load_v[0] == pytest.approx(expected_v, rel=1e-8)
    assert (result.load_v.imag == 0.0).all()


@pytest.mark.parametrize("seed", range(12))
def test_direct_current_ladders_against_a_root_finder(seed: int) -> None:
    # Outside: scipy.optimize.root (Powell's hybrid method) on the nodal equations of a ladder, written here afresh.
    rng = np.random.default_rng(seed)
    size = int(rng.integers(2, 9))
    resistance_ohm = rng.uniform(0.002, 0.02, size)
    power_w = rng.uniform(5.0, 120.0, size)
    z_share = rng.uniform(0.0, 0.6, size)
    i_share = rng.uniform(0.0, 0.4, size)

    def current_a(volts: np.ndarray) -> np.ndarray:
        v = volts / 24.0
        return power_w / 24.0 * (z_share * v + i_share + (1.0 - z_share - i_share) / v)

    def misfit(volts: np.ndarray) -> np.ndarray:
        beyond = np.cumsum(current_a(volts)[::-1])[::-1]
        return np.concatenate([[24.0], volts[:-1]]) - volts - resistance_ohm * beyond

    found = root(misfit, np.full(size, 24.0), tol=1e-12)
    assert found.success
    loads = [Load(n, L1, N, power_w[n], 24.0, i_share[n], z_share[n]) for n in range(size)]
    result = solve_networks(network(range(-1, size - 1), list(resistance_ohm / 2.0), [24.0], loads))
    np.testing.assert_allclose(result.load_v.real, found.x, rtol=1e-6)


def test_broken_neutral_divides_the_voltage_by_impedance() -> None:
    # Two impedances in series across 240 V. Published practice figure: legs at 14 A and 4 A put 53 V on the heavy leg
    # and 187 V on the light one (common practice, no source); exactly 240 x 4/18 and 240 x 14/18.
    loads = [impedance_load(1, L1, N, 14.0 * 120.0, 120.0), impedance_load(1, N, L2, 4.0 * 120.0, 120.0)]
    result = solve_networks(network([-1, 0], [0.0, 0.0], [120.0, -120.0], loads, broken_at=1))
    np.testing.assert_allclose(np.abs(result.load_v), [240.0 * 4.0 / 18.0, 240.0 * 14.0 / 18.0], rtol=1e-12)
    np.testing.assert_allclose(np.abs(result.load_v), [53.0, 187.0], atol=0.5)
    assert result.branch_current_a[1, N] == 0.0
    assert result.outcome[0] == SOLVED


def test_broken_neutral_of_a_three_phase_supply() -> None:
    # Millman's theorem: the star point stands at sum(E Y)/sum(Y).
    emf = 230.0 * np.exp(-2j * np.pi / 3.0 * np.arange(3))
    power_va = np.array([3000.0, 800.0 + 300.0j, 200.0])
    admittance_s = power_va.conj() / 230.0**2
    z = 0.25 + 0.05j
    through_s = 1.0 / (z + 1.0 / admittance_s)
    star_v = (emf * through_s).sum() / through_s.sum()
    loads = [impedance_load(1, leg, N, power_va[leg], 230.0) for leg in (L1, L2, L3)]
    result = solve_networks(network([-1, 0], [0.0, z], list(emf), loads, broken_at=1))
    assert result.node_v[1, N] == pytest.approx(star_v, rel=1e-9)


def test_a_break_matters_only_behind_it() -> None:
    # A load before the break has its neutral; behind it, two equal loads on opposite legs hold the middle by symmetry.
    loads = [
        impedance_load(0, L1, N, 1000.0, 120.0),
        impedance_load(1, L1, N, 500.0, 120.0),
        impedance_load(1, N, L2, 500.0, 120.0),
    ]
    result = solve_networks(network([-1, 0], [0.0, 0.0], [120.0, -120.0], loads, broken_at=1))
    np.testing.assert_allclose(np.abs(result.load_v), 120.0, rtol=1e-12)


@pytest.mark.parametrize("impedance_ratio", [0.0, 0.4, 1.0])
def test_one_load_behind_a_broken_neutral_is_dead(impedance_ratio: float) -> None:
    # No way back for the current: no current, no voltage, and no collapse either.
    load = Load(1, L1, N, 900.0 + 200.0j, 120.0, impedance_ratio=impedance_ratio)
    result = solve_networks(network([-1, 0], [0.1, 0.2], [120.0, -120.0], [load], broken_at=1))
    assert abs(result.load_v[0]) < 1e-9
    assert abs(result.load_current_a[0]) < 1e-9
    assert result.node_v[1, N] == pytest.approx(120.0)
    assert result.outcome[0] == SOLVED


def test_constant_power_behind_a_broken_neutral_loses_the_heavy_leg() -> None:
    # In series both loads carry one current. Constant powers would need U1/U2 = S1/S2, the larger voltage on the
    # heavier load and the lighter under its switch: no solution. With the heavy one on the impedance of its switch at
    # half voltage, I = 4 P1 U1/120^2 = P2/(240 - U1), of which the smaller root keeps U1 under the switch.
    p1_w, p2_w = 1440.0, 400.0
    u1 = np.roots([1.0, -240.0, p2_w * 120.0**2 / (4.0 * p1_w)]).min()
    loads = [Load(0, L1, N, p1_w, 120.0), Load(0, N, L2, p2_w, 120.0)]
    result = solve_networks(network([-1], [0.0], [120.0, -120.0], loads, broken_at=0))
    assert result.outcome[0] == COLLAPSED
    np.testing.assert_allclose(np.abs(result.load_v), [u1, 240.0 - u1], rtol=1e-9)


def _laws_broken(batch: NetworkBatch, result: NetworkResult) -> tuple[float, float]:
    """Largest misfit of Kirchhoff's voltage [V] and current [A] laws, written here afresh with plain loops."""
    voltage, current = 0.0, 0.0
    for case in range(len(batch.emf_v)):
        first, last = batch.node_start[case : case + 2]
        leaving = np.zeros((last - first, 4), complex)
        for load in range(*batch.load_start[case : case + 2]):
            leaving[batch.load_node[load], batch.load_from[load]] += result.load_current_a[load]
            leaving[batch.load_node[load], batch.load_to[load]] -= result.load_current_a[load]
        for node in range(first, last):
            if batch.parent[node] >= 0:
                leaving[batch.parent[node]] += result.branch_current_a[node]
        for node in range(first, last):
            parent = batch.parent[node]
            above = [*batch.emf_v[case], 0.0] if parent < 0 else result.node_v[first + parent]
            lost = batch.impedance_ohm[node] * result.branch_current_a[node]
            misfit = np.abs(above - lost - result.node_v[node])
            if batch.neutral_open[node]:
                misfit = misfit[:3]
            voltage = max(voltage, misfit.max())
            scale = 1.0 + np.abs(result.branch_current_a[node]).max()
            current = max(current, np.abs(leaving[node - first] - result.branch_current_a[node]).max() / scale)
    return voltage, current


@pytest.mark.parametrize("load_va", [100.0, 1500.0, 12000.0])
@pytest.mark.parametrize("broken_ratio", [0.0, 0.5])
def test_answers_obey_kirchhoff_whatever_the_outcome(load_va: float, broken_ratio: float) -> None:
    # Kirchhoff's laws. Tolerance: sweeps stop at an estimated 1e-9 of the source voltage; here 1e-8.
    rng = np.random.default_rng(7)
    batch = join([random_network(rng, load_va, broken_ratio) for _ in range(150)])
    result = solve_networks(batch)
    voltage, current = _laws_broken(batch, result)
    assert voltage < 1e-8 * 120.0
    assert current < 1e-10
    for field in fields(result):
        assert np.isfinite(getattr(result, field.name)).all()


def test_a_load_draws_what_its_curve_says() -> None:
    # The ZIP polynomial of network_load.py, in power form and written here afresh; below the switch, an impedance.
    rng = np.random.default_rng(11)
    batch = join([random_network(rng, 3000.0, 0.2) for _ in range(200)])
    result = solve_networks(batch)
    v = np.abs(result.load_v) / batch.load_nominal_v
    k = batch.load_low_voltage_switch_ratio
    z, i = batch.load_constant_impedance_ratio, batch.load_constant_current_ratio
    p = 1.0 - z - i
    power = batch.load_power_va * np.where(v >= k, z * v**2 + i * v + p, v**2 * (z + i / k + p / k**2))
    drawn = result.load_v * result.load_current_a.conj()
    assert ((v < k) & (z < 1.0)).any()
    np.testing.assert_allclose(drawn, power, rtol=1e-9, atol=1e-9)


def test_one_case_equals_its_row_in_a_batch_bit_for_bit() -> None:
    rng = np.random.default_rng(3)
    singles = [random_network(rng, load_va, 0.3) for load_va in (50.0, 800.0, 5000.0, 50000.0) for _ in range(40)]
    together = solve_networks(join(singles))
    alone = [solve_networks(single) for single in singles]
    assert len({int(one.outcome[0]) for one in alone}) >= 2
    for field in fields(together):
        joined = np.concatenate([getattr(one, field.name) for one in alone])
        assert joined.tobytes() == getattr(together, field.name).tobytes(), field.name


def test_an_empty_batch_is_an_empty_answer() -> None:
    empty = {field.name: np.empty(0) for field in fields(NetworkBatch)}
    empty |= {"node_start": np.array([0]), "load_start": np.array([0])}
    empty |= {"impedance_ohm": np.empty((0, 4)), "emf_v": np.empty((0, 3)), "neutral_open": np.empty(0, bool)}
    for name in ("parent", "load_node", "load_from", "load_to"):
        empty[name] = np.empty(0, np.int64)
    result = solve_networks(NetworkBatch(**empty))  # type: ignore[arg-type]
    assert result.outcome.shape == (0,)
    assert result.node_v.shape == (0, 4)


def test_input_arrays_are_left_alone_and_may_be_read_only() -> None:
    batch = random_network(np.random.default_rng(5), 800.0)
    frozen = []
    for field in fields(batch):
        array = getattr(batch, field.name).copy()
        array.setflags(write=False)
        frozen.append(array)
    result = solve_networks(NetworkBatch(*frozen))
    assert result.node_v.tobytes() == solve_networks(batch).node_v.tobytes()


SOUND = network([-1, 0], [0.1, 0.2], [120.0, -120.0], [Load(1, L1, N, 500.0, 120.0), Load(0, L1, L2, 500.0, 240.0)])


@pytest.mark.parametrize(
    ("member", "value", "message"),
    [
        ("node_start", np.array([0, 3]), "node_start"),
        ("node_start", np.array([0, 1, 2]), "one entry more"),
        ("node_start", np.array([0.0, 2.0]), "does not fit"),
        ("parent", np.array([-1, 1]), "parent of node 1"),
        ("parent", np.array([0, 0]), "parent of node 0"),
        ("parent", np.array([-1, -1]), "parent of node 1"),
        ("impedance_ohm", np.ones((2, 3), complex), "4 columns"),
        ("impedance_ohm", np.ones(2, complex), "dimensions"),
        ("impedance_ohm", np.full((2, 4), -0.1 + 0j), "impedance_ohm of node 0"),
        ("impedance_ohm", np.full((2, 4), complex(np.nan, 0)), "impedance_ohm of node 0"),
        ("impedance_ohm", np.full((2, 4), complex(0, np.inf)), "impedance_ohm of node 0"),
        ("neutral_open", np.zeros(3, bool), "differ in length"),
        ("emf_v", np.array([[120.0, 0.0, 0.0]], complex), "absent leg"),
        ("emf_v", np.array([[np.nan, -120.0, 0.0]], complex), "emf_v of case 0"),
        ("load_start", np.array([0, 1]), "load_start"),
        ("load_node", np.array([1, 2]), "load_node of load 1"),
        ("load_node", np.array([-1, 0]), "load_node of load 0"),
        ("load_from", np.array([0, 4]), "load 1"),
        ("load_to", np.array([3, 0]), "load 1 must be two different"),
        ("load_to", np.array([3]), "load arrays differ"),
        ("load_power_va", np.array([1.0, complex(0, np.nan)]), "load_power_va of load 1"),
        ("load_nominal_v", np.array([0.0, 240.0]), "load_nominal_v of load 0"),
        ("load_constant_current_ratio", np.array([-0.1, 0.0]), "shares of load 0"),
        ("load_constant_impedance_ratio", np.array([0.0, 1.1]), "shares of load 1"),
        ("load_low_voltage_switch_ratio", np.array([0.5, 0.0]), "load_low_voltage_switch_ratio of load 1"),
        ("load_low_voltage_switch_ratio", np.array([np.nan, 0.5]), "load_low_voltage_switch_ratio of load 0"),
    ],
)
def test_bad_input_is_told_by_name_and_place(member: str, value: np.ndarray, message: str) -> None:
    assert solve_networks(SOUND).outcome[0] == SOLVED
    with pytest.raises(ValueError, match=message):
        solve_networks(replace(SOUND, **{member: value}))
