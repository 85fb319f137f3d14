"""What does a caller get whose bytes are no request of HTTP?

The server's own parser refuses them before the front door sees anything; what it says is made a problem with an id
here, as every other refusal is. Sources: RFC 9112, 2.2 (400 for what cannot be parsed), RFC 9110, 15.5.15 (414): an
address beyond what the parser takes is the one such fault that can be told from the others.
"""

from __future__ import annotations

import logging
import secrets
from http import HTTPStatus

from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol

from ampwright.api.middleware import ADDRESS_LIMIT_BYTES
from ampwright.api.problems import PROBLEM_MEDIA_TYPE, ProblemError, problem_body

_access_log = logging.getLogger("ampwright.access")


class ReadingProtocol(HttpToolsProtocol):
    """HTTP/1.1 as the server reads it."""

    def send_400_response(self, msg: str) -> None:  # noqa: ARG002
        """In place of plain text. msg : what the server would have said."""
        url: bytes = getattr(self, "url", b"")  # there is none before the first line has begun
        if len(url) > ADDRESS_LIMIT_BYTES:
            error = ProblemError("address-too-long", f"At most {ADDRESS_LIMIT_BYTES} bytes of path and query are read.")
        else:
            error = ProblemError("bad-request", "What came is no request of HTTP/1.1 that can be read.")
        request_id = secrets.token_hex(16)
        body = problem_body(error, path="", request_id=request_id)
        status = error.kind.status
        lines = [
            f"HTTP/1.1 {status} {HTTPStatus(status).phrase}",
            f"content-type: {PROBLEM_MEDIA_TYPE}",
            f"content-length: {len(body)}",
            "x-content-type-options: nosniff",
            "cache-control: no-store",
            f"x-request-id: {request_id}",
            "connection: close",
        ]
        head = [line.encode() for line in lines]
        head += [name + b": " + value for name, value in self.server_state.default_headers]
        self.transport.write(b"\r\n".join(head) + b"\r\n\r\n" + body)
        self.transport.close()
        told = {"request_id": request_id, "trace_id": "", "method": "", "path": "", "status": status}
        _access_log.info("request", extra={**told, "answer_bytes": len(body), "took_s": 0.0})
