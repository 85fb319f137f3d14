"""How are all rows of a long answer read, although the connection breaks?

A stream that broke off is asked for again from the row after the last one read, on the catalogue release that the first
part rests on: no row is missing, and none comes twice. `_Course` knows what was read and what to ask for next; the two
iterators only send and wait.
"""

from __future__ import annotations

import time
from collections.abc import AsyncIterator, Callable, Iterator
from typing import TYPE_CHECKING, Any, Generic, TypeAlias, TypeVar, overload

import msgspec
from msgspec import UNSET, Struct

from ampwright_client._generated import models
from ampwright_client._generated.async_client import AsyncClient
from ampwright_client._generated.client import Client
from ampwright_client.calls import CallOptions
from ampwright_client.errors import (
    AmpwrightError,
    AnsweredNo,
    BrokenOff,
    NoAnswer,
    NotUnderstood,
    ServiceFault,
    TooManyRequests,
)
from ampwright_client.waiting import backoff_s

if TYPE_CHECKING:
    from ampwright_client.lines import AsyncLines, Lines

__all__ = ["AsyncRows", "Rows", "every_row"]

R = TypeVar("R")
P = TypeVar("P", bound=Struct)
Told = Callable[[int, int], object]
Request: TypeAlias = models.KitValidationRequest | models.SourceComparisonRequest | models.EnergyBudgetBatchRequest
Head: TypeAlias = models.KitValidationHead | models.SourceComparisonHead | models.EnergyBatchHead
_TRIES = 6
_LONGEST_ASKED_S = 30.0
_PINS = ("catalogue_release", "withdrawals_as_of")
_MAY_PASS = (NoAnswer, ServiceFault, TooManyRequests)
# Of a service that starts again, and of the gateway before it (RFC 9110, 15.6.3 to 15.6.5).
_PASSING = (502, 503, 504)


@overload
def every_row(
    client: Client,
    request: models.KitValidationRequest,
    *,
    told: Told | None = None,
    tries: int = _TRIES,
    options: CallOptions | None = None,
) -> Rows[models.KitValidationRow]: ...
@overload
def every_row(
    client: Client,
    request: models.SourceComparisonRequest,
    *,
    told: Told | None = None,
    tries: int = _TRIES,
    options: CallOptions | None = None,
) -> Rows[models.SourceComparisonRow]: ...
@overload
def every_row(
    client: Client,
    request: models.EnergyBudgetBatchRequest,
    *,
    told: Told | None = None,
    tries: int = _TRIES,
    options: CallOptions | None = None,
) -> Rows[models.EnergyBatchRow]: ...
@overload
def every_row(
    client: AsyncClient,
    request: models.KitValidationRequest,
    *,
    told: Told | None = None,
    tries: int = _TRIES,
    options: CallOptions | None = None,
) -> AsyncRows[models.KitValidationRow]: ...
@overload
def every_row(
    client: AsyncClient,
    request: models.SourceComparisonRequest,
    *,
    told: Told | None = None,
    tries: int = _TRIES,
    options: CallOptions | None = None,
) -> AsyncRows[models.SourceComparisonRow]: ...
@overload
def every_row(
    client: AsyncClient,
    request: models.EnergyBudgetBatchRequest,
    *,
    told: Told | None = None,
    tries: int = _TRIES,
    options: CallOptions | None = None,
) -> AsyncRows[models.EnergyBatchRow]: ...
def every_row(
    client: Client | AsyncClient,
    request: Request,
    *,
    told: Told | None = None,
    tries: int = _TRIES,
    options: CallOptions | None = None,
) -> Rows[Any] | AsyncRows[Any]:
    """The rows of a long answer, in order, each once, also where the connection breaks on the way.

    told : called with the rows made so far and their number in all, after each row and at every sign of life;
    tries : how often in a row a stream may break without a new row before its error is raised, at least 1; options : of
    every call.

    Iterating raises what the call raises. It raises BrokenOff where the service changed between two parts, so that
    their rows would not rest on the same. Raises ValueError for fewer tries than 1, TypeError for another request.
    """
    course = _Course(request, told, tries)
    if isinstance(client, AsyncClient):
        return AsyncRows(client, course, options)
    return Rows(client, course, options)


