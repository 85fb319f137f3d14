"""Where does an integrator read what the service offers, with no internet at hand?

``/docs`` is the reference page with try-it-out; everything it loads comes from this process, and its content security
policy keeps it so. ``/openapi.json`` is the document that it shows. The scripts and their licence: assets/swagger-ui.
"""

from __future__ import annotations

import asyncio
import gzip
import hashlib
from collections.abc import Callable
from functools import cache
from pathlib import Path

from msgspec import Struct

from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError

ASSETS = Path(__file__).parent / "assets"
# Inline styles are the reference page's own habit; scripts, connections and images stay with this server.
DOCS_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_FILES = {
    "swagger-ui-bundle.js": ("swagger-ui/swagger-ui-bundle.js.gz", "text/javascript"),
    "swagger-ui.css": ("swagger-ui/swagger-ui.css.gz", "text/css"),
    "docs.js": ("docs.js", "text/javascript"),
}


class AssetPath(Struct):
    """Which file of the reference page."""

    name: str


def entity_tag_of(content: bytes) -> str:
    return f'"{hashlib.sha256(content).hexdigest()[:32]}"'


def docs_operations(document: Callable[[], bytes]) -> Operations:
    """``/docs`` with what it loads, and ``/openapi.json``, which is ``document()``.

    It is made when it is first asked for: it takes as long as a tenth of a worker's start, and most are never asked.
    """
    operations = Operations("Operation")
    page = (ASSETS / "docs.html").read_bytes()
    files = {name: (ASSETS / file).read_bytes() for name, (file, _) in _FILES.items()}

    @cache
    def made() -> tuple[bytes, str]:
        content = document()
        return content, entity_tag_of(content)

    @operations.get("/openapi.json", "get_openapi_document", documented=False, entity_tag=True)
    async def openapi_document() -> Reply[bytes]:
        """Give the OpenAPI 3.1 document of this service."""
        content, tag = await asyncio.to_thread(made)
        return Reply(content, media_type="application/json", entity_tag=tag, headers={"Cache-Control": "no-cache"})

    @operations.get("/", "get_root", documented=False, sends=())
    async def root() -> Reply[bytes]:
        """Lead a person to the reference page."""
        return Reply(b"", status=307, media_type="text/plain", headers={"Location": "/docs"})

    @operations.get("/docs", "get_docs", documented=False, sends=("text/html",))
    async def docs() -> Reply[bytes]:
        """Show the reference page."""
        return Reply(
            page,
            media_type="text/html",
            headers={"Content-Security-Policy": DOCS_POLICY, "Cache-Control": "no-cache"},
        )

    @operations.get(
        "/docs/assets/{name}", "get_docs_asset", documented=False, entity_tag=True, sends=(), compress=False
    )
    async def docs_asset(path: AssetPath, call: Call) -> Reply[bytes]:
        """Give a script or style of the reference page."""
        if path.name not in _FILES:
            raise ProblemError("not-found", "The reference page has no such file.")
        file, media_type = _FILES[path.name]
        content = files[path.name]
        headers = {"Cache-Control": "no-cache", "Vary": "Accept-Encoding"}
        if file.endswith(".gz"):
            if "gzip" in call.request.headers.get("accept-encoding", ""):
                headers["Content-Encoding"] = "gzip"
            else:
                content = gzip.decompress(content)
        return Reply(content, media_type=media_type, entity_tag=entity_tag_of(content), headers=headers)

    return operations
