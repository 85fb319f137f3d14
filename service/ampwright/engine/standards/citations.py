"""What stands behind a number or a rule of an answer?

Not here: the tables themselves (loader.py).
"""

from dataclasses import dataclass

from ampwright.engine.standards.loader import STATUSES, UncitedTable, citations


@dataclass(frozen=True, slots=True)
class Basis:
    """One line of an answer's basis: document, place and edition, and how sure we are of the value taken from it."""

    id: str
    document: str
    place: str
    edition: str
    status: str


def basis(key: str, status: str | None = None) -> Basis:
    """The basis line of a citation; the row used decides its status, else the whole.

    key : citation key. status : of the row used, by default that of the whole.
    Errors: UncitedTable for a key or a status that is not known. Source: citations.toml.
    """
    found = citations().get(key)
    if found is None:
        raise UncitedTable(f"{key}: no entry in citations.toml")
    if status is not None and status not in STATUSES:
        raise UncitedTable(f"{key}: status {status!r}")
    return Basis(found.key, found.document, found.place, found.edition, status or found.status)
