"""What is told of an entry that is not there? Which one was probably meant."""

from collections.abc import Iterator
from contextlib import contextmanager

from msgspec import UNSET

from ampwright.api.operations import Call
from ampwright.api.problems import ProblemError, ProblemFault
from ampwright.catalogue.faults import NoSuchEntry, NoSuchRevision
from ampwright.catalogue.neighbours import neighbours
from ampwright.engine.site.nearest import nearest, shown


def no_such_entry(call: Call, kind: str, entry: str, revision: int | None = None) -> ProblemError:
    """404 for an entry, or a revision of it, that is not there; names the nearest key where one is near."""
    known = neighbours(call.services.database, kind, entry)
    if entry in known and revision is not None:
        return ProblemError("no-such-entry", f"{entry} has no revision {revision}.")
    near = nearest(entry, known)
    what = kind.replace("-", " ")
    message = f"There is no {what} {shown(entry)}" + (f"; {near} is near." if near else ".")
    fault = ProblemFault(code="unknown_entry", message=message, parameter="entry", did_you_mean=near or UNSET)
    return ProblemError("no-such-entry", message, errors=[fault])


@contextmanager
def told_if_missing(call: Call, kind: str, entry: str, revision_at: str = "") -> Iterator[None]:
    """Raises ProblemError "no-such-entry" where what is done inside finds no such entry.

    revision_at : where the body names a revision, which may be missing too.
    """
    try:
        yield
    except NoSuchEntry:
        raise no_such_entry(call, kind, entry) from None
    except NoSuchRevision as absent:
        if not revision_at:
            raise
        fault = ProblemFault(code="unknown_revision", message=f"There is {absent}.", pointer=revision_at)
        raise ProblemError("no-such-entry", fault.message, errors=[fault]) from None
