"""How are the parts of the service put together?

The composition root: the only place that knows all resources, and that makes the objects they share.
"""

from __future__ import annotations

import importlib
import logging
import pkgutil
import threading
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager

from litestar import Litestar
from litestar.config.compression import CompressionConfig
from litestar.exceptions import HTTPException

import ampwright.contract
import ampwright.engine
from ampwright.api import (
    access_keys,
    audit,
    catalogue_exchange,
    catalogue_releases,
    catalogue_sheets,
    cord_sizings,
    cords,
    energy_budget_batches,
    energy_budgets,
    kit_validations,
    kits,
    load_checks,
    outlet_plans,
    power_sources,
    problem_pages,
    reference,
    safety_lists,
    source_comparisons,
    source_units,
    stop_diagnoses,
    tool_profiles,
    verdict_changes,
)
from ampwright.api.admission import CancelledWorkError, share_the_interpreter
from ampwright.api.body import ClientLeftError
from ampwright.api.catalogue_problems import on_catalogue_error
from ampwright.api.docs import docs_operations
from ampwright.api.guides import guide_operations
from ampwright.api.health import Check, ReadinessProbe, health_operations
from ampwright.api.member_words import load_member_words
from ampwright.api.middleware import FrontDoor
from ampwright.api.openapi import CONTRACT_VERSION, openapi_document
from ampwright.api.operations import Operations
from ampwright.api.problems import ProblemError, on_any_exception, on_http_exception, on_nobody_there, on_problem
from ampwright.api.routing import NO_COMPRESSION, route_handlers
from ampwright.api.schemas import named_unions
from ampwright.api.services import Services
from ampwright.catalogue.database import Database
from ampwright.catalogue.faults import CatalogueError, NotMigrated
from ampwright.catalogue.migrate import require_current
from ampwright.settings import Settings, read_settings

_log = logging.getLogger("ampwright.app")

RESOURCES: tuple[Operations, ...] = (
    load_checks.operations,
    energy_budgets.operations,
    kit_validations.operations,
    energy_budget_batches.operations,
    source_comparisons.operations,
    safety_lists.operations,
    verdict_changes.operations,
    cord_sizings.operations,
    outlet_plans.operations,
    stop_diagnoses.operations,
    tool_profiles.operations,
    power_sources.operations,
    source_units.operations,
    cords.operations,
    kits.operations,
    catalogue_releases.operations,
    catalogue_sheets.operations,
    catalogue_exchange.operations,
    audit.operations,
    access_keys.operations,
    reference.operations,
)
"""What the service answers, in the order of the reference page. A new resource is one more line here."""

# Below this, packing costs more time than it saves on the way (common practice, no source).
COMPRESS_FROM_BYTES = 4096
COMPRESS_LEVEL = 5


class Kernels:
    """The engine's compiled kernels: made, or read from their cache, by importing the engine."""

    def __init__(self) -> None:
        self._warm = False
        self._failure = ""

    def warm(self) -> None:
        """Import every module of the engine. Never raises: the reason stands in ``/readyz``."""
        try:
            warm_kernels()
        except Exception as error:
            _log.error("the kernels cannot be compiled", exc_info=error)
            self._failure = f"the kernels cannot be compiled ({type(error).__name__})"
        else:
            self._warm = True

    def reason(self) -> str | None:
        """Why they are not ready; None where they are."""
        return None if self._warm else self._failure or "the kernels are being compiled"


def warm_kernels() -> None:
    """Compile all kernels of the engine, or read them from their cache."""
    for module in pkgutil.walk_packages(ampwright.engine.__path__, "ampwright.engine."):
        importlib.import_module(module.name)


def document(resources: Sequence[Operations] = RESOURCES) -> bytes:
    """The OpenAPI document of the service."""
    described = [*resources, health_operations(ReadinessProbe(())), problem_pages.operations]
    return openapi_document(
        described, version=CONTRACT_VERSION, unions=named_unions(ampwright.contract), words=load_member_words()
    )


def create_app(
    settings: Settings,
    *,
    resources: Sequence[Operations] = RESOURCES,
    database: Database | None = None,
    cors_origins: Sequence[str] = (),
) -> Litestar:
    """The service as an ASGI application.

    settings : limits and addresses; resources : what it answers beside health and documentation; database : where
    another than the one of ``settings.database_url`` is to be used; cors_origins : see FrontDoor.
    """
    if database is None:
        database = Database.at(
            settings.database_url,
            pool_size=settings.database_pool,
            allow_unflushed=settings.allow_unflushed_database,
        )
    services = Services.of(settings, database)
    kernels = Kernels()
    probe = ReadinessProbe((Check("database", lambda: _database_reason(database)), Check("kernels", kernels.reason)))
    operations = [
        operation
        for resource in (
            *resources,
            health_operations(probe),
            problem_pages.operations,
            docs_operations(lambda: document(resources)),
            guide_operations(),
        )
        for operation in resource
    ]

    @asynccontextmanager
    async def lifespan(_: Litestar) -> AsyncIterator[None]:
        share_the_interpreter()
        # Beside the event loop, so that /livez answers while kernels are compiled.
        threading.Thread(target=kernels.warm, name="kernels", daemon=True).start()
        yield
        services.database.close()

    app = Litestar(
        route_handlers=route_handlers(operations, services),
        exception_handlers={
            ProblemError: on_problem,
            CatalogueError: on_catalogue_error,
            ClientLeftError: on_nobody_there,
            CancelledWorkError: on_nobody_there,
            HTTPException: on_http_exception,
            Exception: on_any_exception,
        },
        lifespan=[lifespan],
        openapi_config=None,
        logging_config=None,
        compression_config=CompressionConfig(
            backend="gzip",
            minimum_size=COMPRESS_FROM_BYTES,
            gzip_compress_level=COMPRESS_LEVEL,
            exclude_opt_key=NO_COMPRESSION,
        ),
    )
    # Around the router and not among litestar's middleware, which requests without a route never pass.
    app.asgi_handler = FrontDoor(app.asgi_handler, cors_origins=cors_origins)
    return app


def _database_reason(database: Database) -> str | None:
    try:
        require_current(database)
    except NotMigrated as error:
        return str(error)
    except CatalogueError as error:
        # The driver's own words may name hosts and users; they are for the log only.
        _log.warning("the database is not ready: %s", error)
        return "the database does not answer"
    return None


def create_app_from_environment() -> Litestar:
    """What each worker of ``ampwright serve`` runs."""
    settings = read_settings()
    return create_app(settings, cors_origins=settings.cors_origins)
