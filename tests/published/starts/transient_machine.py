"""The transient equations of an induction machine, solved on their own, to hold quasi-steady starts against.

Stationary-frame d-q equations in instantaneous values: P. C. Krause, O. Wasynczuk, S. D. Sudhoff, Analysis of Electric
Machinery and Drive Systems, chapters 4 (symmetrical) and 10 (unsymmetrical two-phase and single-phase machines),
from memory. Nothing here is taken from, or imported from, the engine: parameters in, solve_ivp, figures out.
Main winding on q, start winding (`a` times its turns) on d; rotor referred to the main winding. A three-phase machine
is the same with a = 1, both axes fed. The start switch parts at the next zero of the start winding's current. A
limiting source is a control loop: it scales the sine so that the filtered effective current stays at the limit.
An engine set is a sine behind its transient inductance, whose size and frequency follow one-axis field, regulator and
governor equations (P. Kundur, Power System Stability and Control, sections 5 and 8, from memory), fed with the in-phase
and lagging parts of the measured current, each filtered. Its engine has a greatest torque over speed, a parabola, and
gives none below the speed at which it dies; from then on the run is over.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp

RMS_FILTER_S = 1 / 60
LIMIT_LOOP_PER_S = 60.0
# A quarter of a cycle: with a whole one the set answers late, and the start with it by up to 6 %.
SET_FILTER_S = 1 / 240


@dataclass
class Run:
    time_s: list[float]
    speed_pu: list[float]
    line_a: list[float]  # instantaneous, motor
    source_a: list[float]
    flux_pu: list[float]  # of an engine set, else empty
    frequency_pu: list[float]
    openings: int
    reached_s: float | None
    off_s: float | None


def load_torque(case: dict[str, Any], speed_pu: float) -> float:
    load = case["load"]
    torque = load["constant_nm"] + load["quadratic_nm"] * speed_pu * abs(speed_pu)
    torque += case["motor"]["loss_torque_nm"] * speed_pu * abs(speed_pu)
    if speed_pu < 0.1:
        torque += load["breakaway_nm"] * (1 - max(speed_pu, 0.0) / 0.1)
    return float(torque)


class Machine:
    """States: iq, id, iqr, idr, io (other load), capacitor voltage, speed over synchronous, k, mean square current;
    of an engine set also flux, field, frequency, engine, phase angle, in-phase and lagging current (per unit)."""

    def __init__(self, case: dict[str, Any], start_in: bool, phase_rad: float) -> None:
        self.case = case
        m, s = case["motor"], case["source"]
        self.m, self.s = m, s
        self.w = 2 * math.pi * m["frequency_hz"]
        self.three = m["phases"] == 3
        self.start_in = start_in
        self.phase = phase_rad
        w = self.w
        a = self.a = 1.0 if self.three else m["turns_ratio"]
        lls, llr, lm = m["x1_ohm"] / w, m["x2_ohm"] / w, m["xm_ohm"] / w
        self.lm, self.lr = lm, llr + lm
        lsd = lls + lm if self.three else m["start_x_ohm"] / w + a * a * lm
        self.sync = m["synchronous_rad_per_s"]
        line_l, cord_l = s["x_ohm"] / w, s["cord_x_ohm"] / w
        self.line_r = s["r_ohm"]
        self.set = s.get("generator")
        if self.set:
            base = self.set["voltage_v"] ** 2 / self.set["rated_va"]
            line_l += self.set["transient_reactance_pu"] * base / w
            self.line_r += self.set["resistance_pu"] * base
        other = s.get("other")
        n = 5
        mass = np.zeros((n, n))
        # rows: main loop, start loop, two rotor loops, other-load loop
        mass[0] = [lls + lm + line_l + cord_l, 0, lm, 0, line_l]
        mass[1] = [0, lsd, 0, a * lm, 0]
        if self.three:
            mass[1, 1] += line_l + cord_l
        else:
            mass[0, 1] = line_l + cord_l
            mass[1] = [line_l + cord_l, lsd + line_l + cord_l, 0, a * lm, line_l]
        mass[2] = [lm, 0, self.lr, 0, 0]
        mass[3] = [0, a * lm, 0, self.lr, 0]
        mass[4] = [line_l, line_l, 0, 0, line_l + (other["x_ohm"] / w if other else 1.0)]
        if self.three or not other:
            mass[4] = [0, 0, 0, 0, 1]
            mass[:4, 4] = 0
        self.other = None if self.three else other
        if not start_in and not self.three:
            # start winding open: its current stays at nought
            mass[1] = [0, 1, 0, 0, 0]
        self.inverse = np.linalg.inv(mass)
        self.limit = float("inf")

    def derivative(self, t: float, y: np.ndarray) -> np.ndarray:
        iq, idd, iqr, idr, io, vc, speed, k, p = y[:9]
        m, s = self.m, self.s
        w, a = self.w, self.a
        slip = 1 - speed
        r2 = m["r2_ohm"] * (1 + m["r2_rise"] * abs(slip))
        wr = speed * w
        angle = w * t + self.phase
        if self.set:
            k, angle = y[9] * y[11], y[13]
        peak = math.sqrt(2) * (self.set["voltage_v"] if self.set else s["emf_v"]) * k
        e = peak * math.cos(angle)
        lam_qr = self.lr * iqr + self.lm * iq
        lam_dr = self.lr * idr + a * self.lm * idd
        rhs = np.empty(5)
        if self.three:
            r = m["r1_ohm"] + self.line_r + s["cord_r_ohm"]
            rhs[0] = e - r * iq
            rhs[1] = -peak * math.sin(angle) - r * idd
            torque = 1.5 * (w / self.sync) * (lam_qr * idr - lam_dr * iqr)
            source_sq = 0.5 * (iq * iq + idd * idd)
            rhs[4] = 0.0
        else:
            line = iq + idd
            common = e - self.line_r * (line + io)
            at_motor = common - s["cord_r_ohm"] * line
            rhs[0] = at_motor - m["r1_ohm"] * iq
            rhs[1] = at_motor - (m["start_r_ohm"] + m["capacitor_r_ohm"]) * idd - vc if self.start_in else 0.0
            rhs[4] = common - self.other["r_ohm"] * io if self.other else 0.0
            torque = (w / self.sync) * (lam_qr * idr - lam_dr * iqr)
            source_sq = (line + io) ** 2
        rhs[2] = -r2 * iqr + wr * lam_dr
        rhs[3] = -r2 * idr - wr * lam_qr
        out = np.zeros(len(y))
        out[:5] = self.inverse @ rhs
        out[5] = 0.0
        if not self.three and self.start_in and m["capacitor_ohm"] > 0:
            out[5] = idd * m["capacitor_ohm"] * w
        against = load_torque(self.case, speed)
        if speed <= 0 and torque < against:
            out[6] = max(-speed, 0.0) * 100.0
        else:
            out[6] = (torque - against) / (self.case["load"]["inertia_kg_m2"] * self.sync)
        out[8] = (source_sq - p) / RMS_FILTER_S
        out[7] = 0.0
        if math.isfinite(self.limit):
            rate = LIMIT_LOOP_PER_S * (1 - math.sqrt(max(p, 0.0)) / self.limit)
            out[7] = 0.0 if (k >= 1 and rate > 0) or (k <= 0 and rate < 0) else rate * max(k, 0.05)
        if self.set:
            out[9:16] = self.set_slopes(y, iq + idd + io if not self.three else 0.0, angle)
        return out

    def set_slopes(self, y: np.ndarray, total_a: float, angle: float) -> list[float]:
        g = self.set
        flux, field, f, engine, _, in_phase, lagging = y[9:16]
        base_a = g["rated_va"] / g["voltage_v"]
        inner = complex(g["resistance_pu"], g["transient_reactance_pu"] * f)
        voltage = abs(flux * f - inner * complex(in_phase, -lagging))
        reaction = (g["synchronous_reactance_pu"] - g["transient_reactance_pu"]) * lagging
        if g["technology"] == "avr":
            # volts per hertz below 95 % of rated frequency
            wanted = min(1.0, f / 0.95)
            command = self.case["field_at_rest"] + g["regulator_gain"] * (wanted - voltage)
            command = min(max(command, 0.0), g["ceiling"] * min(2 * voltage, 1.0))
            d_field = (command - field) / g["exciter_time_s"]
        else:
            knee = g["self_excitation_knee_pu"]
            # the load's current adds to the field until the iron is full, from 95 to 100 % of rated volts per hertz
            room = min(max((1 - voltage / f) / 0.05, 0.0), 1.0)
            boost = 1 + g["compounding"] * min(math.hypot(in_phase, lagging), 1.2) * room
            field, d_field = boost * voltage * (1 + knee) / (voltage + knee), 0.0
        # `engine` is torque: power asked by the droop over speed, at most what the engine has at this speed
        wanted_power = max((g["no_load_frequency_pu"] - f) / g["droop"], 0.0)
        top, peak = 1 + g["torque_rise"], g["torque_peak_pu"]
        most = g["engine_pu"] * (top - (top - 1) * ((f - peak) / (1 - peak)) ** 2)
        asked = min(wanted_power / f, most) if f >= g["dies_pu"] else 0.0
        now = math.sqrt(2) * total_a / base_a
        return [
            (field - flux - reaction) / g["field_time_s"],
            d_field,
            (engine - flux * in_phase) / (2 * g["inertia_s"]),
            (asked - engine) / g["governor_time_s"],
            self.w * f,
            (now * math.cos(angle) - in_phase) / SET_FILTER_S,
            (now * math.sin(angle) - lagging) / SET_FILTER_S,
        ]


def _limit_now(source: dict[str, Any], used: list[float]) -> float:
    if source["response"] == "stiff":
        return float("inf")
    allowed = float(source["continuous_a"])
    for (amount, lasts), spent in zip(source.get("tiers", []), used, strict=True):
        if spent >= lasts - 1e-9:
            break
        allowed = amount
    return allowed


def run(case: dict[str, Any], phase_rad: float = 0.6) -> Run:
    """Solve one start by Runge-Kutta of order 8; relative tolerance 1e-6, steps of at most 1/24 of a cycle."""
    m, s, until = case["motor"], case["source"], case["horizon_s"]
    step = 1 / m["frequency_hz"] / 24
    tiers = s.get("tiers", [])
    used = [0.0] * len(tiers)
    closed = m["phases"] == 1 and case["load"]["first_speed_pu"] < m["switch_opens_pu"]
    y = np.zeros(16 if "generator" in s else 9)
    y[6] = case["load"]["first_speed_pu"]
    y[7] = case.get("first_k", 1.0)
    if "generator" in s:
        # At rest with nothing running: field and flux 1, no-load frequency.
        y[9:14] = [1.0, 1.0, s["generator"]["no_load_frequency_pu"], 0.0, phase_rad]
    limit = _limit_now(s, used)
    if math.isfinite(limit):
        y[8] = limit**2
    t, openings, reached, off = 0.0, 0, None, None
    result = Run([], [], [], [], [], [], 0, None, None)
    while t < until - 1e-9:
        machine = Machine(case, closed, phase_rad)
        machine.limit = limit
        chunk_end = min(until, t + (0.05 if tiers else 0.5))

        def opens(_t: float, y: np.ndarray) -> float:
            return float(y[6] - m["switch_opens_pu"])

        opens.terminal, opens.direction = True, 1  # type: ignore[attr-defined]

        def recloses(_t: float, y: np.ndarray) -> float:
            return float(y[6] - m["switch_recloses_pu"])

        recloses.terminal, recloses.direction = True, -1  # type: ignore[attr-defined]

        def dies(_t: float, y: np.ndarray) -> float:
            return float(y[11] - s["generator"]["dies_pu"])

        dies.terminal = True  # type: ignore[attr-defined]
        events = [] if m["phases"] == 3 else ([opens] if closed else [recloses])
        if "generator" in s:
            events.append(dies)
        found = solve_ivp(
            machine.derivative, (t, chunk_end), y, method="DOP853", rtol=1e-6, atol=1e-6, max_step=step, events=events
        )
        _keep(result, found, case)
        t_new, y = float(found.t[-1]), found.y[:, -1].copy()
        if "generator" in s and y[11] <= s["generator"]["dies_pu"] + 1e-9:
            off = t_new
            break
        if found.status == 1 and closed:
            # waits for the start winding's current to pass nought, as an arcing contact does
            def zero(_t: float, y: np.ndarray) -> float:
                return float(y[1])

            zero.terminal = True  # type: ignore[attr-defined]
            found = solve_ivp(
                machine.derivative,
                (t_new, t_new + 0.05),
                y,
                method="DOP853",
                rtol=1e-6,
                atol=1e-6,
                max_step=step,
                events=[zero],
            )
            _keep(result, found, case)
            t_new, y = float(found.t[-1]), found.y[:, -1].copy()
            y[1] = 0.0
            closed, openings = False, openings + 1
        elif found.status == 1:
            closed = True
        current = math.sqrt(max(y[8], 0.0))
        below = s.get("continuous_a", float("inf"))
        for index, (amount, _lasts) in enumerate(tiers):
            if current > below * 1.01:
                used[index] += t_new - t
            below = amount
        new_limit = _limit_now(s, used)
        if new_limit < limit and s["response"] in ("limits_for_a_time", "shuts_down") and current > new_limit:
            off = t_new
            break
        limit = new_limit
        t = t_new
    times, speeds = np.array(result.time_s), np.array(result.speed_pu)
    above = np.nonzero(speeds >= case["goal_speed_pu"])[0]
    if len(above):
        first = above[0]
        reached = float(np.interp(case["goal_speed_pu"], speeds[first - 1 : first + 1], times[first - 1 : first + 1]))
    result.openings, result.reached_s, result.off_s = openings, reached, off
    return result


def _keep(result: Run, found: Any, case: dict[str, Any]) -> None:
    three = case["motor"]["phases"] == 3
    for t, y in zip(found.t[1:], found.y.T[1:], strict=True):
        result.time_s.append(float(t))
        result.speed_pu.append(float(y[6]))
        # For three phases the length of the space vector over sqrt(2) is the effective current.
        line = math.hypot(y[0], y[1]) / math.sqrt(2) if three else float(y[0] + y[1])
        result.line_a.append(line)
        result.source_a.append(line if three else line + float(y[4]))
        if len(y) > 9:
            result.flux_pu.append(float(y[9]))
            result.frequency_pu.append(float(y[11]))


def figures(case: dict[str, Any], run_: Run) -> dict[str, Any]:
    """Outcome, time to speed, effective currents over the run-up and over the last cycles."""
    t, i = np.array(run_.time_s), np.array(run_.line_a)
    speed = np.array(run_.speed_pu)
    cycle = 1 / case["motor"]["frequency_hz"]
    squared = np.concatenate([[0.0], np.cumsum(0.5 * (i[1:] ** 2 + i[:-1] ** 2) * np.diff(t))])

    def effective(start: float, stop: float) -> float:
        lower, upper = np.interp([start, stop], t, squared)
        return math.sqrt((upper - lower) / (stop - start))

    # Up to running speed, offset of the first cycles included; or whole cycles of a start that does not succeed.
    stop = run_.reached_s if run_.reached_s is not None else max(1, math.floor(float(t[-1]) / cycle)) * cycle
    stop = min(stop, float(t[-1]))
    last = 6 * cycle
    final = float(np.mean(speed[t > t[-1] - last]))
    before = float(np.mean(speed[(t > t[-1] - 2 * last) & (t <= t[-1] - last)]))
    held = case["source"]["response"] != "stiff" and effective(t[-1] - last, float(t[-1])) > 0.97 * _limit_now(
        case["source"], [float("inf")] * len(case["source"].get("tiers", []))
    )
    dead = bool(run_.flux_pu) and run_.off_s is not None
    collapsed = dead or (bool(run_.flux_pu) and run_.flux_pu[-1] * run_.frequency_pu[-1] < 0.45 and final < 0.5)
    if collapsed:
        outcome = "collapses"
    elif run_.off_s is not None and run_.reached_s is None:
        outcome = "shuts_off"
    elif run_.reached_s is not None and final >= case["running_speed_pu"]:
        outcome = "starts" if run_.reached_s <= case["slow_s"] else "starts_slowly"
    elif run_.reached_s is None and final >= case["running_speed_pu"]:
        outcome = "starts_slowly"
    elif run_.openings >= 4:
        outcome = "hunts"
    elif held and final > before + 1e-4:
        outcome = "source_limits"
    else:
        outcome = "stalls"
    return {
        "outcome": outcome,
        "time_to_speed_s": run_.reached_s,
        "run_up_current_a": effective(0.0, stop),
        "final_current_a": effective(t[-1] - last, float(t[-1])) if run_.off_s is None else 0.0,
        "final_speed_pu": final,
        "switch_openings": run_.openings,
        "off_s": run_.off_s,
        "least_frequency_pu": min(run_.frequency_pu) if run_.frequency_pu else None,
    }
