"""How does a request become a call of its handler, and the result a response?

Every operation goes the same way: choose the media type, let the caller in, read parameters, read the body,
run, write. One litestar route a path, which answers OPTIONS as well.
"""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterable
from dataclasses import replace
from io import SEEK_END
from typing import Any, BinaryIO

import anyio.to_thread
import msgspec
from litestar import Request
from litestar.handlers import HTTPRouteHandler
from litestar.response import Response, Stream

from ampwright.api import body as bodies
from ampwright.api import negotiation, parameters
from ampwright.api.admission import CancelFlag
from ampwright.api.operations import Call, Operation, Reply
from ampwright.api.problems import sorted_allow
from ampwright.api.services import Services

NO_COMPRESSION = "no_compression"
PIECE_BYTES = 65_536


def route_handlers(operations: Iterable[Operation], services: Services) -> list[HTTPRouteHandler]:
    """Litestar's handlers for the operations.

    Raises ValueError where two of them share an id, or a method on a path.
    """
    by_path: dict[str, dict[str, Operation]] = {}
    seen: set[str] = set()
    for operation in operations:
        methods = by_path.setdefault(operation.path, {})
        if operation.operation_id in seen or operation.method in methods:
            raise ValueError(f"declared twice: {operation.operation_id} ({operation.method} {operation.path})")
        seen.add(operation.operation_id)
        methods[operation.method] = operation
    return [_route(path, methods, services) for path, methods in by_path.items()]


def _route(path: str, methods: dict[str, Operation], services: Services) -> HTTPRouteHandler:
    allow = sorted_allow(methods)

    async def endpoint(request: Request[Any, Any, Any]) -> Response[Any]:
        if request.method == "OPTIONS":
            return Response(content=b"", status_code=204, headers={"Allow": allow})
        return await _answer(methods[request.method], request, services)

    names: Any = [*methods, "OPTIONS"]  # litestar's own OPTIONS would name the first handler's methods only
    return HTTPRouteHandler(
        # Types and bounds of parameters are in their Struct; the router only has to cut the path.
        path.replace("}", ":str}"),
        http_method=names,
        status_code=200,
        opt={NO_COMPRESSION: any(not operation.compress for operation in methods.values())},
    )(endpoint)


async def _answer(operation: Operation, request: Request[Any, Any, Any], services: Services) -> Response[Any]:
    offered = operation.media_types
    media_type = negotiation.choose(request.headers.get("accept"), offered) if offered else ""
    key = None
    if operation.scope is not None:
        key = await services.access.admit(request.headers.get("authorization"), operation.scope)
    call = Call(request=request, services=services, cancel=CancelFlag(), key=key, media_type=media_type)
    arguments: dict[str, Any] = {"call": call}
    if operation.path_parameters is not None:
        arguments["path"] = parameters.path_parameters(request, operation.path_parameters)
    if operation.query is not None:
        arguments["query"] = parameters.query_parameters(request, operation.query)
    if operation.headers is not None:
        arguments["headers"] = parameters.header_parameters(request, operation.headers)
    if operation.body is not None:
        arguments["body"] = await bodies.read(
            request, operation.body, services.settings, larger_body=operation.larger_body
        )
    wanted = {name: arguments[name] for name in operation.arguments}
    if operation.lane is None:
        result = await operation.handler(**wanted)
        if isinstance(result, Reply) and isinstance(result.content, AsyncIterator):
            headers = {**result.headers, **_of_operation(operation)}
            return Stream(result.content, status_code=result.status, media_type=result.media_type, headers=headers)
        reply = _written(operation, result, media_type)
    else:
        # Writing a large answer takes as long as making a small one, so it belongs to the lane's thread too.
        reply = await call.run(operation.lane, lambda: _written(operation, operation.handler(**wanted), media_type))
    return _response(operation, request, reply)


def _written(operation: Operation, result: Any, media_type: str) -> Reply[Any]:
    """A handler's result as a reply of bytes, or of a file to be streamed."""
    reply = result if isinstance(result, Reply) else Reply(result)
    if reply.content is None:
        return replace(reply, content=b"", status=204 if reply.status == 200 else reply.status, media_type=None)
    if reply.media_type is not None:
        return reply
    rendering = operation.renderings.get(media_type, msgspec.json.encode)
    content = rendering(reply.content)
    if isinstance(content, str):
        content = content.encode()  # litestar says "charset=utf-8" with every text type
    return replace(reply, content=content, media_type=media_type)


def _of_operation(operation: Operation) -> dict[str, str]:
    """Headers that each answer of an operation has, whole or streamed."""
    headers = {} if operation.deprecation is None else operation.deprecation.headers()
    return headers | ({"Vary": "Accept"} if len(operation.media_types) > 1 else {})


def _response(operation: Operation, request: Request[Any, Any, Any], reply: Reply[Any]) -> Response[Any]:
    headers = {**reply.headers, **_of_operation(operation)}
    if reply.entity_tag is not None:
        # Packed and plain differ in their bytes, so what may go out as either has no strong tag (RFC 9110, 8.8.1).
        weak = operation.method == "GET" and operation.compress and not reply.entity_tag.startswith("W/")
        headers["ETag"] = f"W/{reply.entity_tag}" if weak else reply.entity_tag
        headers.setdefault("Cache-Control", "no-cache")  # may be kept, but is asked for anew each time
        if operation.method == "GET" and tag_matches(request.headers.get("if-none-match"), reply.entity_tag):
            return Response(content=b"", status_code=304, headers=headers)
    if not isinstance(reply.content, bytes):
        headers["Content-Length"] = str(reply.content.seek(0, SEEK_END))
        return Stream(_pieces(reply.content), status_code=reply.status, media_type=reply.media_type, headers=headers)
    return Response(content=reply.content, status_code=reply.status, media_type=reply.media_type, headers=headers)


async def _pieces(file: BinaryIO) -> AsyncIterator[bytes]:
    # Each piece is waited for, so that a caller who left or reads slowly is noticed.
    with file:
        file.seek(0)
        while piece := await anyio.to_thread.run_sync(file.read, PIECE_BYTES):
            yield piece


def tag_matches(header: str | None, entity_tag: str) -> bool:
    """Whether If-None-Match names the tag, by the weak comparison of RFC 9110, 13.1.2."""
    if header is None:
        return False
    if header.strip() == "*":
        return True
    bare = entity_tag.removeprefix("W/")
    return any(one.strip().removeprefix("W/") == bare for one in header.split(","))
