"""How much work does one process take on at once, and what happens to the rest?

Three lanes of threads: *calculation* for what a caller waits for, *long* for sweeps and plans, so that they cannot
starve the former, and *database*. Each runs a few at once, lets a few wait, and refuses the next at once with 503 and
Retry-After: an unbounded queue makes every caller time out, a bounded one keeps those who were let in quick.
Health probes stay outside (health.py): an overloaded process is not a dead one.

A thread cannot be killed. Work is therefore bounded before it starts, and a CancelFlag tells it that nobody waits for
the result any more.
"""

from __future__ import annotations

import math
import sys
import threading
import time
from collections.abc import Awaitable, Callable
from functools import partial
from typing import Literal, TypeVar

import anyio
import anyio.to_thread

from ampwright.api.problems import ProblemError
from ampwright.settings import Settings

T = TypeVar("T")
LaneName = Literal["calculation", "long", "database"]

# Python lets a thread run 5 ms before another may have the interpreter. With 0.5 ms the event loop answers probes in
# about 4 ms, not 13, beside a calculation that holds it.
SWITCH_INTERVAL_S = 0.0005
LONG_QUEUE = 4
DATABASE_QUEUE = 64
_LONGEST_RETRY_AFTER_S = 60


class CancelledWorkError(Exception):
    """The work was given up: its caller left, or the process stops."""


class CancelFlag:
    """Says whether a result is still wanted. Set from the event loop, asked from the working thread."""

    __slots__ = ("_event",)

    def __init__(self) -> None:
        self._event = threading.Event()

    def set(self) -> None:
        self._event.set()

    def is_set(self) -> bool:
        return self._event.is_set()

    def check(self) -> None:
        """Raises CancelledWorkError where the result is not wanted any more."""
        if self._event.is_set():
            raise CancelledWorkError


class Lane:
    """A few threads with a short queue in front of them.

    threads : how many pieces of work run at once; queue : how many may wait.
    """

    def __init__(self, name: str, *, threads: int, queue: int) -> None:
        self.name = name
        self.queue = queue
        self._threads = threads
        self._slots = anyio.Semaphore(threads)
        # Never the limit itself (the slots are): it only keeps the pool's common one, of 40, out of the way.
        self._limiter = anyio.CapacityLimiter(threads)
        self._waiting = 0
        self._usual_s = 0.0

    @property
    def waiting(self) -> int:
        return self._waiting

    async def run(self, work: Callable[[], T], *, cancel: CancelFlag | None = None, let_in: bool = False) -> T:
        """Result of ``work()``, called in a thread of this lane.

        let_in : the request has been let in before and goes on, so it waits however many do.
        Raises ProblemError "overloaded" at once where the queue is full, and whatever ``work`` raises.
        """
        try:
            self._slots.acquire_nowait()
        except anyio.WouldBlock:
            await self._wait_for_a_slot(let_in)
        started = time.monotonic()
        try:
            if cancel is not None:
                cancel.check()
            return await anyio.to_thread.run_sync(work, limiter=self._limiter)
        except BaseException:
            if cancel is not None:
                cancel.set()
            raise
        finally:
            self._slots.release()
            took = time.monotonic() - started
            self._usual_s = took if self._usual_s == 0.0 else 0.8 * self._usual_s + 0.2 * took

    async def _wait_for_a_slot(self, let_in: bool) -> None:
        if self._waiting >= self.queue and not let_in:
            raise ProblemError(
                "overloaded",
                f"{self._waiting} requests wait already.",
                headers={"Retry-After": str(self.retry_after_s())},
            )
        self._waiting += 1
        try:
            await self._slots.acquire()
        finally:
            self._waiting -= 1

    def retry_after_s(self) -> int:
        """When a place in the queue is likely to be free [s]: a guess from how long work took lately."""
        guess = self._usual_s * (self._waiting + 1) / self._threads
        return min(_LONGEST_RETRY_AFTER_S, max(1, math.ceil(guess)))


class Lanes:
    """The lanes of one process."""

    def __init__(self, settings: Settings) -> None:
        self.calculation = Lane("calculation", threads=settings.calculation_lanes, queue=settings.calculation_queue)
        self.long = Lane("long", threads=settings.sweep_lanes, queue=LONG_QUEUE)
        self.database = Lane("database", threads=settings.database_pool, queue=DATABASE_QUEUE)

    def __getitem__(self, name: LaneName) -> Lane:
        return {"calculation": self.calculation, "long": self.long, "database": self.database}[name]


def share_the_interpreter() -> None:
    """Let the event loop in more often; for the whole process, so called once when it starts to serve."""
    sys.setswitchinterval(SWITCH_INTERVAL_S)


async def run_while_wanted(
    lane: Lane,
    work: Callable[..., T],
    *arguments: object,
    cancel: CancelFlag,
    caller_left: Callable[[], Awaitable[None]],
    let_in: bool = False,
) -> T:
    """``lane.run``, given up where the caller leaves first.

    caller_left : returns when the connection is gone. let_in : as of `Lane.run`. Raises CancelledWorkError where it is
    gone: work that still waits is not started, work that runs sees its flag set.
    """
    outcome: list[T] = []
    failure: list[Exception] = []

    async def watch() -> None:
        await caller_left()
        cancel.set()
        group.cancel_scope.cancel()

    async with anyio.create_task_group() as group:
        group.start_soon(watch)
        # An exception that leaves a task group is wrapped in a group of its own; carried out by hand it is not.
        try:
            outcome.append(await lane.run(partial(work, *arguments), cancel=cancel, let_in=let_in))
        except Exception as error:
            failure.append(error)
        group.cancel_scope.cancel()
    if failure:
        raise failure[0]
    if not outcome:
        raise CancelledWorkError
    return outcome[0]
