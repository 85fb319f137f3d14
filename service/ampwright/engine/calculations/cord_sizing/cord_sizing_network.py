"""What do the network's figures say of each candidate run, working and pushed?

The candidates hang side by side on the same source, one copy of the tool at the end of each, and only one runs at a
time: so every figure, and every start, is the load check's own, solved in one batch. Batches are kept small, because
each row solves the whole tree. One more copy hangs straight in each receptacle: what fails there is not the cord's.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from ampwright.engine.calculations.cord_sizing.cord_sizing_question import Run
from ampwright.engine.calculations.network.cases import RunningSet
from ampwright.engine.calculations.network.load_network import Real, Row, RowFigures, solve_rows
from ampwright.engine.calculations.network.plain_figures import PlainFigures
from ampwright.engine.calculations.rules.capacity_rules import Check, check_row
from ampwright.engine.calculations.starts.start_needs import StartNeed, needs_of
from ampwright.engine.calculations.starts.starts import Starts, check_starts
from ampwright.engine.physics.network_flow import COLLAPSED, NOT_CONVERGED
from ampwright.engine.site.band import TYPICAL, Band
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.settle import settle
from ampwright.engine.site.settled import Placement, SettledCord, SettledSite
from ampwright.engine.site.use import Connection, Site

RUNS_IN_ONE_NETWORK = 10
WORKING, HEAVY = 0, 1
MOST_NAMED = 4  # cords in one sentence


@dataclass(frozen=True, slots=True)
class SolvedRun:
    """One candidate in its network. `rows` are the indices of its working and its heavy row.

    straight : index of the copy of the tool that hangs in the run's receptacle without any cord. starts, needs : by
    placement as case, of all copies; None where starts were not asked for.
    """

    run: Run
    site: SettledSite
    placement: Placement
    cords: tuple[SettledCord, ...]
    places: tuple[int, ...]  # index of each cord of the run among the cords of the site
    at: int  # index of the placement
    figures: RowFigures
    plain: PlainFigures  # the same
    rows: tuple[int, int]
    tool: str  # id as the request has it; the copies have ids of their own
    straight: int = -1
    starts: Starts | None = None
    needs: Mapping[tuple[int, int], StartNeed] = field(default_factory=dict)

    def cord_name(self, k: int) -> str:
        """What a cord of the run is called: its id, or the size that is to be brought."""
        return self.run.id if self.run.kind == "size" else self.run.cords[k].id

    @property
    def run_name(self) -> str:
        """What the run is called in a sentence: by its cords where it was asked about."""
        if not self.run.asked:
            return self.run.id
        return " then ".join(self.cord_names) if len(self.cords) <= MOST_NAMED else f"{len(self.cords)} cords in a row"

    @property
    def is_fed(self) -> bool:
        """Whether the tool gets its voltage and the power it asks for can arrive: else its figures say nothing."""
        working = int(self.figures.outcome[self.rows[WORKING], TYPICAL])
        return self.placement.option is not None and working not in (COLLAPSED, NOT_CONVERGED)

    @property
    def cord_names(self) -> tuple[str, ...]:
        return tuple(self.cord_name(k) for k in range(len(self.cords)))

    def checks(self, state: int) -> tuple[Check, ...]:
        """The load check's own checks of one row."""
        row = Row(0, (self.at,), self.at if state == HEAVY else None, self.rows[WORKING])
        return check_row(self.site, row, self.rows[state], self.plain)

    def tool_band(self, figure: Real, state: int) -> Band:
        """Figure of the tool, by number."""
        return by_number(figure[self.rows[state], :, self.at])

    def cord_band(self, figure: Real, state: int, cord: int) -> Band:
        """Figure of one cord of the run, by number."""
        return by_number(figure[self.rows[state], :, self.places[cord]])


def by_number(three: Real) -> Band:
    """Low, typical and high of three estimates; the lowest voltage belongs to the highest current."""
    return Band(float(three.min()), float(three[1]), float(three.max()))


def solve_runs(site: Site, runs: Sequence[Run], ledger: Ledger, *, with_needs: bool) -> tuple[SolvedRun, ...]:
    """Every run settled, solved and started; assumptions go to the ledger.

    site : its one tool is copied to the end of each run; its own cords and connections are not read. with_needs :
    whether what a failing start needs is worked out too.
    """
    return tuple(
        solved
        for start in range(0, len(runs), RUNS_IN_ONE_NETWORK)
        for solved in _solve(site, runs[start : start + RUNS_IN_ONE_NETWORK], ledger, with_needs)
    )


def settle_runs(site: Site, runs: Sequence[Run], ledger: Ledger) -> SettledSite:
    """The runs side by side, without figures. Placement n is at the end of run n."""
    tools = tuple(replace(site.tools[0], id=f"tool-{n}") for n in range(len(runs)))
    cords, connections = [], []
    for n, run in enumerate(runs):
        into = run.receptacle
        for k, cord in enumerate(run.cords):
            name = f"run-{n}-{k}"
            cords.append(replace(cord, id=name))
            connections.append(Connection(name, into, "/cords"))
            into = name
        connections.append(Connection(f"tool-{n}", into, "/cords"))
    return settle(
        replace(site, tools=tools, cords=tuple(cords), connections=tuple(connections), people=site.people or 1), ledger
    )


def _solve(site: Site, runs: Sequence[Run], ledger: Ledger, with_needs: bool) -> Iterator[SolvedRun]:
    receptacles = list(dict.fromkeys(run.receptacle for run in runs))
    every = [*(Run(f"straight-{name}", "run", name, ()) for name in receptacles), *runs]
    settled = settle_runs(site, every, ledger)
    rows: list[Row] = []
    for n in range(len(every)):
        rows += [Row(n, (n,), None, 2 * n), Row(n, (n,), n, 2 * n)]
    figures = solve_rows(settled, rows)
    plain = PlainFigures.of(figures)
    sets = [RunningSet(run.id, (), (n,), "/tool", None, 1) for n, run in enumerate(every)]
    starts = check_starts(settled, ledger, sets, rows, figures)
    needs = needs_of(settled, starts, rows, figures) if with_needs else {}
    index = {cord.id: i for i, cord in enumerate(settled.cords)}
    for n, run in enumerate(runs, start=len(receptacles)):
        places = tuple(index[f"run-{n}-{k}"] for k in range(len(run.cords)))
        yield SolvedRun(
            run,
            settled,
            settled.placements[n],
            tuple(settled.cords[i] for i in places),
            places,
            n,
            figures,
            plain,
            (2 * n, 2 * n + 1),
            site.tools[0].id,
            receptacles.index(run.receptacle),
            starts,
            needs,
        )


def summed(bands: Sequence[Band]) -> Band:
    """Sum of bands that rise together."""
    return Band(
        float(np.sum([item.low for item in bands])),
        float(np.sum([item.typical for item in bands])),
        float(np.sum([item.high for item in bands])),
    )
