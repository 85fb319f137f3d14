"""Are the client and what its README shows clean for strict type checkers?

    python client/checks/typed.py [--mypy]

Runs mypy and pyright, both strict, over the client and over each recipe; `--mypy` leaves out pyright. It comes as
basedpyright, which brings its own Node and asks no network. Exits 1 where one of them has anything to say.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

CLIENT = Path(__file__).resolve().parents[1]
SOURCE = CLIENT / "src"


def write_recipes(folder: Path) -> None:
    found = re.findall(r"### ([^\n]+)\n[^#]*?```python\n(.*?)```", (CLIENT / "README.md").read_text("utf-8"), re.DOTALL)
    for title, code in found:
        name = re.sub(r"[^a-z]+", "_", title.lower()).strip("_")
        (folder / f"{name}.py").write_text(code, "utf-8")


def main(arguments: list[str]) -> int:
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        write_recipes(folder)
        environment = os.environ | {"MYPYPATH": str(SOURCE)}
        mypy = [sys.executable, "-m", "mypy", "--strict", "--config-file=", "--explicit-package-bases"]
        runs = [[*mypy, str(SOURCE)], *([*mypy, str(recipe)] for recipe in sorted(folder.glob("*.py")))]
        if "--mypy" not in arguments:
            settings = json.loads((CLIENT / "pyrightconfig.json").read_text("utf-8"))
            settings |= {"include": ["."], "extraPaths": [str(SOURCE)]}
            del settings["venvPath"], settings["venv"]
            (folder / "pyrightconfig.json").write_text(json.dumps(settings), "utf-8")
            pyright = [sys.executable, "-m", "basedpyright", "--pythonpath", sys.executable, "--project"]
            runs += [[*pyright, str(CLIENT)], [*pyright, str(folder)]]
        return max(subprocess.run(run, env=environment, check=False, cwd=folder).returncode for run in runs)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
