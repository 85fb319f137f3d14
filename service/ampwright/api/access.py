"""Who may call, and what for?

A caller shows a key as ``Authorization: Bearer ampw_...`` (RFC 6750). As long as no key was ever made, a service that
only its own machine can reach asks for none; from the first key on, and on any other address always, every resource
under ``/v1`` asks for one. A key that expires or is revoked does not open the door again, be it the last one: the
command line makes the next. Health, documentation and problem pages stay open.
"""

from __future__ import annotations

import ipaddress

from ampwright.api.admission import Lane
from ampwright.api.problems import ProblemError
from ampwright.catalogue.database import Database
from ampwright.catalogue.keys import AccessKey, KeyRing
from ampwright.settings import Settings

# The reading of keys has a thread of its own: a caller that will be refused must not wait behind queries.
_QUEUE = 256


def is_loopback(host: str) -> bool:
    """Whether only this machine can reach the address; a name other than localhost counts as reachable."""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def may_be_open(settings: Settings) -> bool:
    """Whether the service may answer without keys: on loopback, or where a setting says so in so many words."""
    return settings.allow_open_address or is_loopback(settings.host)


class Access:
    """Lets callers in, or not."""

    def __init__(self, settings: Settings, database: Database) -> None:
        self._ring = KeyRing(database)
        self._lane = Lane("access", threads=1, queue=_QUEUE)
        self._always = not may_be_open(settings)

    def forget(self) -> None:
        """Read the keys at the next call: this worker has just made or revoked one."""
        self._ring.forget()

    async def admit(self, authorization: str | None, scope: str) -> AccessKey | None:
        """The key of a caller who may do what ``scope`` names; None where no key is asked for.

        authorization : the header's value. Raises ProblemError "unauthenticated" (401) without a live key, "forbidden"
        (403) where the key has another scope; DatabaseUnavailable where keys cannot be read.
        """
        return await self._lane.run(lambda: self._checked(authorization, scope))

    def _checked(self, authorization: str | None, scope: str) -> AccessKey | None:
        if authorization is None and not self._always and not self._ring.any_made():
            return None
        scheme, _, text = (authorization or "").partition(" ")
        key = self._ring.check(text.strip()) if scheme.lower() == "bearer" else None
        if key is None:
            # RFC 6750, 3: a request that shows nothing is told the scheme only.
            challenge = "Bearer" if authorization is None else 'Bearer error="invalid_token"'
            raise ProblemError(
                "unauthenticated",
                "Send a key as Authorization: Bearer ampw_..." if authorization is None else "The key is not valid.",
                headers={"WWW-Authenticate": challenge},
            )
        if scope not in key.scopes:
            challenge = f'Bearer error="insufficient_scope", scope="{scope}"'
            raise ProblemError("forbidden", f"The key has no scope {scope!r}.", headers={"WWW-Authenticate": challenge})
        return key
