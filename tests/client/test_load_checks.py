"""Does the client say and understand what the service says and understands?"""

from __future__ import annotations

import asyncio
from typing import Any

import httpx2
import msgspec
import pytest
from ampwright.catalogue.demo_data import demo_requests
from ampwright_client import (
    AsyncClient,
    Client,
    InvalidRequest,
    Unauthenticated,
    load_check,
    models,
    receptacle,
    supply,
    tool,
    vehicle,
)

REQUESTS = demo_requests()
SAW = tool("saw", supply("120 V", current="12 A"), load_class="circular_saw")


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


def test_members_by_keyword(client: Client) -> None:
    whole = load_check(vehicle("120 V", receptacle("R1", marked="20 A")), SAW, people=1)
    assert client.check_load(whole) == client.check_load(source=whole.source, tools=[SAW], people=1)


def test_faults_have_pointers(client: Client) -> None:
    source = vehicle("120 V", receptacle("R1", marked="20"))
    bad = tool("saw", supply("120 V", current="15"), load_class="circular_sow")  # type: ignore[arg-type]
    with pytest.raises(InvalidRequest) as problem:
        client.check_load(source=source, tools=[bad])
    assert problem.value.status == 422
    assert set(problem.value.pointers) == {
        "/source/receptacles/0/marked",
        "/tools/0/supply_options/0/current",
        "/tools/0/load_class",
    }
    [meant] = [fault for fault in problem.value.faults if fault.pointer == "/tools/0/load_class"]
    assert meant.did_you_mean == "circular_saw"
    assert "circular_saw" in str(problem.value)


def test_the_service_names_its_problems(client: Client) -> None:
    listed = client.list_problem_types()
    assert {"contradictory-request", "overloaded"} <= {one.code for one in listed.items}


def test_key_is_sent_and_hidden(service: str) -> None:
    with Client(service, key="ampw_0_nonsense") as client:
        assert "nonsense" not in repr(client)
        assert "nonsense" not in repr(client._manner)
        with pytest.raises(Unauthenticated):
            client.list_kits()
