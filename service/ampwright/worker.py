"""What does the server import in each worker, and how does a worker start quickly?

Importing the service makes some hundred thousand objects that stay for as long as the worker does. The collector of
cycles would search them again and again while they are made, and then with many a request: an eighth of a start, and a
fifth of a load check. So it waits until all stands, and leaves that alone for good.
For the whole process, so only a process that does nothing but serve calls this.
"""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from litestar import Litestar


def make_app() -> Litestar:
    """The service as an ASGI application, by the settings of the environment."""
    gc.disable()
    try:
        from ampwright.app import create_app_from_environment

        return create_app_from_environment()
    finally:
        gc.freeze()
        gc.enable()
