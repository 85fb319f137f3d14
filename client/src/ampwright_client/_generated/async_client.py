# Made by client/generator/generate.py from the contract with SHA-256 e2dbf7f741caf78d0fb51a0ce19a5648b9c80ee5bb425de7e6306c173b46e4fd. Do not edit.
"""What can be asked of the service from asyncio?"""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import Any, overload

from msgspec import UNSET, UnsetType

from ampwright_client._generated import models, words
from ampwright_client.async_transport import AsyncTransport
from ampwright_client.calls import Call, CallOptions, body_of
from ampwright_client.lines import AsyncLines
from ampwright_client.pages import async_rows

__all__ = ["AsyncClient"]


class AsyncClient(AsyncTransport):
    """The calls of the service, for asyncio.

    One method for every operation; what it takes is a keyword each, or, where a body is sent, the whole request as one
    argument. Every method can raise an AmpwrightError.
    """

    @overload
    async def budget_energy(
        self, request: models.EnergyBudgetRequest, /, *, options: CallOptions | None = None
    ) -> models.EnergyBudgetAnswer: ...
    @overload
    async def budget_energy(
        self,
        /,
        *,
        source: models.AnySource,
        tools: list[models.ToolInUse] | UnsetType = UNSET,
        cords: list[models.CordInUse] | UnsetType = UNSET,
        kit: models.KitInUse | UnsetType = UNSET,
        connections: list[models.Connection] | UnsetType = UNSET,
        people: int | UnsetType = UNSET,
        cases: list[models.Case] | UnsetType = UNSET,
        conditions: models.Conditions | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.EnergyBudgetRequestInclude] | UnsetType = UNSET,
        shift: str | UnsetType = UNSET,
        charge: str | UnsetType = UNSET,
        battery: models.BatteryConditions | UnsetType = UNSET,
        fuel: models.FuelConditions | UnsetType = UNSET,
        allowance: str | UnsetType = UNSET,
        pattern: words.Pattern | UnsetType = UNSET,
        duties: list[models.ToolDuty] | UnsetType = UNSET,
        work: list[models.WorkAmount] | UnsetType = UNSET,
        stops: list[models.DayStop] | UnsetType = UNSET,
        way_home: models.WayHome | UnsetType = UNSET,
        solar: list[str] | UnsetType = UNSET,
        observations: list[models.WorkObservation] | UnsetType = UNSET,
        electricity_price: str | UnsetType = UNSET,
        fuel_price: str | UnsetType = UNSET,
        carbon: str | UnsetType = UNSET,
        seed: int | UnsetType = UNSET,
        draws: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.EnergyBudgetAnswer: ...
    async def budget_energy(
        self,
        request: models.EnergyBudgetRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.EnergyBudgetAnswer:
        """Budget a day's energy: see `Client.budget_energy`."""
        return await self._answer(
            Call[models.EnergyBudgetAnswer](
                "POST",
                "/v1/energy-budgets",
                models.EnergyBudgetAnswer,
                body=body_of(models.EnergyBudgetRequest, request, members),
                safe=True,
            ),
            options,
        )

    @overload
    def budget_energy_batch(
        self, request: models.EnergyBudgetBatchRequest, /, *, options: CallOptions | None = None
    ) -> AsyncLines[models.EnergyBatchLine]: ...
    @overload
    def budget_energy_batch(
        self,
        /,
        *,
        budget: models.EnergyBudgetRequest,
        scenarios: list[models.EnergyScenario],
        options: CallOptions | None = None,
    ) -> AsyncLines[models.EnergyBatchLine]: ...
    def budget_energy_batch(
        self,
        request: models.EnergyBudgetBatchRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> AsyncLines[models.EnergyBatchLine]:
        """Budget many days: see `Client.budget_energy_batch`."""
        return self._lines(
            Call[models.EnergyBatchLine](
                "POST",
                "/v1/energy-budget-batches",
                models.EnergyBatchLine,
                body=body_of(models.EnergyBudgetBatchRequest, request, members),
                accept="application/x-ndjson",
                safe=True,
            ),
            options,
        )

    @overload
    async def check_load(
        self, request: models.LoadCheckRequest, /, *, options: CallOptions | None = None
    ) -> models.LoadCheckAnswer: ...
    @overload
    async def check_load(
        self,
        /,
        *,
        source: models.AnySource,
        tools: list[models.ToolInUse] | UnsetType = UNSET,
        cords: list[models.CordInUse] | UnsetType = UNSET,
        kit: models.KitInUse | UnsetType = UNSET,
        connections: list[models.Connection] | UnsetType = UNSET,
        people: int | UnsetType = UNSET,
        cases: list[models.Case] | UnsetType = UNSET,
        conditions: models.Conditions | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.EnergyBudgetRequestInclude] | UnsetType = UNSET,
        shift: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.LoadCheckAnswer: ...
    async def check_load(
        self, request: models.LoadCheckRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.LoadCheckAnswer:
        """Check which tools run on a power source: see `Client.check_load`."""
        return await self._answer(
            Call[models.LoadCheckAnswer](
                "POST",
                "/v1/load-checks",
                models.LoadCheckAnswer,
                body=body_of(models.LoadCheckRequest, request, members),
                safe=True,
            ),
            options,
        )

    @overload
    async def check_load_text(
        self, request: models.LoadCheckRequest, /, *, options: CallOptions | None = None
    ) -> str: ...
    @overload
    async def check_load_text(
        self,
        /,
        *,
        source: models.AnySource,
        tools: list[models.ToolInUse] | UnsetType = UNSET,
        cords: list[models.CordInUse] | UnsetType = UNSET,
        kit: models.KitInUse | UnsetType = UNSET,
        connections: list[models.Connection] | UnsetType = UNSET,
        people: int | UnsetType = UNSET,
        cases: list[models.Case] | UnsetType = UNSET,
        conditions: models.Conditions | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.EnergyBudgetRequestInclude] | UnsetType = UNSET,
        shift: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> str: ...
    async def check_load_text(
        self, request: models.LoadCheckRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> str:
        """Check which tools run on a power source: see `Client.check_load_text`."""
        return await self._answer(
            Call[str](
                "POST",
                "/v1/load-checks",
                str,
                body=body_of(models.LoadCheckRequest, request, members),
                accept="text/plain",
                safe=True,
            ),
            options,
        )

    @overload
    async def compare_sources(
        self, request: models.SourceComparisonRequest, /, *, options: CallOptions | None = None
    ) -> models.SourceComparisonAnswer: ...
    @overload
    async def compare_sources(
        self,
        /,
        *,
        sources: list[models.ComparedSource],
        kits: list[models.MatrixKit],
        jobs: list[models.ComparedJob] | UnsetType = UNSET,
        weights: models.ComparisonWeights | UnsetType = UNSET,
        rows: models.RowRange | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.SourceComparisonRequestInclude] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.SourceComparisonAnswer: ...
    async def compare_sources(
        self,
        request: models.SourceComparisonRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SourceComparisonAnswer:
        """Compare sources for kits and jobs: see `Client.compare_sources`."""
        return await self._answer(
            Call[models.SourceComparisonAnswer](
                "POST",
                "/v1/source-comparisons",
                models.SourceComparisonAnswer,
                body=body_of(models.SourceComparisonRequest, request, members),
                safe=True,
            ),
            options,
        )

    @overload
    async def compare_sources_csv(
        self, request: models.SourceComparisonRequest, /, *, options: CallOptions | None = None
    ) -> str: ...
    @overload
    async def compare_sources_csv(
        self,
        /,
        *,
        sources: list[models.ComparedSource],
        kits: list[models.MatrixKit],
        jobs: list[models.ComparedJob] | UnsetType = UNSET,
        weights: models.ComparisonWeights | UnsetType = UNSET,
        rows: models.RowRange | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.SourceComparisonRequestInclude] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> str: ...
    async def compare_sources_csv(
        self,
        request: models.SourceComparisonRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> str:
        """Compare sources for kits and jobs: see `Client.compare_sources_csv`."""
        return await self._answer(
            Call[str](
                "POST",
                "/v1/source-comparisons",
                str,
                body=body_of(models.SourceComparisonRequest, request, members),
                accept="text/csv",
                safe=True,
            ),
            options,
        )

    @overload
    def compare_sources_lines(
        self, request: models.SourceComparisonRequest, /, *, options: CallOptions | None = None
    ) -> AsyncLines[models.SourceComparisonLine]: ...
    @overload
    def compare_sources_lines(
        self,
        /,
        *,
        sources: list[models.ComparedSource],
        kits: list[models.MatrixKit],
        jobs: list[models.ComparedJob] | UnsetType = UNSET,
        weights: models.ComparisonWeights | UnsetType = UNSET,
        rows: models.RowRange | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.SourceComparisonRequestInclude] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncLines[models.SourceComparisonLine]: ...
    def compare_sources_lines(
        self,
        request: models.SourceComparisonRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> AsyncLines[models.SourceComparisonLine]:
        """Compare sources for kits and jobs: see `Client.compare_sources_lines`."""
        return self._lines(
            Call[models.SourceComparisonLine](
                "POST",
                "/v1/source-comparisons",
                models.SourceComparisonLine,
                body=body_of(models.SourceComparisonRequest, request, members),
                accept="application/x-ndjson",
                safe=True,
            ),
            options,
        )

    @overload
    async def compare_verdicts(
        self, request: models.VerdictChangesRequest, /, *, options: CallOptions | None = None
    ) -> models.VerdictChangesAnswer: ...
    @overload
    async def compare_verdicts(
        self,
        /,
        *,
        from_release: int,
        to_release: int,
        sources: list[models.MatrixSource],
        kits: list[models.MatrixKit],
        jobs: list[models.MatrixJob] | UnsetType = UNSET,
        rows: models.RowRange | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.VerdictChangesAnswer: ...
    async def compare_verdicts(
        self,
        request: models.VerdictChangesRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.VerdictChangesAnswer:
        """Compare the verdicts of two releases: see `Client.compare_verdicts`."""
        return await self._answer(
            Call[models.VerdictChangesAnswer](
                "POST",
                "/v1/verdict-changes",
                models.VerdictChangesAnswer,
                body=body_of(models.VerdictChangesRequest, request, members),
                safe=True,
            ),
            options,
        )

    @overload
    async def create_access_key(
        self, request: models.NewAccessKey, /, *, options: CallOptions | None = None
    ) -> models.MadeAccessKey: ...
    @overload
    async def create_access_key(
        self,
        /,
        *,
        scopes: list[words.Scopes],
        note: str,
        by: str | UnsetType = UNSET,
        expires_at: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.MadeAccessKey: ...
    async def create_access_key(
        self, request: models.NewAccessKey | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.MadeAccessKey:
        """Make an access key: see `Client.create_access_key`."""
        return await self._answer(
            Call[models.MadeAccessKey](
                "POST",
                "/v1/access-keys",
                models.MadeAccessKey,
                body=body_of(models.NewAccessKey, request, members),
            ),
            options,
        )

    @overload
    async def create_catalogue_release(
        self, request: models.NewRelease, /, *, options: CallOptions | None = None
    ) -> models.Release: ...
    @overload
    async def create_catalogue_release(
        self,
        /,
        *,
        note: str,
        by: str | UnsetType = UNSET,
        members: list[models.ReleaseMember] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.Release: ...
    async def create_catalogue_release(
        self, request: models.NewRelease | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.Release:
        """Cut a release: see `Client.create_catalogue_release`."""
        return await self._answer(
            Call[models.Release](
                "POST",
                "/v1/catalogue-releases",
                models.Release,
                body=body_of(models.NewRelease, request, members),
            ),
            options,
        )

    @overload
    async def create_cord(
        self, request: models.NewCord, /, *, if_none_match: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.CordRevision: ...
    @overload
    async def create_cord(
        self,
        /,
        *,
        why: str,
        document: models.CordDocument,
        entry: str,
        if_none_match: str | UnsetType = UNSET,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.CordRevision: ...
    async def create_cord(
        self,
        request: models.NewCord | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.CordRevision:
        """Add a cord to the catalogue: see `Client.create_cord`."""
        return await self._answer(
            Call[models.CordRevision](
                "POST",
                "/v1/cords",
                models.CordRevision,
                headers={
                    "If-None-Match": if_none_match,
                },
                body=body_of(models.NewCord, request, members),
            ),
            options,
        )

    @overload
    async def create_cord_revision(
        self, entry: str, request: models.NewCordRevision, /, *, if_match: str, options: CallOptions | None = None
    ) -> models.CordRevision: ...
    @overload
    async def create_cord_revision(
        self,
        entry: str,
        /,
        *,
        if_match: str,
        why: str,
        document: models.CordDocument,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.CordRevision: ...
    async def create_cord_revision(
        self,
        entry: str,
        request: models.NewCordRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.CordRevision:
        """Write a new revision of a cord: see `Client.create_cord_revision`."""
        return await self._answer(
            Call[models.CordRevision](
                "POST",
                "/v1/cords/{entry}/revisions",
                models.CordRevision,
                path={
                    "entry": entry,
                },
                headers={
                    "If-Match": if_match,
                },
                body=body_of(models.NewCordRevision, request, members),
            ),
            options,
        )

    @overload
    async def create_kit(
        self, request: models.NewKit, /, *, if_none_match: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.KitRevision: ...
    @overload
    async def create_kit(
        self,
        /,
        *,
        why: str,
        document: models.KitDocument,
        entry: str,
        if_none_match: str | UnsetType = UNSET,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.KitRevision: ...
    async def create_kit(
        self,
        request: models.NewKit | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.KitRevision:
        """Add a kit to the catalogue: see `Client.create_kit`."""
        return await self._answer(
            Call[models.KitRevision](
                "POST",
                "/v1/kits",
                models.KitRevision,
                headers={
                    "If-None-Match": if_none_match,
                },
                body=body_of(models.NewKit, request, members),
            ),
            options,
        )

    @overload
    async def create_kit_revision(
        self, entry: str, request: models.NewKitRevision, /, *, if_match: str, options: CallOptions | None = None
    ) -> models.KitRevision: ...
    @overload
    async def create_kit_revision(
        self,
        entry: str,
        /,
        *,
        if_match: str,
        why: str,
        document: models.KitDocument,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.KitRevision: ...
    async def create_kit_revision(
        self,
        entry: str,
        request: models.NewKitRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.KitRevision:
        """Write a new revision of a kit: see `Client.create_kit_revision`."""
        return await self._answer(
            Call[models.KitRevision](
                "POST",
                "/v1/kits/{entry}/revisions",
                models.KitRevision,
                path={
                    "entry": entry,
                },
                headers={
                    "If-Match": if_match,
                },
                body=body_of(models.NewKitRevision, request, members),
            ),
            options,
        )

    @overload
    async def create_power_source(
        self,
        request: models.NewPowerSource,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.PowerSourceRevision: ...
    @overload
    async def create_power_source(
        self,
        /,
        *,
        why: str,
        document: models.PowerSourceDocument,
        entry: str,
        if_none_match: str | UnsetType = UNSET,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.PowerSourceRevision: ...
    async def create_power_source(
        self,
        request: models.NewPowerSource | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.PowerSourceRevision:
        """Add a power source to the catalogue: see `Client.create_power_source`."""
        return await self._answer(
            Call[models.PowerSourceRevision](
                "POST",
                "/v1/power-sources",
                models.PowerSourceRevision,
                headers={
                    "If-None-Match": if_none_match,
                },
                body=body_of(models.NewPowerSource, request, members),
            ),
            options,
        )

    @overload
    async def create_power_source_revision(
        self,
        entry: str,
        request: models.NewPowerSourceRevision,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
    ) -> models.PowerSourceRevision: ...
    @overload
    async def create_power_source_revision(
        self,
        entry: str,
        /,
        *,
        if_match: str,
        why: str,
        document: models.PowerSourceDocument,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.PowerSourceRevision: ...
    async def create_power_source_revision(
        self,
        entry: str,
        request: models.NewPowerSourceRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.PowerSourceRevision:
        """Write a new revision of a power source: see `Client.create_power_source_revision`."""
        return await self._answer(
            Call[models.PowerSourceRevision](
                "POST",
                "/v1/power-sources/{entry}/revisions",
                models.PowerSourceRevision,
                path={
                    "entry": entry,
                },
                headers={
                    "If-Match": if_match,
                },
                body=body_of(models.NewPowerSourceRevision, request, members),
            ),
            options,
        )

    @overload
    async def create_source_unit(
        self,
        request: models.NewSourceUnit,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.SourceUnitRevision: ...
    @overload
    async def create_source_unit(
        self,
        /,
        *,
        why: str,
        document: models.SourceUnit,
        entry: str,
        if_none_match: str | UnsetType = UNSET,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.SourceUnitRevision: ...
    async def create_source_unit(
        self,
        request: models.NewSourceUnit | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SourceUnitRevision:
        """Add a source unit to the catalogue: see `Client.create_source_unit`."""
        return await self._answer(
            Call[models.SourceUnitRevision](
                "POST",
                "/v1/source-units",
                models.SourceUnitRevision,
                headers={
                    "If-None-Match": if_none_match,
                },
                body=body_of(models.NewSourceUnit, request, members),
            ),
            options,
        )

    @overload
    async def create_source_unit_revision(
        self, entry: str, request: models.NewSourceUnitRevision, /, *, if_match: str, options: CallOptions | None = None
    ) -> models.SourceUnitRevision: ...
    @overload
    async def create_source_unit_revision(
        self,
        entry: str,
        /,
        *,
        if_match: str,
        why: str,
        document: models.SourceUnit,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.SourceUnitRevision: ...
    async def create_source_unit_revision(
        self,
        entry: str,
        request: models.NewSourceUnitRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SourceUnitRevision:
        """Write a new revision of a source unit: see `Client.create_source_unit_revision`."""
        return await self._answer(
            Call[models.SourceUnitRevision](
                "POST",
                "/v1/source-units/{entry}/revisions",
                models.SourceUnitRevision,
                path={
                    "entry": entry,
                },
                headers={
                    "If-Match": if_match,
                },
                body=body_of(models.NewSourceUnitRevision, request, members),
            ),
            options,
        )

    @overload
    async def create_tool_profile(
        self,
        request: models.NewToolProfile,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.ToolProfileRevision: ...
    @overload
    async def create_tool_profile(
        self,
        /,
        *,
        why: str,
        document: models.ToolProfile,
        entry: str,
        if_none_match: str | UnsetType = UNSET,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.ToolProfileRevision: ...
    async def create_tool_profile(
        self,
        request: models.NewToolProfile | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.ToolProfileRevision:
        """Add a tool profile to the catalogue: see `Client.create_tool_profile`."""
        return await self._answer(
            Call[models.ToolProfileRevision](
                "POST",
                "/v1/tool-profiles",
                models.ToolProfileRevision,
                headers={
                    "If-None-Match": if_none_match,
                },
                body=body_of(models.NewToolProfile, request, members),
            ),
            options,
        )

    @overload
    async def create_tool_profile_revision(
        self,
        entry: str,
        request: models.NewToolProfileRevision,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
    ) -> models.ToolProfileRevision: ...
    @overload
    async def create_tool_profile_revision(
        self,
        entry: str,
        /,
        *,
        if_match: str,
        why: str,
        document: models.ToolProfile,
        by: str | UnsetType = UNSET,
        status: words.WrittenStatus | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.ToolProfileRevision: ...
    async def create_tool_profile_revision(
        self,
        entry: str,
        request: models.NewToolProfileRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.ToolProfileRevision:
        """Write a new revision of a tool profile: see `Client.create_tool_profile_revision`."""
        return await self._answer(
            Call[models.ToolProfileRevision](
                "POST",
                "/v1/tool-profiles/{entry}/revisions",
                models.ToolProfileRevision,
                path={
                    "entry": entry,
                },
                headers={
                    "If-Match": if_match,
                },
                body=body_of(models.NewToolProfileRevision, request, members),
            ),
            options,
        )

    @overload
    async def diagnose_stop(
        self, request: models.StopDiagnosisRequest, /, *, options: CallOptions | None = None
    ) -> models.StopDiagnosisAnswer: ...
    @overload
    async def diagnose_stop(
        self,
        /,
        *,
        source: models.AnySource,
        stopped: models.Stop,
        tools: list[models.ToolInUse] | UnsetType = UNSET,
        cords: list[models.CordInUse] | UnsetType = UNSET,
        kit: models.KitInUse | UnsetType = UNSET,
        connections: list[models.Connection] | UnsetType = UNSET,
        people: int | UnsetType = UNSET,
        cases: list[models.Case] | UnsetType = UNSET,
        conditions: models.Conditions | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.EnergyBudgetRequestInclude] | UnsetType = UNSET,
        shift: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.StopDiagnosisAnswer: ...
    async def diagnose_stop(
        self,
        request: models.StopDiagnosisRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.StopDiagnosisAnswer:
        """Diagnose why power went: see `Client.diagnose_stop`."""
        return await self._answer(
            Call[models.StopDiagnosisAnswer](
                "POST",
                "/v1/stop-diagnoses",
                models.StopDiagnosisAnswer,
                body=body_of(models.StopDiagnosisRequest, request, members),
                safe=True,
            ),
            options,
        )

    async def diff_catalogue_releases(
        self, number: int, *, since: int, options: CallOptions | None = None
    ) -> models.ReleaseDifferences:
        """Compare a release with an older one: see `Client.diff_catalogue_releases`."""
        return await self._answer(
            Call[models.ReleaseDifferences](
                "GET",
                "/v1/catalogue-releases/{number}/differences",
                models.ReleaseDifferences,
                path={
                    "number": number,
                },
                query={
                    "since": since,
                },
                safe=True,
            ),
            options,
        )

    async def diff_cord_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a cord with an older one, in words: see `Client.diff_cord_revisions`."""
        return await self._answer(
            Call[models.RevisionDifferences](
                "GET",
                "/v1/cords/{entry}/revisions/{revision}/differences",
                models.RevisionDifferences,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                query={
                    "since": since,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def diff_kit_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a kit with an older one, in words: see `Client.diff_kit_revisions`."""
        return await self._answer(
            Call[models.RevisionDifferences](
                "GET",
                "/v1/kits/{entry}/revisions/{revision}/differences",
                models.RevisionDifferences,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                query={
                    "since": since,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def diff_power_source_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a power source with an older one, in words: see `Client.diff_power_source_revisions`."""
        return await self._answer(
            Call[models.RevisionDifferences](
                "GET",
                "/v1/power-sources/{entry}/revisions/{revision}/differences",
                models.RevisionDifferences,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                query={
                    "since": since,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def diff_source_unit_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a source unit with an older one, in words: see `Client.diff_source_unit_revisions`."""
        return await self._answer(
            Call[models.RevisionDifferences](
                "GET",
                "/v1/source-units/{entry}/revisions/{revision}/differences",
                models.RevisionDifferences,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                query={
                    "since": since,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def diff_tool_profile_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a tool profile with an older one, in words: see `Client.diff_tool_profile_revisions`."""
        return await self._answer(
            Call[models.RevisionDifferences](
                "GET",
                "/v1/tool-profiles/{entry}/revisions/{revision}/differences",
                models.RevisionDifferences,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                query={
                    "since": since,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def export_catalogue_ndjson(self, *, options: CallOptions | None = None) -> str:
        """Export the catalogue: see `Client.export_catalogue_ndjson`."""
        return await self._answer(
            Call[str](
                "GET",
                "/v1/catalogue-export",
                str,
                accept="application/x-ndjson",
                safe=True,
            ),
            options,
        )

    async def export_catalogue_sheet_csv(self, kind: words.EntryKind, *, options: CallOptions | None = None) -> str:
        """Export the newest revisions of a kind as CSV: see `Client.export_catalogue_sheet_csv`."""
        return await self._answer(
            Call[str](
                "GET",
                "/v1/catalogue-sheets/{kind}",
                str,
                path={
                    "kind": kind,
                },
                accept="text/csv",
                safe=True,
            ),
            options,
        )

    async def get_catalogue_release(self, number: int, *, options: CallOptions | None = None) -> models.Release:
        """Read one release: see `Client.get_catalogue_release`."""
        return await self._answer(
            Call[models.Release](
                "GET",
                "/v1/catalogue-releases/{number}",
                models.Release,
                path={
                    "number": number,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_cord(self, entry: str, *, options: CallOptions | None = None) -> models.CordRevision:
        """Read the newest revision of a cord: see `Client.get_cord`."""
        return await self._answer(
            Call[models.CordRevision](
                "GET",
                "/v1/cords/{entry}",
                models.CordRevision,
                path={
                    "entry": entry,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_cord_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.CordRevision:
        """Read one revision of a cord: see `Client.get_cord_revision`."""
        return await self._answer(
            Call[models.CordRevision](
                "GET",
                "/v1/cords/{entry}/revisions/{revision}",
                models.CordRevision,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_kit(self, entry: str, *, options: CallOptions | None = None) -> models.KitRevision:
        """Read the newest revision of a kit: see `Client.get_kit`."""
        return await self._answer(
            Call[models.KitRevision](
                "GET",
                "/v1/kits/{entry}",
                models.KitRevision,
                path={
                    "entry": entry,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_kit_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.KitRevision:
        """Read one revision of a kit: see `Client.get_kit_revision`."""
        return await self._answer(
            Call[models.KitRevision](
                "GET",
                "/v1/kits/{entry}/revisions/{revision}",
                models.KitRevision,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_liveness(self, *, options: CallOptions | None = None) -> models.Liveness:
        """Say that the process is alive: see `Client.get_liveness`."""
        return await self._answer(
            Call[models.Liveness](
                "GET",
                "/livez",
                models.Liveness,
                safe=True,
            ),
            options,
        )

    async def get_power_source(self, entry: str, *, options: CallOptions | None = None) -> models.PowerSourceRevision:
        """Read the newest revision of a power source: see `Client.get_power_source`."""
        return await self._answer(
            Call[models.PowerSourceRevision](
                "GET",
                "/v1/power-sources/{entry}",
                models.PowerSourceRevision,
                path={
                    "entry": entry,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_power_source_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.PowerSourceRevision:
        """Read one revision of a power source: see `Client.get_power_source_revision`."""
        return await self._answer(
            Call[models.PowerSourceRevision](
                "GET",
                "/v1/power-sources/{entry}/revisions/{revision}",
                models.PowerSourceRevision,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_problem_type(self, code: str, *, options: CallOptions | None = None) -> models.ProblemTypePage:
        """Explain a type of problem: see `Client.get_problem_type`."""
        return await self._answer(
            Call[models.ProblemTypePage](
                "GET",
                "/problems/{code}",
                models.ProblemTypePage,
                path={
                    "code": code,
                },
                safe=True,
            ),
            options,
        )

    async def get_readiness(self, *, options: CallOptions | None = None) -> models.Readiness:
        """Say whether calculations can be answered: see `Client.get_readiness`."""
        return await self._answer(
            Call[models.Readiness](
                "GET",
                "/readyz",
                models.Readiness,
                safe=True,
            ),
            options,
        )

    async def get_rule_layer(
        self, code_basis: str, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RuleLayer:
        """Read one layer of rules with its clauses: see `Client.get_rule_layer`."""
        return await self._answer(
            Call[models.RuleLayer](
                "GET",
                "/v1/reference/rules/{code_basis}",
                models.RuleLayer,
                path={
                    "code_basis": code_basis,
                },
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_source_unit(self, entry: str, *, options: CallOptions | None = None) -> models.SourceUnitRevision:
        """Read the newest revision of a source unit: see `Client.get_source_unit`."""
        return await self._answer(
            Call[models.SourceUnitRevision](
                "GET",
                "/v1/source-units/{entry}",
                models.SourceUnitRevision,
                path={
                    "entry": entry,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_source_unit_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.SourceUnitRevision:
        """Read one revision of a source unit: see `Client.get_source_unit_revision`."""
        return await self._answer(
            Call[models.SourceUnitRevision](
                "GET",
                "/v1/source-units/{entry}/revisions/{revision}",
                models.SourceUnitRevision,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_standard_table(
        self, table: str, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.StandardTable:
        """Read one table of a standard, with its citation and how sure each row is: see `Client.get_standard_table`."""
        return await self._answer(
            Call[models.StandardTable](
                "GET",
                "/v1/reference/tables/{table}",
                models.StandardTable,
                path={
                    "table": table,
                },
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_tool_profile(self, entry: str, *, options: CallOptions | None = None) -> models.ToolProfileRevision:
        """Read the newest revision of a tool profile: see `Client.get_tool_profile`."""
        return await self._answer(
            Call[models.ToolProfileRevision](
                "GET",
                "/v1/tool-profiles/{entry}",
                models.ToolProfileRevision,
                path={
                    "entry": entry,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def get_tool_profile_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.ToolProfileRevision:
        """Read one revision of a tool profile: see `Client.get_tool_profile_revision`."""
        return await self._answer(
            Call[models.ToolProfileRevision](
                "GET",
                "/v1/tool-profiles/{entry}/revisions/{revision}",
                models.ToolProfileRevision,
                path={
                    "entry": entry,
                    "revision": revision,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    @overload
    async def import_catalogue(
        self, request: models.CatalogueImport, /, *, options: CallOptions | None = None
    ) -> models.CatalogueImported: ...
    @overload
    async def import_catalogue(
        self, /, *, ndjson: str, by: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.CatalogueImported: ...
    async def import_catalogue(
        self, request: models.CatalogueImport | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.CatalogueImported:
        """Bring in an export, all of it or nothing: see `Client.import_catalogue`."""
        return await self._answer(
            Call[models.CatalogueImported](
                "POST",
                "/v1/catalogue-imports",
                models.CatalogueImported,
                body=body_of(models.CatalogueImport, request, members),
            ),
            options,
        )

    @overload
    async def import_catalogue_sheet(
        self, kind: words.EntryKind, request: models.SheetImport, /, *, options: CallOptions | None = None
    ) -> models.SheetImported: ...
    @overload
    async def import_catalogue_sheet(
        self,
        kind: words.EntryKind,
        /,
        *,
        csv: str,
        why: str,
        by: str | UnsetType = UNSET,
        dry_run: bool | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.SheetImported: ...
    async def import_catalogue_sheet(
        self,
        kind: words.EntryKind,
        request: models.SheetImport | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SheetImported:
        """Bring in a spreadsheet, all rows or none: see `Client.import_catalogue_sheet`."""
        return await self._answer(
            Call[models.SheetImported](
                "POST",
                "/v1/catalogue-sheets/{kind}",
                models.SheetImported,
                path={
                    "kind": kind,
                },
                body=body_of(models.SheetImport, request, members),
            ),
            options,
        )

    async def list_access_keys(self, *, options: CallOptions | None = None) -> models.AccessKeyList:
        """List all keys, without their secrets: see `Client.list_access_keys`."""
        return await self._answer(
            Call[models.AccessKeyList](
                "GET",
                "/v1/access-keys",
                models.AccessKeyList,
                safe=True,
            ),
            options,
        )

    async def list_assumption_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.AssumptionCodeList:
        """List the kinds of assumptions: see `Client.list_assumption_codes`."""
        return await self._answer(
            Call[models.AssumptionCodeList](
                "GET",
                "/v1/reference/assumptions",
                models.AssumptionCodeList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_audit(
        self,
        *,
        subject: str | UnsetType = UNSET,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.AuditPage:
        """List acts, newest first: see `Client.list_audit`."""
        return await self._answer(
            Call[models.AuditPage](
                "GET",
                "/v1/audit",
                models.AuditPage,
                query={
                    "subject": subject,
                    "before": before,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_audit(
        self,
        *,
        subject: str | UnsetType = UNSET,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.AuditRow]:
        """List acts, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_audit takes; `before` is where to begin.
        """
        return async_rows(
            lambda at: self.list_audit(subject=subject, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    async def list_catalogue_release_members(
        self,
        number: int,
        *,
        after: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.MemberPage:
        """List the members of a release: see `Client.list_catalogue_release_members`."""
        return await self._answer(
            Call[models.MemberPage](
                "GET",
                "/v1/catalogue-releases/{number}/members",
                models.MemberPage,
                path={
                    "number": number,
                },
                query={
                    "after": after,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_catalogue_release_members(
        self,
        number: int,
        *,
        after: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.MemberRow]:
        """List the members of a release: every row of every page, a page when its first row is asked for.

        Takes what list_catalogue_release_members takes; `after` is where to begin.
        """
        return async_rows(
            lambda at: self.list_catalogue_release_members(number, after=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_after,
            after,
        )

    async def list_catalogue_releases(
        self, *, before: int | UnsetType = UNSET, limit: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.ReleasePage:
        """List releases, newest first: see `Client.list_catalogue_releases`."""
        return await self._answer(
            Call[models.ReleasePage](
                "GET",
                "/v1/catalogue-releases",
                models.ReleasePage,
                query={
                    "before": before,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_catalogue_releases(
        self, *, before: int | UnsetType = UNSET, limit: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> AsyncIterator[models.Release]:
        """List releases, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_catalogue_releases takes; `before` is where to begin.
        """
        return async_rows(
            lambda at: self.list_catalogue_releases(before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    async def list_catalogue_sheets(self, *, options: CallOptions | None = None) -> models.SheetList:
        """List the columns of every kind of sheet: see `Client.list_catalogue_sheets`."""
        return await self._answer(
            Call[models.SheetList](
                "GET",
                "/v1/catalogue-sheets",
                models.SheetList,
                safe=True,
            ),
            options,
        )

    async def list_citations(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.CitationList:
        """List the documents that tables and rules are copies of: see `Client.list_citations`."""
        return await self._answer(
            Call[models.CitationList](
                "GET",
                "/v1/reference/citations",
                models.CitationList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_cord_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a cord, newest first: see `Client.list_cord_revisions`."""
        return await self._answer(
            Call[models.RevisionPage](
                "GET",
                "/v1/cords/{entry}/revisions",
                models.RevisionPage,
                path={
                    "entry": entry,
                },
                query={
                    "before": before,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_cord_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.RevisionRow]:
        """List the revisions of a cord, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_cord_revisions takes; `before` is where to begin.
        """
        return async_rows(
            lambda at: self.list_cord_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    async def list_cords(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.EntryPage:
        """List or search cords: see `Client.list_cords`."""
        return await self._answer(
            Call[models.EntryPage](
                "GET",
                "/v1/cords",
                models.EntryPage,
                query={
                    "words": words,
                    "voltage_low": voltage_low,
                    "voltage_high": voltage_high,
                    "plug": plug,
                    "power_low": power_low,
                    "power_high": power_high,
                    "status": status,
                    "limit": limit,
                    "cursor": cursor,
                },
                safe=True,
            ),
            options,
        )

    def iterate_cords(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.EntryRow]:
        """List or search cords: every row of every page, a page when its first row is asked for.

        Takes what list_cords takes; `cursor` is where to begin.
        """
        return async_rows(
            lambda at: self.list_cords(
                words=words,
                voltage_low=voltage_low,
                voltage_high=voltage_high,
                plug=plug,
                power_low=power_low,
                power_high=power_high,
                status=status,
                limit=limit,
                cursor=at,
                options=options,
            ),
            lambda page: page.items,
            lambda page: page.next_cursor,
            cursor,
        )

    async def list_fault_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.FaultCodeList:
        """List the kinds of faults that a request can have: see `Client.list_fault_codes`."""
        return await self._answer(
            Call[models.FaultCodeList](
                "GET",
                "/v1/reference/fault-codes",
                models.FaultCodeList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_finding_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.FindingCodeList:
        """List the kinds of findings: see `Client.list_finding_codes`."""
        return await self._answer(
            Call[models.FindingCodeList](
                "GET",
                "/v1/reference/findings",
                models.FindingCodeList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    @overload
    async def list_hazards(
        self, request: models.SafetyListRequest, /, *, options: CallOptions | None = None
    ) -> models.SafetyListAnswer: ...
    @overload
    async def list_hazards(
        self,
        /,
        *,
        sources: list[models.SafetySource] | UnsetType = UNSET,
        kits: list[models.MatrixKit] | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.SafetyListAnswer: ...
    async def list_hazards(
        self, request: models.SafetyListRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.SafetyListAnswer:
        """List what of a fleet to look at: see `Client.list_hazards`."""
        return await self._answer(
            Call[models.SafetyListAnswer](
                "POST",
                "/v1/safety-lists",
                models.SafetyListAnswer,
                body=body_of(models.SafetyListRequest, request, members),
                safe=True,
            ),
            options,
        )

    @overload
    async def list_hazards_csv(
        self, request: models.SafetyListRequest, /, *, options: CallOptions | None = None
    ) -> str: ...
    @overload
    async def list_hazards_csv(
        self,
        /,
        *,
        sources: list[models.SafetySource] | UnsetType = UNSET,
        kits: list[models.MatrixKit] | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> str: ...
    async def list_hazards_csv(
        self, request: models.SafetyListRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> str:
        """List what of a fleet to look at: see `Client.list_hazards_csv`."""
        return await self._answer(
            Call[str](
                "POST",
                "/v1/safety-lists",
                str,
                body=body_of(models.SafetyListRequest, request, members),
                accept="text/csv",
                safe=True,
            ),
            options,
        )

    async def list_kit_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a kit, newest first: see `Client.list_kit_revisions`."""
        return await self._answer(
            Call[models.RevisionPage](
                "GET",
                "/v1/kits/{entry}/revisions",
                models.RevisionPage,
                path={
                    "entry": entry,
                },
                query={
                    "before": before,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_kit_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.RevisionRow]:
        """List the revisions of a kit, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_kit_revisions takes; `before` is where to begin.
        """
        return async_rows(
            lambda at: self.list_kit_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    async def list_kits(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.EntryPage:
        """List or search kits: see `Client.list_kits`."""
        return await self._answer(
            Call[models.EntryPage](
                "GET",
                "/v1/kits",
                models.EntryPage,
                query={
                    "words": words,
                    "voltage_low": voltage_low,
                    "voltage_high": voltage_high,
                    "plug": plug,
                    "power_low": power_low,
                    "power_high": power_high,
                    "status": status,
                    "limit": limit,
                    "cursor": cursor,
                },
                safe=True,
            ),
            options,
        )

    def iterate_kits(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.EntryRow]:
        """List or search kits: every row of every page, a page when its first row is asked for.

        Takes what list_kits takes; `cursor` is where to begin.
        """
        return async_rows(
            lambda at: self.list_kits(
                words=words,
                voltage_low=voltage_low,
                voltage_high=voltage_high,
                plug=plug,
                power_low=power_low,
                power_high=power_high,
                status=status,
                limit=limit,
                cursor=at,
                options=options,
            ),
            lambda page: page.items,
            lambda page: page.next_cursor,
            cursor,
        )

    async def list_load_classes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.LoadClassList:
        """List the kinds of loads and what is assumed of each: see `Client.list_load_classes`."""
        return await self._answer(
            Call[models.LoadClassList](
                "GET",
                "/v1/reference/load-classes",
                models.LoadClassList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_plugs(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.PlugList:
        """List plugs and receptacles, and what goes into what: see `Client.list_plugs`."""
        return await self._answer(
            Call[models.PlugList](
                "GET",
                "/v1/reference/plugs",
                models.PlugList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_power_source_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a power source, newest first: see `Client.list_power_source_revisions`."""
        return await self._answer(
            Call[models.RevisionPage](
                "GET",
                "/v1/power-sources/{entry}/revisions",
                models.RevisionPage,
                path={
                    "entry": entry,
                },
                query={
                    "before": before,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_power_source_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.RevisionRow]:
        """List the revisions of a power source, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_power_source_revisions takes; `before` is where to begin.
        """
        return async_rows(
            lambda at: self.list_power_source_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    async def list_power_sources(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.EntryPage:
        """List or search power sources: see `Client.list_power_sources`."""
        return await self._answer(
            Call[models.EntryPage](
                "GET",
                "/v1/power-sources",
                models.EntryPage,
                query={
                    "words": words,
                    "voltage_low": voltage_low,
                    "voltage_high": voltage_high,
                    "plug": plug,
                    "power_low": power_low,
                    "power_high": power_high,
                    "status": status,
                    "limit": limit,
                    "cursor": cursor,
                },
                safe=True,
            ),
            options,
        )

    def iterate_power_sources(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.EntryRow]:
        """List or search power sources: every row of every page, a page when its first row is asked for.

        Takes what list_power_sources takes; `cursor` is where to begin.
        """
        return async_rows(
            lambda at: self.list_power_sources(
                words=words,
                voltage_low=voltage_low,
                voltage_high=voltage_high,
                plug=plug,
                power_low=power_low,
                power_high=power_high,
                status=status,
                limit=limit,
                cursor=at,
                options=options,
            ),
            lambda page: page.items,
            lambda page: page.next_cursor,
            cursor,
        )

    async def list_problem_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.ProblemCodeList:
        """List the types of problem that a request can run into: see `Client.list_problem_codes`."""
        return await self._answer(
            Call[models.ProblemCodeList](
                "GET",
                "/v1/reference/problem-codes",
                models.ProblemCodeList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_problem_types(self, *, options: CallOptions | None = None) -> models.ProblemTypeList:
        """List the types of problem: see `Client.list_problem_types`."""
        return await self._answer(
            Call[models.ProblemTypeList](
                "GET",
                "/problems",
                models.ProblemTypeList,
                safe=True,
            ),
            options,
        )

    async def list_rule_layers(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RuleLayerList:
        """List the layers of rules that `code_basis` may name: see `Client.list_rule_layers`."""
        return await self._answer(
            Call[models.RuleLayerList](
                "GET",
                "/v1/reference/rules",
                models.RuleLayerList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_source_unit_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a source unit, newest first: see `Client.list_source_unit_revisions`."""
        return await self._answer(
            Call[models.RevisionPage](
                "GET",
                "/v1/source-units/{entry}/revisions",
                models.RevisionPage,
                path={
                    "entry": entry,
                },
                query={
                    "before": before,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_source_unit_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.RevisionRow]:
        """List the revisions of a source unit, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_source_unit_revisions takes; `before` is where to begin.
        """
        return async_rows(
            lambda at: self.list_source_unit_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    async def list_source_units(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.EntryPage:
        """List or search source units: see `Client.list_source_units`."""
        return await self._answer(
            Call[models.EntryPage](
                "GET",
                "/v1/source-units",
                models.EntryPage,
                query={
                    "words": words,
                    "voltage_low": voltage_low,
                    "voltage_high": voltage_high,
                    "plug": plug,
                    "power_low": power_low,
                    "power_high": power_high,
                    "status": status,
                    "limit": limit,
                    "cursor": cursor,
                },
                safe=True,
            ),
            options,
        )

    def iterate_source_units(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.EntryRow]:
        """List or search source units: every row of every page, a page when its first row is asked for.

        Takes what list_source_units takes; `cursor` is where to begin.
        """
        return async_rows(
            lambda at: self.list_source_units(
                words=words,
                voltage_low=voltage_low,
                voltage_high=voltage_high,
                plug=plug,
                power_low=power_low,
                power_high=power_high,
                status=status,
                limit=limit,
                cursor=at,
                options=options,
            ),
            lambda page: page.items,
            lambda page: page.next_cursor,
            cursor,
        )

    async def list_tool_profile_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a tool profile, newest first: see `Client.list_tool_profile_revisions`."""
        return await self._answer(
            Call[models.RevisionPage](
                "GET",
                "/v1/tool-profiles/{entry}/revisions",
                models.RevisionPage,
                path={
                    "entry": entry,
                },
                query={
                    "before": before,
                    "limit": limit,
                },
                safe=True,
            ),
            options,
        )

    def iterate_tool_profile_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.RevisionRow]:
        """List the revisions of a tool profile, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_tool_profile_revisions takes; `before` is where to begin.
        """
        return async_rows(
            lambda at: self.list_tool_profile_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    async def list_tool_profiles(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.EntryPage:
        """List or search tool profiles: see `Client.list_tool_profiles`."""
        return await self._answer(
            Call[models.EntryPage](
                "GET",
                "/v1/tool-profiles",
                models.EntryPage,
                query={
                    "words": words,
                    "voltage_low": voltage_low,
                    "voltage_high": voltage_high,
                    "plug": plug,
                    "power_low": power_low,
                    "power_high": power_high,
                    "status": status,
                    "limit": limit,
                    "cursor": cursor,
                },
                safe=True,
            ),
            options,
        )

    def iterate_tool_profiles(
        self,
        *,
        words: str | UnsetType = UNSET,
        voltage_low: float | UnsetType = UNSET,
        voltage_high: float | UnsetType = UNSET,
        plug: str | UnsetType = UNSET,
        power_low: float | UnsetType = UNSET,
        power_high: float | UnsetType = UNSET,
        status: words.EntryStatus | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        cursor: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncIterator[models.EntryRow]:
        """List or search tool profiles: every row of every page, a page when its first row is asked for.

        Takes what list_tool_profiles takes; `cursor` is where to begin.
        """
        return async_rows(
            lambda at: self.list_tool_profiles(
                words=words,
                voltage_low=voltage_low,
                voltage_high=voltage_high,
                plug=plug,
                power_low=power_low,
                power_high=power_high,
                status=status,
                limit=limit,
                cursor=at,
                options=options,
            ),
            lambda page: page.items,
            lambda page: page.next_cursor,
            cursor,
        )

    async def list_units(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.DimensionList:
        """List the units that are accepted, with their factors to SI: see `Client.list_units`."""
        return await self._answer(
            Call[models.DimensionList](
                "GET",
                "/v1/reference/units",
                models.DimensionList,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    async def list_words(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.WordLists:
        """List the open words of answers: see `Client.list_words`."""
        return await self._answer(
            Call[models.WordLists](
                "GET",
                "/v1/reference/words",
                models.WordLists,
                query={
                    "engine_version": engine_version,
                },
                safe=True,
                keeps=True,
            ),
            options,
        )

    @overload
    async def plan_outlets(
        self, request: models.OutletPlanRequest, /, *, options: CallOptions | None = None
    ) -> models.OutletPlanAnswer: ...
    @overload
    async def plan_outlets(
        self,
        /,
        *,
        source: models.AnySource,
        tools: list[models.ToolInUse] | UnsetType = UNSET,
        cords: list[models.CordInUse] | UnsetType = UNSET,
        kit: models.KitInUse | UnsetType = UNSET,
        connections: list[models.Connection] | UnsetType = UNSET,
        people: int | UnsetType = UNSET,
        cases: list[models.Case] | UnsetType = UNSET,
        conditions: models.Conditions | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[words.EnergyBudgetRequestInclude] | UnsetType = UNSET,
        shift: str | UnsetType = UNSET,
        positions: list[models.WorkPosition] | UnsetType = UNSET,
        wishes: list[models.ToolWish] | UnsetType = UNSET,
        groups: list[models.ToolGroup] | UnsetType = UNSET,
        plans: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.OutletPlanAnswer: ...
    async def plan_outlets(
        self, request: models.OutletPlanRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.OutletPlanAnswer:
        """Plan which tool goes into which receptacle: see `Client.plan_outlets`."""
        return await self._answer(
            Call[models.OutletPlanAnswer](
                "POST",
                "/v1/outlet-plans",
                models.OutletPlanAnswer,
                body=body_of(models.OutletPlanRequest, request, members),
                safe=True,
            ),
            options,
        )

    async def revoke_access_key(self, id: str, *, options: CallOptions | None = None) -> models.AccessKeyRow:
        """Revoke a key for good: see `Client.revoke_access_key`."""
        return await self._answer(
            Call[models.AccessKeyRow](
                "DELETE",
                "/v1/access-keys/{id}",
                models.AccessKeyRow,
                path={
                    "id": id,
                },
            ),
            options,
        )

    @overload
    async def size_cords(
        self, request: models.CordSizingRequest, /, *, options: CallOptions | None = None
    ) -> models.CordSizingAnswer: ...
    @overload
    async def size_cords(
        self,
        /,
        *,
        source: models.AnySource,
        tool: models.ToolInUse,
        distance: str | UnsetType = UNSET,
        receptacle: str | UnsetType = UNSET,
        cords: list[models.CordCandidate] | UnsetType = UNSET,
        run: list[str] | UnsetType = UNSET,
        sizes: list[str] | UnsetType = UNSET,
        new_cord: models.CordToBring | UnsetType = UNSET,
        conditions: models.Conditions | UnsetType = UNSET,
        code_basis: list[words.CodeBasis] | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.CordSizingAnswer: ...
    async def size_cords(
        self, request: models.CordSizingRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.CordSizingAnswer:
        """Size the cord of a tool, or judge the cords at hand: see `Client.size_cords`."""
        return await self._answer(
            Call[models.CordSizingAnswer](
                "POST",
                "/v1/cord-sizings",
                models.CordSizingAnswer,
                body=body_of(models.CordSizingRequest, request, members),
                safe=True,
            ),
            options,
        )

    @overload
    async def validate_kits(
        self, request: models.KitValidationRequest, /, *, options: CallOptions | None = None
    ) -> models.KitValidationAnswer: ...
    @overload
    async def validate_kits(
        self,
        /,
        *,
        sources: list[models.MatrixSource],
        kits: list[models.MatrixKit],
        jobs: list[models.MatrixJob] | UnsetType = UNSET,
        rows: models.RowRange | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[str] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.KitValidationAnswer: ...
    async def validate_kits(
        self,
        request: models.KitValidationRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.KitValidationAnswer:
        """Check many kits on many sources for many jobs: see `Client.validate_kits`."""
        return await self._answer(
            Call[models.KitValidationAnswer](
                "POST",
                "/v1/kit-validations",
                models.KitValidationAnswer,
                body=body_of(models.KitValidationRequest, request, members),
                safe=True,
            ),
            options,
        )

    @overload
    async def validate_kits_csv(
        self, request: models.KitValidationRequest, /, *, options: CallOptions | None = None
    ) -> str: ...
    @overload
    async def validate_kits_csv(
        self,
        /,
        *,
        sources: list[models.MatrixSource],
        kits: list[models.MatrixKit],
        jobs: list[models.MatrixJob] | UnsetType = UNSET,
        rows: models.RowRange | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[str] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> str: ...
    async def validate_kits_csv(
        self,
        request: models.KitValidationRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> str:
        """Check many kits on many sources for many jobs: see `Client.validate_kits_csv`."""
        return await self._answer(
            Call[str](
                "POST",
                "/v1/kit-validations",
                str,
                body=body_of(models.KitValidationRequest, request, members),
                accept="text/csv",
                safe=True,
            ),
            options,
        )

    @overload
    def validate_kits_lines(
        self, request: models.KitValidationRequest, /, *, options: CallOptions | None = None
    ) -> AsyncLines[models.KitValidationLine]: ...
    @overload
    def validate_kits_lines(
        self,
        /,
        *,
        sources: list[models.MatrixSource],
        kits: list[models.MatrixKit],
        jobs: list[models.MatrixJob] | UnsetType = UNSET,
        rows: models.RowRange | UnsetType = UNSET,
        catalogue_release: int | UnsetType = UNSET,
        withdrawals_as_of: str | UnsetType = UNSET,
        include: list[str] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> AsyncLines[models.KitValidationLine]: ...
    def validate_kits_lines(
        self,
        request: models.KitValidationRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> AsyncLines[models.KitValidationLine]:
        """Check many kits on many sources for many jobs: see `Client.validate_kits_lines`."""
        return self._lines(
            Call[models.KitValidationLine](
                "POST",
                "/v1/kit-validations",
                models.KitValidationLine,
                body=body_of(models.KitValidationRequest, request, members),
                accept="application/x-ndjson",
                safe=True,
            ),
            options,
        )

    @overload
    async def withdraw_cord(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    async def withdraw_cord(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    async def withdraw_cord(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a cord, or one revision of it: see `Client.withdraw_cord`."""
        return await self._answer(
            Call[models.WithdrawalNote](
                "POST",
                "/v1/cords/{entry}/withdrawals",
                models.WithdrawalNote,
                path={
                    "entry": entry,
                },
                body=body_of(models.NewWithdrawal, request, members),
            ),
            options,
        )

    @overload
    async def withdraw_kit(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    async def withdraw_kit(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    async def withdraw_kit(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a kit, or one revision of it: see `Client.withdraw_kit`."""
        return await self._answer(
            Call[models.WithdrawalNote](
                "POST",
                "/v1/kits/{entry}/withdrawals",
                models.WithdrawalNote,
                path={
                    "entry": entry,
                },
                body=body_of(models.NewWithdrawal, request, members),
            ),
            options,
        )

    @overload
    async def withdraw_power_source(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    async def withdraw_power_source(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    async def withdraw_power_source(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a power source, or one revision of it: see `Client.withdraw_power_source`."""
        return await self._answer(
            Call[models.WithdrawalNote](
                "POST",
                "/v1/power-sources/{entry}/withdrawals",
                models.WithdrawalNote,
                path={
                    "entry": entry,
                },
                body=body_of(models.NewWithdrawal, request, members),
            ),
            options,
        )

    @overload
    async def withdraw_source_unit(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    async def withdraw_source_unit(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    async def withdraw_source_unit(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a source unit, or one revision of it: see `Client.withdraw_source_unit`."""
        return await self._answer(
            Call[models.WithdrawalNote](
                "POST",
                "/v1/source-units/{entry}/withdrawals",
                models.WithdrawalNote,
                path={
                    "entry": entry,
                },
                body=body_of(models.NewWithdrawal, request, members),
            ),
            options,
        )

    @overload
    async def withdraw_tool_profile(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    async def withdraw_tool_profile(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    async def withdraw_tool_profile(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a tool profile, or one revision of it: see `Client.withdraw_tool_profile`."""
        return await self._answer(
            Call[models.WithdrawalNote](
                "POST",
                "/v1/tool-profiles/{entry}/withdrawals",
                models.WithdrawalNote,
                path={
                    "entry": entry,
                },
                body=body_of(models.NewWithdrawal, request, members),
            ),
            options,
        )
