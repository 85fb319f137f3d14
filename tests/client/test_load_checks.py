"""Does the client say and understand what the service says and understands?"""

from __future__ import annotations

import asyncio
from typing import Any

import httpx2
import msgspec
import pytest
from ampwright.catalogue.demo_data import demo_requests
from ampwright_client import AsyncClient, Client, models

REQUESTS = demo_requests()


def posted(raw: httpx2.Client, body: bytes) -> Any:
    answer = raw.post("/v1/load-checks", content=body, headers={"Content-Type": "application/json"})
    assert answer.status_code == 200, answer.text
    return answer.json()


def without_defaults(value: Any) -> Any:
    """The wire leaves empty lists out; the client's answers have them."""
    if isinstance(value, dict):
        return {key: without_defaults(one) for key, one in value.items() if one != []}
    return [without_defaults(one) for one in value] if isinstance(value, list) else value


@pytest.mark.parametrize("name", REQUESTS)
def test_demo_requests_sync_and_async_as_raw(client: Client, service: str, raw: httpx2.Client, name: str) -> None:
    """The reference is the same exchange by plain HTTP."""
    expected = posted(raw, REQUESTS[name])
    request = msgspec.json.decode(REQUESTS[name], type=models.LoadCheckRequest)
    assert msgspec.json.decode(msgspec.json.encode(request)) == msgspec.json.decode(REQUESTS[name])

    answer = client.check_load(request)

    async def ask() -> models.LoadCheckAnswer:
        async with AsyncClient(service) as asynchronous:
            return await asynchronous.check_load(request)

    assert without_defaults(msgspec.to_builtins(answer)) == without_defaults(expected)
    assert asyncio.run(ask()) == answer
    assert answer.verdict.overall in ("pass", "marginal", "unknown", "fail")
    assert answer.reply.status == 200
    assert answer.reply.request_id
