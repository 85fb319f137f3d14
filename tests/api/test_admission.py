"""What happens to requests that a process cannot take on, and to probes meanwhile?"""

from __future__ import annotations

import threading
import time
from concurrent.futures import ThreadPoolExecutor, as_completed
from itertools import islice

import anyio
import httpx
import pytest
from ampwright.api.admission import CancelFlag, CancelledWorkError, Lane, run_while_wanted
from ampwright.api.problems import ProblemError
from api import trial_resource
from api.conftest import RunningServer
from api.trial_resource import assert_problem

SLOW = b'{"items":[{"id":"saw"}],"sleeps_s":0.5}'
HELD = b'{"items":[{"id":"saw"}],"note":"held"}'
HEADERS = {"content-type": "application/json"}


def test_overload_is_shed_while_livez_answers(server: RunningServer) -> None:
    """1 runs and 3 wait (the fixture's queue); of 16 at once the other 12 hear so while those are still at it."""

    def post(_: int) -> httpx.Response:
        with httpx.Client(base_url=server.address, timeout=90, trust_env=False) as client:
            return client.post("/v1/trials", content=HELD, headers=HEADERS)

    trial_resource.let_go.clear()
    try:
        with (
            ThreadPoolExecutor(16) as pool,
            httpx.Client(base_url=server.address, trust_env=False, timeout=30) as prober,
        ):
            pending = [pool.submit(post, number) for number in range(16)]
            told = list(islice(as_completed(pending, timeout=50), 12))
            probes = [prober.get("/livez").status_code for _ in range(10)]
            working = [one for one in pending if not one.done()]
            trial_resource.let_go.set()
            shed, answered = [one.result() for one in told], [one.result() for one in working]
    finally:
        trial_resource.let_go.set()
    assert probes == [200] * 10
    assert [response.status_code for response in answered] == [200] * 4
    for response in shed:
        assert_problem(response, 503, "overloaded")
        # RFC 9110, 10.2.3: seconds, as digits.
        assert response.headers["retry-after"].isdigit()
        assert int(response.headers["retry-after"]) >= 1


def test_lane_takes_no_more_than_it_says() -> None:
    running: list[int] = []
    most: list[int] = []
    lock = threading.Lock()

    def work() -> None:
        with lock:
            running.append(1)
            most.append(len(running))
        time.sleep(0.05)
        with lock:
            running.pop()

    async def fill() -> int:
        lane = Lane("trial", threads=2, queue=3)
        shed = 0

        async def one() -> None:
            nonlocal shed
            try:
                await lane.run(work)
            except ProblemError:
                shed += 1

        async with anyio.create_task_group() as group:
            for _ in range(9):
                group.start_soon(one)
        assert lane.waiting == 0
        return shed

    assert anyio.run(fill) == 4
    assert max(most) == 2
    assert len(most) == 5


def test_lane_is_free_again_after_a_failure() -> None:
    async def fail_then_work() -> int:
        lane = Lane("trial", threads=1, queue=0)
        with pytest.raises(ZeroDivisionError):
            await lane.run(lambda: 1 // 0)
        return await lane.run(lambda: 7)

    assert anyio.run(fail_then_work) == 7


def test_work_that_waits_is_not_started_for_nobody() -> None:
    started: list[str] = []

    async def leave_while_waiting() -> None:
        lane = Lane("trial", threads=1, queue=1)
        async with anyio.create_task_group() as group:
            group.start_soon(lane.run, lambda: time.sleep(0.3))
            await anyio.sleep(0.05)

            async def leaves() -> None:
                await anyio.sleep(0.05)

            with pytest.raises(CancelledWorkError):
                await run_while_wanted(lane, lambda: started.append("x"), cancel=CancelFlag(), caller_left=leaves)
            assert lane.waiting == 0
        assert await lane.run(lambda: 5) == 5

    anyio.run(leave_while_waiting)
    assert started == []


def test_retry_after_follows_how_long_work_takes() -> None:
    async def told() -> tuple[int, int]:
        lane = Lane("trial", threads=1, queue=0)
        at_first = lane.retry_after_s()
        await lane.run(lambda: time.sleep(1.2))
        return at_first, lane.retry_after_s()

    # 1.2 s of work before a place is free, in whole seconds (RFC 9110, 10.2.3) rounded up.
    assert anyio.run(told) == (1, 2)
