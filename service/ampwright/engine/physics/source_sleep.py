"""When does a source that sleeps under a light load fall asleep, and what does it then not feed?

A source watches its output: below `sleeps_below_w` for `delay_s` it switches off and, unless something wakes it
(`wakes_on_load` 0), stays off. One that looks for a load again (1) is awake from the next stretch that asks for at
least the threshold. A refrigerator between two cycles, or a charger at the end of its taper, is what gets lost.
"""

import numpy as np
import numpy.typing as npt

from ampwright.engine.physics.compile import kernel

FloatArray = npt.NDArray[np.float64]


@kernel("void(float64[::1], float64[::1], float64, float64, int64, float64[::1])")
def awake_time_s(
    load_w: FloatArray,
    duration_s: FloatArray,
    sleeps_below_w: float,
    delay_s: float,
    wakes_on_load: int,
    out_s: FloatArray,
) -> None:
    """For how much of each stretch is the source awake?

    Parameters
    ----------
    load_w : (n,) [W], >= 0, asked for, constant over each stretch
    duration_s : (n,) [s], >= 0
    sleeps_below_w : [W], >= 0; 0 never sleeps
    delay_s : [s], >= 0, how long the load must stay below it
    wakes_on_load : 1 a load of at least the threshold wakes it, 0 only a person does
    out_s : (n,) [s], written: awake from the start of the stretch for this long, then asleep

    Returns
    -------
    Nothing. What is not fed in a stretch is load_w * (duration_s - out_s).

    Errors: none.
    Source: 8 to 15 W and 100 to 300 W awake, common practice, no source; the counting is the definition above.
    """
    asleep = False
    light_s = 0.0
    for i in range(load_w.shape[0]):
        if duration_s[i] == 0.0:  # a load of no duration must not wake anything
            out_s[i] = 0.0
            continue
        if load_w[i] >= sleeps_below_w:
            light_s = 0.0
            if asleep and wakes_on_load == 1:
                asleep = False
            out_s[i] = 0.0 if asleep else duration_s[i]
            continue
        if asleep:
            out_s[i] = 0.0
            continue
        out_s[i] = min(duration_s[i], delay_s - light_s)
        light_s += duration_s[i]
        if light_s > delay_s:
            asleep = True
