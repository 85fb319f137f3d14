"""Which values may be stored at all?

PostgreSQL refuses NUL in text and integers past 2**31, SQLite takes both; control characters and bidirectional
overrides make a history say something else than it shows. So all of them stop here, for both databases alike.
"""

import re
import unicodedata

import msgspec

from ampwright.catalogue.faults import BadValue

KINDS = ("tool-profile", "power-source", "cord", "kit", "source-unit")
STATUSES = ("draft", "approved")

LONGEST_SLUG = 80
LONGEST_NAME = 200
LONGEST_WHO = 200
LONGEST_TEXT = 2_000
LONGEST_BODY_BYTES = 1_000_000
LARGEST_REVISION = 1_000_000_000
LARGEST_FORMAT = 10_000
LARGEST_FIGURE = 1e12

SLUG = re.compile(r"[a-z0-9]+(?:[.-][a-z0-9]+)*", re.ASCII)
_CONTROL_BYTE = re.compile(rb"[\x00-\x1f\x7f]")
# Categories: controls, surrogates, unassigned, line and paragraph separators.
_REFUSED_CATEGORIES = frozenset({"Cc", "Cs", "Cn", "Zl", "Zp"})
_BIDIRECTIONAL = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_KEPT_IN_BODIES = frozenset("\n\t")


def bad_characters(text: str, kept: frozenset[str] = frozenset()) -> str:
    """The first character of `text` that must not be stored, as `U+0000`; empty where all are sound."""
    for character in text:
        if character in kept or (character.isascii() and character.isprintable()):
            continue
        if unicodedata.category(character) in _REFUSED_CATEGORIES or character in _BIDIRECTIONAL:
            return f"U+{ord(character):04X}"
    return ""


def checked_kind(kind: str) -> str:
    """`kind`, if it is one of KINDS. Errors: BadValue."""
    if kind not in KINDS:
        raise BadValue("kind", "unknown_kind", f"{kind!r} is none of {', '.join(KINDS)}")
    return kind


def is_slug(slug: str) -> bool:
    """Whether `slug` could name an entry."""
    return len(slug) <= LONGEST_SLUG and SLUG.fullmatch(slug) is not None


def checked_slug(slug: str) -> str:
    """`slug`, if it is one. Errors: BadValue."""
    if not is_slug(slug):
        raise BadValue(
            "slug",
            "bad_slug",
            f"small letters, digits, single '-' and '.' between them, at most {LONGEST_SLUG} characters",
        )
    return slug


def checked_text(field: str, text: str, longest: int = LONGEST_TEXT, *, required: bool = True) -> str:
    """One line of text in NFC without outer blanks. Errors: BadValue (empty, too long, a character that is refused)."""
    text = unicodedata.normalize("NFC", text).strip(" ")
    if required and not text:
        raise BadValue(field, "empty", "must say something")
    if len(text) > longest:
        raise BadValue(field, "too_long", f"at most {longest} characters")
    if bad := bad_characters(text):
        raise BadValue(field, "control_character", f"holds {bad}, which is refused")
    return text


def checked_count(field: str, number: int, largest: int, least: int = 1) -> int:
    """`number`, if it is an integer within the bounds. Errors: BadValue."""
    if isinstance(number, bool) or not isinstance(number, int) or not least <= number <= largest:
        raise BadValue(field, "out_of_range", f"an integer within {least} and {largest}")
    return number


def checked_figure(field: str, figure: float) -> float:
    """`figure` as a float, if it is finite and within the bounds. Errors: BadValue."""
    figure = float(figure)
    if not 0.0 <= figure <= LARGEST_FIGURE:
        raise BadValue(field, "out_of_range", f"a number within 0 and {LARGEST_FIGURE:g}")
    return figure


def checked_body(body: bytes) -> str:
    """The body as text, byte for byte. Errors: BadValue unless it is one JSON object on one line, without characters
    that are refused (line feeds and tabs may stand, escaped, inside its strings)."""
    if len(body) > LONGEST_BODY_BYTES:
        raise BadValue("body", "too_long", f"at most {LONGEST_BODY_BYTES} bytes")
    if _CONTROL_BYTE.search(body):
        raise BadValue("body", "control_character", "holds a control byte: it must be one line of canonical JSON")
    try:
        text = body.decode("utf-8")
        decoded = msgspec.json.decode(body)
    except (UnicodeDecodeError, msgspec.DecodeError, RecursionError) as error:
        raise BadValue("body", "not_json", f"not JSON: {error}") from None
    if not isinstance(decoded, dict):
        raise BadValue("body", "not_an_object", "a document is a JSON object")
    left: list[object] = [decoded]
    while left:
        value = left.pop()
        if isinstance(value, dict):
            left.extend(value)
            left.extend(value.values())
        elif isinstance(value, list):
            left.extend(value)
        elif isinstance(value, str) and (bad := bad_characters(value, _KEPT_IN_BODIES)):
            raise BadValue("body", "control_character", f"holds {bad}, which is refused")
    return text
