"""How does a physics function become machine code, and where is that kept?

Through one decorator, `kernel(signature)`, and nowhere else. The compiler's own cache looks only at the file of the
kernel it loads: when a kernel or constant that it calls changes in another module, it goes on using the old machine
code and gives old numbers. So the cache folder is named by a digest of all the source a kernel can see; changed
source means another, empty folder. Tables and constants of a case enter kernels as arguments.

The cache holds machine code that is run when it is read. A folder that somebody else can write is refused: it must
belong to this user, and so must the folder around it (or to the system, and not be open to others).

Not here: what is computed. This module knows nothing of electricity.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import platform
import re
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, TypeVar, cast

# One instruction set for all machines of an architecture: the same bits everywhere, and a cache that may be copied.
os.environ.setdefault("NUMBA_CPU_NAME", "generic")

import llvmlite
import numba
import numpy

_settings: Any = numba.config
_settings.reload_config()  # somebody may have imported numba before us

types: Any = numba.types
"""The compiler's types, for signatures that no string can spell."""

SOURCE_FOLDER = Path(__file__).resolve().parent
BAKED_FOLDER = SOURCE_FOLDER / "_kernels"
"""A cache made when an image is built: set AMPWRIGHT_KERNEL_CACHE to this folder and import the engine once."""

FOLDERS_KEPT = 8  # about 30 MB each
IN_USE_S = 3600.0  # a process reads its folder while it starts; none takes an hour for that
_DIGEST = re.compile("[0-9a-f]{16}")

_Function = TypeVar("_Function", bound=Callable[..., Any])


def source_digest(folder: Path = SOURCE_FOLDER) -> str:
    """Name of the cache folder: 16 hexadecimal digits over every source file in `folder` and the compiler's versions.

    Parameters
    ----------
    folder : folder whose `*.py` files, at any depth, are read

    Returns
    -------
    digest : str of 16 characters; the same source and versions give the same digest

    Errors: OSError where a file cannot be read.
    """
    versions = (numba.__version__, numpy.__version__, llvmlite.__version__)
    digest = hashlib.sha256(" ".join((*versions, platform.machine(), os.environ["NUMBA_CPU_NAME"])).encode())
    for path in sorted(folder.rglob("*.py")):
        digest.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()[:16]


def _roots() -> Iterator[Path]:
    user = os.getuid() if hasattr(os, "getuid") else 0
    chosen = os.environ.get("AMPWRIGHT_KERNEL_CACHE")
    if chosen:
        yield Path(chosen)
        yield Path(chosen) / f"ampwright-{user}"  # a mounted volume belongs to the system and is open to all
    cache_home = os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")
    if os.path.isabs(cache_home):
        yield Path(cache_home) / "ampwright"
    with contextlib.suppress(FileNotFoundError):  # raised where no temporary folder can be written
        yield Path(tempfile.gettempdir()) / f"ampwright-{user}"


def _only_ours(folder: Path) -> bool:
    if not hasattr(os, "getuid"):
        return True
    own = folder.stat()
    around = folder.parent.stat()
    open_to_others = stat.S_IWGRP | stat.S_IWOTH
    return (
        own.st_uid == os.getuid()
        and not own.st_mode & open_to_others
        and around.st_uid in (os.getuid(), 0)
        and not (around.st_mode & open_to_others and not around.st_mode & stat.S_ISVTX)
    )


def _take_over_baked(baked: Path, folder: Path) -> None:
    # The compiler needs a folder it can write even to read from it, so a baked cache is copied, not used in place.
    if not baked.is_dir() or baked.samefile(folder):
        return
    if hasattr(os, "getuid") and baked.stat().st_uid != Path(__file__).stat().st_uid:
        return  # as trustworthy as the code itself, or not at all
    for path in sorted(baked.rglob("*")):
        target = folder / path.relative_to(baked)
        if path.is_dir():
            target.mkdir(mode=0o700, exist_ok=True)
        elif path.suffix in (".nbi", ".nbc") and not target.exists():
            handle, part = tempfile.mkstemp(dir=target.parent, suffix=".part")
            os.close(handle)
            shutil.copyfile(path, part)
            os.replace(part, target)  # another worker may be copying the same file


