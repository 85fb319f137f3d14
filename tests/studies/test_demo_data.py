"""Does the demo catalogue hold together: every document sound, every request free of contradictions?"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import pytest
from ampwright.catalogue.demo_data import demo_requests, load_demo
from ampwright.contract.document_check import check_document
from ampwright.contract.documents import DOCUMENT_TYPES
from ampwright.contract.load_checks import LoadCheckRequest
from ampwright.contract.reading_site import read_site
from ampwright.engine.site.validation import validate
from ampwright.studies.references import FoundEntry, resolve

DOCUMENTS = {(kind, slug): body for kind, slug, body in load_demo()}
REQUESTS = demo_requests()
JOBS = ("j1", "j2", "j3", "j4", "j5", "j6")


class Demo:
    def find(self, kind: str, slug: str, revision: int | None) -> FoundEntry | None:
        body = DOCUMENTS.get((kind, slug))
        return FoundEntry(1, body) if body is not None and revision in (None, 1) else None

    def slugs(self, kind: str) -> Sequence[str]:
        return [slug for of, slug in DOCUMENTS if of == kind]


def test_every_kind_is_there() -> None:
    counts = {kind: sum(of == kind for of, _ in DOCUMENTS) for kind in DOCUMENT_TYPES}
    assert counts == {"tool-profile": 20, "power-source": 8, "cord": 7, "kit": 6, "source-unit": 8}
    assert {name[:2] for name in REQUESTS} >= set(JOBS)


@pytest.mark.parametrize(("kind", "slug"), list(DOCUMENTS))
def test_documents_are_sound_and_say_that_they_are_invented(kind: str, slug: str) -> None:
    document = msgspec.json.decode(DOCUMENTS[kind, slug], type=DOCUMENT_TYPES[kind])
    assert check_document(kind, document) == ()
    assert document.origin == "invented_demo"


@pytest.mark.parametrize("name", list(REQUESTS))
def test_requests_can_be_asked(name: str) -> None:
    outcome = resolve(msgspec.json.decode(REQUESTS[name], type=LoadCheckRequest), Demo())
    assert outcome.faults == ()
    assert outcome.request is not None
    site, faults = read_site(outcome.request, outcome.places, outcome.adapters)
    assert (faults, validate(site)) == ((), ())
    assert site.cases


# Two people, a van whose two receptacles may share a circuit: a request as a caller would write it by hand.
BY_HAND = b"""{"source": {"kind": "vehicle", "voltage": "120 V",
  "limits": [{"id": "inverter", "continuous": "4000 VA"}],
  "receptacles": [{"id": "R1", "type": "5-20R", "marked": "20 A"},
    {"id": "R2", "type": "5-20R", "marked": "20 A"}],
  "reset": {"how": "automatic", "after": "3..8 s"}},
 "tools": [{"id": "compressor", "entry": "compressor-24l-1.5hp"},
  {"id": "saw", "entry": "circular-saw-185mm", "revision": 1},
  {"id": "grinder", "entry": "grinder-125mm", "switch": "momentary_lock_on"}],
 "cords": [{"id": "heavy", "entry": "cord-10-100", "laid": "straight"},
  {"id": "long", "length": "100 ft", "size": "14 AWG", "marked": "13 A", "outlets": {"type": "5-15R", "count": 3}}],
 "connections": [{"plug": "heavy", "into": "R1"}, {"plug": "compressor", "into": "heavy"},
  {"plug": "long", "into": "R2"}, {"plug": "saw", "into": "long"}, {"plug": "grinder", "into": "long"}],
 "people": 2,
 "cases": [{"id": "cutting", "running": ["compressor", "saw"]},
  {"id": "everything", "running": ["compressor", "saw", "grinder"]}],
 "conditions": {"place": "open_air", "wet": false, "ambient": "10..30 degC"},
 "code_basis": ["osha-1926", "nec-2023"]}"""


def test_a_request_by_hand_takes_what_it_names_from_the_catalogue() -> None:
    outcome = resolve(msgspec.json.decode(BY_HAND, type=LoadCheckRequest), Demo())
    assert outcome.faults == ()
    assert outcome.request is not None
    assert [entry.pointer for entry in outcome.entries] == [
        "/cords/0/entry",
        "/tools/0/entry",
        "/tools/1/entry",
        "/tools/2/entry",
    ]
    site, faults = read_site(outcome.request, outcome.places, outcome.adapters)
    assert (faults, validate(site)) == ((), ())
    assert [tool.load_class for tool in site.tools] == ["air_compressor", "circular_saw", "angle_grinder"]
    assert [cord.size for cord in site.cords] == ["10 AWG", "14 AWG"]
