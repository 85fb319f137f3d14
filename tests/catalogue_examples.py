"""Documents for the tests of storage, which does not read what they say. All invented."""

import json
from typing import Any

from ampwright.catalogue.database import Database
from ampwright.catalogue.facets import Facets
from ampwright.catalogue.releases import cut_release
from ampwright.catalogue.revisions import NewRevision, write_revision
from ampwright.catalogue.withdrawals import withdraw


def body_of(document: dict[str, Any]) -> bytes:
    """Canonical bytes of a document: sorted keys, no blanks, UTF-8."""
    return json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def facets_of(kind: str, format_: int, body: bytes) -> Facets:
    """The facets of a test's document: its `name`, `words`, `voltages_v`, `plugs`, `power_w`, `status` members."""
    assert format_ >= 1, kind
    document = json.loads(body)
    low, high = document.get("power_w", (None, None))
    return Facets(
        name=document.get("name", "thing"),
        words=tuple(document.get("words", ())),
        voltages_v=tuple(document.get("voltages_v", ())),
        plugs=tuple(document.get("plugs", ())),
        power_low_w=low,
        power_high_w=high,
        status=document.get("status", "approved"),
    )


def new_revision(
    slug: str,
    document: dict[str, Any] | None = None,
    *,
    kind: str = "tool-profile",
    expected_head: int | None = None,
    create: bool = False,
    format_: int = 1,
) -> NewRevision:
    """A revision to write; its facets are drawn from the document."""
    body = body_of({"name": slug} if document is None else document)
    return NewRevision(
        kind=kind,
        slug=slug,
        format=format_,
        body=body,
        facets=facets_of(kind, format_, body),
        why="for a test",
        who="tester",
        expected_head=expected_head,
        create=create,
    )


def fill(database: Database) -> None:
    """A small catalogue with everything in it: 4 entries of 4 kinds, 9 revisions, 2 releases, 2 withdrawals."""
    saw = {"name": "Säge, 185 mm", "voltages_v": [120], "plugs": ["5-15P"], "power_w": [950, 1300]}
    for number in range(5):
        write_revision(database, new_revision("saw-185mm", {**saw, "rated": f"{number} A", "z": 100.0, "a": 1.5}))
    write_revision(database, new_revision("van", {"name": "Van", "voltages_v": [120, 240]}, kind="power-source"))
    write_revision(database, new_revision("framing", {"name": "Framing"}, kind="kit"))
    cut_release(database, note="first", who="tester")
    withdraw(database, "tool-profile", "saw-185mm", 2, reason="wrong plate", who="tester")
    write_revision(database, new_revision("reel-14-100", {"name": "Reel"}, kind="cord"))
    write_revision(database, new_revision("van", {"name": "Van", "voltages_v": [120]}, kind="power-source"))
    cut_release(database, note="second", who="tester")
    withdraw(database, "kit", "framing", None, reason="mixed up", who="tester")
