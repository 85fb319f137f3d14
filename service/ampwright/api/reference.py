"""GET /v1/reference/...: what do the answers lean on?

Everything here belongs to the installed engine: it changes with the service's version and with nothing else. Asked for
with `?engine_version=` of this service it may be kept for ever; without, it is asked for anew by its entity tag.
"""

from __future__ import annotations

import hashlib
from typing import Annotated, TypeVar

import msgspec
from msgspec import UNSET, Meta, Struct, UnsetType

from ampwright.api.operations import Operations, Reply
from ampwright.api.problems import PROBLEM_TYPES, ProblemError
from ampwright.contract import reference as wire
from ampwright.studies import reference
from ampwright.studies.load_check import engine_version

S = TypeVar("S", bound=Struct)
IMMUTABLE = "public, max-age=31536000, immutable"

operations = Operations("Reference", "Tables, rules, codes, units and citations that the answers lean on.")


class VersionQuery(Struct, forbid_unknown_fields=True):
    """Which version is meant."""

    engine_version: (
        Annotated[str, Meta(max_length=40, description="Version of the engine; the answer may then be kept for ever.")]
        | UnsetType
    ) = UNSET


class TablePath(Struct):
    """A table."""

    table: Annotated[str, Meta(min_length=1, max_length=100, description="Key of the table's citation.")]


class LayerPath(Struct):
    """A layer of rules."""

    code_basis: Annotated[str, Meta(min_length=1, max_length=64, description="Key of the layer.")]


def _reply(content: S, query: VersionQuery) -> Reply[S]:
    if query.engine_version is UNSET:
        headers = {}
    elif query.engine_version == engine_version():
        headers = {"Cache-Control": IMMUTABLE}
    else:
        raise ProblemError("no-such-entry", f"This service answers for engine version {engine_version()}.")
    digest = hashlib.sha256(msgspec.json.encode(content)).hexdigest()[:32]
    return Reply(content, headers=headers, entity_tag=f'"{digest}"')


@operations.get("/v1/reference/findings", "list_finding_codes", entity_tag=True, problems=("no-such-entry",))
async def list_finding_codes(query: VersionQuery) -> Reply[wire.FindingCodeList]:
    """List the kinds of findings.

    Each with its meaning, its severity, its basis per jurisdiction, what it says and what to do.
    """
    return _reply(reference.finding_codes(), query)


@operations.get("/v1/reference/assumptions", "list_assumption_codes", entity_tag=True, problems=("no-such-entry",))
async def list_assumption_codes(query: VersionQuery) -> Reply[wire.AssumptionCodeList]:
    """List the kinds of assumptions.

    Each with why it is made and how a person finds out the truth.
    """
    return _reply(reference.assumption_codes(), query)


@operations.get("/v1/reference/fault-codes", "list_fault_codes", entity_tag=True, problems=("no-such-entry",))
async def list_fault_codes(query: VersionQuery) -> Reply[wire.FaultCodeList]:
    """List the kinds of faults that a request can have.

    The codes that `errors` of a problem may hold, each with what it means.
    """
    return _reply(reference.fault_codes(), query)


@operations.get("/v1/reference/problem-codes", "list_problem_codes", entity_tag=True, problems=("no-such-entry",))
async def list_problem_codes(query: VersionQuery) -> Reply[wire.ProblemCodeList]:
    """List the types of problem that a request can run into.

    Each with its status, what it means and what to do; the last step of its address is its code.
    """
    kinds = sorted(PROBLEM_TYPES.values(), key=lambda kind: (kind.status, kind.code))
    rows = [
        wire.ProblemCodeRow(
            code=kind.code,
            type=kind.address,
            title=kind.title,
            status=kind.status,
            meaning=kind.meaning,
            what_to_do=kind.what_to_do,
        )
        for kind in kinds
    ]
    return _reply(wire.ProblemCodeList(items=rows), query)


@operations.get("/v1/reference/words", "list_words", entity_tag=True, problems=("no-such-entry",))
async def list_words(query: VersionQuery) -> Reply[wire.WordLists]:
    """List the open words of answers.

    Rules that a cord is held against, choices, outcomes and what is not assessed, each with its meaning.
    """
    return _reply(reference.words(), query)


@operations.get("/v1/reference/units", "list_units", entity_tag=True, problems=("no-such-entry",))
async def list_units(query: VersionQuery) -> Reply[wire.DimensionList]:
    """List the units that are accepted, with their factors to SI.

    By kind of figure, with the pattern of its texts: a request writes `"15 A"`, an answer says 15.0 in SI.
    """
    return _reply(reference.units(), query)


@operations.get("/v1/reference/plugs", "list_plugs", entity_tag=True, problems=("no-such-entry",))
async def list_plugs(query: VersionQuery) -> Reply[wire.PlugList]:
    """List plugs and receptacles, and what goes into what.

    Every configuration of the standards that are held here, with voltages, rating and the outlets that a plug enters.
    """
    return _reply(reference.plugs(), query)


@operations.get("/v1/reference/load-classes", "list_load_classes", entity_tag=True, problems=("no-such-entry",))
async def list_load_classes(query: VersionQuery) -> Reply[wire.LoadClassList]:
    """List the kinds of loads and what is assumed of each.

    What `load_class` may say, and what it stands for where the plate of a tool is silent.
    """
    return _reply(reference.load_classes(), query)


@operations.get("/v1/reference/citations", "list_citations", entity_tag=True, problems=("no-such-entry",))
async def list_citations(query: VersionQuery) -> Reply[wire.CitationList]:
    """List the documents that tables and rules are copies of.

    With edition, place, conditions and errata, and how sure each copy is.
    """
    return _reply(reference.citation_list(), query)


@operations.get("/v1/reference/tables/{table}", "get_standard_table", entity_tag=True, problems=("no-such-entry",))
async def get_standard_table(path: TablePath, query: VersionQuery) -> Reply[wire.StandardTable]:
    """Read one table of a standard, with its citation and how sure each row is.

    The rows that are used here, each cell as printed; the unit is in the column's name.
    """
    found = reference.standard_table(path.table)
    if found is None:
        raise ProblemError("no-such-entry", "There is no such table; GET /v1/reference/citations lists them.")
    return _reply(found, query)


@operations.get("/v1/reference/rules", "list_rule_layers", entity_tag=True, problems=("no-such-entry",))
async def list_rule_layers(query: VersionQuery) -> Reply[wire.RuleLayerList]:
    """List the layers of rules that `code_basis` may name.

    Each is a document of a country or of the world; the questions that their clauses answer stand beside.
    """
    return _reply(reference.rule_layers(), query)


@operations.get("/v1/reference/rules/{code_basis}", "get_rule_layer", entity_tag=True, problems=("no-such-entry",))
async def get_rule_layer(path: LayerPath, query: VersionQuery) -> Reply[wire.RuleLayer]:
    """Read one layer of rules with its clauses.

    What the document asks by each rule, in our own words, and where it says so; the document itself governs.
    """
    found = reference.rule_layer(path.code_basis)
    if found is None:
        raise ProblemError("no-such-entry", "There is no such layer; GET /v1/reference/rules lists them.")
    return _reply(found, query)
