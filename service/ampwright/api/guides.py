"""Where does an integrator read how to ask, and how to read an answer?

``/guides`` lists the guides, ``/guides/{name}`` is one: HTML for a person, Markdown where a program asks. They are
written in ``assets/guides``, one file each, with drawings of our own beside them; everything comes from this process.
"""

from __future__ import annotations

import re
from html import escape
from pathlib import Path
from typing import Annotated

from markdown_it import MarkdownIt
from msgspec import Meta, Struct

from ampwright.api.docs import entity_tag_of
from ampwright.api.negotiation import choose
from ampwright.api.operations import Call, Operations, Reply
from ampwright.api.problems import ProblemError

FOLDER = Path(__file__).parent / "assets" / "guides"
ORDER = ("concepts", "units", "reading-an-answer", "safety", "errors", "recipes", "versions")
HTML, MARKDOWN = "text/html", "text/markdown"
_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_STYLE = """
:root{color-scheme:light dark}
body{font:1rem/1.55 system-ui,sans-serif;max-width:46rem;margin:0 auto;padding:1rem}
nav{border-bottom:1px solid;padding-bottom:.5rem;margin-bottom:1rem}nav a{margin-right:.9rem;white-space:nowrap}
code{font-size:.93em}pre{overflow-x:auto;padding:.7rem;border:1px solid #8886;border-radius:4px}
table{border-collapse:collapse;display:block;overflow-x:auto}th,td{border:1px solid #8886;
padding:.25rem .6rem;vertical-align:top;text-align:left}svg{max-width:100%;height:auto;color:inherit}
"""


class GuidePath(Struct):
    """Which guide."""

    name: Annotated[str, Meta(pattern=r"^[a-z][a-z-]{1,40}$", description="Name of the guide.")]


class Guide(Struct, frozen=True):
    """One guide, as text and as page."""

    name: str
    title: str
    markdown: bytes
    html: bytes


def read_guides(folder: Path = FOLDER) -> dict[str, Guide]:
    """All guides in their order. Errors: FileNotFoundError for one that is not there."""
    texts = {name: (folder / f"{name}.md").read_text("utf-8") for name in ORDER}
    titles = {name: text.partition("\n")[0].removeprefix("# ") for name, text in texts.items()}
    links = "".join(f'<a href="/guides/{name}">{escape(title)}</a> ' for name, title in titles.items())
    return {
        name: Guide(name, titles[name], text.encode(), _page(titles[name], links, _rendered(text, folder)))
        for name, text in texts.items()
    }


def _rendered(text: str, folder: Path) -> str:
    # Markup in the text is shown as text: a guide is written by us, and still gets no say over the page.
    html = MarkdownIt("commonmark", {"html": False}).enable("table").render(text)

    def drawn(found: re.Match[str]) -> str:
        return (folder / f"{found.group(1)}.svg").read_text("utf-8")

    return re.sub(r"<p>\[drawing: ([a-z-]+)\]</p>", drawn, html)


def _page(title: str, links: str, body: str) -> bytes:
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f'<title>{escape(title)}</title><link rel="icon" href="data:,"><style>{_STYLE}</style></head>'
        f'<body><nav>{links}<a href="/docs">Reference</a></nav>{body}</body></html>\n'
    ).encode()


def guide_operations() -> Operations:
    """``/guides`` and what is below it."""
    operations = Operations("Guides")
    guides = read_guides()
    rows = "".join(f'<li><a href="/guides/{one.name}">{escape(one.title)}</a></li>' for one in guides.values())
    listed = Guide(
        "",
        "Guides",
        "".join(f"- [{one.title}](/guides/{one.name})\n" for one in guides.values()).encode(),
        _page("Guides", "", f"<h1>Guides</h1><ul>{rows}</ul>"),
    )

    @operations.get("/guides", "list_guides", documented=False, sends=(HTML, MARKDOWN))
    async def index(call: Call) -> Reply[bytes]:
        """List the guides."""
        return _reply(listed, call)

    @operations.get("/guides/{name}", "get_guide", documented=False, entity_tag=True, sends=(HTML, MARKDOWN))
    async def guide(path: GuidePath, call: Call) -> Reply[bytes]:
        """Give one guide."""
        if path.name not in guides:
            raise ProblemError("not-found", f"There is no guide {path.name!r}; /guides lists them.")
        return _reply(guides[path.name], call)

    return operations


def _reply(guide: Guide, call: Call) -> Reply[bytes]:
    media_type = choose(call.request.headers.get("accept"), (HTML, MARKDOWN))
    content = guide.html if media_type == HTML else guide.markdown
    headers = {"Content-Security-Policy": _POLICY, "Cache-Control": "no-cache", "Vary": "Accept"}
    return Reply(content, media_type=media_type, entity_tag=entity_tag_of(content), headers=headers)
