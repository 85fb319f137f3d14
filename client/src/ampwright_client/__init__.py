"""Typed client of the Ampwright service: which tools run on which mobile power source?

`Client` and `AsyncClient` have a method for every operation of the service; `models` are the parts of requests and
answers, `words` the lists of words in them; `load_check`, `tool`, `cord`, `plug` and their like write a site down in
code; `every_row` reads a long answer over breaks. Everything that can go wrong with a call is an `AmpwrightError`.
"""

from ampwright_client._generated import CONTRACT_SHA256, CONTRACT_VERSION, models, words
from ampwright_client._generated.async_client import AsyncClient
from ampwright_client._generated.client import Client
from ampwright_client.building import (
    Plug,
    Plugged,
    battery_station,
    case,
    catalogue_source,
    cord,
    engine_generator,
    load_check,
    plug,
    receptacle,
    site_supply,
    supply,
    tool,
    vehicle,
)
from ampwright_client.calls import CallOptions
from ampwright_client.changes import with_changes
from ampwright_client.errors import (
    AmpwrightError,
    AnsweredNo,
    BadRequest,
    BodyTooLarge,
    BrokenOff,
    Forbidden,
    HeadersTooLarge,
    InvalidRequest,
    MethodNotAllowed,
    NoAnswer,
    NotAcceptable,
    NotFound,
    NotReached,
    NotUnderstood,
    PreconditionFailed,
    PreconditionRequired,
    RequestTimeout,
    ServiceFault,
    TimedOut,
    TooManyRequests,
    Unauthenticated,
    Unavailable,
    UnsupportedMediaType,
)
from ampwright_client.lines import AsyncLines, Lines
from ampwright_client.reading import UnknownMembers, read_request, unknown_members
from ampwright_client.reply import Answer, Reply
from ampwright_client.resuming import AsyncRows, Rows, every_row
from ampwright_client.version import __version__

__all__ = [
    "CONTRACT_SHA256",
    "CONTRACT_VERSION",
    "AmpwrightError",
    "Answer",
    "AnsweredNo",
    "AsyncClient",
    "AsyncLines",
    "AsyncRows",
    "BadRequest",
    "BodyTooLarge",
    "BrokenOff",
    "CallOptions",
    "Client",
    "Forbidden",
    "HeadersTooLarge",
    "InvalidRequest",
    "Lines",
    "MethodNotAllowed",
    "NoAnswer",
    "NotAcceptable",
    "NotFound",
    "NotReached",
    "NotUnderstood",
    "Plug",
    "Plugged",
    "PreconditionFailed",
    "PreconditionRequired",
    "Reply",
    "RequestTimeout",
    "Rows",
    "ServiceFault",
    "TimedOut",
    "TooManyRequests",
    "Unauthenticated",
    "Unavailable",
    "UnknownMembers",
    "UnsupportedMediaType",
    "__version__",
    "battery_station",
    "case",
    "catalogue_source",
    "cord",
    "engine_generator",
    "every_row",
    "load_check",
    "models",
    "plug",
    "read_request",
    "receptacle",
    "site_supply",
    "supply",
    "tool",
    "unknown_members",
    "vehicle",
    "with_changes",
    "words",
]
