"""How does a test drive a real browser?

By the W3C WebDriver protocol, which is JSON over HTTP to the browser's driver.
"""

from __future__ import annotations

import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import httpx

BROWSER, DRIVER = shutil.which("chromium") or shutil.which("chromium-browser"), shutil.which("chromedriver")
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # W3C WebDriver, 11.1: the key of an element reference


class Page:
    """One window of a browser."""

    def __init__(self, http: httpx.Client, session: str) -> None:
        self._http, self._session = http, session

    def _ask(self, path: str, **members: Any) -> Any:
        answer = self._http.post(f"/session/{self._session}/{path}", json=members)
        assert answer.status_code == 200, answer.text
        return answer.json()["value"]

    def open(self, address: str) -> None:
        """Go to an address and wait until it is loaded."""
        self._ask("url", url=address)

    def run(self, script: str, *arguments: object) -> Any:
        """What a script in the page returns."""
        return self._ask("execute/sync", script=script, args=list(arguments))

    def click(self, selector: str) -> None:
        """Click where a person would; an element that is hidden or covered fails."""
        element = self._ask("element", using="css selector", value=selector)[ELEMENT]
        self.run("arguments[0].scrollIntoView({block: 'center'})", {ELEMENT: element})
        self._ask(f"element/{element}/click")

    def wait_for(self, script: str, *, seconds: float = 30.0) -> Any:
        """What a script returns as soon as it is something."""
        deadline = time.monotonic() + seconds
        while time.monotonic() < deadline:
            if found := self.run(script):
                return found
            time.sleep(0.1)
        raise AssertionError(f"never true in the page: {script}")

    def complaints(self) -> list[str]:
        """What the browser's console holds against the page."""
        return [line["message"] for line in self._ask("se/log", type="browser")]


@contextmanager
def browser(folder: Path) -> Iterator[Page]:
    """A browser with no profile that ends with the test."""
    assert BROWSER
    assert DRIVER
    with socket.create_server(("127.0.0.1", 0)) as reserved:
        port = reserved.getsockname()[1]
    driver = subprocess.Popen([DRIVER, f"--port={port}"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        with httpx.Client(base_url=f"http://127.0.0.1:{port}", trust_env=False, timeout=60) as http:
            _wait_until_up(http)
            arguments = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                         f"--user-data-dir={folder}", "--window-size=1200,1400"]  # fmt: skip
            wanted = {
                "goog:chromeOptions": {"binary": BROWSER, "args": arguments},
                "goog:loggingPrefs": {"browser": "ALL"},
            }
            made = http.post("/session", json={"capabilities": {"alwaysMatch": wanted}})
            assert made.status_code == 200, made.text
            session = made.json()["value"]["sessionId"]
            try:
                yield Page(http, session)
            finally:
                http.delete(f"/session/{session}")
    finally:
        driver.terminate()
        driver.wait(20)


def _wait_until_up(http: httpx.Client) -> None:
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        try:
            if http.get("/status").json()["value"]["ready"]:
                return
        except httpx.TransportError:
            time.sleep(0.05)
    raise AssertionError("the browser's driver did not start")
