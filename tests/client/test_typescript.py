"""Does the document serve other languages: can TypeScript's tools make a client of it that type-checks and calls?

Nothing of it is shipped. Runs where Node is and its packages can be had; elsewhere it says why not.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent / "typescript"
DOCUMENT = Path(__file__).parents[2] / "openapi" / "ampwright-v1.json"


def test_a_client_made_by_other_tools(service: str, tmp_path: Path) -> None:
    node, npm, npx = (shutil.which(name) for name in ("node", "npm", "npx"))
    if not (node and npm and npx):
        pytest.skip("no Node on this machine")
    folder = shutil.copytree(HERE, tmp_path / "typescript")
    # no lock file: it would name the registry of whoever wrote it
    install = [npm, "install", "--no-package-lock", "--no-audit", "--no-fund", "--silent", "--ignore-scripts"]
    try:
        subprocess.run(install, cwd=folder, check=True, capture_output=True, timeout=180)
    except (subprocess.CalledProcessError, subprocess.TimeoutExpired):
        pytest.skip("Node's packages cannot be had here")

    def run(*command: str) -> str:
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=180, check=False)
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    run(npx, "--no-install", "openapi-typescript", str(DOCUMENT), "-o", "ampwright.d.ts")
    run(npx, "--no-install", "tsc")
    first, refused = run(node, "out/call.js", service).splitlines()
    status, verdict, line = first.split(" ", 2)
    assert status == "200"
    assert verdict in ("pass", "marginal", "unknown", "fail")
    assert line != "undefined"
    assert refused == "422 /source/voltage"