class _Counted:
    """How far the reading has come."""

    def __init__(self, course: _Course, options: CallOptions | None) -> None:
        self._course = course
        self._options = options

    @property
    def done(self) -> int:
        """Rows made so far."""
        return self._course.done

    @property
    def of(self) -> int:
        """Rows in all, 0 before the first line."""
        return self._course.of

    @property
    def breaks(self) -> int:
        """How often the rest was asked for."""
        return self._course.breaks

    @property
    def head(self) -> Head | None:
        """The first line: notice, engine version, release. None before it came."""
        return self._course.head


class Rows(_Counted, Generic[R]):
    """Rows that are asked for while they are read; iterate once."""

    def __init__(self, client: Client, course: _Course, options: CallOptions | None) -> None:
        super().__init__(course, options)
        self._client = client

    def __iter__(self) -> Iterator[R]:
        course = self._course
        course.begin()
        while not course.ended:
            try:
                with _opened(self._client, course.rest(), self._options) as lines:
                    for line in lines:
                        row = course.take(line, lines.request_id)
                        if row is not None:
                            yield row
            except _MAY_PASS as error:
                time.sleep(course.wait_after(error))


class AsyncRows(_Counted, Generic[R]):
    """Rows that are asked for while they are read, by ``async for``; iterate once."""

    def __init__(self, client: AsyncClient, course: _Course, options: CallOptions | None) -> None:
        super().__init__(course, options)
        self._client = client

    async def __aiter__(self) -> AsyncIterator[R]:
        import asyncio  # a caller on the loop has it, the others need not pay for it

        course = self._course
        course.begin()
        while not course.ended:
            try:
                async with _opened(self._client, course.rest(), self._options) as lines:
                    async for line in lines:
                        row = course.take(line, lines.request_id)
                        if row is not None:
                            yield row
            except _MAY_PASS as error:
                await asyncio.sleep(course.wait_after(error))


@overload
def _opened(client: Client, rest: Request, options: CallOptions | None) -> Lines[Any]: ...
@overload
def _opened(client: AsyncClient, rest: Request, options: CallOptions | None) -> AsyncLines[Any]: ...
def _opened(client: Client | AsyncClient, rest: Request, options: CallOptions | None) -> Lines[Any] | AsyncLines[Any]:
    """The stream that gives the rows of a request; opening one is no call that is awaited, so both kinds are one."""
    match rest:
        case models.KitValidationRequest():
            return client.validate_kits_lines(rest, options=options)
        case models.SourceComparisonRequest():
            return client.compare_sources_lines(rest, options=options)
        case _:
            return client.budget_energy_batch(rest, options=options)


