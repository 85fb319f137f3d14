"""Does a real browser show the reference page, try an operation on it, and ask nobody else?"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from ampwright.app import create_app
from ampwright.settings import Settings
from api.conftest import RunningServer
from api.webdriver import BROWSER, DRIVER, Page, browser
from service_with_demo import demo_database

pytestmark = pytest.mark.skipif(not (BROWSER and DRIVER), reason="no Chromium with its driver on this machine")


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    folder: Path = tmp_path_factory.mktemp("browsed")
    url = demo_database(f"sqlite:///{folder / 'demo.db'}")
    with RunningServer(create_app(Settings(database_url=url))) as server:
        yield server.address


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    with browser(tmp_path_factory.mktemp("profile")) as opened:
        yield opened


ASKED = "return performance.getEntriesByType('resource').map(one => one.name)"


def test_an_operation_is_tried_out(page: Page, address: str) -> None:
    page.open(f"{address}/docs")
    block = "[id$='-check_load']"
    page.wait_for(f'return document.querySelector("{block} .opblock-summary-control") !== null')
    page.click(f"{block} .opblock-summary-control")
    page.wait_for(f'return document.querySelector("{block} .execute") !== null')
    page.click(f"{block} .execute")
    status = page.wait_for(
        f'return document.querySelector("{block} .live-responses-table tr.response .response-col_status")?.textContent'
        ".match(/[0-9]+/)?.[0]"
    )
    assert status == "200"
    asked = page.run(ASKED)
    assert f"{address}/v1/load-checks" in asked
    assert [one for one in asked if not one.startswith((address, "data:", "blob:"))] == []
    assert page.complaints() == []


@pytest.mark.parametrize("path", ["/guides", "/guides/concepts", "/guides/reading-an-answer", "/problems"])
def test_pages_for_people(page: Page, address: str, path: str) -> None:
    page.open(f"{address}{path}")
    assert page.run("return document.querySelector('h1').textContent")
    assert page.run(ASKED) == []
    assert page.complaints() == []
    overflow = page.run("return document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert overflow <= 0
