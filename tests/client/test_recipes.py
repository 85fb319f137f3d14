"""Does what the README shows work as it stands?"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import httpx2
import pytest

README = (Path(__file__).resolve().parents[2] / "client" / "README.md").read_text()
RECIPES = dict(re.findall(r"### ([^\n]+)\n[^#]*?```python\n(.*?)```", README, re.DOTALL))
WORST_FIRST = ("fail", "unknown", "marginal", "pass")


def run(title: str, service: str, monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """Names that a recipe leaves behind."""
    monkeypatch.setenv("AMPWRIGHT_CLIENT_URL", service)
    names: dict[str, Any] = {"__name__": "recipe"}
    exec(compile(RECIPES[title], title, "exec"), names)
    return names


def test_all_recipes_are_tried() -> None:
    tried = re.findall(r'run\("([^"]+)"', Path(__file__).read_text())
    assert set(tried) == set(RECIPES)
    assert len(RECIPES) == 7


GUIDE = Path(__file__).resolve().parents[2] / "service" / "ampwright" / "api" / "assets" / "guides" / "recipes.md"


def test_recipes_of_the_guide_run_as_they_are_pasted(service: str) -> None:
    """With curl itself, and in the guide's order; only the address is another. RFC 9110, 15: 304 is no error."""
    blocks = re.findall(r"```(sh|python)\n(.*?)```", GUIDE.read_text("utf-8"), re.DOTALL)
    assert {kind for kind, _ in blocks} == {"sh", "python"}
    environment = os.environ | {"AMPWRIGHT_CLIENT_URL": service}
    for kind, block in blocks:
        if kind == "python":
            command = [sys.executable, "-c", block]
        elif not (shutil.which("bash") and shutil.which("curl")):
            continue
        else:
            pasted = block.replace("http://127.0.0.1:8712", service).replace("curl ", "curl --fail-with-body ")
            command = ["bash", "-ec", pasted]
        done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
        assert done.returncode == 0, block + done.stdout + done.stderr
        assert done.stdout


def test_first_answer_in_one_line(service: str) -> None:
    [line] = re.findall(r"^(python -c .*)$", README, re.MULTILINE)
    _, *arguments = shlex.split(line)
    environment = os.environ | {"AMPWRIGHT_CLIENT_URL": service}
    done = subprocess.run([sys.executable, *arguments], env=environment, capture_output=True, text=True, check=True)
    assert "CrewLine" in done.stdout


def test_before_the_drive(service: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    names = run("Before the drive", service, monkeypatch)
    said = capsys.readouterr().out.splitlines()
    assert said[0] in WORST_FIRST
    assert [line[2:] for line in said if line.startswith("- ")] == [line.text for line in names["answer"].crew_card]


def test_after_a_trip(service: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Two 15 A tools add up to more than one 20 A circuit, and are within two: sums of the plates."""
    names = run("On site, after a trip", service, monkeypatch)
    before, after = ({finding.code for finding in names[name].findings} for name in ("before", "after"))
    assert "circuit_over_rating" in before - after
    said = capsys.readouterr().out
    assert "? " in said
    # 30 A by the plates on one 20 A device, which a hand closed again: no other cause explains as much.
    causes = names["why"].causes
    assert causes[0].cause == "circuit_overload"
    assert said.startswith(names["why"].before_anything)
    assert all(f"  look: {check}\n" in said for check in causes[0].safe_checks)
    assert [one.likelihood_share_ratio for one in causes] == sorted(
        (one.likelihood_share_ratio for one in causes), reverse=True
    )


def test_fleet(service: str, raw: httpx2.Client, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each source once, better verdicts first, and each verdict that of the load check posted alone."""
    table = run("The fleet in a table", service, monkeypatch)["table"]
    entries = [row["entry"] for row in raw.get("/v1/power-sources?limit=200").json()["items"]]
    assert sorted(row.source for row in table) == sorted(entries)
    places = [WORST_FIRST.index(row.verdict) for row in table]
    assert places == sorted(places, reverse=True)


def test_dispatch(service: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    lines = run("Tomorrow's jobs", service, monkeypatch)["lines"]
    assert len(lines) == 4 * 3
    assert all(line.split(": ")[1].split(",")[0] in WORST_FIRST for line in lines[:9])
    assert all("/kits/3/entry" in line for line in lines[9:])
    assert "12 of 12" in capsys.readouterr().err


def test_cord(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ohm's law: two thick cords in series, 100 ft of 12 AWG, lose less than 100 ft of 16 AWG."""
    names = run("Which cord reaches", service, monkeypatch)
    assert {choice.row for choice in names["to_buy"].choices} <= {row.id for row in names["to_buy"].rows}
    verdicts = {row.id: row.verdict for row in names["at_hand"].rows}
    assert WORST_FIRST.index(verdicts["thick+thick"]) >= WORST_FIRST.index(verdicts["thin"])


def test_energy_of_a_day(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Shares of one whole add up to it, and percentiles are in order."""
    day = run("The energy of a day", service, monkeypatch)["day"]
    assert sum(use.share_ratio for use in day.uses) == pytest.approx(1.0, abs=0.01)
    left = day.left.at_end_j
    assert left.p10 <= left.p50 <= left.p90
    assert [stop.stop for stop in day.stops] == ["first", "second"]


def test_catalogue_write(service: str, raw: httpx2.Client, monkeypatch: pytest.MonkeyPatch) -> None:
    names = run("Writing to the catalogue", service, monkeypatch)
    assert raw.get("/v1/tool-profiles/drill-16mm").json()["revision"] == names["stored"].revision == 1
    again = run("Writing to the catalogue", service, monkeypatch)
    assert again["stored"].revision == 1
