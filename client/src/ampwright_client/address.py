"""Where is the service, and with which key is it asked?"""

from __future__ import annotations

import os
from urllib.parse import urlsplit

__all__ = ["DEFAULT_URL", "key_of", "url_of"]

DEFAULT_URL = "http://127.0.0.1:8712"
_LONGEST_KEY = 512


def url_of(given: str | None) -> str:
    """The address: as given, or of AMPWRIGHT_CLIENT_URL, or of a service on this machine.

    Raises ValueError for anything that is no address of HTTP, and for one that holds a password: it would be logged.
    """
    url = (given or os.environ.get("AMPWRIGHT_CLIENT_URL") or DEFAULT_URL).rstrip("/")
    scheme, separator, rest = url.partition("://")
    if scheme not in ("http", "https") or not separator or not _is_authority(url):
        raise ValueError(f"{url!r} is no address of a service; write it like {DEFAULT_URL}")
    if "@" in rest or "?" in rest or "#" in rest:
        raise ValueError("the address of a service has no user, query or fragment; a key goes into `key`")
    return url


def _is_authority(url: str) -> bool:
    """Whether a host is named and its port, where there is one, is that of TCP."""
    try:
        parts = urlsplit(url)
        return bool(parts.hostname) and parts.port != 0 and not any(one.isspace() for one in url)
    except ValueError:
        return False


def key_of(given: str | None) -> str | None:
    """The access key: as given, or of AMPWRIGHT_CLIENT_KEY, or none. Raises ValueError for what cannot be a key."""
    key = given or os.environ.get("AMPWRIGHT_CLIENT_KEY") or None
    if key is not None and not (key.isascii() and key.isprintable() and " " not in key and len(key) <= _LONGEST_KEY):
        raise ValueError("an access key is one word of ASCII")  # and is not shown
    return key