class _Course:
    """What was read so far, and what is to be asked for next."""

    def __init__(self, request: Request, told: Told | None, tries: int) -> None:
        known = (models.KitValidationRequest, models.SourceComparisonRequest, models.EnergyBudgetBatchRequest)
        if not isinstance(request, known):  # pyright: ignore[reportUnnecessaryIsInstance]
            raise TypeError(f"expected one of {', '.join(kind.__name__ for kind in known)}")
        if tries < 1:
            raise ValueError(f"tries is {tries}: at least 1")
        self._request = request
        self._told = told
        self._tries = tries
        self._failed = 0  # tries since the last new row
        self._begun = False
        self._first = 0  # index of the first row of all
        if not isinstance(request, models.EnergyBudgetBatchRequest) and request.rows is not UNSET:
            self._first = 0 if request.rows.begin is UNSET else request.rows.begin
        self._part_from = 0  # rows read when the present part was asked for
        self.read = 0
        self.done = 0
        self.of = 0
        self.breaks = 0
        self.head: Head | None = None
        self._pins: dict[str, Any] = {}
        self._changed = False  # the engine
        self._moved = False  # the catalogue
        self.ended = False

    def begin(self) -> None:
        if self._begun:
            raise RuntimeError("these rows have been read; ask for them anew")
        self._begun = True

    def rest(self) -> Request:
        """The request for the rows that are still to come."""
        self._part_from = self.read
        request = self._request
        if self.head is None:
            return request
        if isinstance(request, models.EnergyBudgetBatchRequest):
            rest = request.scenarios[self.read :]
            # Pinned only where it must be: the digest of a row is that of the budget as it was asked for.
            budget = self._pinned(request.budget) if self._moved else request.budget
            return msgspec.structs.replace(request, budget=budget, scenarios=rest)
        end = UNSET if request.rows is UNSET else request.rows.end
        rows = models.RowRange(begin=self._first + self.read, end=end)
        return self._pinned(msgspec.structs.replace(request, rows=rows))

    def _pinned(self, request: P) -> P:
        """On the release, and the withdrawals, that the rows read so far rest on."""
        open_pins = {name: value for name, value in self._pins.items() if getattr(request, name) is UNSET}
        return msgspec.structs.replace(request, **open_pins)

    def _note_pins(self, line: Struct) -> None:
        for name in _PINS:
            value = getattr(line, name, UNSET)
            if value is not UNSET:
                self._pins.setdefault(name, value)

    def _check_pins(self, line: Struct, request_id: str) -> None:
        rests_on = {name: getattr(line, name, UNSET) for name in self._pins}
        if any(value not in (UNSET, self._pins[name]) for name, value in rests_on.items()):
            self._moved = True
            raise BrokenOff(f"the catalogue changed after {self.read} rows", request_id=request_id, sent=True)

    def _chooses_release(self) -> bool:
        """Whether the scenario that is due says itself what it rests on."""
        if not isinstance(self._request, models.EnergyBudgetBatchRequest):
            return False
        change = self._request.scenarios[self.read].change
        return change is not UNSET and any(one.path.lstrip("/") in _PINS for one in change)

    def take(self, line: Struct, request_id: str) -> Any:
        """The row that a line is, None for another line. Raises AmpwrightError for rows that do not follow."""
        match line:
            case models.KitValidationHead() | models.SourceComparisonHead() | models.EnergyBatchHead():
                self._take_head(line, request_id)
            case models.KitValidationRow() | models.SourceComparisonRow() | models.EnergyBatchRow():
                self._take_index(line, request_id)
                if not self._chooses_release():
                    self._check_pins(line, request_id)
                    self._note_pins(line)
                self.read += 1
                self.done = self.read
                self._failed = 0
                self._tell()
                return line
            case models.MatrixProgress() | models.EnergyBatchProgress():
                self.done = max(self.done, self._part_from + line.rows)
                self._tell()
            case _:  # end
                self.ended = True
                if self.read != self.of:
                    self._out_of_step(f"the service ended after {self.read} of {self.of} rows", request_id)
        return None

    def _take_head(self, head: Head, request_id: str) -> None:
        if self.head is None:
            self.head = head
            self.of = head.rows_in_all if isinstance(head, models.EnergyBatchHead) else max(0, head.end - head.begin)
            self._note_pins(head)
        elif head.engine_version != self.head.engine_version:
            self._changed = True
            was, now = self.head.engine_version, head.engine_version
            raise BrokenOff(
                f"the service changed from engine {was} to {now} after {self.read} rows; ask for all of them anew",
                request_id=request_id,
                sent=True,
            )

    def _take_index(self, row: Any, request_id: str) -> None:
        is_day = isinstance(row, models.EnergyBatchRow)
        due = self.read - self._part_from if is_day else self._first + self.read
        if row.index != due:
            self._out_of_step(f"row {row.index} came where row {due} was due", request_id)
        if is_day and self._part_from:
            row.index = self.read  # counted over all scenarios, as if nothing had broken

    def _out_of_step(self, why: str, request_id: str) -> None:
        raise NotUnderstood(why, request_id=request_id, status=200, body=b"")

    def _tell(self) -> None:
        if self._told is not None:
            self._told(self.done, self.of)

    def wait_after(self, error: AmpwrightError) -> float:
        """Seconds to wait before the rest is asked for; raises the error where that is not to be done."""
        if self.ended or (self.head is not None and self.read == self.of):
            self.ended = True  # it broke behind its last row
            return 0.0
        self._failed += 1
        if isinstance(error, ServiceFault) and error.status not in _PASSING:
            raise error
        asked_s = error.retry_after_s if isinstance(error, AnsweredNo) else None
        # What never began was tried as often as any call already; an engine that changed does not change back.
        if self.head is None or self._changed or self._failed >= self._tries or (asked_s or 0.0) > _LONGEST_ASKED_S:
            raise error
        self.breaks += 1
        return backoff_s(self._failed + 2, asked_s)  # a service that starts again takes its seconds
