"""Is the process alive, and can it answer calculations?

``/livez`` says only that the event loop turns; a restart helps where it does not answer. ``/readyz`` gives reasons; a
balancer takes a process that is not ready out of the round. Both stay outside admission: an overloaded process is
alive, and probes must not wait behind calculations.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Annotated, Literal

import anyio
import anyio.to_thread
from msgspec import Meta, Struct

from ampwright.api.operations import Operations
from ampwright.api.problems import ProblemError, ProblemFault

CHECK_TIMEOUT_S = 2.0
# Probes come from several sides at once; they share an answer that is this young.
_SHARED_FOR_S = 0.5
RETRY_AFTER_S = 2


class Liveness(Struct, kw_only=True):
    """The process turns its event loop."""

    status: Literal["alive"]


class ReadinessCheck(Struct, kw_only=True):
    """One thing that readiness depends on."""

    name: Annotated[str, Meta(description="What was looked at, such as database or kernels.")]
    status: Literal["ready"]


class Readiness(Struct, kw_only=True):
    """The process can answer calculations."""

    checks: list[ReadinessCheck]
    status: Literal["ready"]


@dataclass(frozen=True, slots=True)
class Check:
    """Something readiness depends on.

    name : goes out as ``database_...``'s first word; probe : None when all is well, else the reason for a person. It
    is called in a thread, so it may block, but not for longer than CHECK_TIMEOUT_S.
    """

    name: str
    probe: Callable[[], str | None]


class ReadinessProbe:
    """Runs the checks, one probe at a time, and shares a young result."""

    def __init__(self, checks: Sequence[Check]) -> None:
        self._checks = tuple(checks)
        self._limiter = anyio.CapacityLimiter(max(1, len(self._checks)))
        self._faults: list[ProblemFault] = []
        self._seen_at: float | None = None

    @property
    def names(self) -> list[str]:
        return [check.name for check in self._checks]

    async def faults(self) -> list[ProblemFault]:
        """Why the process is not ready; empty where it is."""
        if self._seen_at is None or time.monotonic() - self._seen_at > _SHARED_FOR_S:
            self._faults = [fault for check in self._checks if (fault := await self._ask(check)) is not None]
            self._seen_at = time.monotonic()
        return self._faults

    async def _ask(self, check: Check) -> ProblemFault | None:
        reason: str | None = f"no answer within {CHECK_TIMEOUT_S:g} s"
        with anyio.move_on_after(CHECK_TIMEOUT_S):
            try:
                # Abandoned at the time limit: the thread of a hanging database must not hold the probe.
                reason = await anyio.to_thread.run_sync(check.probe, abandon_on_cancel=True, limiter=self._limiter)
            except Exception as error:
                reason = f"the check failed ({type(error).__name__})"
        return ProblemFault(code=f"{check.name}_not_ready", message=reason) if reason else None


def health_operations(probe: ReadinessProbe) -> Operations:
    """``/livez`` and ``/readyz``."""
    operations = Operations("Operation", "For the deployment: is the service up, and ready.")

    @operations.get("/livez", "get_liveness")
    async def livez() -> Liveness:
        """Say that the process is alive.

        Answers without touching the database or the calculation lanes.
        """
        return Liveness(status="alive")

    @operations.get("/readyz", "get_readiness", problems=("not-ready",))
    async def readyz() -> Readiness:
        """Say whether calculations can be answered.

        Ready: the database is reachable and at the newest migration, and the kernels are compiled. Otherwise a
        problem with status 503 whose `errors` give the reasons.
        """
        faults = await probe.faults()
        if faults:
            raise ProblemError(
                "not-ready",
                "; ".join(fault.message for fault in faults),
                errors=faults,
                headers={"Retry-After": str(RETRY_AFTER_S)},
            )
        return Readiness(checks=[ReadinessCheck(name=name, status="ready") for name in probe.names], status="ready")

    return operations
