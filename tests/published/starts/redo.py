"""Solve every stored start again and store what comes out.

`python tests/published/starts/redo.py [--decks|--series|--sets]`

Without an option: the transient equations of transient_machine.py, in scipy; some minutes.
With --decks: the decks in decks/, in the circuit simulator ngspice (Debian package), written from the same cases.
With --series: the time-domain equations of transient_series_motor.py, in scipy; half a minute.
With --sets: of the transient equations only the starts on engine sets; the others stay as they are.
None imports the engine.
"""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))
import transient_machine
import transient_series_motor

HERE = Path(__file__).parent
DECKS = (
    "blower-0.5hp",
    "compressor-1.5hp-flywheel",
    "compressor-1.5hp-pressure-source1",
    "fan-0.25hp-psc",
    "fan-0.33hp",
    "psc-0.5hp-stalls",
    "pump-0.5hp",
    "pump-0.5hp-long-cord",
    "pump-1hp-230v",
    "pump-1hp-230v-50hz",
    "saw-2hp-230v-50hz",
)


def rounded(value: Any) -> Any:
    if isinstance(value, float):
        return float(f"{value:.5g}")
    if isinstance(value, dict):
        return {key: rounded(inner) for key, inner in value.items()}
    return value


def write(path: Path, answers: dict[str, Any]) -> None:
    lines = [f"{json.dumps(name)}: {json.dumps(rounded(answers[name]), sort_keys=True)}" for name in sorted(answers)]
    path.write_text("{\n" + ",\n".join(lines) + "\n}\n")


def deck(case: dict[str, Any]) -> str:
    """The two-winding machine as a circuit: three coupled loops a winding, speed as the voltage of a capacitor."""
    m, s, load = case["motor"], case["source"], case["load"]
    w = 2 * math.pi * m["frequency_hz"]
    a = m["turns_ratio"]
    lls, llr, lm = m["x1_ohm"] / w, m["x2_ohm"] / w, m["xm_ohm"] / w
    lla = m["start_x_ohm"] / w
    pairs = w / m["synchronous_rad_per_s"]
    return f"""* {case["name"]}: capacitor or split-phase machine in d-q form, start against a source and a cord
* main winding: q axis; start winding: d axis, {a:.6g} times its turns; rotor loops referred to the main winding
Vs in 0 SIN(0 {math.sqrt(2) * s["emf_v"]:.8g} {m["frequency_hz"]} 0 0 124.4)
Rs in s1 {s["r_ohm"]:.8g}
Ls s1 common {s["x_ohm"] / w:.8g}
Rc common c1 {max(s["cord_r_ohm"], 1e-6):.8g}
Lc c1 motor {max(s["cord_x_ohm"], 1e-6) / w:.8g}
* main winding
R1 motor q1 {m["r1_ohm"]:.8g}
L1 q1 q2 {lls:.8g}
Vq q2 q3 0
Lmq q3 0 {lm:.8g}
* rotor on the q axis: the speed voltage of the other axis' rotor flux
L2q q3 q4 {llr:.8g}
R2q q4 q5 {m["r2_ohm"]:.8g}
Vqr q5 q6 0
Bqr q6 0 V = -{w:.10g} * V(speed) * ({llr + lm:.10g} * I(Vdr) - {lm:.10g} * {a:.10g} * I(Vd))
* start winding, its switch, its capacitor
S1 motor d0 closed 0 contact
Ra d0 d1 {m["start_r_ohm"] + m["capacitor_r_ohm"]:.8g}
{"Ca d1 d2 " + format(1 / (w * m["capacitor_ohm"]), ".8g") if m["capacitor_ohm"] > 0 else "Ra2 d1 d2 1e-6"}
La d2 d3 {lla:.8g}
Vd d3 d4 0
* ideal transformer a : 1 from the d axis to the rotor's turns
Ed d4 0 x 0 {a:.8g}
Fd 0 x Vd {a:.8g}
Lmd x 0 {lm:.8g}
L2d x x4 {llr:.8g}
R2d x4 x5 {m["r2_ohm"]:.8g}
Vdr x5 x6 0
Bdr x6 0 V = {w:.10g} * V(speed) * ({llr + lm:.10g} * I(Vqr) - {lm:.10g} * I(Vq))
* torque and speed; 1 V is synchronous speed
Btorque torque 0 V = {pairs:.10g} * {lm:.10g} * (-I(Vq) * I(Vdr) + {a:.10g} * I(Vd) * I(Vqr))
Bload load 0 V = {load["constant_nm"]:.10g} + {load["quadratic_nm"] + m["loss_torque_nm"]:.10g} * V(speed) * V(speed)
+ + {load["breakaway_nm"]:.10g} * max(0, 1 - V(speed) / 0.1)
Bspeed 0 speed I = (V(speed) > 1e-9) ? V(torque) - V(load) : max(0, V(torque) - V(load))
Cspeed speed 0 {load["inertia_kg_m2"] * m["synchronous_rad_per_s"]:.10g} IC=0
* once open, the switch stays open: a latch, tripped by speed
Blatch 0 latch I = (V(speed) > {m["switch_opens_pu"]:.6g}) ? 1 : 0
Clatch latch 0 1e-6 IC=0
Bclosed closed 0 V = (V(latch) > 0.5) ? 0 : 1
.model contact sw vt=0.5 vh=0 ron=1e-4 roff=2e3
.options method=gear reltol=1e-4 abstol=1e-6
.tran 1e-4 {case["horizon_s"]} 0 1e-4 uic
.measure tran time_to_speed when v(speed)={case["goal_speed_pu"]}
.end
"""


