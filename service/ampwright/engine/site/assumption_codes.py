"""Why is each default what it is, and how does a person on site find out the truth?

Source: common practice, no source, except where `basis` names a citation.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class AssumptionCode:
    """Texts of one kind of default; `basis` is a citation key or None for common practice."""

    why: str
    how_to_find_out: str
    basis: str | None = None


ASSUMPTION_CODES: dict[str, AssumptionCode] = {
    "circuit_shared": AssumptionCode(
        "not given; sharing one circuit is the safe side",
        "Plug a lamp into this receptacle and open the breaker of the other: does the lamp go out?",
    ),
    "circuit_leg": AssumptionCode(
        "not given; all on one leg is the safe side",
        "Read the legend of the panel, or measure between the line contacts of two receptacles: no voltage means the "
        "same leg.",
    ),
    "circuit_rating": AssumptionCode(
        "not given; the mark of its receptacles is what may be counted on",
        "Read the number on the breaker's handle.",
    ),
    "receptacle_rating": AssumptionCode(
        "not marked; the smallest usual rating is the safe side",
        "Read the ampere mark on the receptacle or beside it.",
    ),
    "receptacle_type": AssumptionCode(
        "not given; a receptacle that takes the plug is assumed",
        "Look at its slots, or read the pattern beside it.",
    ),
    "outlet_leg": AssumptionCode(
        "not given; outlets of a lead with several legs are all counted on the first, the safe side",
        "Read the legend of the distribution box, or measure between the line contacts of two outlets.",
    ),
    "receptacle_assumed": AssumptionCode(
        "no receptacle was listed; one of the smallest usual kind is assumed",
        "Count the receptacles and read their marks.",
    ),
    "cord_reach": AssumptionCode(
        "the length of a cord, or which cord goes to the work, was not said",
        "Lay the cord to the work, or measure it: with the tool's own cord it must be as long as the way.",
    ),
    "connections_assumed": AssumptionCode(
        "no connections were given; everything on one circuit without cords is assumed",
        "List what is plugged into what.",
    ),
    "limit_continuous": AssumptionCode(
        "not given; no more than one full circuit is counted on",
        "Read the continuous output in W, VA or A on the source's plate or in its manual; not the peak or starting "
        "figure.",
    ),
    "limit_peak": AssumptionCode(
        "not given; taken as the crest of a sine at the overload the source allows for seconds",
        "Ask the maker for the highest crest current or the crest factor at full load.",
    ),
    "source_resistance": AssumptionCode(
        "not given; the usual range of inverters and sets",
        "Read the voltage at the receptacle without load and with a known load: the difference over the current is it.",
    ),
    "circuit_resistance": AssumptionCode(
        "not given; a few metres of fixed wiring",
        "Read the voltage at the receptacle without load and with a known load.",
    ),
    "contact_resistance": AssumptionCode(
        "not given; clean to worn contacts",
        "Feel plug and connector after ten minutes of work: a warm one is worn.",
    ),
    "plate_unknown": AssumptionCode(
        "no volts, amps or watts were given; a full plug is the safe side",
        "Read volts and amps or watts on the tool's plate.",
    ),
    "welder_input": AssumptionCode(
        "only the welding current was given; conventional load voltages over usual efficiencies",
        "Read I1max and I1eff on the welder's plate, or watch a meter while it welds.",
        "iec-60974-1_load-voltage",
    ),
    "plate_from_shaft_power": AssumptionCode(
        "only shaft power was given; efficiency 0.6 to 0.8 of small motors is assumed",
        "Read the amps on the tool's plate.",
    ),
    "load_class": AssumptionCode(
        "not given; the widest range of loads is assumed",
        "Say what kind of tool it is.",
    ),
    "working_load": AssumptionCode(
        "not measured; the usual share of the plate for this kind of tool",
        "Watch a plug meter while the tool works for a minute.",
    ),
    "heavy_load": AssumptionCode(
        "not measured; what this kind of tool draws when it is pushed",
        "Watch a plug meter that keeps its highest reading while the tool is pushed.",
    ),
    "power_factor": AssumptionCode(
        "not on the plate; the usual range for this kind of load",
        "Use a meter that shows both W and VA: their ratio is it.",
    ),
    "crest_factor": AssumptionCode(
        "not on the plate; the usual value for this kind of load",
        "Use a meter that shows the crest factor.",
    ),
    "meter_over_range": AssumptionCode(
        "the meter was over its range; the true figure is at least this and may be half as much again",
        "Use a meter with a higher range.",
    ),
    "cord_length": AssumptionCode(
        "not given; a usual length",
        "Pace it out: one step is a bit under one metre, or three feet.",
    ),
    "cord_size": AssumptionCode(
        "not given; the thinnest usual cord is the safe side",
        "Read the jacket; if the print is worn, treat it as thin.",
    ),
    "cord_mark": AssumptionCode(
        "not given; what a listed cord set of this size and length is marked",
        "Read the ampere mark on the tag or the plug.",
        "ul-817_marked",
    ),
    "cord_ends": AssumptionCode(
        "not given; ends like the smallest receptacle here, in North America 15 A",
        "Read the ampere mark on plug and connector.",
    ),
    "cord_laid": AssumptionCode(
        "not given; coiled, as carried, is the safe side for heat",
        "Look at the cord, and unroll all of it.",
    ),
    "cord_conductors": AssumptionCode(
        "not given; the usual number for its plug",
        "Count the conductors printed on the jacket.",
    ),
    "cord_insulation": AssumptionCode(
        "not given; a cord without a temperature mark is rated 60 degC",
        "Read the temperature on the jacket.",
    ),
    "ambient": AssumptionCode(
        "not given; 10 to 40 degC",
        "Read a thermometer where the cord lies.",
    ),
    "reset": AssumptionCode(
        "not given; power is treated as able to return by itself, and as able to stay off",
        "Look in the source's manual what happens after an overload.",
    ),
    "reset_delay": AssumptionCode(
        "not given; a source that resets itself usually does so within 2 to 10 s",
        "Look in the source's manual how long it waits, or note it when it has tripped once.",
    ),
    "reset_tries": AssumptionCode(
        "not given; a source that resets itself may do so without an end",
        "Look in the source's manual whether it locks out after some tries.",
    ),
    "switch": AssumptionCode(
        "not given; a switch that stays on by itself is the safe side",
        "Let go of the switch: does the tool stop?",
        "clauses_osha-1926",
    ),
    "restart_protection": AssumptionCode(
        "not given; most tools start again when power returns",
        "With the tool clamped and clear, switch it on unplugged, then have someone plug it in: does it stay off?",
    ),
    "lowest_voltage": AssumptionCode(
        "not given; 90 % of the voltage on the tool's plate",
        "Read the voltage range in the tool's manual.",
        "nema-mg-1_12-44",
    ),
    "people": AssumptionCode(
        "not given; one person",
        "Say how many people work.",
    ),
    "neutral_bond": AssumptionCode(
        "not given",
        "Look on the plate or in the manual for 'neutral bonded to frame' or 'floating neutral'.",
    ),
    "ground_fault": AssumptionCode(
        "not given; no protection is the safe side",
        "Look for TEST and RESET buttons at the receptacle or its breaker; none seen means not protected.",
    ),
    "place": AssumptionCode(
        "not given; an enclosed place is the safe side for an engine",
        "Say where the engine runs: in the open, or near any opening, wall, pit or roof.",
    ),
    "code_basis": AssumptionCode(
        "not given; no rule layer was asked",
        "Say which rules apply: osha-1926 and the adopted edition (nec-2023) on a site in the United States, bs-7671, "
        "iec-60364-de and the like, or an empty list for none.",
    ),
    "construction_site": AssumptionCode(
        "not said; a construction site is where the rule layers ask the most",
        "Leave out osha-1926 where the work is no construction; of other layers the site clauses hold for sites alone.",
    ),
    "cord_type": AssumptionCode(
        "not given; whether it is made for a site is not known",
        "Read the letters on the jacket, as in SJTW or H07RN-F.",
    ),
    "insulation": AssumptionCode(
        "not given; whether it needs an earth conductor is not known",
        "Look at the plate: a square within a square means double insulated, which needs none.",
    ),
    "sleeps_below": AssumptionCode(
        "not given; sources that sleep usually do so below 8 to 15 W",
        "Leave a small lamp on for an hour: is it still lit?",
    ),
    # --- starts ---
    "soft_start": AssumptionCode(
        "not given; without one is the harder start",
        "Watch the tool start: does it wind up over a second, without a jerk?",
    ),
    "head_pressure": AssumptionCode(
        "not given; a compressor that starts against a full tank is the harder start",
        "Listen after it stops: a hiss of a second is the valve that vents the head before the next start.",
    ),
    "start_current": AssumptionCode(
        "not on the plate; the usual code letters of such motors",
        "Look for a code letter on the motor's plate, or measure the current with a meter that keeps its highest "
        "reading.",
    ),
    "shaft_power": AssumptionCode(
        "not given; six tenths of volts times amperes",
        "Read the hp or kW on the motor's own plate; not a peak or developed figure.",
    ),
    "limit_tiers": AssumptionCode(
        "not given; from no overload at all to twice the continuous output for 5 s",
        "Look in the manual for the overload or surge output and how many seconds it lasts.",
    ),
    "limit_response": AssumptionCode(
        "not given; a source may switch off, or hold the current down without end: both were tried",
        "Look in the manual what happens on overload, or whether the source has ever switched off on one.",
    ),
    "overload_policy": AssumptionCode(
        "not given; beyond its highest overload a source may switch off at once or at the end of that overload's time",
        "Ask the maker what the source does when more is asked than its highest overload.",
    ),
    "engine_technology": AssumptionCode(
        "not given; a set without a regulator loses its voltage at a start, one with a regulator can lose its speed",
        "Read the plate: 'inverter', 'AVR', or a small brushless set without either.",
    ),
    "circuit_device": AssumptionCode(
        "not given; a thermal-magnetic breaker of the usual kind",
        "Look at the device: a toggle handle, a push button, a fuse, or nothing but electronics.",
    ),
    # --- energy budgets; a band's low and high count as the 10th and 90th percentile ---
    "battery_capacity": AssumptionCode(
        "not given; the usual range for this kind of source",
        "Read the kWh or Wh of the battery in the manual; watts are the inverter's, not the battery's.",
    ),
    "battery_charge": AssumptionCode(
        "not given; anything from half full to full",
        "Read the state of charge on the display before leaving.",
    ),
    "battery_health": AssumptionCode(
        "not given; new to well used",
        "Look for the state of health in the vehicle's service menu, or ask how old the battery is.",
    ),
    "battery_cold": AssumptionCode(
        "follows from the temperature; batteries are cold inside after a night in the open",
        "Read the battery temperature on the display, or park it warm.",
    ),
    "battery_cold_power": AssumptionCode(
        "not given; cold cells give less power than warm ones, and how much less differs",
        "Read in the manual what it gives at this temperature, or try the strongest tool while it is cold.",
        "battery-explained_cold-resistance",
    ),
    "battery_floor": AssumptionCode(
        "not given; many vehicles switch their outlets off at a low charge",
        "Look in the settings for the charge at which the outlets go off.",
    ),
    "awake_draw": AssumptionCode(
        "not given; a vehicle that is awake draws 100 to 500 W for itself, a station 10 to 40 W",
        "Note the charge before and after an hour awake with nothing plugged in.",
    ),
    "sleeps_after": AssumptionCode(
        "not given; a source that watches its output waits some minutes before it switches off",
        "Unplug everything and time how long the outlets stay on.",
    ),
    "cycle_length": AssumptionCode(
        "not given; a cooling machine comes on once or twice an hour",
        "Time it from one start to the next.",
    ),
    "inverter_efficiency": AssumptionCode(
        "not given; listed photovoltaic inverters are the only public population, and a flattering proxy",
        "Compare what a plug meter counts with what the display says was taken.",
        "cec-inverters_part-load",
    ),
    "energy_per_distance": AssumptionCode(
        "not given; the usual range of work vehicles",
        "Read the trip computer's energy per distance over the last days.",
    ),
    "drive_load": AssumptionCode(
        "not given; with or without the load of a crew and its tools",
        "Say whether the vehicle drives home loaded.",
    ),
    "drive_cold": AssumptionCode(
        "follows from the temperature; heating the cabin and a cold battery",
        "Compare the trip computer in winter and summer.",
    ),
    "drive_wind": AssumptionCode(
        "follows from the wind; a head wind counts, a following wind does not",
        "Read the forecast for the way home.",
    ),
    "drive_tow": AssumptionCode(
        "a trailer takes half as much again to more than twice as much",
        "Read the trip computer on a drive with this trailer.",
    ),
    "way_home": AssumptionCode(
        "not given; a vehicle must get home",
        "Measure the way home on a map; say 0 km where it stays on site.",
    ),
    "reserve_floor": AssumptionCode(
        "not given; nobody plans to arrive on the last tenth of a battery",
        "Say what must be left on arrival.",
    ),
    "towing": AssumptionCode(
        "not given; no trailer",
        "Say whether the vehicle tows.",
    ),
    "shift": AssumptionCode(
        "not given; a working day",
        "Say from when to when the source must be on.",
    ),
    "running_time": AssumptionCode(
        "not given; the usual share of the time for this kind of tool and work",
        "Watch for half an hour and count the minutes that it runs.",
    ),
    "refrigerator_running": AssumptionCode(
        "not given; a third of the time plugged in",
        "Listen for half an hour.",
        "us-doe_refrigerator",
    ),
    "air_use": AssumptionCode(
        "not given; the plate of the compressor and the air of a nail are in usual ranges",
        "Count how often in ten minutes the compressor starts, and for how long it runs.",
    ),
    "work_energy": AssumptionCode(
        "nobody knows this well; a wide range of what crews meet",
        "Note the charge before and after a counted piece of work, and send it as an observation.",
    ),
    "work_observed": AssumptionCode(
        "narrowed by what was observed",
        "Observe again with more of the same work.",
    ),
    "work_pace": AssumptionCode(
        "nobody knows this well; a wide range of what crews meet",
        "Time ten of them.",
    ),
    "work_tool": AssumptionCode(
        "not said; the only tool here that does such work",
        "Name the tool with the work.",
    ),
    "pack_charging": AssumptionCode(
        "not given; the usual size, charge and losses of tool packs",
        "Read the Wh on the pack, or volts times ampere hours.",
    ),
    "pump_head": AssumptionCode(
        "not given; a usual lift and a small pump's efficiency",
        "Measure from the water's surface to the end of the hose.",
    ),
    "altitude": AssumptionCode(
        "not given; at the sea, where an engine has all of its power",
        "Read it off a map: 1000 m take about a ninth of an engine's power.",
        "common-practice_derating",
    ),
    "fuel_in_tank": AssumptionCode(
        "not given; a full tank",
        "Look into the tank, or at its gauge.",
    ),
    "tank_size": AssumptionCode(
        "not given; the usual size for such a set",
        "Read the litres or gallons on the plate.",
    ),
    "fuel_kind": AssumptionCode(
        "not given; the usual fuel of sets of this size",
        "Read the fuel cap.",
        "afdc-greet_fuels",
    ),
    "fuel_curve": AssumptionCode(
        "not given; an engine at no load burns a quarter to a half of what it burns at full load, or more",
        "Read the hours at half and at full load on the plate.",
        "engine-set_fuel-line",
    ),
    "engine_rating": AssumptionCode(
        "not given; the usual rating of portable sets",
        "Read the running watts on the plate; not the starting watts.",
    ),
    "own_cord": AssumptionCode(
        "not given; hand tools usually have about 1.8 m of cord of their own",
        "Measure the tool's own cord, from where it is held to its plug.",
    ),
    "allowance": AssumptionCode(
        "not given; the supply is not limited in energy",
        "Ask whether the supply has a meter limit or a prepaid amount.",
    ),
    "carbon_factor": AssumptionCode(
        "of the fuel burnt; default factors of a public reporting rule",
        "Give the factor of your own report.",
        "40-cfr-98_c-1",
    ),
}
