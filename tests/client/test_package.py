"""Is the package what it says: light, typed, whole, and made from this contract?"""

from __future__ import annotations

import hashlib
import io
import json
import subprocess
import sys
import tomllib
import zipfile
from importlib import resources
from pathlib import Path

import ampwright_client
import pytest

ROOT = Path(__file__).resolve().parents[2]


def test_made_from_the_stored_contract() -> None:
    contract = (ROOT / "openapi" / "ampwright-v1.json").read_bytes()
    assert hashlib.sha256(contract).hexdigest() == ampwright_client.CONTRACT_SHA256
    assert json.loads(contract)["info"]["version"] == ampwright_client.CONTRACT_VERSION


def test_version_is_said_once() -> None:
    told = tomllib.loads((ROOT / "client" / "pyproject.toml").read_text())["project"]
    assert told["version"] == ampwright_client.__version__
    assert f"## {ampwright_client.__version__}" in (ROOT / "client" / "CHANGELOG.md").read_text()
    assert sorted(one.split(">")[0] for one in told["dependencies"]) == ["httpx2", "msgspec"]


@pytest.mark.parametrize(
    "module", [ampwright_client, ampwright_client.models, ampwright_client.words], ids=lambda module: module.__name__
)
def test_public_names_are_listed(module: object) -> None:
    listed = module.__all__  # type: ignore[attr-defined]
    assert len(set(listed)) == len(listed)
    assert all(hasattr(module, name) for name in listed)
    kinds = {name for name, value in vars(module).items() if isinstance(value, type) and not name.startswith("_")}
    own = {name for name in kinds if vars(module)[name].__module__.startswith("ampwright_client")}
    assert own - {"Answer"} <= set(listed)


def test_typed() -> None:
    assert (resources.files(ampwright_client) / "py.typed").is_file()


def test_the_wheel_stays_small() -> None:
    """What a wheel holds, packed as one is; `client/checks/measure.py` builds the real one, bounded by 100 kB."""
    client = ROOT / "client"
    files = [*sorted((client / "src").rglob("*.py*")), client / "LICENSE", client / "README.md"]
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as wheel:
        for file in files:
            if "__pycache__" not in file.parts:
                wheel.write(file, file.relative_to(client))
        wheel.writestr("RECORD", "".join(f"{file.name},sha256={'0' * 43},10000\n" for file in files))
    assert 50_000 < len(packed.getvalue()) < 98_000  # the real one has 1.7 kB more: the metadata's own lines


def test_import_brings_nothing_heavy() -> None:
    """What comes beyond the two libraries is the package itself and the standard library."""
    script = (
        "import sys, httpx2, msgspec; before = set(sys.modules); import ampwright_client; "
        "print(*sorted({name.split('.')[0] for name in set(sys.modules) - before}))"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60)
    brought = set(done.stdout.split())
    assert "ampwright_client" in brought
    assert brought - {"ampwright_client"} <= set(sys.stdlib_module_names)
    # These cost time and are wanted by some callers only.
    assert not brought & {"asyncio", "email", "inspect", "unittest"}
