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
    assert counts == {"tool-profile": 20, "power-source": 8, "cord": 7, "kit": 6}
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
