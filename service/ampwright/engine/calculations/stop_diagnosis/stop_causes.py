"""Why may power have gone, what does each cause look like, and what may safely be looked at?

How often each cause shows each sign is judgement of the trade (common practice, no source), in rows that sum to one.
Checks are safe ones only: nobody loads a circuit to find out where it trips, nobody holds a tool while power comes
back, and what resets by itself is not tried again with anything plugged in.
"""

from __future__ import annotations

from dataclasses import dataclass

RETURNED = ("by_itself", "at_the_breaker", "at_the_ground_fault_device", "at_the_source")
EXTENTS = ("one_tool", "one_receptacle", "one_circuit", "everything")
BEFORE_ANYTHING = "Switch off and unplug every tool that stopped before anyone brings power back."


@dataclass(frozen=True, slots=True)
class StopCause:
    """One cause. `says` has places for a subject, a tool, and what comes then. `returned` and `extent` follow RETURNED
    and EXTENTS; `findings` are those of a load check it shows in.

    prior : how often it is the cause before anything is known, relative to the others.
    """

    says: str
    prior: float
    returned: tuple[float, float, float, float]
    extent: tuple[float, float, float, float]
    safe_checks: tuple[str, ...]
    findings: tuple[str, ...]


STOP_CAUSES: dict[str, StopCause] = {
    "circuit_overload": StopCause(
        "The circuit {subject} carried more than its device bears for that long.",
        1.0,
        (0.20, 0.68, 0.02, 0.10),
        (0.01, 0.04, 0.80, 0.15),
        (
            "With everything unplugged, look which breaker or button has opened; a warm one has carried too much.",
            "Add up the plates of what ran on it.",
        ),
        ("circuit_over_rating", "receptacle_over_rating"),
    ),
    "source_overload": StopCause(
        "The source {subject} was asked for more than it gives for that long.",
        0.9,
        (0.35, 0.05, 0.02, 0.58),
        (0.01, 0.01, 0.08, 0.90),
        (
            "Read the display or the app of the source: most of them say overload.",
            "Add up the plates of everything that ran on the source, on all outlets.",
        ),
        ("limit_over_continuous", "peak_limit_over"),
    ),
    "start_at_circuit": StopCause(
        "The start of {tool} drew more than the device of the circuit {subject} lets through.",
        0.8,
        (0.20, 0.68, 0.02, 0.10),
        (0.01, 0.04, 0.80, 0.15),
        (
            "Ask who switched on what at the moment it stopped.",
            "A compressor that stopped in mid-run starts hard: let its tank down before it is tried again.",
        ),
        ("does_not_start", "start_trips", "starts_only_if", "stalls_without_trip", "circuit_over_rating"),
    ),
    "start_at_source": StopCause(
        "The start of {tool} asked the source {subject} for more than it gives even for a moment.",
        0.8,
        (0.35, 0.05, 0.02, 0.58),
        (0.01, 0.01, 0.08, 0.90),
        (
            "Ask who switched on what at the moment it stopped, and whether lights dipped.",
            "Read the display or the app of the source.",
        ),
        (
            "does_not_start",
            "start_trips",
            "starts_only_if",
            "stalls_without_trip",
            "limit_over_continuous",
            "peak_limit_over",
        ),
    ),
    "ground_fault": StopCause(
        "A ground-fault device of {subject} opened: leakage adds up, or something is wet or damaged.",
        0.7,
        (0.01, 0.06, 0.91, 0.02),
        (0.01, 0.62, 0.30, 0.07),
        (
            "With everything unplugged, press RESET, then TEST: it must open again. If it does not reset with nothing "
            "plugged in, leave the outlet out of use.",
            "Look at every plug, cord and tool for water, cuts and bare wire; do not use what is wet or damaged.",
        ),
        ("ground_fault_nuisance",),
    ),
    "source_asleep": StopCause(
        "{subject} switched off because so little was drawn.",
        0.6,
        (0.10, 0.01, 0.01, 0.88),
        (0.01, 0.01, 0.02, 0.96),
        ("Look at the display or the app: does the source say it slept, or timed out?",),
        ("source_may_sleep",),
    ),
    "charge_floor": StopCause(
        "The battery of {subject} reached the charge at which it stops giving power.",
        0.6,
        (0.02, 0.01, 0.01, 0.96),
        (0.01, 0.01, 0.02, 0.96),
        ("Read the charge, and the floor that is set in the source.",),
        ("source_not_available",),
    ),
    "motor_protector": StopCause(
        "The motor of {subject} got too hot, and its own protector opened. {then}",
        0.5,
        (0.93, 0.03, 0.01, 0.03),
        (0.94, 0.03, 0.02, 0.01),
        (
            "Switch it off at the tool and unplug it, so that it cannot start without warning when it has cooled or is "
            "reset.",
            "Feel its housing and its plug; clear its vents; let it cool for half an hour.",
        ),
        ("low_voltage_at_tool",),
    ),
    "hot_device": StopCause(
        "The device of the circuit {subject} carried nearly all it may and sat in the heat: hot breakers open early.",
        0.4,
        (0.15, 0.75, 0.02, 0.08),
        (0.01, 0.04, 0.80, 0.15),
        ("Feel the cover of the panel; shade and air it. Do not fit a larger device.",),
        (),
    ),
    "short_circuit": StopCause(
        "A short circuit or a fault in a tool, a plug or a cord on the circuit {subject}: what protects it opened at "
        "once.",
        0.35,
        (0.06, 0.68, 0.06, 0.20),
        (0.01, 0.09, 0.70, 0.20),
        (
            "With everything unplugged, look at every plug, cord and tool for burns, cuts, crushed places, water and a "
            "smell; what shows any is taken out of use.",
            "Read the display or the app of the source: some say short circuit or fault.",
            "With everything unplugged, reset once. If it opens again with nothing plugged in, the fault is in the "
            "wiring or the source: leave it off and have a qualified person look.",
            "Plug nothing in again to find out which tool it was: a qualified person measures its insulation.",
        ),
        (),
    ),
}
"""Every cause by its code, in the order they are told where nothing tells them apart."""
