"""Does the client show its key as the service asks for it, and tell the refusals apart?"""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from ampwright.catalogue.keys import make_key
from ampwright_client import AsyncClient, Client, Forbidden, Unauthenticated, load_check, tool, vehicle
from client.running import filled_catalogue, running_service

REQUEST = load_check(vehicle("120 V"), tool("saw", load_class="circular_saw"))


def test_keys_of_the_service(tmp_path: Path) -> None:
    with filled_catalogue(tmp_path) as database:
        key = make_key(database, scopes=["calculate"], note="field app", who="test")
        with running_service(tmp_path) as address:
            with Client(address, key=key.text) as client:
                assert client.check_load(REQUEST).reply.status == 200
                with pytest.raises(Forbidden) as forbidden:
                    client.list_kits()
                assert 'scope="catalogue:read"' in forbidden.value.headers["www-authenticate"]
                assert client.get_liveness().status == "alive"
            with Client(address) as stranger, pytest.raises(Unauthenticated) as unknown:
                stranger.check_load(REQUEST)
            assert unknown.value.code == "unauthenticated"

            async def ask() -> int:
                async with AsyncClient(address, key=key.text) as client:
                    return (await client.check_load(REQUEST)).reply.status

            assert asyncio.run(ask()) == 200
            assert key.text not in str(unknown.value)
