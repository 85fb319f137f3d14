"""How large a motor starts at each free receptacle, beside what runs?

A capacitor-start motor of each rating of the trade is plugged in, of which nothing is known but its shaft power, and
the whole check is made with it, starts and what follows a trip: once a compressor against a full tank, once a machine
that starts against nothing. The largest rating after which the case is no worse than it was is told, and the largest
after which it is at least marginal.
Ratings: NFPA 70 table 430.248 (1/6 to 10 hp).
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.calculations.load_check.load_check_evaluation import Evaluation, evaluate
from ampwright.engine.calculations.reverse.reaching_edge import got_worse, last_that_holds, levels_of, no_worse
from ampwright.engine.calculations.reverse.spare_load import beside_case, free_receptacles
from ampwright.engine.calculations.verdicts import worst
from ampwright.engine.site.band import Band
from ampwright.engine.site.source import SupplySystem
from ampwright.engine.site.tool import Start, SupplyOption, Tool
from ampwright.engine.site.use import Case, Site
from ampwright.engine.standards.code_letters import HORSEPOWER_W

RATINGS_HP = (1 / 6, 0.25, 1 / 3, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 5.0, 7.5, 10.0)
CAPACITY = ("capacity",)
ADDED = "extra-motor"
KINDS = (("head_pressure", "air_compressor"), ("nothing", "stationary_saw"))
STANDS_STILL = ("stalls_without_trip", "protector_retries")
MOST_PLACES = 6  # cases times receptacles


@dataclass(frozen=True, slots=True)
class LargestMotor:
    """holds_w, at_most_w : [W] of shaft power; None where not even the smallest rating holds.

    against : what it turns when it starts. limited_by : the finding that the next rating brings.
    """

    case: str
    receptacle: str
    against: str
    holds_w: float | None = None
    at_most_w: float | None = None
    limited_by: str | None = None


def largest_motors(site: Site, base: Evaluation) -> tuple[LargestMotor, ...]:
    """For cases that do not fail and free receptacles with a line and a neutral.

    base : the site as it is, with what follows a trip.
    """
    found: list[LargestMotor] = []
    places = 0
    for n, running in enumerate(base.sets):
        was = base.aspect(n, "capacity")
        if was == "fail":
            continue
        for receptacle in free_receptacles(site, base):
            places += 1
            if places > MOST_PLACES:
                return tuple(found)
            case = Case(running.id, running.running, "/cases")
            found += [_largest(site, base, case, receptacle, was, *kind) for kind in KINDS]
    return tuple(found)


def _largest(
    site: Site, base: Evaluation, case: Case, receptacle: str, was: str, against: str, load_class: str
) -> LargestMotor:
    known: dict[int, Evaluation] = {}

    def at(step: int) -> Evaluation:
        if step not in known:
            tool = _motor(base, RATINGS_HP[step] * HORSEPOWER_W, against, load_class)
            known[step] = evaluate(beside_case(site, base, case, receptacle, tool), frozenset(), with_after=True)
        return known[step]

    def holds(step: int, than: str) -> bool:
        here = at(step)
        stands = worst(
            check.verdict for check in here.start_checks[0] if check.code in STANDS_STILL and here.starts.tools
        )
        return no_worse(here.aspect(0, "capacity"), than) and no_worse(stands, than)

    top = len(RATINGS_HP) - 1
    least = worst((was, "marginal"))
    sure = last_that_holds(0, top, lambda step: holds(step, was))
    most = last_that_holds(0, top, lambda step: holds(step, least))
    beyond = 0 if most is None else most + 1
    return LargestMotor(
        case.id,
        receptacle,
        against,
        None if sure is None else round(RATINGS_HP[sure] * HORSEPOWER_W, 1),
        None if most is None else round(RATINGS_HP[most] * HORSEPOWER_W, 1),
        None if beyond > top else got_worse(levels_of(at(beyond), CAPACITY), levels_of(base, CAPACITY)),
    )


def _motor(base: Evaluation, shaft_w: float, against: str, load_class: str) -> Tool:
    volts = base.settled.source.leg_voltage_v
    system = SupplySystem(f"{volts:g} V", "single", volts, (0.0,))
    return Tool(
        id=ADDED,
        pointer="/tools",
        load_class=load_class,
        shaft_power_w=Band.exactly(shaft_w),
        supply_options=(SupplyOption("extra", "/tools", system),),
        start=Start("induction_motor", motor="capacitor_start", against=against),
        operated="by_itself",
    )
