"""Do the guides say what is so: links lead somewhere, codes exist, what they show runs?"""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from ampwright.api.guides import FOLDER, ORDER, read_guides
from litestar.testing import TestClient
from service_with_demo import demo_client

TEXTS = {name: (FOLDER / f"{name}.md").read_text("utf-8") for name in ORDER}
CALLS = re.findall(r"^curl .*?(?=\n(?:```|curl))", TEXTS["recipes"], re.MULTILINE | re.DOTALL)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient[Any]]:
    with demo_client(tmp_path_factory.mktemp("guides")) as opened:
        yield opened


@pytest.mark.parametrize("name", ORDER)
def test_guide_is_a_page_and_a_text(client: TestClient[Any], name: str) -> None:
    page = client.get(f"/guides/{name}", headers={"Accept": "text/html"})
    assert page.status_code == 200
    assert "default-src 'none'" in page.headers["content-security-policy"]
    assert "<script" not in page.text
    assert "[drawing" not in page.text
    text = client.get(f"/guides/{name}", headers={"Accept": "text/markdown"})
    assert text.text == TEXTS[name]
    again = client.get(f"/guides/{name}", headers={"Accept": "text/markdown", "If-None-Match": text.headers["etag"]})
    assert again.status_code == 304


def test_links_lead_somewhere(client: TestClient[Any]) -> None:
    pages = [client.get(f"/guides/{name}", headers={"Accept": "text/html"}).text for name in ORDER]
    pages += [client.get(path, headers={"Accept": "text/html"}).text for path in ("/guides", "/docs")]
    links = {link for page in pages for link in re.findall(r'href="([^"]+)"', page) if link != "data:,"}
    assert len(links) > len(ORDER)
    for link in links:
        assert client.get(link, headers={"Accept": "*/*"}).status_code == 200, link


def test_every_drawing_is_used_and_asks_nobody() -> None:
    drawings = {file.stem: file.read_text("utf-8") for file in FOLDER.glob("*.svg")}
    used = {name for text in TEXTS.values() for name in re.findall(r"^\[drawing: ([a-z-]+)\]$", text, re.MULTILINE)}
    assert used == set(drawings)
    for name, drawing in drawings.items():
        assert "aria-label" in drawing, name
        assert "href" not in drawing, name


def test_no_guide_is_a_stranger() -> None:
    assert {file.stem for file in FOLDER.glob("*.md")} == set(ORDER) == set(read_guides())


def test_no_such_guide(client: TestClient[Any]) -> None:
    assert client.get("/guides/nothing").status_code == 404
    assert client.get("/guides/Nothing").status_code == 422
    assert client.get("/guides/units", headers={"Accept": "image/png"}).status_code == 406


@pytest.mark.parametrize("call", CALLS, ids=range(len(CALLS)))
def test_recipes_of_the_shell(client: TestClient[Any], call: str) -> None:
    """Each is carried out as its words say; the shell's own reading of quotes is Python's."""
    words = shlex.split(call)
    [address] = [word for word in words if word.startswith("http://127.0.0.1:8712")]
    path = address.removeprefix("http://127.0.0.1:8712")
    told = [word for option, word in pairwise(words) if option == "-H"]
    headers = dict(one.split(": ", 1) for one in told)
    if "-d" in words:
        assert headers["Content-Type"] == "application/json"
        body = words[words.index("-d") + 1]
        json.loads(body)
        answer = client.post(path, content=body, headers=headers)
    else:
        answer = client.get(path, headers=headers)
    expected = 304 if "If-None-Match" in headers and "-d" not in words else 201 if "why" in call else 200
    assert answer.status_code == expected, answer.text
    if "Accept" in headers:
        assert answer.headers["content-type"].startswith(headers["Accept"])


def test_there_are_recipes_of_both_kinds() -> None:
    assert len(CALLS) >= 5
    assert "```python" in TEXTS["recipes"]


def test_codes_and_units_exist(client: TestClient[Any]) -> None:
    units = client.get("/v1/reference/units").text
    for unit in ("hp", "metric_hp"):
        assert f'"{unit}"' in units
    names = {row["code"] for row in client.get("/problems", headers={"Accept": "application/json"}).json()["items"]}
    assert {"contradictory-request", "not-found"} <= names


def test_statuses_of_the_guide_are_those_of_the_problems(client: TestClient[Any]) -> None:
    rows = re.findall(r"^\| ([0-9, ]+) \|", TEXTS["errors"], re.MULTILINE)
    told = {int(number) for row in rows for number in row.split(",")}
    listed = client.get("/problems", headers={"Accept": "application/json"}).json()["items"]
    assert {row["status"] for row in listed} <= told


def test_files_are_in_the_wheel() -> None:
    assert Path(FOLDER).is_relative_to(Path(__file__).parents[2] / "service" / "ampwright")
