"""How would a careful crew plug a kit into a source, where nobody said?

Tools that the fewest receptacles feed come first, and of those the largest: into the receptacle whose circuit is then
least loaded for its rating, at the end of the spare cord that loses least, since tools are used away from the source.
Where there are more tools than receptacles, cords with several outlets are laid first and the small tools share them.
Nothing damaged is used, no cord hangs on another, and no adapter is counted. A tool that no outlet takes stays
unplugged, and is named.

The plan is told with the answer, as connections that can be corrected and sent. It solves no network and gives equal
sites equal connections. Nothing is left out because a circuit gets too much: the load check of the result says that.
It is a plan, not the best one; outlet_plan.py makes that, and says why. Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from ampwright.engine.site.band import HIGH
from ampwright.engine.site.cord import Cord
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle import cord_outlet, feeding_option, plate_voltage_v
from ampwright.engine.site.settle_cord import THIN, USUAL_LENGTH_M
from ampwright.engine.site.settle_source import settle_source
from ampwright.engine.site.settle_tool import class_of, settle_states
from ampwright.engine.site.settled import SettledReceptacle, SettledSource
from ampwright.engine.site.tool import SupplyOption, Tool
from ampwright.engine.site.use import Connection, Site
from ampwright.engine.standards.conductor_sizes import conductor_size

OWN_CORD_M = 1.8  # 6 ft, the cord that a hand tool has; common practice, no source


@dataclass(frozen=True, slots=True)
class Plugging:
    """Connections in the order in which they were found, and the tools left over.

    no_outlet_fits : no outlet of this source would take it. out_of_reach : no cord that is left of the kit gets there.
    no_outlet_left : one would, but others have it.
    """

    connections: tuple[Connection, ...]
    no_outlet_fits: tuple[str, ...] = ()
    out_of_reach: tuple[str, ...] = ()
    no_outlet_left: tuple[str, ...] = ()

    @property
    def unplugged(self) -> tuple[str, ...]:
        return (*self.no_outlet_fits, *self.out_of_reach, *self.no_outlet_left)


@dataclass(slots=True)
class _Run:
    """A cord in a receptacle, with outlets to spare."""

    cord: Cord
    receptacle: int
    outlet: str | None
    free: int
    load_a: float = 0.0


def plug_kit_in(site: Site, tools: Collection[str], distance_m: float | None = None) -> Plugging:
    """A way to plug the named tools of a site in, all at once.

    distance_m : from the source to the work, along which a cord would lie; None: not known, any cord reaches.
    Errors: none for a sound site whose receptacles are listed; its own connections are not looked at.
    """
    return _Plan(site, distance_m).of([tool for tool in site.tools if tool.id in tools])


class _Plan:
    def __init__(self, site: Site, distance_m: float | None) -> None:
        self.source: SettledSource = settle_source(site.source, Ledger())
        self.awg = self.source.leg_voltage_v <= 150.0
        self.needed_m = None if distance_m is None else distance_m - OWN_CORD_M
        self.free = list(range(len(self.source.receptacles)))
        self.cords = sorted(
            (cord for cord in site.cords if not _damaged(cord)), key=lambda cord: (self._ohm(cord), cord.id)
        )
        self.reaching = [cord for cord in self.cords if self._reaches(cord)]
        self.spare = list(self.reaching)
        self.runs: list[_Run] = []
        self.circuit_a = [0.0] * len(self.source.circuits)
        self.found: list[tuple[str, str]] = []

    def of(self, tools: list[Tool]) -> Plugging:
        drawn = {tool.id: self._amps(tool) for tool in tools}
        left: dict[str, list[str]] = {"fits": [], "reach": [], "left": []}
        # one that few receptacles feed must not find them taken by one that all do
        ordered = sorted(tools, key=lambda tool: (self._places(tool), -drawn[tool.id], tool.id))
        for number, tool in enumerate(ordered):
            why = self._plug(tool, drawn[tool.id], len(ordered) - number)
            if why is not None:
                left[why].append(tool.id)
        return Plugging(
            tuple(Connection(plug, into, "/connections") for plug, into in self.found),
            tuple(sorted(left["fits"])),
            tuple(sorted(left["reach"])),
            tuple(sorted(left["left"])),
        )

    def _plug(self, tool: Tool, amps: float, still: int) -> str | None:
        """Find an outlet; what stands in the way where there is none. still : tools to plug in, this one included."""
        ways = [(cord, r) for r in self.free for cord in self._ways(tool, r, still)]
        if ways:
            cord, r = min(ways, key=lambda way: (self._rank(way[0], still), self._fullness(way[1], amps), way[1]))
            self._take(tool, r, cord, amps)
            return None
        shared = [run for run in self.runs if run.free and self._fed(tool, run.receptacle, run.outlet)]
        if shared:
            run = min(shared, key=lambda one: (self._fullness(one.receptacle, amps), one.load_a, one.cord.id))
            run.free -= 1
            run.load_a += amps
            self._load(run.receptacle, amps)
            self.found.append((tool.id, run.cord.id))
            return None
        everywhere = range(len(self.source.receptacles))
        direct = any(self._fed(tool, r, self.source.receptacles[r].type) for r in everywhere)
        if not direct and not any(self._through(tool, r, cord) for r in everywhere for cord in self.cords):
            return "fits"
        if not (self._near and direct) and not any(
            self._through(tool, r, cord) for r in everywhere for cord in self.reaching
        ):
            return "reach"
        # with a receptacle left, a cord to it is what is missing, and not another outlet on a cord that is in use
        spare = any(
            self._fed(tool, r, self.source.receptacles[r].type)
            or any(self._through(tool, r, cord) for cord in self.cords)
            for r in self.free
        )
        return "reach" if spare and not self._near else "left"

    def _places(self, tool: Tool) -> int:
        """How many receptacles feed it, through a cord that reaches or by its own."""
        return sum(
            (self._near and self._fed(tool, r, receptacle.type))
            or any(self._through(tool, r, cord) for cord in self.reaching)
            for r, receptacle in enumerate(self.source.receptacles)
        )

    @property
    def _near(self) -> bool:
        """Whether a tool's own cord gets to the work."""
        return self.needed_m is None or self.needed_m <= 0.0

    def _ways(self, tool: Tool, r: int, still: int) -> list[Cord | None]:
        """A cord for this receptacle, None for the tool's own; nothing where neither goes."""
        through = [cord for cord in self.spare if self._through(tool, r, cord)]
        here = self._near and self._fed(tool, r, self.source.receptacles[r].type)
        if self._sharing_later(still) and not self._sharing_now(still):
            # cords with several outlets are for the small tools that come later
            alone = [cord for cord in through if _outlets(cord) == 1]
            if alone or here:
                return [min(alone, key=lambda cord: self._rank(cord, still))] if alone else [None]
        if through:
            return [min(through, key=lambda cord: self._rank(cord, still))]
        return [None] if here else []

    def _sharing_later(self, still: int) -> bool:
        """Whether there are more tools to come than places, once this one has a receptacle to itself."""
        return still - 1 > len(self.free) - 1 + sum(run.free for run in self.runs)

    def _sharing_now(self, still: int) -> bool:
        """Whether even the cords with several outlets are too few by then, so that one must be laid for this tool."""
        extra = sorted((_outlets(cord) - 1 for cord in self.spare), reverse=True)[: len(self.free) - 1]
        return still - 1 > len(self.free) - 1 + sum(run.free for run in self.runs) + sum(extra)

    def _rank(self, cord: Cord | None, still: int) -> tuple[int, float, str]:
        if cord is None:
            return (1, 0.0, "")
        several = _outlets(cord) - 1
        if self._sharing_now(still):
            return (-several, self._ohm(cord), cord.id)
        # one with several outlets is kept for where it is needed
        return (0, self._ohm(cord) + 1e3 * several, cord.id)

    def _take(self, tool: Tool, r: int, cord: Cord | None, amps: float) -> None:
        self.free.remove(r)
        self._load(r, amps)
        receptacle = self.source.receptacles[r].id
        if cord is None:
            self.found.append((tool.id, receptacle))
            return
        self.spare.remove(cord)
        _, outlet = cord_outlet(cord, self.source.receptacles[r])
        self.runs.append(_Run(cord, r, outlet, _outlets(cord) - 1, amps))
        self.found += [(cord.id, receptacle), (tool.id, cord.id)]

    def _load(self, r: int, amps: float) -> None:
        self.circuit_a[self.source.receptacles[r].circuit] += amps

    def _fullness(self, r: int, amps: float) -> float:
        circuit = self.source.receptacles[r].circuit
        return (self.circuit_a[circuit] + amps) / max(self.source.circuits[circuit].rating_a, 1e-9)

    def _through(self, tool: Tool, r: int, cord: Cord) -> bool:
        enters, outlet = cord_outlet(cord, self.source.receptacles[r])
        return enters and self._fed(tool, r, outlet)

    def _fed(self, tool: Tool, r: int, outlet: str | None) -> bool:
        return feeding_option(tool, self.source.receptacles[r], outlet, self.source) is not None

    def _amps(self, tool: Tool) -> float:
        """[A] high estimate at work, of the option that the first receptacle which feeds it goes with."""
        option = next((found for item in self.source.receptacles if (found := self._option(tool, item))), None)
        if option is None:
            return 0.0
        ledger = Ledger()
        volts = plate_voltage_v(option)
        states = settle_states(tool, option, class_of(tool, ledger), volts, ledger)
        working = next(state for state in states if state.id == "working")
        return abs(working.power_va[HIGH]) / max(volts, 1.0)

    def _option(self, tool: Tool, receptacle: SettledReceptacle) -> SupplyOption | None:
        return feeding_option(tool, receptacle, receptacle.type, self.source)

    def _reaches(self, cord: Cord) -> bool:
        length = USUAL_LENGTH_M if cord.length_m is None else cord.length_m.low
        return self.needed_m is None or length >= self.needed_m

    def _ohm(self, cord: Cord) -> float:
        size = conductor_size(cord.size or THIN[self.awg])
        length = USUAL_LENGTH_M if cord.length_m is None else cord.length_m.high
        return length * size.resistance_20c_ohm_per_m if size is not None else 1e3


def _outlets(cord: Cord) -> int:
    return cord.outlets.count if cord.outlets is not None and cord.outlets.count is not None else 1


def _damaged(cord: Cord) -> bool:
    return cord.plug_state == "damaged" or (cord.outlets is not None and cord.outlets.state == "damaged")
