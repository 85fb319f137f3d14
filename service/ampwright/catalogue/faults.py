"""What can go wrong in the catalogue, and which part of the input is to blame?

CatalogueError
    BadValue             a value that no database may be given (pointer-like `field`, `code`, `message`)
    NoSuchEntry          no entry of that kind and slug
    NoSuchRevision       the entry has no such revision
    NoSuchRelease        no release of that number
    HeadMoved            the writer did not start from the head (`head`; 0 where there is none)
    Conflict             a history brought in contradicts the one that is here
    LackingRelease       a release's members refer to what it does not hold (releases.py)
    DatabaseUnavailable  try again later
        NotMigrated      the database's tables are not those of this version
    UnflushedDatabase    the server acknowledges writes before they are on disk
"""


class CatalogueError(Exception):
    """Base of everything the catalogue raises on purpose."""


class BadValue(CatalogueError, ValueError):
    """A value that must not be stored. `field` names the argument, `code` is stable, `message` is for a person."""

    def __init__(self, field: str, code: str, message: str) -> None:
        super().__init__(f"{field}: {message}")
        self.field = field
        self.code = code
        self.message = message


class NoSuchEntry(CatalogueError, LookupError):
    """There is no entry of this kind and slug."""

    def __init__(self, kind: str, slug: str) -> None:
        super().__init__(f"no {kind} {slug!r}")
        self.kind = kind
        self.slug = slug


class NoSuchRevision(CatalogueError, LookupError):
    """The entry has no such revision (or does not exist)."""

    def __init__(self, kind: str, slug: str, revision: int) -> None:
        super().__init__(f"no revision {revision} of {kind} {slug!r}")
        self.kind = kind
        self.slug = slug
        self.revision = revision


class NoSuchRelease(CatalogueError, LookupError):
    """There is no release of this number; `pointer` is where a body names it, None elsewhere."""

    def __init__(self, number: int, pointer: str | None = None) -> None:
        super().__init__(f"no catalogue release {number}")
        self.number = number
        self.pointer = pointer


class HeadMoved(CatalogueError):
    """The write was based on a revision that is not the head. `head` is 0 where the entry does not exist."""

    def __init__(self, kind: str, slug: str, head: int, head_sha256: str) -> None:
        super().__init__(f"the head of {kind} {slug!r} is revision {head}")
        self.kind = kind
        self.slug = slug
        self.head = head
        self.head_sha256 = head_sha256


class Conflict(CatalogueError):
    """An import contradicts what is stored, or itself. `line` counts from 1; 0 where no one line is to blame."""

    def __init__(self, line: int, message: str) -> None:
        super().__init__(f"line {line}: {message}" if line else message)
        self.line = line
        self.message = message


class DatabaseUnavailable(CatalogueError):
    """The database did not answer, or was busy for too long. Nothing is known to be wrong with the request."""


class NotMigrated(DatabaseUnavailable):
    """The tables are missing or of another version: run `ampwright migrate`."""


class UnflushedDatabase(CatalogueError):
    """The server may lose writes that it has acknowledged."""
