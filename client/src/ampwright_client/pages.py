"""How are all rows of a paged list read?"""

from __future__ import annotations

from collections.abc import AsyncIterator, Awaitable, Callable, Iterator, Sequence
from typing import TypeVar

from msgspec import UNSET, UnsetType

__all__ = ["async_rows", "rows"]

Page = TypeVar("Page")
Row = TypeVar("Row")
Position = TypeVar("Position", str, int)


def rows(
    read: Callable[[Position | UnsetType], Page],
    items: Callable[[Page], Sequence[Row]],
    following: Callable[[Page], Position | UnsetType],
    start: Position | UnsetType,
) -> Iterator[Row]:
    """Rows in the order of the pages; a page is read when its first row is asked for.

    Raises ValueError where a page is said to go on at where it began, which would never end.
    """
    at = start
    while True:
        page = read(at)
        yield from items(page)
        after = following(page)
        if after is UNSET:
            return
        at = _moved(at, after)


async def async_rows(
    read: Callable[[Position | UnsetType], Awaitable[Page]],
    items: Callable[[Page], Sequence[Row]],
    following: Callable[[Page], Position | UnsetType],
    start: Position | UnsetType,
) -> AsyncIterator[Row]:
    """As `rows`."""
    at = start
    while True:
        page = await read(at)
        for row in items(page):
            yield row
        after = following(page)
        if after is UNSET:
            return
        at = _moved(at, after)


def _moved(at: Position | UnsetType, after: Position | UnsetType) -> Position | UnsetType:
    if after == at:
        raise ValueError(f"the page at {at!r} goes on at itself")
    return after
