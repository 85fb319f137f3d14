"""What do the rule layers that were asked for say of this site?

`code_basis` names layers; each is looked up per edition. Without one the code verdict stays open; with an empty list
it is left out. IEC 60364 without a country decides nothing. A site is taken as a construction site, where the layers
ask the most. How sure a clause is (read or remembered) is shown in the basis and lowers no verdict.
Not here: the texts of findings (code_finding_codes.py), the clauses themselves (engine/standards/rule_layers).
"""

from __future__ import annotations

from ampwright.engine.calculations.network.cases import RunningSet
from ampwright.engine.calculations.rules.branch_circuit_code import circuit_case_checks, circuit_site_checks
from ampwright.engine.calculations.rules.capacity_rules import Check
from ampwright.engine.calculations.rules.cord_use_code import cord_use_checks
from ampwright.engine.calculations.rules.earthing_code import earthing_checks
from ampwright.engine.calculations.rules.ground_fault_code import ground_fault_checks
from ampwright.engine.calculations.rules.restart_code import restart_checks, switch_checks
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.use import Site
from ampwright.engine.standards.rule_layers import CodeBasis, code_basis

JOB_SITE_LAW = "osha-1926"


def deciding_layers(site: Site) -> tuple[str, ...]:
    """Keys of the layers asked for that can settle a question, in the order asked.

    A key that is no layer is dropped: reading a request refuses it with the list of those there are.
    """
    found: list[str] = []
    for key in site.code_basis or ():
        layer = code_basis(key)
        if isinstance(layer, CodeBasis) and layer.decides:
            found.append(key)
    return tuple(found)


def code_site_checks(site: Site, settled: SettledSite) -> tuple[Check, ...]:
    """What the layers say of the site, whichever case runs; empty when none was asked for."""
    if not site.code_basis:
        return ()
    layers = deciding_layers(site)
    return (
        *_layers(site),
        *earthing_checks(site, settled, layers),
        *circuit_site_checks(settled, layers),
        *cord_use_checks(settled, layers),
        *switch_checks(settled, layers),
    )


def code_case_checks(
    site: Site, settled: SettledSite, running: RunningSet, *, hazards_only: bool = False
) -> tuple[Check, ...]:
    """What the layers say of one case; empty when none was asked for.

    hazards_only : leave out what changes the code verdict alone.
    """
    layers = deciding_layers(site)
    if not layers:
        return ()
    placements = tuple((i, settled.placements[i]) for i in running.placements)
    protection = ground_fault_checks(site, settled, placements, layers)
    if hazards_only:
        return tuple(check for check in protection if check.aspect == "safety")
    return (
        *protection,
        *restart_checks(settled, placements, layers),
        *circuit_case_checks(settled, placements, layers),
    )


def _layers(site: Site) -> list[Check]:
    asked = site.code_basis or ()
    found = [
        Check("code_basis_needs_country", "code", f"/code_basis/{place}", key, "unknown")
        for place, key in enumerate(asked)
        if isinstance(layer := code_basis(key), CodeBasis) and not layer.decides
    ]
    premises = [key for key in asked if key.startswith("nec-")]
    if premises and JOB_SITE_LAW not in asked:
        found.append(Check("job_site_law_not_asked", "code", "/code_basis", "", "pass"))
    if premises and site.source.kind == "vehicle":
        name = site.source.name or "the vehicle"
        found.append(Check("code_by_analogy", "code", site.source.pointer, name, "pass"))
    return found
