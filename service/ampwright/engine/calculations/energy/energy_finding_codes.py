"""Which findings come from a day's energy?

Exhaust and refuelling cold have codes of their own (finding_codes.py, site_finding_codes.py).
Source: practice of the trade.
"""

from __future__ import annotations

from ampwright.engine.calculations.finding_code import FindingCode, capacity, caution, danger, info

ENERGY_FINDING_CODES: dict[str, FindingCode] = {
    "reserve_at_risk": capacity(
        "In one day of ten {subject} ends work with {value} left; {limit} must be left{value_text}.",
        "Take the cheapest change below, or plan a charge on the way.",
        "energy_j",
        meaning="What is left after work does not cover the way home and the reserve in one day of ten.",
    ),
    "energy_runs_out": capacity(
        "In one day of ten the work asks {value} more of {subject} than it holds.",
        "Take the cheapest change below.",
        "energy_j",
        meaning="A store without a way home is empty, or its outlets go off, before the work is done.",
    ),
    "fuel_runs_out": capacity(
        "In one day of ten the work asks {value} more fuel than the tank of {subject} holds.",
        "Take the cheapest change below.",
        "volume_m3",
        meaning="The tank is empty before the work is done.",
    ),
    "work_longer_than_shift": capacity(
        "The counted work takes {value} of the people; the shift gives them {limit}.",
        "Plan less, or more people or time. The energy is counted as if all of it were done.",
        "time_s",
        meaning="The counted work takes more hours than the people have, whatever the energy.",
    ),
    "packs_not_done": capacity(
        "{subject}: {value} packs are asked; the chargers fill {limit} in the time.",
        "Bring more chargers or charged packs.",
        "packs",
        meaning="The chargers cannot charge that many packs in the time.",
    ),
    "compressor_falls_behind": capacity(
        "{subject} runs without a pause: its air tools ask for as much as it gives.",
        "Nail more slowly, or bring a larger compressor. It has no duty cycle to cool in.",
        meaning="The air asked for is at least what the compressor delivers.",
    ),
    "duty_cycle_exceeded": capacity(
        "In one day of ten {subject} would run for {value} of ten minutes; its plate allows {limit}.",
        "Spread the work, or lower its output: the duty cycle rises as the current falls.",
        "running_ratio",
        "iec-60974-1_i1eff",
        meaning="A tool with a rated duty cycle, as a welder has, is asked to run longer than it may.",
    ),
    "tool_not_powered": capacity(
        "{subject} does not run on this source, even alone ({value_text}): neither its energy nor its work is counted.",
        "Bring a source that carries it. POST /v1/load-checks with the same request says what it would need.",
        meaning="A load check fails this tool alone, whatever is not known; it takes no energy and does no work.",
    ),
    "tool_may_not_run": capacity(
        "{subject} may not run on this source ({value_text}); its energy and its work are counted as if it did.",
        "POST /v1/load-checks with the same request says what must be known. Do not count on its work before.",
        meaning="A load check fails this tool on the safe side of what is not known: whether its work is done is open.",
    ),
    "not_together": capacity(
        "{subject} {value_text} on this source.",
        "Let them take turns, or bring a source that carries them. POST /v1/load-checks says what they would need.",
        meaning="A load check fails tools that may run at a time. They can take turns, or must run at once by their "
        "shares of the time.",
    ),
    "source_overloaded": capacity(
        "{value} is asked of {subject} in the busiest part of the day; it gives {limit}. What is above is not done.",
        "Run less at a time, spread the work, or bring a larger source.",
        "power_w",
        meaning="The mean load exceeds what the source gives; what is above is counted as not done.",
    ),
    "engine_overloaded": capacity(
        "{value} is asked of {subject} in the busiest part of the day; with the air and heat of the place its engine "
        "gives {limit}. What is above is not done.",
        "Run less at a time, or bring a larger set.",
        "power_w",
        meaning="The mean load exceeds the rating, less what altitude and heat take.",
    ),
    "battery_overloaded": capacity(
        "{value} is asked of {subject} in the busiest part of the day; {value_text} may give no more than {limit}. "
        "What is above is not done.",
        "Park it warm before the day, run less at a time, or say what its manual gives for the cold as "
        "`battery.largest_discharge`.",
        "power_w",
        "battery-explained_cold-resistance",
        meaning="The mean load exceeds what the battery may give, cold or by its stated largest discharge.",
    ),
    "battery_stops_tool": capacity(
        "{subject} takes {value}; {value_text} may give no more than {limit}, and then switch off.",
        "Park the battery warm before the day, use a weaker tool, or say what the manual gives for the cold as "
        "`battery.largest_discharge`.",
        "power_w",
        "battery-explained_cold-resistance",
        meaning="One tool alone takes more than the battery may give, cold or by its stated largest discharge.",
    ),
    "energy_source_may_sleep": caution(
        "{subject} may switch off below {limit}; the least that runs all the time draws {value}.",
        "Add a steady small load, or set it to stay awake. What hangs on it is lost until somebody wakes it.",
        "marginal",
        "power_w",
        meaning="What runs all the time is too light to keep the source awake.",
    ),
    "source_falls_asleep": capacity(
        "{subject} falls asleep {value} after work begins on it, and stays off: {value_text}.",
        "Add a steady small load above its threshold, set it to stay awake, or use another source.",
        "time_s",
        meaning="What is left running draws too little to keep the source awake, and nothing wakes it.",
    ),
    "source_sleeps_between": info(
        "{subject} sleeps {value} of the time{value_text}, between the cycles of what runs, and wakes with each.",
        "Check that every load wakes it: some draw too little at first.",
        "share_ratio",
        meaning="The source sleeps between the cycles of what it feeds and wakes by itself.",
    ),
    "load_must_not_stop": danger(
        "{subject} must not stop, and {value_text}.",
        "Feed it from a source that lasts, or have somebody there who sees it stop.",
        meaning="A load that must keep running hangs on a source that sleeps, cannot feed it, or runs out.",
    ),
    "charging_below_freezing": caution(
        "Packs are charged at {value}: lithium cells are not to be charged below {limit}.",
        "Charge in a warm cab or at home. Chargers wait or refuse in the cold.",
        "marginal",
        "temperature_c",
        meaning="Tool packs are charged where it may freeze.",
    ),
    "source_charged_below_freezing": caution(
        "{subject} is to be charged with cells at {value}: lithium cells are not to be charged below {limit}. What sun "
        "and sockets give it in frost is not counted.",
        "Keep it warm while it charges. If it heats its cells by itself, give their temperature as `battery.cells`.",
        "marginal",
        "temperature_c",
        meaning="A lithium station is charged by sun or a socket while its cells may be below freezing.",
    ),
    "charger_cannot_start": caution(
        "The charger {subject} may not start on this source: {value_text}.",
        "Try it before the day counts on it.",
        meaning="Some chargers refuse a stepped wave, a floating neutral or too weak a source.",
    ),
    "refuelling_hot": caution(
        "The tank of {subject} may be empty after {value}, before work ends: it would be refuelled hot.",
        "Plan a stop to let it cool before fuel goes in, or start with a full tank and a lighter day.",
        "pass",
        "time_s",
        meaning="The tank may run empty during work; fuel on a hot engine burns.",
    ),
    "low_load_running": info(
        "{subject} runs at {value} of its rating on average: most of its fuel goes into turning.",
        "Switch it off in the breaks, or bring a smaller set. A diesel run long below a third of its rating soots up.",
        "load_ratio",
        meaning="An engine set idles most of the time.",
    ),
    "awake_for_nothing": info(
        "{value} of what is used goes into keeping {subject} awake.",
        "Let it sleep in the breaks.",
        "share_ratio",
        meaning="A large part of the energy keeps the source awake.",
    ),
    "fuel_more_than_tank": info(
        "{value} is said to be in the tank of {subject}, which holds {limit}: no more than that was counted.",
        "Give what is in the tank; fuel in cans comes after a stop to let it cool.",
        "volume_m3",
        meaning="More fuel is said to be in a tank than it holds.",
    ),
    "run_times_contradict": info(
        "The run times of {subject} do not add up: it would run longer on more load, or give more than its fuel holds.",
        "Read them again in its manual, with the tank and the rating that they are of.",
        meaning="Run times, tank and rating of an engine set contradict each other; those that no engine has were left "
        "out.",
    ),
    "observation_disagrees": info(
        "What was observed of {subject} is far outside the usual range.",
        "Check the count and the reading; something else may have drawn energy.",
        meaning="An observation is hardly possible within the usual range of the work.",
    ),
}
