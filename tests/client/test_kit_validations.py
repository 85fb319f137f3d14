"""Do the rows of many kits come to the client one by one, with the end that says that they are all?"""

from __future__ import annotations

import asyncio

import pytest
from ampwright_client import AsyncClient, Client, models

REQUEST = models.KitValidationRequest(
    sources=[models.MatrixSource(id="van", source=models.CatalogueSource(unit="ELW-04"))],
    kits=[models.MatrixKit(id=f"crew-{n}", entry="j1-shelter-frame") for n in range(3)],
    jobs=[models.MatrixJob(id="j", people=2, code_basis=[])],
)


def test_rows_are_read_while_they_are_made(client: Client, service: str) -> None:
    whole = client.validate_kits(REQUEST)
    with client.validate_kits_lines(REQUEST) as lines:
        head, *rows, end = list(lines)
    assert isinstance(head, models.KitValidationHead)
    assert head.request_digest == whole.request_digest
    assert rows == whole.rows
    assert isinstance(end, models.MatrixEnd)
    assert end.rows == 3

    async def ask() -> list[object]:
        async with AsyncClient(service) as asynchronous, asynchronous.validate_kits_lines(REQUEST) as lines:
            return [line async for line in lines]

    assert asyncio.run(ask()) == [head, *rows, end]


def test_a_reader_may_leave_early(client: Client) -> None:
    with client.validate_kits_lines(REQUEST) as lines:
        first = next(iter(lines))
    assert isinstance(first, models.KitValidationHead)
    assert client.validate_kits_csv(REQUEST).count("\n") == 5


@pytest.mark.parametrize("begin", [0, 2])
def test_rows_that_are_missing_are_asked_for(client: Client, begin: int) -> None:
    whole = client.validate_kits(REQUEST)
    rest = client.validate_kits(
        sources=REQUEST.sources, kits=REQUEST.kits, jobs=REQUEST.jobs, rows=models.RowRange(begin=begin)
    )
    assert rest.rows == whole.rows[begin:]
