"""What does the whole service look like at work, in one minute and on one screen?

Makes a database in a temporary folder, loads the invented demo catalogue, starts the server as a process on loopback,
posts load checks through the client, prints what a crew lead would read, and stops the server.
"""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import tempfile
import textwrap
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any

WIDTH = 88
SHOWN = (
    ("j1-shelter-frame-truck-flatbed", "Timber shelter, flatbed work truck"),
    ("j1-shelter-frame-van-panel", "The same job, panel van"),
    ("j4-night-leak-gen-frame-6k", "Pumping out a chamber at night, open-frame engine generator"),
)
MOST_FINDINGS = 4
START_TIMEOUT_S = 600.0  # the first start on a machine compiles the kernels; a busy one takes minutes


def run_demo(stay_on_port: int | None = None) -> int:
    """Run it; the exit status is 0 when every check was answered.

    stay_on_port : answer on this port, and go on until interrupted, so that recipes can be tried; None stops at once.
    """
    try:
        from ampwright_client import Client
    except ImportError:
        print("ampwright: the demo asks through the client; install it as well: pip install ./client", file=sys.stderr)
        return 2
    from ampwright.catalogue.database import Database
    from ampwright.catalogue.demo_data import demo_requests, load_demo
    from ampwright.catalogue.migrate import upgrade
    from ampwright.studies.catalogue_writing import load_demo_catalogue

    with tempfile.TemporaryDirectory(prefix="ampwright-demo-") as folder:
        url = f"sqlite:///{folder}/demo.db"
        upgrade(url)
        database = Database.at(url)
        try:
            release = load_demo_catalogue(database, load_demo())
        finally:
            database.close()
        print(
            f"Catalogue: {release.member_count} invented entries, release {release.number}. Starting the service "
            "(the first start on a machine compiles for a minute or more) ...",
            flush=True,
        )
        with _server(url, stay_on_port) as address:
            with Client(address) as client:
                for name, title in SHOWN:
                    _show(title, client.check_load(_request(demo_requests()[name])))
            print(
                f"Each answer also holds every figure behind it; the reference page is at {address}/docs while it runs."
            )
            if stay_on_port is not None:
                print(f"Answering at {address} with the demo catalogue, until Ctrl+C.", flush=True)
                signal.signal(
                    signal.SIGTERM, signal.default_int_handler
                )  # stopped either way, it leaves nothing behind
                with suppress(KeyboardInterrupt):
                    threading.Event().wait()
    return 0


def _request(body: bytes) -> Any:
    import msgspec
    from ampwright_client import models

    return msgspec.json.decode(body, type=models.LoadCheckRequest)


def _show(title: str, answer: Any) -> None:
    verdict = answer.verdict
    print()
    print(f"{title.upper()}  --  {verdict.overall.upper()}")
    print(f"  holds: {verdict.capacity}   safe: {verdict.safety}   by the rules: {verdict.code}")
    for line in answer.crew_card:
        print(textwrap.fill(line.text, WIDTH, initial_indent="  > ", subsequent_indent="    "))
    for finding in answer.findings[:MOST_FINDINGS]:
        text = f"{finding.severity}: {finding.text}"
        print(textwrap.fill(text, WIDTH, initial_indent="    ", subsequent_indent="      "))
    left = len(answer.findings) - MOST_FINDINGS
    if left > 0:
        print(f"    and {left} more findings")
    if answer.not_assessed:
        print(f"  not assessed: {', '.join(answer.not_assessed)}")


@contextmanager
def _server(database_url: str, port: int | None) -> Iterator[str]:
    """The service as a process on loopback, on a free port for None, ready to answer; stopped at the end."""
    if port is None:
        with socket.create_server(("127.0.0.1", 0)) as taken:
            port = taken.getsockname()[1]
    environment = {**os.environ, "AMPWRIGHT_DATABASE_URL": database_url, "AMPWRIGHT_WORKERS": "1"}
    process = subprocess.Popen(
        [sys.executable, "-m", "ampwright", "serve", "--host", "127.0.0.1", "--port", str(port)],
        env=environment,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    address = f"http://127.0.0.1:{port}"
    try:
        _wait_until_ready(address, process)
        yield address
    finally:
        process.terminate()
        try:
            process.wait(30)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()


def _wait_until_ready(address: str, process: subprocess.Popen[bytes]) -> None:
    import time
    import urllib.error
    import urllib.request

    reason = "it does not listen"
    deadline = time.monotonic() + START_TIMEOUT_S
    while time.monotonic() < deadline:
        if process.poll() is not None:
            raise SystemExit(f"ampwright: the server stopped with status {process.returncode}")
        try:
            with urllib.request.urlopen(f"{address}/readyz", timeout=2) as answer:
                if answer.status == 200:
                    return
        except urllib.error.HTTPError as answered:
            reason = answered.read(2000).decode(errors="replace")
        except (urllib.error.URLError, OSError):
            pass
        time.sleep(0.2)
    raise SystemExit(f"ampwright: the server was not ready in {START_TIMEOUT_S:.0f} s: {reason}")