def run_deck(text: str, case: dict[str, Any]) -> dict[str, Any]:
    body = text.replace(".end\n", "")
    with tempfile.TemporaryDirectory() as folder:
        table = Path(folder) / "out.txt"
        control = f".control\nrun\nwrdata {table} v(speed) i(Lc)\n.endc\n.end\n"
        path = Path(folder) / "deck.cir"
        path.write_text(body.replace(".measure", "*.measure") + control)
        done = subprocess.run(["ngspice", "-b", str(path)], capture_output=True, text=True, timeout=120, check=False)
        if not table.exists():
            raise RuntimeError(done.stdout[-2000:] + done.stderr[-2000:])
        rows = [[float(x) for x in re.split(r"\s+", line.strip())] for line in table.read_text().splitlines()]
    result = transient_machine.Run([], [], [], [], [], [], 0, None, None)
    for t, speed, _t, line in rows:
        result.time_s.append(t)
        result.speed_pu.append(speed)
        result.line_a.append(line)
    for index, speed in enumerate(result.speed_pu):
        if result.openings == 0 and speed >= case["motor"]["switch_opens_pu"]:
            result.openings = 1
        if speed >= case["goal_speed_pu"]:
            t0, t1 = result.time_s[index - 1 : index + 1]
            s0 = result.speed_pu[index - 1]
            result.reached_s = t0 + (t1 - t0) * (case["goal_speed_pu"] - s0) / (speed - s0)
            break
    return transient_machine.figures(case, result)


def main() -> None:
    cases = {case["name"]: case for case in json.loads((HERE / "cases.json").read_text())}
    if "--decks" in sys.argv:
        answers = {}
        for name in DECKS:
            text = deck(cases[name])
            (HERE / "decks").mkdir(exist_ok=True)
            (HERE / "decks" / f"{name}.cir").write_text(text)
            answers[name] = run_deck(text, cases[name])
            print(name, rounded(answers[name]), flush=True)
        write(HERE / "expected_decks.json", answers)
        return
    answers = {}
    if "--series" in sys.argv:
        for case in json.loads((HERE / "series_motor_cases.json").read_text()):
            answers[case["name"]] = transient_series_motor.figures(case)
        write(HERE / "series_motor_expected.json", answers)
        return
    if "--sets" in sys.argv:
        kept = json.loads((HERE / "expected.json").read_text())
        answers = {name: kept[name] for name in cases if name in kept}
        cases = {name: case for name, case in cases.items() if "generator" in case["source"]}
    for name, case in cases.items():
        answers[name] = transient_machine.figures(case, transient_machine.run(case))
    write(HERE / "expected.json", answers)


if __name__ == "__main__":
    main()
