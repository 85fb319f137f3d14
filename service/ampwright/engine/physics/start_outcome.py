"""What can come out of a start, and in which column does a start's answer stand?

Shared by every start kernel, whatever load and source. Outcomes are what happens, not what to make of it.
Not here: verdicts (engine/calculations), trips of devices (trip_time.py judges the history).
"""

STARTS = 0
STARTS_SLOWLY = 1  # later than the caller's `slow_s`, or settles on the running side below the goal speed
HUNTS = 2  # the start switch opens and closes again and again
STALLS = (
    3  # comes to rest, or creeps, below running speed; RESULT_LIMITED_AT_END says whether the source holds it there
)
SOURCE_LIMITS = 4  # still speeding up at the horizon while the source limits
SHUTS_OFF = 5  # the source switches off before running speed
COLLAPSES = 6  # the source loses its voltage
TRIPS = 7  # never given here: for the layer that lays devices beside the history

RESULT_OUTCOME = 0
RESULT_TIME_TO_SPEED_S = 1  # infinity: never
RESULT_PEAK_CURRENT_A = 2  # effective, of the load
RESULT_PEAK_SOURCE_CURRENT_A = 3  # effective, of all that the source feeds
RESULT_FIRST_CREST_A = 4  # highest instantaneous current of the first cycle, with its offset
RESULT_LEAST_VOLTAGE_V = 5  # at the common point, phase
RESULT_LEAST_LOAD_VOLTAGE_V = 6  # at the load's terminals, phase
RESULT_BELOW_1_S = 7  # time for which the common point is below the first of four thresholds
RESULT_BELOW_2_S = 8
RESULT_BELOW_3_S = 9
RESULT_BELOW_4_S = 10
RESULT_CURRENT_SQUARED_TIME_A2S = 11  # of the load, until running speed or the end
RESULT_LIMITED_S = 12  # time for which the source limited
RESULT_LIMITED_AT_END = 13  # 1: it still does
RESULT_OFF_AT_S = 14  # infinity: never
RESULT_SWITCH_OPENINGS = 15
RESULT_FINAL_SPEED_PU = 16
RESULT_FINAL_CURRENT_A = 17
RESULT_FINAL_VOLTAGE_V = 18  # at the common point, phase
RESULT_SEGMENTS = 19  # rows filled in the history
RESULT_LEAST_FREQUENCY_PU = 20
RESULT_COLUMNS = 21

SETTING_HORIZON_S = 0
SETTING_GOAL_SPEED_PU = 1  # 0.93 of synchronous speed by custom
SETTING_SLOW_S = 2
SETTING_RUNNING_SPEED_PU = 3  # lowest settled speed that counts as running
SETTING_BELOW_1_V = 4  # four thresholds of voltage at the common point, phase
SETTING_BELOW_2_V = 5
SETTING_BELOW_3_V = 6
SETTING_BELOW_4_V = 7
SETTING_COLUMNS = 8
