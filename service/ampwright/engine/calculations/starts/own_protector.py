"""When does a motor's own thermal protector open while it stands still, and what does it do then?

Only what the tool's document says counts: a protector that resets by itself, one that is pushed in by hand, or none. A
refrigerator is taken to have one that resets by itself. The winding warms as in engine/physics/stalled_winding, from
cold at a start, hot from work after a trip; the protector opens at one temperature.

Assumptions (common practice, no source, unless cited):
P-01  it opens with the winding at 150 C: below the 200 C that a built-in protector may let a winding reach at
      standstill (IEC 60034-11, from memory).
P-02  a winding is at 30 C before a first start.
P-03  one that resets by itself closes again after 1 to 10 min, 3 min typically, without an end while power is on.

Source: first-order heat balance of a body; assumptions above.
"""

from __future__ import annotations

import math

from ampwright.engine.physics.stalled_winding import LOCKED_RISE_K_PER_S, WINDING_TIME_S
from ampwright.engine.site.settled import Placement

BY_ITSELF, BY_HAND = "resets_by_itself", "resets_by_hand"
OPENS_C = 150.0
COLD_C = 30.0
REFRIGERATOR = "refrigerator"


def protector_of(placement: Placement) -> str | None:
    """How the motor's own protector resets, None where it has none or nobody said."""
    said = placement.tool.motor_protector
    if said is None and placement.load_class.name == REFRIGERATOR:
        return BY_ITSELF
    return said if said in (BY_ITSELF, BY_HAND) and placement.load_class.is_motor else None


def opens_s(estimate: int, current_ratio: float, from_c: float = COLD_C) -> float:
    """[s] of standstill after which it opens, +inf where the winding never gets so hot.

    current_ratio : [-] over the full locked-rotor current. from_c : [C] of the winding before.
    """
    tau_s = WINDING_TIME_S[estimate]
    full_k = LOCKED_RISE_K_PER_S[estimate] * current_ratio * current_ratio * tau_s
    wanted_k = OPENS_C - from_c
    return -tau_s * math.log1p(-wanted_k / full_k) if full_k > wanted_k else math.inf
