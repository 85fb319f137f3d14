"""Are kernels compiled, kept and used as `physics/compile.py` promises?

The promises that need a fresh process are tried on a small package made here, with its own copy of the module.
"""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import ampwright
import numpy as np
import pytest
from ampwright.engine.physics import compile as compile_module
from ampwright.engine.physics.compile import kernel

SERVICE = Path(ampwright.__file__).resolve().parent
TESTS = Path(__file__).resolve().parents[2]

CALLEE = """
from small.compile import kernel
ALPHA = {alpha}

@kernel("float64(float64)")
def rise(kelvin):
    return 1.0 + ALPHA * kelvin
"""
CALLER = """
import json
from small import compile
from small.compile import kernel
from small.callee import rise

@kernel("float64(float64)")
def double_rise(kelvin):
    return 2.0 * rise(kelvin)

hits = sum(double_rise.stats.cache_hits.values())
print(json.dumps([double_rise(100.0), compile.CACHE_FOLDER, hits]))
"""


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A package with a kernel that calls a kernel of another module."""
    package = tmp_path / "code" / "small"
    package.mkdir(parents=True)
    shutil.copyfile(compile_module.__file__, package / "compile.py")
    (package / "__init__.py").write_text("")
    (package / "callee.py").write_text(CALLEE.format(alpha=0.00393))
    (package / "caller.py").write_text(CALLER)
    return package


def run(package: Path, before: str = "", **environment: str) -> tuple[float, str, int]:
    """Import `small.caller` in a fresh process: its number, its cache folder, how many kernels the cache gave."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("NUMBA_", "AMPWRIGHT_", "XDG_"))}
    answer = subprocess.run(
        [sys.executable, "-c", f"{before}\nimport small.caller"],
        cwd=package.parent,
        env={**kept, "HOME": str(package.parent), **environment},
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )
    value, folder, hits = ast.literal_eval(answer.stdout)
    return value, folder, hits


def test_a_changed_callee_gives_the_new_number(small: Path, tmp_path: Path) -> None:
    cache = str(tmp_path / "cache")
    first, folder, _ = run(small, AMPWRIGHT_KERNEL_CACHE=cache)
    assert first == pytest.approx(2.0 * (1.0 + 0.00393 * 100.0))
    assert folder.startswith(cache)
    again, _, hits = run(small, AMPWRIGHT_KERNEL_CACHE=cache)
    assert (again, hits) == (first, 1)

    (small / "callee.py").write_text(CALLEE.format(alpha=0.00999))
    changed, other_folder, _ = run(small, AMPWRIGHT_KERNEL_CACHE=cache)
    assert changed == pytest.approx(2.0 * (1.0 + 0.00999 * 100.0))
    assert other_folder != folder


