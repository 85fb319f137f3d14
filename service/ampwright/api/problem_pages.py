"""What does this type of problem mean, and what can be done about it?

The ``type`` of every problem is the address of one of these pages: HTML for a person, JSON where a program asks.
"""

from __future__ import annotations

from html import escape
from typing import Annotated

from msgspec import Meta, Struct

from ampwright.api.operations import Operations, Reply
from ampwright.api.problems import PROBLEM_TYPES, ProblemError, ProblemType

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"
_STYLE = "body{font:1rem/1.5 system-ui,sans-serif;max-width:42rem;margin:2rem auto;padding:0 1rem}code{font-size:.95em}"


class ProblemTypePage(Struct, kw_only=True):
    """A type of problem, explained."""

    code: Annotated[str, Meta(description="Last step of the problem's type address.")]
    type: Annotated[str, Meta(description="Address of this page.")]
    title: str
    status: Annotated[int, Meta(ge=400, le=599)]
    meaning: Annotated[str, Meta(description="When this problem arises.")]
    what_to_do: Annotated[str, Meta(description="What a caller can do about it.")]


class ProblemTypeList(Struct, kw_only=True):
    """All types of problem, sorted by status and code."""

    items: list[ProblemTypePage]


class ProblemTypePath(Struct):
    """Which type."""

    code: Annotated[str, Meta(pattern=r"^[a-z][a-z-]{1,40}$", description="Code of the problem type.")]


def _page(kind: ProblemType) -> ProblemTypePage:
    return ProblemTypePage(
        code=kind.code,
        type=kind.address,
        title=kind.title,
        status=kind.status,
        meaning=kind.meaning,
        what_to_do=kind.what_to_do,
    )


def _html(title: str, body: str) -> str:
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
        f"<style>{_STYLE}</style></head><body><h1>{escape(title)}</h1>{body}</body></html>\n"
    )


def _html_page(page: ProblemTypePage) -> str:
    return _html(
        page.title,
        f"<p>Status {page.status}, code <code>{escape(page.code)}</code></p><p>{escape(page.meaning)}</p>"
        f'<h2>What to do</h2><p>{escape(page.what_to_do)}</p><p><a href="/problems">All types of problem</a></p>',
    )


def _html_list(pages: ProblemTypeList) -> str:
    rows = "".join(
        f'<li>{page.status} <a href="{escape(page.type)}">{escape(page.title)}</a></li>' for page in pages.items
    )
    return _html("Types of problem", f"<ul>{rows}</ul>")


operations = Operations("Problems", "What the types of problem mean (RFC 9457).")


@operations.get("/problems", "list_problem_types", renderings={"text/html": _html_list})
async def list_problem_types() -> Reply[ProblemTypeList]:
    """List the types of problem.

    Each with its status, what it means and what a caller can do about it; as a page for people where HTML is asked for.
    """
    kinds = sorted(PROBLEM_TYPES.values(), key=lambda kind: (kind.status, kind.code))
    return Reply(ProblemTypeList(items=[_page(kind) for kind in kinds]), headers={"Content-Security-Policy": _POLICY})


@operations.get("/problems/{code}", "get_problem_type", renderings={"text/html": _html_page}, problems=("not-found",))
async def get_problem_type(path: ProblemTypePath) -> Reply[ProblemTypePage]:
    """Explain a type of problem.

    The address that a problem names in `type`: what it means and what a caller can do about it.
    """
    kind = PROBLEM_TYPES.get(path.code)
    if kind is None:
        raise ProblemError("not-found", f"There is no type of problem {path.code!r}; /problems lists them.")
    return Reply(_page(kind), headers={"Content-Security-Policy": _POLICY})
