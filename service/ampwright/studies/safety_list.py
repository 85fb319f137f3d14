"""What is the stamped safety list of a fleet?

Every source and every kit is resolved and read once; what is wrong with one is told, and the others are looked at.
Raises RefusedRequest where ids are not unique, and TooManyLines where the list would be longer than one answer.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import msgspec
from msgspec import UNSET

from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.canonical import request_digest
from ampwright.contract.load_checks import CODE_BASES, Basis, LoadCheckRequest
from ampwright.contract.matrix_parts import MatrixFault, MatrixKit
from ampwright.contract.places import Places
from ampwright.contract.power_source_members import CatalogueSource, Vehicle
from ampwright.contract.reading import Reading
from ampwright.contract.reading_site import read_site
from ampwright.contract.safety_lists import (
    MOST_LINES,
    SafetyCount,
    SafetyListAnswer,
    SafetyListError,
    SafetyListLine,
    SafetyListRequest,
    SafetySource,
)
from ampwright.contract.writing import to_wire
from ampwright.contract.writing_matrix import fault_to_wire
from ampwright.engine.calculations.choosing.safety_list import SAFETY_CODES, SafetyLine, pair_lines, source_lines
from ampwright.engine.calculations.rules.code_rules import deciding_layers
from ampwright.engine.site.nearest import shown
from ampwright.engine.site.source import PowerSource
from ampwright.engine.site.tool import Tool
from ampwright.engine.site.use import Fault, Site
from ampwright.engine.site.validation import in_order, validate
from ampwright.studies.load_check import NOTICE, RefusedRequest, engine_version
from ampwright.studies.matrix import Matrix
from ampwright.studies.matrix_kit import kit_content
from ampwright.studies.references import resolve
from ampwright.studies.release_lookup import ReleaseLookup

_SEVERITIES = ("danger", "caution", "info")
_ANY_SOURCE = Vehicle(voltage="120 V")  # a kit is read beside it; nothing of it is told


class TooManyLines(Exception):
    """The list would be longer than one answer."""


def safety_list(store: ReleaseStore[Any] | None, request: SafetyListRequest) -> SafetyListAnswer:
    """The list. Errors: RefusedRequest, TooManyLines, and those of the catalogue."""
    given_sources = [] if request.sources is UNSET else request.sources
    given_kits = [] if request.kits is UNSET else request.kits
    repeated = (*_repeated(given_sources, "/sources"), *_repeated(given_kits, "/kits"))
    if repeated:
        raise RefusedRequest(repeated)
    # release and time are those of any question about many
    matrix = Matrix.of(store, given_sources, given_kits, (), request.catalogue_release, request.withdrawals_as_of)  # type: ignore[arg-type]
    layers = _layers(request)
    lookup = matrix.lookup
    sources = _units(lookup) if request.sources is UNSET else given_sources
    kits = [MatrixKit(id=name, entry=name) for name in lookup.slugs("kit")] if request.kits is UNSET else given_kits
    # what the release brought is nowhere in the request: it points at the list that was left out
    kept = (request.sources is not UNSET, request.kits is not UNSET)
    read_sources = [_source(one, f"/sources/{place}", lookup) for place, one in enumerate(sources)]
    read_kits = [_kit(one, f"/kits/{place}", lookup) for place, one in enumerate(kits)]
    told = _Told(*kept)
    for n, (one, source) in enumerate(zip(sources, read_sources, strict=True)):
        if isinstance(source, list):
            told.errors.append(SafetyListError(id=one.id, errors=source))
            continue
        place = None if one.place is UNSET else one.place
        told.add(one.id, None, source_lines(source, place, f"/sources/{n}/place", layers))
        for kit, tools in zip(kits, read_kits, strict=True):
            if isinstance(tools, tuple):
                told.add(one.id, kit.id, pair_lines(source, tools, layers))
    for kit, tools in zip(kits, read_kits, strict=True):
        if isinstance(tools, list):
            told.errors.append(SafetyListError(id=kit.id, errors=tools))
    lines = sorted(
        told.lines,
        key=lambda line: (
            _SEVERITIES.index(line.severity), SAFETY_CODES.index(line.code), line.source, line.kit or "",
        ),
    )  # fmt: skip
    counts = [SafetyCount(code=code, lines=sum(line.code == code for line in lines)) for code in SAFETY_CODES]
    whole = msgspec.json.encode((lines, told.errors, told.basis), order="sorted")
    return SafetyListAnswer(
        lines=lines,
        counts=counts,
        sources=len(sources),
        kits=len(kits),
        not_looked_at=told.errors,
        basis=told.basis,
        notice=NOTICE,
        engine_version=engine_version(),
        request_digest=request_digest(request),
        answer_digest="sha256:" + hashlib.sha256(whole).hexdigest(),
        **matrix.pinned,
    )


def _repeated(items: Sequence[SafetySource | MatrixKit], at: str) -> Iterator[Fault]:
    """A line is named by source and kit, so no two of a list may have one name."""
    seen: set[str] = set()
    for place, item in enumerate(items):
        if item.id in seen:
            yield Fault(f"{at}/{place}/id", "repeated_id", f"{shown(item.id)} is there twice.")
        seen.add(item.id)


class _Told:
    """Lines so far, with their basis in the order in which it is first leaned on."""

    def __init__(self, sources_sent: bool, kits_sent: bool) -> None:
        self._sent = {"sources": sources_sent, "kits": kits_sent}
        self.lines: list[SafetyListLine] = []
        self.errors: list[SafetyListError] = []
        self.basis: list[Basis] = []
        self._names: dict[tuple[str, str, str], str] = {}

    def add(self, source: str, kit: str | None, found: Sequence[SafetyLine]) -> None:
        for line in found:
            if len(self.lines) >= MOST_LINES:
                raise TooManyLines
            name = "/".join(part for part in (line.code, source, kit) if part is not None)
            self.lines.append(
                SafetyListLine(
                    id=name,
                    code=line.code,
                    severity=line.severity,  # type: ignore[arg-type]  # closed on both sides
                    source=source,
                    kit=UNSET if kit is None else kit,
                    parts=list(line.parts),
                    pointers=list(dict.fromkeys(self._as_sent(one) for one in line.pointers)),
                    stated=line.stated,
                    text=line.text,
                    what_to_do=line.what_to_do,
                    how_to_find_out=UNSET if line.ask is None else line.ask,
                    basis=list(dict.fromkeys(self._refer(one) for one in line.basis)),
                )
            )

    def _as_sent(self, pointer: str) -> str:
        listed = pointer.split("/")[1]
        return pointer if self._sent.get(listed, True) else f"/{listed}"

    def _refer(self, one: Any) -> str:
        at = one.id, one.place, one.status
        if at not in self._names:
            self._names[at] = f"b{len(self._names) + 1}"
            told = to_wire(one, Basis)
            self.basis.append(msgspec.structs.replace(told, id=self._names[at]))
        return self._names[at]


def _layers(request: SafetyListRequest) -> tuple[str, ...]:
    reading = Reading()
    names = [] if request.code_basis is UNSET else request.code_basis
    for place, text in enumerate(names):
        reading.listed(text, CODE_BASES, f"/code_basis/{place}", "unknown_code_basis", "rule layer")
    if reading.faults:
        raise RefusedRequest(reading.faults, unread=True)
    site, _ = read_site(LoadCheckRequest(source=_ANY_SOURCE, code_basis=list(names)))
    return deciding_layers(site)


def _units(lookup: ReleaseLookup) -> list[SafetySource]:
    """All units of the release, all kinds of source where it has none."""
    units = [SafetySource(id=name, source=CatalogueSource(unit=name)) for name in lookup.slugs("source-unit")]
    return units or [SafetySource(id=name, source=CatalogueSource(entry=name)) for name in lookup.slugs("power-source")]


def _source(one: SafetySource, at: str, lookup: ReleaseLookup) -> PowerSource | list[MatrixFault]:
    places = Places({"/source": f"{at}/source"})
    site, faults = _site(LoadCheckRequest(source=one.source), lookup)
    return [fault_to_wire(fault, places) for fault in faults] if site is None else _moved(site.source, f"{at}/source")


def _moved(source: PowerSource, at: str) -> PowerSource:
    """Pointers of what is told go into the request as sent."""

    def moved(pointer: str) -> str:
        return at + pointer.removeprefix("/source")

    return replace(
        source,
        pointer=moved(source.pointer),
        receptacles=None
        if source.receptacles is None
        else tuple(replace(one, pointer=moved(one.pointer)) for one in source.receptacles),
    )


def _kit(one: MatrixKit, at: str, lookup: ReleaseLookup) -> tuple[Tool, ...] | list[MatrixFault]:
    content = kit_content(one, lookup)
    if content.faults:
        return [fault_to_wire(fault, Places({"/kit": at})) for fault in content.faults]
    request = LoadCheckRequest(source=_ANY_SOURCE, tools=[tool for tool, _, _ in content.tools])
    site, faults = _site(request, lookup)
    moved = {f"/tools/{n}": sent.replace("/kit", at, 1) for n, (_, sent, _) in enumerate(content.tools)}
    moved |= {
        f"/tools/{n}/entry": named.replace("/kit", at, 1) for n, (_, _, named) in enumerate(content.tools) if named
    }
    places = Places(moved)
    if site is None:
        return [fault_to_wire(fault, places) for fault in faults]
    return tuple(replace(tool, pointer=places.of(tool.pointer)) for tool in site.tools)


def _site(request: LoadCheckRequest, lookup: ReleaseLookup) -> tuple[Site | None, tuple[Fault, ...]]:
    resolved = resolve(request, lookup)
    if resolved.request is None:
        return None, resolved.faults
    site, unread = read_site(resolved.request, resolved.places, resolved.adapters)
    faults = in_order((*resolved.faults, *unread)) or validate(site)
    return (None, faults) if faults else (site, ())


def sheet_rows(answer: SafetyListAnswer) -> Iterator[list[str]]:
    """The list as rows of SHEET_COLUMNS, what could not be looked at first: a sheet that leaves it out looks clean."""
    stamp = [
        answer.engine_version,
        "" if answer.catalogue_release is UNSET else str(answer.catalogue_release),
        answer.answer_digest,
    ]
    for one in answer.not_looked_at:
        is_kit = one.errors[0].pointer.startswith("/kits")
        source, kit = ("", one.id) if is_kit else (one.id, "")
        why = "; ".join(f"{fault.pointer}: {fault.message}" for fault in one.errors)
        yield ["", "not_looked_at", source, kit, "", "", why, "", "", "", *stamp]
    named = {
        one.id: " ".join(part for part in (one.document, one.place or "", one.edition or "") if part)
        for one in answer.basis
    }
    for line in answer.lines:
        yield [
            line.severity,
            line.code,
            line.source,
            line.kit or "",
            ", ".join(line.parts),
            "stated" if line.stated else "assumed",
            line.text,
            line.what_to_do,
            line.how_to_find_out or "",
            "; ".join(named[one] for one in line.basis),
            *stamp,
        ]


SHEET_COLUMNS = (
    "severity", "code", "source", "kit", "parts", "stated_or_assumed", "text", "what_to_do", "how_to_find_out", "basis",
    "engine_version", "catalogue_release", "answer_digest",
)  # fmt: skip
