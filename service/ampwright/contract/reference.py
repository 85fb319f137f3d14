"""What do the reference pages say: tables, rules, codes, units, plugs and citations?"""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from ampwright.contract.parts import Answer

Key = Annotated[str, Meta(max_length=100, description="Stable key or code.")]


class AskedByRow(Answer, frozen=True, kw_only=True):
    """What one document asks by one rule, in our own words, and the layers of `code_basis` for which it speaks.

    `countries` are ISO 3166 codes, empty where the layer names no country.
    """

    rule: Key
    code_bases: list[str]
    countries: list[str] = []
    document: str
    edition: str
    place: str
    asks: str
    status: str


class FindingCodeRow(Answer, frozen=True, kw_only=True):
    """One kind of finding; `{...}` in its text stands for what the finding is about.

    `asked_by` is its basis per jurisdiction: the clause of each document and edition. An answer names those of the
    layers that were asked for. `basis` names the tables behind its limit, keys of `/v1/reference/citations`.
    `break_even_kinds` are the kinds of change that a load check tries for it where break-evens are asked for, words of
    `break_even_kind` in `/v1/reference/words`; `no_break_even` is the reason where none is told of.
    """

    code: Key
    meaning: str
    severity: str
    aspect: str
    text: str
    what_to_do: str
    grounds: Annotated[str, Meta(description="rules, tables or practice; `/v1/reference/words` explains each.")]
    asked_by: list[AskedByRow] = []
    verdict: Annotated[str, Meta(description="What it makes of its aspect where no figure decides.")]
    figure: str | UnsetType = UNSET
    basis: list[str] = []
    break_even_kinds: list[str] = []
    no_break_even: str | UnsetType = UNSET


class FindingCodeList(Answer, frozen=True, kw_only=True):
    """All kinds of findings, by code."""

    items: list[FindingCodeRow]


class ProblemCodeRow(Answer, frozen=True, kw_only=True):
    """One type of problem details; `type` is the address of its page."""

    code: Key
    type: str
    title: str
    status: Annotated[int, Meta(ge=400, le=599)]
    meaning: str
    what_to_do: str


class ProblemCodeList(Answer, frozen=True, kw_only=True):
    """All types of problem, by status and code."""

    items: list[ProblemCodeRow]


class WordRow(Answer, frozen=True, kw_only=True):
    """One word and what it means."""

    code: Key
    meaning: str


class WordListRow(Answer, frozen=True, kw_only=True):
    """The words that one member of an answer may have."""

    name: Key
    words: list[WordRow]


class WordLists(Answer, frozen=True, kw_only=True):
    """All lists of words, by name."""

    items: list[WordListRow]


class RuleRow(Answer, frozen=True, kw_only=True):
    """One rule: the question that layers answer by their clauses."""

    code: Key
    asks: str


class AssumptionCodeRow(Answer, frozen=True, kw_only=True):
    """One kind of assumption."""

    code: Key
    why: str
    how_to_find_out: str
    basis: str | UnsetType = UNSET


class AssumptionCodeList(Answer, frozen=True, kw_only=True):
    """All kinds of assumptions, by code."""

    items: list[AssumptionCodeRow]


class FaultCodeRow(Answer, frozen=True, kw_only=True):
    """One kind of fault in a request."""

    code: Key
    meaning: str


class FaultCodeList(Answer, frozen=True, kw_only=True):
    """All kinds of faults, by code."""

    items: list[FaultCodeRow]


class UnitRow(Answer, frozen=True, kw_only=True):
    """One unit label: `si = value x factor + offset`."""

    label: str
    factor: float
    offset: float


class DimensionRow(Answer, frozen=True, kw_only=True):
    """One kind of figure and the unit labels that are accepted for it."""

    dimension: str
    si_unit: str
    pattern: str
    example: str
    units: list[UnitRow]


class DimensionList(Answer, frozen=True, kw_only=True):
    """All kinds of figures, by name."""

    items: list[DimensionRow]


class PlugRow(Answer, frozen=True, kw_only=True):
    """One plug or receptacle configuration."""

    designation: str
    role: str
    marked_voltages_v: list[float]
    rated_current_a: float
    poles: int
    wires: int
    locking: bool
    connection: str
    citation: str
    status: str
    enters: Annotated[list[str], Meta(description="Receptacles that a plug goes into.")] = []


class PlugList(Answer, frozen=True, kw_only=True):
    """All configurations, in the order of their tables."""

    items: list[PlugRow]


class LoadClassRow(Answer, frozen=True, kw_only=True):
    """What is assumed of a kind of load whose plate is all that is known; ratios are of the plate's power."""

    load_class: str
    meaning: str
    idle_ratio: float
    working_ratio: list[float]
    heavy_ratio: list[float]
    heavy_lasts_s: float
    power_factor: list[float]
    crest_factor: float
    follows_voltage: str
    start: str
    operated: str
    control: str
    leakage_a: float


class LoadClassList(Answer, frozen=True, kw_only=True):
    """All load classes, by name. Source: common practice, no source."""

    items: list[LoadClassRow]


class CitationRow(Answer, frozen=True, kw_only=True):
    """What a table or clause is a copy of, under which conditions, and where published copies disagree."""

    key: Key
    document: str
    edition: str
    place: str
    conditions: str
    errata: str
    status: str
    has_table: bool


class CitationList(Answer, frozen=True, kw_only=True):
    """All citations, by key."""

    items: list[CitationRow]


class TableCell(Answer, frozen=True, kw_only=True):
    """One cell as printed; the unit is in the column's name."""

    column: str
    text: str


class TableRow(Answer, frozen=True, kw_only=True):
    """One line of a table and how sure it is."""

    cells: list[TableCell]
    status: str


class StandardTable(Answer, frozen=True, kw_only=True):
    """A table of a standard, as far as it is used here."""

    citation: CitationRow
    rows: list[TableRow]


class RuleLayerRow(Answer, frozen=True, kw_only=True):
    """One layer of rules that `code_basis` may name."""

    key: Key
    document: str
    edition: str
    country: str
    decides: bool
    note: str


class RuleLayerList(Answer, frozen=True, kw_only=True):
    """All layers of rules, and the questions that their clauses answer."""

    items: list[RuleLayerRow]
    rules: list[RuleRow]


class ClauseRow(Answer, frozen=True, kw_only=True):
    """What one layer asks by one rule, in our own words; the document itself governs."""

    rule: Key
    document: str
    edition: str
    place: str
    asks: str
    status: str


class RuleLayer(Answer, frozen=True, kw_only=True):
    """A layer of rules with its clauses."""

    layer: RuleLayerRow
    clauses: list[ClauseRow]