def _prune(root: Path, digest: str) -> None:
    """Clear away folders of other source than the newest few; a process that may still be reading one keeps it."""
    with contextlib.suppress(OSError):
        os.utime(root / digest)  # a folder is as new as its last start, and ours now is the clock
        now = (root / digest).stat().st_mtime
        for left in root.glob(".old-*"):
            shutil.rmtree(left, ignore_errors=True)
        dated = [
            (path.stat().st_mtime, path)
            for path in root.iterdir()
            if _DIGEST.fullmatch(path.name) and path.name != digest and path.is_dir() and not path.is_symlink()
        ]
        for used_at, path in sorted(dated, reverse=True)[FOLDERS_KEPT - 1 :]:
            if now - used_at < IN_USE_S or not _only_ours(path) or not _only_machine_code(path):
                continue
            # away at once and as a whole, so that nobody reads half of it
            gone = root / f".old-{path.name}-{os.getpid()}"
            os.replace(path, gone)
            shutil.rmtree(gone, ignore_errors=True)


def _only_machine_code(folder: Path) -> bool:
    return all(path.is_dir() or path.suffix in (".nbi", ".nbc", ".part", ".tmp") for path in folder.rglob("*"))


def choose_cache_folder() -> str:
    """Folder for compiled kernels: the first place that can be written and that only this user can write.

    In order: AMPWRIGHT_KERNEL_CACHE, the user's cache folder, the system's temporary folder. A baked cache for the
    same source is copied into it. Of folders for other source the newest few stay, and those used within the hour.

    Returns
    -------
    folder : path, or "" where there is none: kernels are then compiled in memory at each start

    Errors: none; a place that fails is passed over.
    """
    digest = source_digest()
    for root in _roots():
        try:
            root.mkdir(mode=0o700, parents=True, exist_ok=True)
            folder = root / digest
            folder.mkdir(mode=0o700, exist_ok=True)
            if not _only_ours(folder):
                continue
            tempfile.TemporaryFile(dir=folder).close()
            with contextlib.suppress(OSError):  # a baked cache that cannot be read is no reason to have none
                _take_over_baked(BAKED_FOLDER / digest, folder)
            _prune(root, digest)
        except OSError:
            continue
        return str(folder)
    return ""


CACHE_FOLDER = choose_cache_folder()
"""Where this process keeps compiled kernels; "" when it compiles in memory."""
os.environ["NUMBA_CACHE_DIR"] = CACHE_FOLDER  # in the environment too: the compiler may read its settings again
_settings.reload_config()


def kernel(signature: Any) -> Callable[[_Function], _Function]:
    """Compile a function for exactly the argument types of `signature`.

    An array of another kind (strided, read-only, of another number type) is a TypeError at the call, not a
    compilation of a second inside a request. Kernels run without the interpreter's lock. Division by zero follows
    IEEE 754 instead of raising, so a caller checks its inputs. No reordering of sums and no threads: one version gives
    the same bits wherever it runs.

    Parameters
    ----------
    signature : types as the compiler spells them, e.g. "float64[::1](float64[::1], int64)", a list of such, or the
        compiler's own object where a type has no spelling (a named tuple of arrays)

    Returns
    -------
    decorator : turns the function into its compiled form; with NUMBA_DISABLE_JIT=1 it leaves it as it is

    Errors: TypeError where no signature is given, the compiler's own error where the function does not fit it.
    """
    if not signature or callable(signature):
        raise TypeError("kernel() needs an explicit signature, e.g. @kernel('float64(float64)')")

    def compiled(function: _Function) -> _Function:
        return cast(
            _Function,
            numba.njit(signature, cache=bool(CACHE_FOLDER), nogil=True, fastmath=False, error_model="numpy")(function),
        )

    return compiled
