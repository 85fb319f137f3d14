"""Is the client's code what the contract gives, and will it take what the contract may come to hold?"""

from __future__ import annotations

import copy
import importlib
import json
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

pytest.importorskip("datamodel_code_generator", reason="needs the lint extra")
pytest.importorskip("ruff", reason="needs the lint extra")

ROOT = Path(__file__).resolve().parents[2]
GENERATOR = ROOT / "client" / "generator"
CONTRACT = ROOT / "openapi" / "ampwright-v1.json"


@pytest.fixture(scope="module")
def generate() -> Any:
    sys.path.insert(0, str(GENERATOR))
    try:
        yield importlib.import_module("generate")
    finally:
        sys.path.remove(str(GENERATOR))


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, str(GENERATOR / "generate.py"), *arguments],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def test_check_tells_drift_of_code_and_of_contract(tmp_path: Path) -> None:
    output, contract = tmp_path / "code", tmp_path / "contract.json"
    contract.write_bytes(CONTRACT.read_bytes())
    here = ("--contract", str(contract), "--output", str(output))
    assert run(*here, "--check").returncode == 1  # nothing is there
    assert run(*here).returncode == 0
    first = {path.name: path.read_bytes() for path in output.iterdir()}
    assert run(*here, "--check").returncode == 0
    assert run(*here).returncode == 0
    assert {path.name: path.read_bytes() for path in output.iterdir()} == first

    (output / "words.py").write_text((output / "words.py").read_text() + "# by hand\n")
    drift = run(*here, "--check")
    assert (drift.returncode, "words.py" in drift.stderr) == (1, True)
    assert run(*here).returncode == 0
    contract.write_bytes(CONTRACT.read_bytes() + b"\n")
    assert run(*here, "--check").returncode == 1


def grown() -> dict[str, Any]:
    """The contract with what it does not have yet: rows, renderings, a deletion, lists in a query."""
    contract: dict[str, Any] = json.loads(CONTRACT.read_text())
    schemas, paths = contract["components"]["schemas"], contract["paths"]
    schemas["HeadRow"] = {"type": "object", "properties": {"kind": {"const": "head"}}, "required": ["kind"]}
    schemas["EndRow"] = {
        "type": "object",
        "properties": {"kind": {"const": "end"}, "rows": {"type": "integer"}},
        "required": ["kind", "rows"],
    }
    schemas["SweepRow"] = {
        "oneOf": [{"$ref": f"#/components/schemas/{name}"} for name in ("HeadRow", "EndRow")],
        "discriminator": {
            "propertyName": "kind",
            "mapping": {"head": "#/components/schemas/HeadRow", "end": "#/components/schemas/EndRow"},
        },
    }
    check = paths["/v1/load-checks"]["post"]
    sweep = copy.deepcopy(check)
    sweep["operationId"] = "sweep_loads"
    sweep["responses"]["200"]["content"] = {
        "application/x-ndjson": {"schema": {"$ref": "#/components/schemas/SweepRow"}}
    }
    paths["/v1/sweeps"] = {"post": sweep}
    check["responses"]["200"]["content"]["text/plain"] = {"schema": {"type": "string"}}
    paths["/v1/things/{from}"] = {
        "delete": {
            "operationId": "deleteThing",
            "summary": 'Delete a """thing\\',
            "parameters": [
                {"name": "from", "in": "path", "required": True, "schema": {"type": "string"}},
                {
                    "name": "also",
                    "in": "query",
                    "required": False,
                    "schema": {"type": "array", "items": {"type": "string", "enum": ["one", "two"]}},
                },
            ],
            "responses": {"204": {"description": "Gone."}},
        }
    }
    return contract


def loaded(files: dict[str, str], folder: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The generated calls, beside the hand-written rest."""
    package = folder / "grown_client"
    package.mkdir()
    for name, text in files.items():
        (package / name).write_text(text.replace("ampwright_client._generated", "grown_client"))
    monkeypatch.syspath_prepend(str(folder))
    return importlib.import_module("grown_client.client")


def test_grows_with_the_contract(generate: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import httpx2

    files = generate.generated(json.dumps(grown()).encode())
    made = loaded(files, tmp_path, monkeypatch)
    seen: list[tuple[str, str, str]] = []

    def handler(request: httpx2.Request) -> httpx2.Response:
        seen.append((request.method, str(request.url.raw_path, "ascii"), request.headers["accept"]))
        kind = request.headers["accept"]
        if request.method == "DELETE":
            return httpx2.Response(204)
        body = b'{"kind":"head"}\n{"kind":"end","rows":0}\n' if "ndjson" in kind else b"fine"
        return httpx2.Response(200, content=body, headers={"Content-Type": kind})

    client = made.Client("http://service.test", http=httpx2.Client(transport=httpx2.MockTransport(handler)))
    source = made.models.Vehicle(voltage="120 V")
    assert client.check_load_text(source=source) == "fine"
    with client.sweep_loads(source=source) as rows:
        assert [type(row).__name__ for row in rows] == ["HeadRow", "EndRow"]
    assert client.delete_thing("a/b", also=["one", "two"]) is None
    assert seen == [
        ("POST", "/v1/load-checks", "text/plain"),
        ("POST", "/v1/sweeps", "application/x-ndjson"),
        ("DELETE", "/v1/things/a%2Fb?also=one&also=two", "application/json"),
    ]


def rows_of(generate: Any, contract: dict[str, Any]) -> dict[str, Any]:
    prepared = generate.prepare(contract)
    return {
        row.name: row for row in generate.call_rows(prepared, generate.struct_members(generate.model_source(prepared)))
    }


def test_only_what_changes_nothing_is_sent_again(generate: Any) -> None:
    rows = rows_of(generate, json.loads(CONTRACT.read_text()))
    assert rows["check_load"].safe
    assert all(row.safe for row in rows.values() if row.method == "GET")
    writes = [row for name, row in rows.items() if name.startswith(("create_", "withdraw_"))]
    assert len(writes) >= 13
    assert not any(row.safe for row in writes)


def test_a_write_that_looks_like_a_calculation_is_not_sent_again(generate: Any) -> None:
    """A new operation that answers 200 only: without the digest of a calculation it counts as a write."""
    contract = grown()
    contract["paths"]["/v1/load-checks"]["post"]["responses"]["200"]["content"]["application/json"]["schema"] = {
        "$ref": "#/components/schemas/Release"
    }
    rows = rows_of(generate, contract)
    assert not rows["check_load"].safe
    assert not rows["delete_thing"].safe
    assert rows["sweep_loads"].safe


@pytest.mark.parametrize(
    ("spoil", "told"),
    [
        (lambda c: c["components"]["schemas"]["LoadCheckRequest"]["properties"].update(options={}), "options"),
        (lambda c: c["components"]["schemas"]["LoadCheckAnswer"]["properties"].update(reply={}), "reply"),
        (
            lambda c: c["paths"]["/v1/load-checks"]["post"]["responses"]["200"]["content"]["application/json"].update(
                schema={"type": "object"}
            ),
            "named schemas",
        ),
        (lambda c: c["components"]["schemas"].update({"a.b.Twice": {"type": "object"}}), "a.b.Twice"),
    ],
)
def test_what_cannot_be_said_is_refused(generate: Any, spoil: Any, told: str) -> None:
    contract = json.loads(CONTRACT.read_text())
    spoil(contract)
    with pytest.raises(ValueError, match=told):
        generate.generated(json.dumps(contract).encode())
