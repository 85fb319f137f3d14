"""How does each device or limit of a source come back after it opened, where, and through whose hands?

The reset that was said of the device or limit itself, else that of the source; else it is not known, and counts as
automatic for danger and as manual for lost work. A fuse is replaced by hand, whatever the source does. What an
automatic reset leaves open is taken on the safe side: its delay from 2 to 10 s, its tries without an end.
Source: definition; the delay is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.engine.physics.power_return import Reset as PlayedReset
from ampwright.engine.site.band import Band
from ampwright.engine.site.ledger import Ledger
from ampwright.engine.site.pointers import member_of
from ampwright.engine.site.settled import SettledSite
from ampwright.engine.site.source import Reset

UNKNOWN_DELAY_S = Band(2.0, 5.0, 10.0)  # common practice, no source
BY_HAND_S = Band(30.0, 60.0, 600.0)  # until somebody has gone there; common practice, no source
UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class TripReset:
    """How one device or limit comes back.

    how : automatic, remote, manual or unknown. after_s : delay of an automatic reset, else the time until a person has
    switched it on again. tries : before a lock-out, None without an end. delay_given : whether a delay was said.
    """

    how: str
    after_s: Band
    delay_given: bool
    tries: int | None
    where: str | None
    by: str | None
    needs: str | None
    pointer: str

    @property
    def by_itself(self) -> bool:
        """Whether power may return without a person; so it counts where nobody said."""
        return self.how in ("automatic", UNKNOWN)

    @property
    def may_stay_off(self) -> bool:
        return self.how != "automatic"

    def played(self, estimate: int, *, by_itself: bool) -> PlayedReset:
        """For the kernel: as it is, or as one try by hand."""
        if by_itself:
            return PlayedReset("automatic", self.after_s.at(estimate), self.tries)
        return PlayedReset("automatic", self.after_s.at(estimate), 1)


def circuit_reset(site: SettledSite, circuit: int, ledger: Ledger) -> TripReset:
    """Of the device of a circuit."""
    settled = site.source.circuits[circuit]
    device = settled.device
    own = device.reset if device is not None else None
    reset = _settled(site, own, member_of(member_of(settled.pointer, "device"), "reset"), ledger)
    if device is not None and device.kind == "fuse":
        return TripReset(
            "manual", BY_HAND_S, False, None, reset.where, reset.by, reset.needs or "a new fuse of the same rating",
            reset.pointer,
        )  # fmt: skip
    return reset


def limit_reset(site: SettledSite, limit_id: str, ledger: Ledger) -> TripReset:
    """Of a limit of the source."""
    given = next((item for item in site.source.source.limits or () if item.id == limit_id), None)
    own = given.reset if given is not None else None
    pointer = member_of(given.pointer, "reset") if given is not None else member_of(site.source.source.pointer, "reset")
    return _settled(site, own, pointer, ledger)


def _settled(site: SettledSite, own: Reset | None, own_pointer: str, ledger: Ledger) -> TripReset:
    of_source = site.source.source.reset
    at_source = member_of(site.source.source.pointer, "reset")
    reset, pointer = (own, own_pointer) if own is not None else (of_source, at_source)
    if reset is None:
        delay = ledger.assume("reset_delay", at_source, UNKNOWN_DELAY_S, "2..10 s")
        return TripReset(UNKNOWN, delay, False, None, None, None, None, pointer)
    reset = reset.as_it_acts
    after_s = reset.after_s
    if after_s is None:
        if reset.how == "automatic":
            after_s = ledger.assume("reset_delay", member_of(pointer, "after"), UNKNOWN_DELAY_S, "2..10 s")
        else:
            after_s = BY_HAND_S
    if reset.how == "automatic" and reset.tries is None:
        ledger.assume("reset_tries", member_of(pointer, "tries"), None, "no end to its tries")
    return TripReset(
        reset.how, after_s, reset.after_s is not None, reset.tries, reset.where, reset.by, reset.needs, pointer
    )
