"""How long does the import take beside its HTTP library alone, and how large is the wheel?

    python client/checks/measure.py

Prints both with their bounds and exits 1 where one is broken. A command and no test: a busy machine says nothing about
the package. The wheel is built by pip, or by uv where this environment has no pip.
"""

from __future__ import annotations

import importlib.util
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

CLIENT = Path(__file__).resolve().parents[1]
MOST_TIMES = 1.8
MOST_BYTES = 100_000
_RUNS = 9


def import_ms(module: str) -> float:
    script = f"import time; t = time.perf_counter(); import {module}; print(time.perf_counter() - t)"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return 1000.0 * float(done.stdout)


def wheel_bytes() -> int:
    with tempfile.TemporaryDirectory() as folder:
        if importlib.util.find_spec("pip"):
            command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", folder, str(CLIENT)]
        elif uv := shutil.which("uv", path=f"{Path(sys.executable).parent}{os.pathsep}{os.environ.get('PATH', '')}"):
            command = [uv, "build", "--quiet", "--wheel", "--out-dir", folder, str(CLIENT)]
        else:
            sys.exit("a wheel is built by pip or uv, and neither is here")
        subprocess.run(command, check=True)
        return next(Path(folder).glob("*.whl")).stat().st_size


def main() -> int:
    # In turn, so that what else the machine does falls on both.
    pairs = [(import_ms("httpx2"), import_ms("ampwright_client")) for _ in range(_RUNS)]
    alone, whole = (statistics.median(one) for one in zip(*pairs, strict=True))
    ratio, size = whole / alone, wheel_bytes()
    print(f"import: httpx2 {alone:.0f} ms, ampwright_client {whole:.0f} ms: {ratio:.2f} x (at most {MOST_TIMES} x)")
    print(f"wheel: {size} bytes (at most {MOST_BYTES})")
    return int(ratio > MOST_TIMES or size > MOST_BYTES)


if __name__ == "__main__":
    sys.exit(main())