def test_old_folders_are_cleared_away_and_nothing_else(small: Path, tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    cache.mkdir(mode=0o700)
    day_s = 24 * 3600
    now = time.time()

    def make(name: str, age_s: float, file: str = "kernel.nbi") -> Path:
        folder = cache / name
        folder.mkdir(mode=0o700)
        (folder / file).write_text("")
        os.utime(folder, (now - age_s, now - age_s))
        return folder

    kept = compile_module.FOLDERS_KEPT - 1
    recent = [make(f"{n:016x}", day_s + n) for n in range(kept)]
    old = [make(f"{100 + n:016x}", 9 * day_s + n) for n in range(3)]
    foreign = make(f"{200:016x}", 99 * day_s, "letter.txt")
    other = make("not-a-digest", 99 * day_s)
    (cache / f"{300:016x}").symlink_to(tmp_path)
    _, folder, _ = run(small, AMPWRIGHT_KERNEL_CACHE=str(cache))
    assert Path(folder).parent == cache
    assert not any(path.exists() for path in old)
    assert all(path.is_dir() for path in (*recent, foreign, other, cache / f"{300:016x}"))
    assert not list(cache.glob(".old-*"))

    # another process may be starting from a folder that was used a moment ago, however many there are
    young = [make(f"{400 + n:016x}", 60.0 + n) for n in range(2 * kept)]
    run(small, AMPWRIGHT_KERNEL_CACHE=str(cache))
    assert all(path.is_dir() for path in young)
    assert not any(path.is_dir() for path in recent)


NO_TEMPORARY_FOLDER = """
import tempfile
def gettempdir():
    raise FileNotFoundError("No usable temporary directory found")
tempfile.gettempdir = gettempdir
"""


@pytest.mark.parametrize("before", ["import tempfile; tempfile.tempdir = {blocked!r}", NO_TEMPORARY_FOLDER])
def test_with_nothing_writable_kernels_compile_in_memory(small: Path, tmp_path: Path, before: str) -> None:
    # A path below a file can be made by nobody, root included.
    blocked = tmp_path / "file"
    blocked.write_text("")
    value, folder, hits = run(
        small,
        before=before.format(blocked=str(blocked / "tmp")),
        HOME=str(blocked / "home"),
        AMPWRIGHT_KERNEL_CACHE=str(blocked / "cache"),
    )
    assert value == pytest.approx(2.786)
    assert (folder, hits) == ("", 0)


def test_a_baked_cache_is_taken_over(small: Path, tmp_path: Path) -> None:
    run(small, AMPWRIGHT_KERNEL_CACHE=str(small / "_kernels"))
    value, folder, hits = run(small, AMPWRIGHT_KERNEL_CACHE=str(tmp_path / "cache"))
    assert folder.startswith(str(tmp_path / "cache"))
    assert (value, hits) == (pytest.approx(2.786), 1)


@pytest.mark.parametrize("open_folder", ["root", "digest"])
def test_a_folder_that_others_can_write_is_passed_over(small: Path, tmp_path: Path, open_folder: str) -> None:
    root = tmp_path / "cache"
    _, folder, _ = run(small, AMPWRIGHT_KERNEL_CACHE=str(root))
    assert Path(folder).parent == root
    (root if open_folder == "root" else Path(folder)).chmod(0o777)
    _, other, _ = run(small, AMPWRIGHT_KERNEL_CACHE=str(root))
    assert other != folder
    assert other


@pytest.mark.skipif(not hasattr(os, "getuid") or os.getuid() != 0, reason="only root can give a folder away")
def test_a_folder_of_somebody_else_is_passed_over(small: Path, tmp_path: Path) -> None:
    root = tmp_path / "cache"
    _, folder, _ = run(small, AMPWRIGHT_KERNEL_CACHE=str(root))
    os.chown(folder, 12345, 12345)
    _, other, _ = run(small, AMPWRIGHT_KERNEL_CACHE=str(root))
    assert other != folder


def test_the_cache_folder_is_private_and_named_by_the_source() -> None:
    assert Path(compile_module.CACHE_FOLDER).name == compile_module.source_digest()
    assert Path(compile_module.CACHE_FOLDER).stat().st_mode & 0o077 == 0


def test_another_kind_of_array_is_refused_instead_of_compiled() -> None:
    @kernel("float64(float64[::1])")
    def first(values: np.ndarray) -> float:
        return float(values[0])

    assert first(np.array([3.0, 4.0])) == 3.0
    read_only = np.array([3.0])
    read_only.setflags(write=False)
    for unexpected in (np.array([3.0, 4.0, 5.0])[::2], np.array([3], np.int32), read_only):
        with pytest.raises(TypeError):
            first(unexpected)


def test_division_by_zero_does_not_raise() -> None:
    # IEEE 754: 1/0 is infinite.
    @kernel("float64(float64)")
    def inverse(x: float) -> float:
        return 1.0 / x

    assert inverse(0.0) == np.inf


@pytest.mark.parametrize("missing", [None, "", [], lambda x: x])
def test_a_kernel_needs_its_signature(missing: object) -> None:
    with pytest.raises(TypeError, match="explicit signature"):
        kernel(missing)


COMPARED = """
import sys
import numpy as np
sys.path.insert(0, {tests!r})
from ampwright.engine.physics.network_flow import solve_networks
from engine.physics.network_cases import join, random_network
rng = np.random.default_rng(17)
batch = join([random_network(rng, va, broken) for va in (200.0, 3000.0, 20000.0) for broken in (0.0, 1.0)])
result = solve_networks(batch)
np.savez({out!r}, *(getattr(result, name) for name in result.__dataclass_fields__))
"""


def test_a_handful_of_networks_agree_without_the_compiler(tmp_path: Path) -> None:
    # The same source run by the interpreter. Tolerance: its complex division and sqrt may round differently.
    answers = []
    for name, environment in (("compiled", {}), ("interpreted", {"NUMBA_DISABLE_JIT": "1"})):
        out = str(tmp_path / f"{name}.npz")
        subprocess.run(
            [sys.executable, "-c", COMPARED.format(tests=str(TESTS), out=out)],
            env={**os.environ, **environment},
            check=True,
            timeout=300,
        )
        answers.append(np.load(out))
    compiled, interpreted = answers
    assert compiled.files
    for name in compiled.files:
        np.testing.assert_allclose(interpreted[name], compiled[name], rtol=1e-8, atol=1e-8)


def test_no_kernel_runs_in_parallel_reorders_sums_or_goes_round_the_decorator() -> None:
    # Measured reasons: threads of the compiler kill a forked server, and reordered sums change the bits of an answer.
    faults = []
    for path in sorted(SERVICE.rglob("*.py")):
        ours = path == Path(compile_module.__file__).resolve()
        for node in ast.walk(ast.parse(path.read_text(), str(path))):
            where = f"{path.relative_to(SERVICE)}:{getattr(node, 'lineno', 0)}"
            if isinstance(node, ast.keyword) and node.arg in ("parallel", "fastmath"):
                if not (isinstance(node.value, ast.Constant) and node.value.value is False):
                    faults.append(f"{where}: {node.arg}")
            elif isinstance(node, (ast.Name, ast.Attribute)):
                name = node.id if isinstance(node, ast.Name) else node.attr
                if name == "prange" or (name in ("njit", "jit", "vectorize", "guvectorize") and not ours):
                    faults.append(f"{where}: {name}")
            elif isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "numba" and not ours:
                faults.append(f"{where}: import from numba")
            elif isinstance(node, ast.Import) and not ours:
                faults += [f"{where}: import numba" for name in node.names if name.name.split(".")[0] == "numba"]
    assert not faults
