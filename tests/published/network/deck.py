"""How is a network told to the reference solver?

Conductors are uncoupled series elements, the source's neutral is the solver's ground, and every load is up to three:
its constant-power, constant-current and constant-impedance parts (models 1, 5, 2). The low-voltage thresholds `vminpu`
and `vlowpu` both lie at our low-voltage switch, so that the two agree wherever a load stays above it; the high one is
moved out of the way.
"""

from __future__ import annotations

from published.network.networks import LOW_VOLTAGE_SWITCH_RATIO, SUPPLIES, Network

STIFF_OHM = 1e-9
"""The solver's sources need an impedance; at 300 A this one loses 3e-7 V."""

TOLERANCE = 1e-10
_LEG_ORDER = ("l1", "l2", "l3")


def deck(network: Network) -> str:
    """The network as text in the solver's language; ends with its solution."""
    supply = SUPPLIES[network.kind]
    lines = [
        f"! {network.kind}, draw {network.draw}",
        "clear",
        f"set defaultbasefrequency={supply.frequency_hz}",
    ]
    stiff = f"r1={STIFF_OHM} x1={STIFF_OHM} r0={STIFF_OHM} x0={STIFF_OHM}"
    for leg, angle in enumerate(supply.leg_angles_deg):
        name = "new circuit.case" if leg == 0 else f"new vsource.{_LEG_ORDER[leg]}"
        lines.append(f"{name} phases=1 bus1=emf.{leg + 1}.0 basekv={supply.leg_v / 1000.0} pu=1 angle={angle} {stiff}")
    for node, branch in enumerate(network.branches):
        for conductor, impedance in enumerate(branch.impedance_ohm):
            if impedance is None:
                continue
            before = f"n{branch.parent}.{conductor + 1}"
            if node == 0:
                before = "emf.0" if conductor == 3 else f"emf.{conductor + 1}"
            lines.append(
                f"new reactor.b{node}_{conductor + 1} phases=1 bus1={before} bus2=n{node}.{conductor + 1}"
                f" r={impedance[0]} x={impedance[1]}"
            )
    for number, load in enumerate(network.loads):
        constant_power = 1.0 - load.constant_current_ratio - load.constant_impedance_ratio
        for model, share in ((1, constant_power), (5, load.constant_current_ratio), (2, load.constant_impedance_ratio)):
            if share < 1e-9:
                continue
            lines.append(
                f"new load.d{number}_{model} phases=1 model={model}"
                f" bus1=n{load.node}.{load.conductor_from + 1}.{load.conductor_to + 1} kv={load.nominal_v / 1000.0}"
                f" kw={load.power_va[0] * share / 1000.0!r} kvar={load.power_va[1] * share / 1000.0!r}"
                f" vminpu={LOW_VOLTAGE_SWITCH_RATIO} vlowpu={LOW_VOLTAGE_SWITCH_RATIO} vmaxpu=3"
            )
    lines += [f"set tolerance={TOLERANCE} maxiterations=1000", "solve mode=snapshot"]
    return "\n".join(lines) + "\n"
