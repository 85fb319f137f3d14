"""Are the keys around a misspelt one found, of its kind only, and however many there are?"""

from __future__ import annotations

import pytest
from ampwright.catalogue import neighbours as module
from ampwright.catalogue.database import Database
from ampwright.catalogue.neighbours import neighbours
from ampwright.catalogue.revisions import write_revisions
from catalogue_examples import new_revision


def test_both_sides_in_order(database: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST_NEIGHBOURS", 3)
    slugs = [f"saw-{n:02}" for n in range(20)]
    write_revisions(database, [new_revision(slug, {"name": slug}, kind="tool-profile") for slug in slugs])
    write_revisions(database, [new_revision("saw-09x", {"name": "a cord"}, kind="cord")])
    assert neighbours(database, "tool-profile", "saw-09x") == tuple(slugs[7:13])
    assert neighbours(database, "tool-profile", "a") == tuple(slugs[:3])
    assert neighbours(database, "tool-profile", "z") == tuple(slugs[17:])
    assert neighbours(database, "kit", "saw-09x") == ()


@pytest.mark.parametrize("typed", ["drill-16mn", "frill-16mm", "rill-16mm", "edrill-16mm", "rdill-16mm", "dtill-16mm"])
def test_a_slip_anywhere_is_found_among_many(database: Database, monkeypatch: pytest.MonkeyPatch, typed: str) -> None:
    monkeypatch.setattr(module, "MOST_NEIGHBOURS", 3)
    between = [f"{letter}{n}" for letter in "aefgrs" for n in range(4)]
    slugs = [*between, "drill-16mm", "dsaw-1", "dt-1", "dt-2", "dt-3"]
    write_revisions(database, [new_revision(slug, {"name": slug}, kind="tool-profile") for slug in slugs])
    assert "drill-16mm" in neighbours(database, "tool-profile", typed)
