"""Which real requests and answers illustrate an operation?

One JSON file each, ``examples/<operation id>/<name>.json``: ``summary``, then as far as they apply ``description``,
``path``, ``query``, ``headers``, ``request``, ``status`` (200 where left out) and ``response``. ``given`` names the
examples, ``<operation id>/<name>``, that were carried out before it, where what it shows needs them. ``misspelt`` says
that the request does not fit its schema: of such a one only the answer is shown, since programs send what they find
among examples. ``excerpt`` says that ``items`` of the response are only some of those that the answer has, as of a list
that grows. The document shows them, tests replay them against the service with the demo catalogue; an answer that would
fill pages is replayed and not shown. Files of a folder are shown in the order of their names.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec
from msgspec import UNSET, Struct, UnsetType

FOLDER = Path(__file__).parent / "examples"


class Example(Struct, forbid_unknown_fields=True, kw_only=True):
    """One file."""

    summary: str
    description: str = ""
    given: list[str] = []
    path: dict[str, str] = {}
    query: dict[str, str] = {}
    headers: dict[str, str] = {}
    request: Any | UnsetType = UNSET
    misspelt: bool = False
    excerpt: bool = False
    status: int = 200
    response: Any | UnsetType = UNSET


def load_examples(operation_id: str, folder: Path = FOLDER) -> dict[str, Example]:
    """Examples of an operation by name, sorted; empty where it has no folder.

    Errors: ValueError that names the file which cannot be read.
    """
    examples = {}
    for file in sorted((folder / operation_id).glob("*.json")):
        try:
            examples[file.stem] = msgspec.json.decode(file.read_bytes(), type=Example)
        except (msgspec.MsgspecError, UnicodeDecodeError) as error:
            raise ValueError(f"{file}: {error}") from error
    return examples
