"""What does the invented demo catalogue hold, and what could one ask of it?

Source: none; the scenario is invented (demo/README.md) and serves no check.
"""

from __future__ import annotations

from importlib.resources import files

import msgspec

from ampwright.contract.canonical import canonical_bytes
from ampwright.contract.documents import DOCUMENT_TYPES
from ampwright.contract.load_checks import LoadCheckRequest

_DEMO = files("ampwright.catalogue") / "demo"


def load_demo() -> list[tuple[str, str, bytes]]:
    """All demo documents as (kind, slug, canonical body), in order of kind and slug.

    Raises msgspec.ValidationError where a file is no document of its kind.
    """
    found: list[tuple[str, str, bytes]] = []
    for kind in sorted(DOCUMENT_TYPES):
        for slug, body in _json_files(kind).items():
            found.append((kind, slug, canonical_bytes(msgspec.json.decode(body, type=DOCUMENT_TYPES[kind]))))
    return found


def demo_requests() -> dict[str, bytes]:
    """Load checks ready to post, by name, in order: `j1-shelter-frame-truck-flatbed` ..., without white space."""
    return {
        name: canonical_bytes(msgspec.json.decode(body, type=LoadCheckRequest))
        for name, body in _json_files("requests").items()
    }


def _json_files(folder: str) -> dict[str, bytes]:
    places = sorted((_DEMO / folder).iterdir(), key=lambda place: place.name)
    return {place.name.removesuffix(".json"): place.read_bytes() for place in places if place.name.endswith(".json")}
