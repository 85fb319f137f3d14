"""Does the reference page work with no internet?"""

from __future__ import annotations

import hashlib
import re
from html.parser import HTMLParser

from ampwright.api.docs import ASSETS
from litestar.testing import TestClient

README = (ASSETS / "swagger-ui" / "README.md").read_text()


class Loaded(HTMLParser):
    """Everything that a browser would fetch for the page, and inline scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []
        self.inline: list[str] = []
        self._script = False

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        found = dict(attributes)
        if tag != "a":
            self.addresses += [found[name] or "" for name in ("src", "href", "action", "data") if name in found]
        self._script = tag == "script"
        self.inline += [name for name in found if name.startswith("on")]

    def handle_data(self, data: str) -> None:
        if self._script and data.strip():
            self.inline.append(data)

    def handle_endtag(self, tag: str) -> None:
        self._script = False


def test_page_loads_only_from_this_service(client: TestClient) -> None:
    page = client.get("/docs", headers={"accept": "text/html"})
    assert page.headers["content-type"] == "text/html; charset=utf-8"
    loaded = Loaded()
    loaded.feed(page.text)
    assert len(loaded.addresses) >= 4
    assert loaded.inline == []
    for address in loaded.addresses:
        assert address.startswith("/") or address == "data:,", address
        assert not address.startswith("//")
        if address.startswith("/"):
            assert client.get(address).status_code == 200, address
    assert "://" not in page.text


def test_policy_lets_nothing_else_be_loaded(client: TestClient) -> None:
    policy = client.get("/docs", headers={"accept": "text/html"}).headers["content-security-policy"]
    directives = {one.split()[0]: one.split()[1:] for one in policy.split(";")}
    assert directives["default-src"] == ["'none'"]
    assert directives["script-src"] == directives["connect-src"] == ["'self'"]
    sources = {source for values in directives.values() for source in values}
    assert sources <= {"'none'", "'self'", "'unsafe-inline'", "data:"}
    assert "'unsafe-inline'" not in directives["script-src"]


def test_start_script_calls_nobody(client: TestClient) -> None:
    script = client.get("/docs/assets/docs.js").text
    assert "validatorUrl: null" in script
    assert 'url: "/openapi.json"' in script
    assert "://" not in script


def test_style_fetches_nothing(client: TestClient) -> None:
    style = client.get("/docs/assets/swagger-ui.css").text
    assert re.findall(r"""url\(\s*["']?(?!data:|["']?data:)[^)]{0,40}""", style) == []
    assert "@import" not in style


def test_scripts_are_those_that_were_published(client: TestClient) -> None:
    """The hashes in the README are of the files of the npm package."""
    hashes = dict(re.findall(r"^\| (\S+) \| ([0-9a-f]{64}) \|$", README, re.MULTILINE))
    assert sorted(hashes) == ["swagger-ui-bundle.js", "swagger-ui.css"]
    for name, published in hashes.items():
        for encoding in ("gzip", "identity"):
            response = client.get(f"/docs/assets/{name}", headers={"accept-encoding": encoding})
            assert response.headers.get("content-encoding", "identity") == encoding
            assert hashlib.sha256(response.content).hexdigest() == published
            again = client.get(
                f"/docs/assets/{name}",
                headers={"accept-encoding": encoding, "if-none-match": response.headers["etag"]},
            )
            assert again.status_code == 304
    for text in ("LICENSE", "NOTICE", "swagger-ui-bundle.js.LICENSE.txt"):
        assert (ASSETS / "swagger-ui" / text).stat().st_size > 0


def test_asset_folder_is_not_open(client: TestClient) -> None:
    for name in ("..%2fdocs.py", "swagger-ui%2fLICENSE", "swagger-ui-bundle.js.gz", "%00"):
        assert client.get(f"/docs/assets/{name}").status_code in (404, 422)


def test_root_leads_to_the_page(client: TestClient) -> None:
    response = client.get("/", follow_redirects=False)
    assert response.status_code == 307
    assert response.headers["location"] == "/docs"
