"""What does the service around the engine cost, and how long does a worker take to be ready?

A server on loopback and, beside it, one that gives back the body it was sent, both of one process and of the same
make; one connection to each, one request after another, so that nothing queues. A worker is ready when `/readyz` says
so; its kernels are then in their cache, because the server was started once before.
"""

from __future__ import annotations

import http.client
import os
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager

import msgspec

from ampwright.bench.measured import Row, middle_s, process_s, resident_mb
from ampwright.bench.sites import request

READY_TIMEOUT_S = 180.0
STOP_TIMEOUT_S = 30.0
_SERVICE = "import sys; from ampwright.bench.service_rows import serve_service; serve_service(int(sys.argv[1]))"
_ECHO = "import sys; from ampwright.bench.service_rows import serve_echo; serve_echo(int(sys.argv[1]))"


async def echo(scope: dict[str, object], receive: object, send: object) -> None:
    """An application that answers a request with its own body."""
    if scope["type"] != "http":
        return
    body, more = b"", True
    while more:
        message = await receive()  # type: ignore[operator]
        body += message.get("body", b"")
        more = message.get("more_body", False)
    headers = [(b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": 200, "headers": headers})  # type: ignore[operator]
    await send({"type": "http.response.body", "body": body})  # type: ignore[operator]


def serve_echo(port: int) -> None:
    """The echo as a server, until it is stopped."""
    _serve(echo, port, factory=False)


def serve_service(port: int) -> None:
    """One worker of the service, until it is stopped."""
    _serve("ampwright.worker:make_app", port, factory=True)


def _serve(application: object, port: int, *, factory: bool) -> None:
    import uvicorn

    uvicorn.run(
        application,  # type: ignore[arg-type]
        factory=factory,
        host="127.0.0.1",
        port=port,
        http="httptools",
        loop="uvloop" if sys.platform != "win32" else "asyncio",
        ws="none",
        lifespan="on" if factory else "off",
        access_log=False,
        log_level="critical",
    )


def service_rows(*, quick: bool) -> Iterator[Row]:
    """A worker's start and memory, and a load check over HTTP against an echo of the same body."""
    from ampwright.catalogue.database import Database
    from ampwright.catalogue.demo_data import load_demo
    from ampwright.catalogue.migrate import upgrade
    from ampwright.studies.catalogue_writing import load_demo_catalogue

    times = 30 if quick else 200
    with tempfile.TemporaryDirectory(prefix="ampwright-bench-") as folder:
        url = f"sqlite:///{folder}/bench.db"
        upgrade(url)
        database = Database.at(url)
        try:
            load_demo_catalogue(database, load_demo())
        finally:
            database.close()
        environment = {**os.environ, "AMPWRIGHT_DATABASE_URL": url}
        with _started(_SERVICE, environment, "/readyz"):
            pass  # the kernels are in their cache now
        with _started(_SERVICE, environment, "/readyz") as (port, ready_s, process):
            used = f"{process_s(process.pid):.1f} s of a core"
            yield Row("one worker, start to ready, kernels in their cache", ready_s, "s", used)
            yield Row("  its memory then", resident_mb(process.pid), "MB")
            with _started(_ECHO, environment, "/") as (echo_port, _, echo_process):
                for tools in (2, 8):
                    body = msgspec.json.encode(request(tools))
                    echoed, echo_s = _requests_s(echo_port, echo_process.pid, "/", body, 5 * times)
                    answered, own_s = _requests_s(port, process.pid, "/v1/load-checks", body, times)
                    beside = f"{answered * 1e3:.2f} ms against {echoed * 1e3:.2f} ms"
                    yield Row(f"POST /v1/load-checks, {tools} tools, against an echo", echoed / answered, "x", beside)
                    beside = f"{own_s * 1e3:.2f} ms against {echo_s * 1e3:.2f} ms"
                    yield Row("  by processor time of the two servers", echo_s / own_s, "x", beside)
            yield Row("  its memory after that", resident_mb(process.pid), "MB")


def _requests_s(port: int, process: int, path: str, body: bytes, times: int) -> tuple[float, float]:
    """[s] of one request over one connection: the middle one by the clock, and the server's processor time of each."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)

    def ask() -> None:
        connection.request("POST", path, body, {"Content-Type": "application/json"})
        answer = connection.getresponse()
        answer.read()
        if answer.status != 200:
            raise AssertionError(f"{path} answered {answer.status}")

    try:
        for _ in range(3):
            ask()
        before = process_s(process)
        taken = middle_s(ask, times)
        return taken, (process_s(process) - before) / times
    finally:
        connection.close()


@contextmanager
def _started(code: str, environment: dict[str, str], path: str) -> Iterator[tuple[int, float, subprocess.Popen[bytes]]]:
    """A server as a process of its own: its port, the seconds until it answered, the process; stopped at the end."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = int(taken.getsockname()[1])
    start = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-c", code, str(port)], env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    try:
        while not _answers(f"http://127.0.0.1:{port}{path}"):
            if process.poll() is not None:
                raise AssertionError(f"a server stopped with status {process.returncode}")
            if time.perf_counter() - start > READY_TIMEOUT_S:
                raise AssertionError("a server was not ready in time")
            time.sleep(0.02)
        yield port, time.perf_counter() - start, process
    finally:
        process.terminate()
        try:
            process.wait(STOP_TIMEOUT_S)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()


def _answers(address: str) -> bool:
    try:
        with urllib.request.urlopen(address, timeout=2) as answer:
            return bool(answer.status == 200)
    except (urllib.error.URLError, OSError):
        return False
