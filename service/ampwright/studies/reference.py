"""What is in the reference pages? Everything that answers lean on, drawn from the engine and the contract."""

from __future__ import annotations

from functools import cache
from typing import Any

from ampwright.contract import reference as wire
from ampwright.contract.fault_codes import FAULT_CODES
from ampwright.contract.quantities import DIMENSIONS
from ampwright.contract.reference_words import WORDS
from ampwright.engine.calculations.finding_codes import FINDING_CODES
from ampwright.engine.calculations.reverse.break_even_kinds import NOTHING_TOLD, REVERSE_ANSWERS
from ampwright.engine.site.assumption_codes import ASSUMPTION_CODES
from ampwright.engine.site.band import Band
from ampwright.engine.site.load_classes import LOAD_CLASSES
from ampwright.engine.standards.loader import Citation, citations, table, table_keys
from ampwright.engine.standards.plugs import configuration, designations, receptacles_for
from ampwright.engine.standards.rule_layers import (
    RULES,
    CodeBasis,
    UnknownCodeBasis,
    clauses,
    clauses_of,
    code_bases,
    code_basis,
)


@cache
def finding_codes() -> wire.FindingCodeList:
    return wire.FindingCodeList(
        items=[
            wire.FindingCodeRow(
                code=code,
                meaning=found.meaning,
                severity=found.severity,
                aspect=found.aspect,
                text=found.text,
                what_to_do=found.what_to_do,
                verdict=found.verdict,
                grounds="rules" if (asked := _asked_by(found.rules)) else "tables" if found.basis else "practice",
                asked_by=asked,
                **_given(figure=found.figure, no_break_even=NOTHING_TOLD.get(code)),
                basis=list(found.basis),
                break_even_kinds=list(REVERSE_ANSWERS.get(code, ())),
            )
            for code, found in sorted(FINDING_CODES.items())
        ]
    )


def _asked_by(rules: tuple[str, ...]) -> list[wire.AskedByRow]:
    """The clauses of some rules in all layers; layers that share document, place and certainty share a row."""
    shared: dict[tuple[str, ...], list[str]] = {}
    for rule in rules:
        for asked in clauses(rule, code_bases()):
            key = (rule, asked.document, asked.edition, asked.place, asked.asks, asked.status)
            shared.setdefault(key, []).append(asked.code_basis)
    return [
        wire.AskedByRow(
            rule=rule,
            code_bases=layers,
            countries=list(dict.fromkeys(country for layer in layers if (country := _country(layer)))),
            document=document,
            edition=edition,
            place=place,
            asks=asks,
            status=status,
        )
        for (rule, document, edition, place, asks, status), layers in shared.items()
    ]


def _country(layer: str) -> str:
    found = code_basis(layer)
    return found.country if isinstance(found, CodeBasis) else ""


@cache
def words() -> wire.WordLists:
    return wire.WordLists(
        items=[
            wire.WordListRow(
                name=name, words=[wire.WordRow(code=code, meaning=meaning) for code, meaning in sorted(found.items())]
            )
            for name, found in sorted(WORDS.items())
        ]
    )


@cache
def assumption_codes() -> wire.AssumptionCodeList:
    return wire.AssumptionCodeList(
        items=[
            wire.AssumptionCodeRow(
                code=code, why=found.why, how_to_find_out=found.how_to_find_out, **_given(basis=found.basis)
            )
            for code, found in sorted(ASSUMPTION_CODES.items())
        ]
    )


@cache
def fault_codes() -> wire.FaultCodeList:
    return wire.FaultCodeList(
        items=[wire.FaultCodeRow(code=code, meaning=meaning) for code, meaning in sorted(FAULT_CODES.items())]
    )


@cache
def units() -> wire.DimensionList:
    return wire.DimensionList(
        items=[
            wire.DimensionRow(
                dimension=found.name,
                si_unit=found.si_unit,
                pattern=found.pattern,
                example=found.example,
                units=[
                    wire.UnitRow(label=label, factor=factor, offset=offset)
                    for label, (factor, offset) in found.factors.items()
                ],
            )
            for found in sorted(DIMENSIONS, key=lambda item: item.name)
        ]
    )


@cache
def plugs() -> wire.PlugList:
    rows = []
    for name in designations():
        found = configuration(name)
        if found is None:
            raise LookupError(name)
        rows.append(
            wire.PlugRow(
                designation=found.designation,
                role=found.role,
                marked_voltages_v=list(found.marked_voltages_v),
                rated_current_a=found.current_a,
                poles=found.poles,
                wires=found.wires,
                locking=found.locking,
                connection=found.connection,
                citation=found.citation,
                status=found.status,
                enters=[] if found.role == "receptacle" else list(receptacles_for(name)),
            )
        )
    return wire.PlugList(items=rows)


@cache
def load_classes() -> wire.LoadClassList:
    def three(band: Band) -> list[float]:
        return [band.low, band.typical, band.high]

    return wire.LoadClassList(
        items=[
            wire.LoadClassRow(
                load_class=name,
                meaning=found.says,
                idle_ratio=found.idle_ratio,
                working_ratio=three(found.working_ratio),
                heavy_ratio=three(found.heavy_ratio),
                heavy_lasts_s=found.heavy_lasts_s,
                power_factor=three(found.power_factor),
                crest_factor=found.crest_factor,
                follows_voltage=found.follows_voltage,
                start=found.start,
                operated=found.operated,
                control=found.control,
                leakage_a=found.leakage_a,
            )
            for name, found in sorted(LOAD_CLASSES.items())
        ]
    )


@cache
def citation_list() -> wire.CitationList:
    return wire.CitationList(items=[_citation(found) for _, found in sorted(citations().items())])


def _citation(found: Citation) -> wire.CitationRow:
    return wire.CitationRow(
        key=found.key,
        document=found.document,
        edition=found.edition,
        place=found.place,
        conditions=found.conditions,
        errata=found.errata,
        status=found.status,
        has_table=found.key in table_keys(),
    )


def standard_table(key: str) -> wire.StandardTable | None:
    """One table, None where there is none with this key."""
    if key not in table_keys():
        return None
    return wire.StandardTable(
        citation=_citation(citations()[key]),
        rows=[
            wire.TableRow(
                cells=[wire.TableCell(column=column, text=text) for column, text in row.cells.items()],
                status=row.status,
            )
            for row in table(key)
        ],
    )


@cache
def rule_layers() -> wire.RuleLayerList:
    return wire.RuleLayerList(
        items=[_layer(found) for key in code_bases() if isinstance(found := code_basis(key), CodeBasis)],
        rules=[wire.RuleRow(code=code, asks=asks) for code, asks in sorted(RULES.items())],
    )


def rule_layer(key: str) -> wire.RuleLayer | None:
    """One layer with its clauses, None where there is none with this key."""
    found = code_basis(key)
    if isinstance(found, UnknownCodeBasis):
        return None
    return wire.RuleLayer(
        layer=_layer(found),
        clauses=[
            wire.ClauseRow(
                rule=asked.rule,
                document=asked.document,
                edition=asked.edition,
                place=asked.place,
                asks=asked.asks,
                status=asked.status,
            )
            for asked in clauses_of(key)
        ],
    )


def _layer(found: CodeBasis) -> wire.RuleLayerRow:
    return wire.RuleLayerRow(
        key=found.key,
        document=found.document,
        edition=found.edition,
        country=found.country,
        decides=found.decides,
        note=found.note,
    )


def _given(**members: Any) -> dict[str, Any]:
    return {name: value for name, value in members.items() if value is not None}
