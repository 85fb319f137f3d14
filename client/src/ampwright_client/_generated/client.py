# Made by client/generator/generate.py from the contract with SHA-256 e2dbf7f741caf78d0fb51a0ce19a5648b9c80ee5bb425de7e6306c173b46e4fd. Do not edit.
"""What can be asked of the service?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, overload

from msgspec import UNSET, UnsetType

from ampwright_client._generated import models, words
from ampwright_client.calls import Call, CallOptions, body_of
from ampwright_client.lines import Lines
from ampwright_client.pages import rows
from ampwright_client.transport import Transport

__all__ = ["Client"]


class Client(Transport):
    """The calls of the service.

    One method for every operation; what it takes is a keyword each, or, where a body is sent, the whole request as one
    argument. Every method can raise an AmpwrightError.
    """

    @overload
    def budget_energy(
        self, request: models.EnergyBudgetRequest, /, *, options: CallOptions | None = None
    ) -> models.EnergyBudgetAnswer: ...
    @overload
    def budget_energy(
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
    def budget_energy(
        self,
        request: models.EnergyBudgetRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.EnergyBudgetAnswer:
        """Budget a day's energy.

        Post what a load check takes, with the charge or the fuel that there is, what runs for how much of the
        time or what work must be done, and the way home. Leave out what is not known: it becomes a stated
        assumption with a wide range. Days are drawn from all ranges with a seed, so the same request has the
        same answer; p10 is the worst of ten days. A day that fails is an answer, with the cheapest change
        that makes it. Whether the tools run together at all is what POST /v1/load-checks answers.

        Takes a `models.EnergyBudgetRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Lines[models.EnergyBatchLine]: ...
    @overload
    def budget_energy_batch(
        self,
        /,
        *,
        budget: models.EnergyBudgetRequest,
        scenarios: list[models.EnergyScenario],
        options: CallOptions | None = None,
    ) -> Lines[models.EnergyBatchLine]: ...
    def budget_energy_batch(
        self,
        request: models.EnergyBudgetBatchRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> Lines[models.EnergyBatchLine]:
        """Budget many days.

        Post a budget that is common to all and up to 10,000 scenarios, each with an id and the steps of RFC
        6902 that make its own budget of the common one. Rows come line by line in the order sent, with the
        same figures as POST /v1/energy-budgets gives for each; what is wrong with one scenario stands in its
        row, and the others go on. The last line has the kind `end`: a stream without it was cut off. Take
        fewer draws for a quick look.

        Takes a `models.EnergyBudgetBatchRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
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
    def check_load(
        self, request: models.LoadCheckRequest, /, *, options: CallOptions | None = None
    ) -> models.LoadCheckAnswer: ...
    @overload
    def check_load(
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
    def check_load(
        self, request: models.LoadCheckRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.LoadCheckAnswer:
        """Check which tools run on a power source.

        Post a source, what is plugged into what through which cords, how many people work, and which cases
        run. Leave out what is not known: every omitted figure becomes a stated assumption on the safe side,
        and where one assumption alone decides, the verdict is `unknown` and the answer names the question
        that settles it. Trips, low voltage and overloads are answers, not problems. The answer informs a
        qualified person; it is no permission to energise.

        Takes a `models.LoadCheckRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    def check_load_text(self, request: models.LoadCheckRequest, /, *, options: CallOptions | None = None) -> str: ...
    @overload
    def check_load_text(
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
    def check_load_text(
        self, request: models.LoadCheckRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> str:
        """Check which tools run on a power source.

        Post a source, what is plugged into what through which cords, how many people work, and which cases
        run. Leave out what is not known: every omitted figure becomes a stated assumption on the safe side,
        and where one assumption alone decides, the verdict is `unknown` and the answer names the question
        that settles it. Trips, low voltage and overloads are answers, not problems. The answer informs a
        qualified person; it is no permission to energise.

        Takes a `models.LoadCheckRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    def compare_sources(
        self, request: models.SourceComparisonRequest, /, *, options: CallOptions | None = None
    ) -> models.SourceComparisonAnswer: ...
    @overload
    def compare_sources(
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
    def compare_sources(
        self,
        request: models.SourceComparisonRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SourceComparisonAnswer:
        """Compare sources for kits and jobs.

        Each row is a load check of its own, and an energy budget where the day is given; nothing is a sum of
        watts. It tells what fails first and where, the amperes left, the least sure start, how power comes
        back, how far the energy goes, what a day costs, and what to bring. Sources are put in order by
        verdict, and among equal verdicts by the weights, 1 each where none are sent; small changes that would
        put another first are named, and the Pareto set is marked. Capacity is taken from the lower of label
        and what was seen to trip. Up to 600 rows come as one JSON answer; accept application/x-ndjson or
        text/csv for up to 50,000; a stream whose last line is not of the kind `end` was cut.

        Takes a `models.SourceComparisonRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    def compare_sources_csv(
        self, request: models.SourceComparisonRequest, /, *, options: CallOptions | None = None
    ) -> str: ...
    @overload
    def compare_sources_csv(
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
    def compare_sources_csv(
        self,
        request: models.SourceComparisonRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> str:
        """Compare sources for kits and jobs.

        Each row is a load check of its own, and an energy budget where the day is given; nothing is a sum of
        watts. It tells what fails first and where, the amperes left, the least sure start, how power comes
        back, how far the energy goes, what a day costs, and what to bring. Sources are put in order by
        verdict, and among equal verdicts by the weights, 1 each where none are sent; small changes that would
        put another first are named, and the Pareto set is marked. Capacity is taken from the lower of label
        and what was seen to trip. Up to 600 rows come as one JSON answer; accept application/x-ndjson or
        text/csv for up to 50,000; a stream whose last line is not of the kind `end` was cut.

        Takes a `models.SourceComparisonRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Lines[models.SourceComparisonLine]: ...
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
    ) -> Lines[models.SourceComparisonLine]: ...
    def compare_sources_lines(
        self,
        request: models.SourceComparisonRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> Lines[models.SourceComparisonLine]:
        """Compare sources for kits and jobs.

        Each row is a load check of its own, and an energy budget where the day is given; nothing is a sum of
        watts. It tells what fails first and where, the amperes left, the least sure start, how power comes
        back, how far the energy goes, what a day costs, and what to bring. Sources are put in order by
        verdict, and among equal verdicts by the weights, 1 each where none are sent; small changes that would
        put another first are named, and the Pareto set is marked. Capacity is taken from the lower of label
        and what was seen to trip. Up to 600 rows come as one JSON answer; accept application/x-ndjson or
        text/csv for up to 50,000; a stream whose last line is not of the kind `end` was cut.

        Takes a `models.SourceComparisonRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
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
    def compare_verdicts(
        self, request: models.VerdictChangesRequest, /, *, options: CallOptions | None = None
    ) -> models.VerdictChangesAnswer: ...
    @overload
    def compare_verdicts(
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
    def compare_verdicts(
        self,
        request: models.VerdictChangesRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.VerdictChangesAnswer:
        """Compare the verdicts of two releases.

        Every kit on every source at every job is validated against both releases, and the rows whose verdict
        differs are told: what got worse first, with the documents behind the row whose revisions differ, and
        in which figures. Rows that neither release can answer are named with what is wrong with them. Up to
        600 rows a call; ask for some by `rows`.

        Takes a `models.VerdictChangesRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    def create_access_key(
        self, request: models.NewAccessKey, /, *, options: CallOptions | None = None
    ) -> models.MadeAccessKey: ...
    @overload
    def create_access_key(
        self,
        /,
        *,
        scopes: list[words.Scopes],
        note: str,
        by: str | UnsetType = UNSET,
        expires_at: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.MadeAccessKey: ...
    def create_access_key(
        self, request: models.NewAccessKey | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.MadeAccessKey:
        """Make an access key.

        Its text is in this answer and nowhere else. A caller whose key may make keys can make any.

        Takes a `models.NewAccessKey`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
            Call[models.MadeAccessKey](
                "POST",
                "/v1/access-keys",
                models.MadeAccessKey,
                body=body_of(models.NewAccessKey, request, members),
            ),
            options,
        )

    @overload
    def create_catalogue_release(
        self, request: models.NewRelease, /, *, options: CallOptions | None = None
    ) -> models.Release: ...
    @overload
    def create_catalogue_release(
        self,
        /,
        *,
        note: str,
        by: str | UnsetType = UNSET,
        members: list[models.ReleaseMember] | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.Release: ...
    def create_catalogue_release(
        self, request: models.NewRelease | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.Release:
        """Cut a release.

        Of the named members, or of the newest approved revision of every entry that is not withdrawn. Its
        number is the next one, without gaps; its members never change. A kit or a unit that names what the
        release would not hold is a fault, and nothing is cut: write a new revision of it, or withdraw it.

        Takes a `models.NewRelease`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
            Call[models.Release](
                "POST",
                "/v1/catalogue-releases",
                models.Release,
                body=body_of(models.NewRelease, request, members),
            ),
            options,
        )

    @overload
    def create_cord(
        self, request: models.NewCord, /, *, if_none_match: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.CordRevision: ...
    @overload
    def create_cord(
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
    def create_cord(
        self,
        request: models.NewCord | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.CordRevision:
        """Add a cord to the catalogue.

        Sent again with the same content it answers 200; where another document has the key, 412, with or
        without If-None-Match: *.

        if_none_match : Only where there is no such entry yet; implied.

        Takes a `models.NewCord`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, precondition-failed,
        body-too-large, unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def create_cord_revision(
        self, entry: str, request: models.NewCordRevision, /, *, if_match: str, options: CallOptions | None = None
    ) -> models.CordRevision: ...
    @overload
    def create_cord_revision(
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
    def create_cord_revision(
        self,
        entry: str,
        request: models.NewCordRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.CordRevision:
        """Write a new revision of a cord.

        If-Match names the revision it was made from. An identical retry answers 200; where somebody else
        wrote in the meantime, 412 names the newest revision.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        if_match : ETag of the revision that was read; the write is built upon it.

        Takes a `models.NewCordRevision`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout,
        precondition-failed, body-too-large, unsupported-media-type, contradictory-request, invalid-request,
        precondition-required, not-ready, overloaded.
        """
        return self._answer(
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
    def create_kit(
        self, request: models.NewKit, /, *, if_none_match: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.KitRevision: ...
    @overload
    def create_kit(
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
    def create_kit(
        self,
        request: models.NewKit | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.KitRevision:
        """Add a kit to the catalogue.

        Sent again with the same content it answers 200; where another document has the key, 412, with or
        without If-None-Match: *.

        if_none_match : Only where there is no such entry yet; implied.

        Takes a `models.NewKit`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, precondition-failed,
        body-too-large, unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def create_kit_revision(
        self, entry: str, request: models.NewKitRevision, /, *, if_match: str, options: CallOptions | None = None
    ) -> models.KitRevision: ...
    @overload
    def create_kit_revision(
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
    def create_kit_revision(
        self,
        entry: str,
        request: models.NewKitRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.KitRevision:
        """Write a new revision of a kit.

        If-Match names the revision it was made from. An identical retry answers 200; where somebody else
        wrote in the meantime, 412 names the newest revision.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        if_match : ETag of the revision that was read; the write is built upon it.

        Takes a `models.NewKitRevision`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout,
        precondition-failed, body-too-large, unsupported-media-type, contradictory-request, invalid-request,
        precondition-required, not-ready, overloaded.
        """
        return self._answer(
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
    def create_power_source(
        self,
        request: models.NewPowerSource,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.PowerSourceRevision: ...
    @overload
    def create_power_source(
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
    def create_power_source(
        self,
        request: models.NewPowerSource | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.PowerSourceRevision:
        """Add a power source to the catalogue.

        Sent again with the same content it answers 200; where another document has the key, 412, with or
        without If-None-Match: *.

        if_none_match : Only where there is no such entry yet; implied.

        Takes a `models.NewPowerSource`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, precondition-failed,
        body-too-large, unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def create_power_source_revision(
        self,
        entry: str,
        request: models.NewPowerSourceRevision,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
    ) -> models.PowerSourceRevision: ...
    @overload
    def create_power_source_revision(
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
    def create_power_source_revision(
        self,
        entry: str,
        request: models.NewPowerSourceRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.PowerSourceRevision:
        """Write a new revision of a power source.

        If-Match names the revision it was made from. An identical retry answers 200; where somebody else
        wrote in the meantime, 412 names the newest revision.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        if_match : ETag of the revision that was read; the write is built upon it.

        Takes a `models.NewPowerSourceRevision`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout,
        precondition-failed, body-too-large, unsupported-media-type, contradictory-request, invalid-request,
        precondition-required, not-ready, overloaded.
        """
        return self._answer(
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
    def create_source_unit(
        self,
        request: models.NewSourceUnit,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.SourceUnitRevision: ...
    @overload
    def create_source_unit(
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
    def create_source_unit(
        self,
        request: models.NewSourceUnit | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SourceUnitRevision:
        """Add a source unit to the catalogue.

        Sent again with the same content it answers 200; where another document has the key, 412, with or
        without If-None-Match: *.

        if_none_match : Only where there is no such entry yet; implied.

        Takes a `models.NewSourceUnit`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, precondition-failed,
        body-too-large, unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def create_source_unit_revision(
        self, entry: str, request: models.NewSourceUnitRevision, /, *, if_match: str, options: CallOptions | None = None
    ) -> models.SourceUnitRevision: ...
    @overload
    def create_source_unit_revision(
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
    def create_source_unit_revision(
        self,
        entry: str,
        request: models.NewSourceUnitRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SourceUnitRevision:
        """Write a new revision of a source unit.

        If-Match names the revision it was made from. An identical retry answers 200; where somebody else
        wrote in the meantime, 412 names the newest revision.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        if_match : ETag of the revision that was read; the write is built upon it.

        Takes a `models.NewSourceUnitRevision`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout,
        precondition-failed, body-too-large, unsupported-media-type, contradictory-request, invalid-request,
        precondition-required, not-ready, overloaded.
        """
        return self._answer(
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
    def create_tool_profile(
        self,
        request: models.NewToolProfile,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.ToolProfileRevision: ...
    @overload
    def create_tool_profile(
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
    def create_tool_profile(
        self,
        request: models.NewToolProfile | None = None,
        /,
        *,
        if_none_match: str | UnsetType = UNSET,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.ToolProfileRevision:
        """Add a tool profile to the catalogue.

        Sent again with the same content it answers 200; where another document has the key, 412, with or
        without If-None-Match: *.

        if_none_match : Only where there is no such entry yet; implied.

        Takes a `models.NewToolProfile`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, precondition-failed,
        body-too-large, unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def create_tool_profile_revision(
        self,
        entry: str,
        request: models.NewToolProfileRevision,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
    ) -> models.ToolProfileRevision: ...
    @overload
    def create_tool_profile_revision(
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
    def create_tool_profile_revision(
        self,
        entry: str,
        request: models.NewToolProfileRevision | None = None,
        /,
        *,
        if_match: str,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.ToolProfileRevision:
        """Write a new revision of a tool profile.

        If-Match names the revision it was made from. An identical retry answers 200; where somebody else
        wrote in the meantime, 412 names the newest revision.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        if_match : ETag of the revision that was read; the write is built upon it.

        Takes a `models.NewToolProfileRevision`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout,
        precondition-failed, body-too-large, unsupported-media-type, contradictory-request, invalid-request,
        precondition-required, not-ready, overloaded.
        """
        return self._answer(
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
    def diagnose_stop(
        self, request: models.StopDiagnosisRequest, /, *, options: CallOptions | None = None
    ) -> models.StopDiagnosisAnswer: ...
    @overload
    def diagnose_stop(
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
    def diagnose_stop(
        self,
        request: models.StopDiagnosisRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.StopDiagnosisAnswer:
        """Diagnose why power went.

        Post what a load check takes, with what ran when it stopped and what was seen: after how long, what
        went off, how power came back, what a meter showed. Causes come ranked, each with what speaks for it,
        checks that are safe to make, and changes after which what ran holds. The ranking orders a search and
        is no measurement; nobody loads a circuit to find out where it trips.

        Takes a `models.StopDiagnosisRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
            Call[models.StopDiagnosisAnswer](
                "POST",
                "/v1/stop-diagnoses",
                models.StopDiagnosisAnswer,
                body=body_of(models.StopDiagnosisRequest, request, members),
                safe=True,
            ),
            options,
        )

    def diff_catalogue_releases(
        self, number: int, *, since: int, options: CallOptions | None = None
    ) -> models.ReleaseDifferences:
        """Compare a release with an older one.

        Which entries came, went or have another revision, and what was noted at each release in between.

        number : Number of a catalogue release, from 1.
        since : Number of the older release.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def diff_cord_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a cord with an older one, in words.

        With the one before it where `since` is left out.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.
        since : The older revision.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def diff_kit_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a kit with an older one, in words.

        With the one before it where `since` is left out.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.
        since : The older revision.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def diff_power_source_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a power source with an older one, in words.

        With the one before it where `since` is left out.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.
        since : The older revision.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def diff_source_unit_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a source unit with an older one, in words.

        With the one before it where `since` is left out.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.
        since : The older revision.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def diff_tool_profile_revisions(
        self, entry: str, revision: int, *, since: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RevisionDifferences:
        """Compare a revision of a tool profile with an older one, in words.

        With the one before it where `since` is left out.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.
        since : The older revision.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def export_catalogue_ndjson(self, *, options: CallOptions | None = None) -> str:
        """Export the catalogue.

        One line a revision, release and withdrawal, with the stored bytes and their hashes. Two services with
        the same history give the same bytes, whichever database each has. Access keys and the audit trail are
        left out.

        Problems: unauthenticated, forbidden, not-ready, overloaded.
        """
        return self._answer(
            Call[str](
                "GET",
                "/v1/catalogue-export",
                str,
                accept="application/x-ndjson",
                safe=True,
            ),
            options,
        )

    def export_catalogue_sheet_csv(self, kind: words.EntryKind, *, options: CallOptions | None = None) -> str:
        """Export the newest revisions of a kind as CSV.

        Drafts as well; what is withdrawn is left out. A cell that a spreadsheet would run as a formula has an
        apostrophe before it, which reading takes off again. Read in again unchanged, it writes nothing.

        kind : Kind of the entries that the sheet holds.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_catalogue_release(self, number: int, *, options: CallOptions | None = None) -> models.Release:
        """Read one release.

        Its digest, how many members it has, and who cut it; its members are a list of their own.

        number : Number of a catalogue release, from 1.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_cord(self, entry: str, *, options: CallOptions | None = None) -> models.CordRevision:
        """Read the newest revision of a cord.

        Its ETag is what If-Match of a new revision names; a draft is read too, though no release holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_cord_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.CordRevision:
        """Read one revision of a cord.

        Its document never changes; that it was withdrawn may be added.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_kit(self, entry: str, *, options: CallOptions | None = None) -> models.KitRevision:
        """Read the newest revision of a kit.

        Its ETag is what If-Match of a new revision names; a draft is read too, though no release holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_kit_revision(self, entry: str, revision: int, *, options: CallOptions | None = None) -> models.KitRevision:
        """Read one revision of a kit.

        Its document never changes; that it was withdrawn may be added.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_liveness(self, *, options: CallOptions | None = None) -> models.Liveness:
        """Say that the process is alive.

        Answers without touching the database or the calculation lanes.
        """
        return self._answer(
            Call[models.Liveness](
                "GET",
                "/livez",
                models.Liveness,
                safe=True,
            ),
            options,
        )

    def get_power_source(self, entry: str, *, options: CallOptions | None = None) -> models.PowerSourceRevision:
        """Read the newest revision of a power source.

        Its ETag is what If-Match of a new revision names; a draft is read too, though no release holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_power_source_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.PowerSourceRevision:
        """Read one revision of a power source.

        Its document never changes; that it was withdrawn may be added.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_problem_type(self, code: str, *, options: CallOptions | None = None) -> models.ProblemTypePage:
        """Explain a type of problem.

        The address that a problem names in `type`: what it means and what a caller can do about it.

        code : Code of the problem type.

        Problems: not-found, invalid-request.
        """
        return self._answer(
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

    def get_readiness(self, *, options: CallOptions | None = None) -> models.Readiness:
        """Say whether calculations can be answered.

        Ready: the database is reachable and at the newest migration, and the kernels are compiled. Otherwise
        a problem with status 503 whose `errors` give the reasons.

        Problems: not-ready.
        """
        return self._answer(
            Call[models.Readiness](
                "GET",
                "/readyz",
                models.Readiness,
                safe=True,
            ),
            options,
        )

    def get_rule_layer(
        self, code_basis: str, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RuleLayer:
        """Read one layer of rules with its clauses.

        What the document asks by each rule, in our own words, and where it says so; the document itself
        governs.

        code_basis : Key of the layer.
        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_source_unit(self, entry: str, *, options: CallOptions | None = None) -> models.SourceUnitRevision:
        """Read the newest revision of a source unit.

        Its ETag is what If-Match of a new revision names; a draft is read too, though no release holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_source_unit_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.SourceUnitRevision:
        """Read one revision of a source unit.

        Its document never changes; that it was withdrawn may be added.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_standard_table(
        self, table: str, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.StandardTable:
        """Read one table of a standard, with its citation and how sure each row is.

        The rows that are used here, each cell as printed; the unit is in the column's name.

        table : Key of the table's citation.
        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_tool_profile(self, entry: str, *, options: CallOptions | None = None) -> models.ToolProfileRevision:
        """Read the newest revision of a tool profile.

        Its ETag is what If-Match of a new revision names; a draft is read too, though no release holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def get_tool_profile_revision(
        self, entry: str, revision: int, *, options: CallOptions | None = None
    ) -> models.ToolProfileRevision:
        """Read one revision of a tool profile.

        Its document never changes; that it was withdrawn may be added.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        revision : Revision, from 1.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def import_catalogue(
        self, request: models.CatalogueImport, /, *, options: CallOptions | None = None
    ) -> models.CatalogueImported: ...
    @overload
    def import_catalogue(
        self, /, *, ndjson: str, by: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.CatalogueImported: ...
    def import_catalogue(
        self, request: models.CatalogueImport | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.CatalogueImported:
        """Bring in an export, all of it or nothing.

        Every hash is verified, and what is here already must be the same. A key needs the scopes release and
        catalogue:write.

        Takes a `models.CatalogueImport`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
            Call[models.CatalogueImported](
                "POST",
                "/v1/catalogue-imports",
                models.CatalogueImported,
                body=body_of(models.CatalogueImport, request, members),
            ),
            options,
        )

    @overload
    def import_catalogue_sheet(
        self, kind: words.EntryKind, request: models.SheetImport, /, *, options: CallOptions | None = None
    ) -> models.SheetImported: ...
    @overload
    def import_catalogue_sheet(
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
    def import_catalogue_sheet(
        self,
        kind: words.EntryKind,
        request: models.SheetImport | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.SheetImported:
        """Bring in a spreadsheet, all rows or none.

        A row whose entry is there already writes a new revision of it: filled cells correct it, empty ones
        leave it. A dry run answers with every fault, by row and column; without it a fault is 422, and the
        first hundred are listed.

        kind : Kind of the entries that the sheet holds.

        Takes a `models.SheetImport`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_access_keys(self, *, options: CallOptions | None = None) -> models.AccessKeyList:
        """List all keys, without their secrets.

        Every key ever made, also those that were revoked or have ended; the text of a key cannot be read
        again.

        Problems: unauthenticated, forbidden, not-ready, overloaded.
        """
        return self._answer(
            Call[models.AccessKeyList](
                "GET",
                "/v1/access-keys",
                models.AccessKeyList,
                safe=True,
            ),
            options,
        )

    def list_assumption_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.AssumptionCodeList:
        """List the kinds of assumptions.

        Each with why it is made and how a person finds out the truth.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_audit(
        self,
        *,
        subject: str | UnsetType = UNSET,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.AuditPage:
        """List acts, newest first.

        Every write to the catalogue, every release, every key and import, with who did it; nothing is ever
        taken out.

        subject : Only acts on this, such as `release/7`.
        before : `next_before` of the page before.
        limit : Most rows on a page. Left out: 50.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.AuditRow]:
        """List acts, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_audit takes; `before` is where to begin.
        """
        return rows(
            lambda at: self.list_audit(subject=subject, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    def list_catalogue_release_members(
        self,
        number: int,
        *,
        after: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.MemberPage:
        """List the members of a release.

        In the order of the release, a page at a time; each with the revision that the release holds.

        number : Number of a catalogue release, from 1.
        after : `next_after` of the page before. Left out: 0.
        limit : Most rows on a page. Left out: 100.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.MemberRow]:
        """List the members of a release: every row of every page, a page when its first row is asked for.

        Takes what list_catalogue_release_members takes; `after` is where to begin.
        """
        return rows(
            lambda at: self.list_catalogue_release_members(number, after=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_after,
            after,
        )

    def list_catalogue_releases(
        self, *, before: int | UnsetType = UNSET, limit: int | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.ReleasePage:
        """List releases, newest first.

        A release is a numbered set of revisions that never changes; an answer names the one it rests on.

        before : `next_before` of the page before.
        limit : Most rows on a page. Left out: 50.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.Release]:
        """List releases, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_catalogue_releases takes; `before` is where to begin.
        """
        return rows(
            lambda at: self.list_catalogue_releases(before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    def list_catalogue_sheets(self, *, options: CallOptions | None = None) -> models.SheetList:
        """List the columns of every kind of sheet.

        What a header row may hold for each kind of entry, with an example of a cell; the order of columns is
        free.

        Problems: unauthenticated, forbidden, not-ready, overloaded.
        """
        return self._answer(
            Call[models.SheetList](
                "GET",
                "/v1/catalogue-sheets",
                models.SheetList,
                safe=True,
            ),
            options,
        )

    def list_citations(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.CitationList:
        """List the documents that tables and rules are copies of.

        With edition, place, conditions and errata, and how sure each copy is.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_cord_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a cord, newest first.

        Each with who wrote it, when and why; none is ever changed or deleted.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        before : `next_before` of the page before.
        limit : Most rows on a page. Left out: 50.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.RevisionRow]:
        """List the revisions of a cord, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_cord_revisions takes; `before` is where to begin.
        """
        return rows(
            lambda at: self.list_cord_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    def list_cords(
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
        """List or search cords.

        In order of their keys; pages stay whole while others write.

        words : Beginnings of words of name, slug or kind of load.
        voltage_low : Least nominal voltage [V]. Left out: 0.0.
        voltage_high : Greatest nominal voltage [V]. Left out: 1000.0.
        plug : Designation of a plug or receptacle.
        power_low : Least power [W].
        power_high : Greatest power [W].
        status : Only entries whose newest revision is that.
        limit : Most rows on a page. Left out: 50.
        cursor : `next_cursor` of the page before.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.EntryRow]:
        """List or search cords: every row of every page, a page when its first row is asked for.

        Takes what list_cords takes; `cursor` is where to begin.
        """
        return rows(
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

    def list_fault_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.FaultCodeList:
        """List the kinds of faults that a request can have.

        The codes that `errors` of a problem may hold, each with what it means.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_finding_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.FindingCodeList:
        """List the kinds of findings.

        Each with its meaning, its severity, its basis per jurisdiction, what it says and what to do.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def list_hazards(
        self, request: models.SafetyListRequest, /, *, options: CallOptions | None = None
    ) -> models.SafetyListAnswer: ...
    @overload
    def list_hazards(
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
    def list_hazards(
        self, request: models.SafetyListRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.SafetyListAnswer:
        """List what of a fleet to look at.

        Every kit on every source: tools that stay switched on without restart protection where power comes
        back by itself, receptacles whose ground-fault protection nobody knows, engines of which nobody said
        where they run. Each line names its clauses with their edition, and says whether all behind it was
        stated or something was assumed on the safe side, and then how to find out. Without sources and kits
        the whole catalogue release is looked at. Accept text/csv for a spreadsheet. An empty list is no proof
        of safety: it asks these questions and no others.

        Takes a `models.SafetyListRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    def list_hazards_csv(self, request: models.SafetyListRequest, /, *, options: CallOptions | None = None) -> str: ...
    @overload
    def list_hazards_csv(
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
    def list_hazards_csv(
        self, request: models.SafetyListRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> str:
        """List what of a fleet to look at.

        Every kit on every source: tools that stay switched on without restart protection where power comes
        back by itself, receptacles whose ground-fault protection nobody knows, engines of which nobody said
        where they run. Each line names its clauses with their edition, and says whether all behind it was
        stated or something was assumed on the safe side, and then how to find out. Without sources and kits
        the whole catalogue release is looked at. Accept text/csv for a spreadsheet. An empty list is no proof
        of safety: it asks these questions and no others.

        Takes a `models.SafetyListRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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

    def list_kit_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a kit, newest first.

        Each with who wrote it, when and why; none is ever changed or deleted.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        before : `next_before` of the page before.
        limit : Most rows on a page. Left out: 50.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.RevisionRow]:
        """List the revisions of a kit, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_kit_revisions takes; `before` is where to begin.
        """
        return rows(
            lambda at: self.list_kit_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    def list_kits(
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
        """List or search kits.

        In order of their keys; pages stay whole while others write.

        words : Beginnings of words of name, slug or kind of load.
        voltage_low : Least nominal voltage [V]. Left out: 0.0.
        voltage_high : Greatest nominal voltage [V]. Left out: 1000.0.
        plug : Designation of a plug or receptacle.
        power_low : Least power [W].
        power_high : Greatest power [W].
        status : Only entries whose newest revision is that.
        limit : Most rows on a page. Left out: 50.
        cursor : `next_cursor` of the page before.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.EntryRow]:
        """List or search kits: every row of every page, a page when its first row is asked for.

        Takes what list_kits takes; `cursor` is where to begin.
        """
        return rows(
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

    def list_load_classes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.LoadClassList:
        """List the kinds of loads and what is assumed of each.

        What `load_class` may say, and what it stands for where the plate of a tool is silent.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_plugs(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.PlugList:
        """List plugs and receptacles, and what goes into what.

        Every configuration of the standards that are held here, with voltages, rating and the outlets that a
        plug enters.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_power_source_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a power source, newest first.

        Each with who wrote it, when and why; none is ever changed or deleted.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        before : `next_before` of the page before.
        limit : Most rows on a page. Left out: 50.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.RevisionRow]:
        """List the revisions of a power source, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_power_source_revisions takes; `before` is where to begin.
        """
        return rows(
            lambda at: self.list_power_source_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    def list_power_sources(
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
        """List or search power sources.

        In order of their keys; pages stay whole while others write.

        words : Beginnings of words of name, slug or kind of load.
        voltage_low : Least nominal voltage [V]. Left out: 0.0.
        voltage_high : Greatest nominal voltage [V]. Left out: 1000.0.
        plug : Designation of a plug or receptacle.
        power_low : Least power [W].
        power_high : Greatest power [W].
        status : Only entries whose newest revision is that.
        limit : Most rows on a page. Left out: 50.
        cursor : `next_cursor` of the page before.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.EntryRow]:
        """List or search power sources: every row of every page, a page when its first row is asked for.

        Takes what list_power_sources takes; `cursor` is where to begin.
        """
        return rows(
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

    def list_problem_codes(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.ProblemCodeList:
        """List the types of problem that a request can run into.

        Each with its status, what it means and what to do; the last step of its address is its code.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_problem_types(self, *, options: CallOptions | None = None) -> models.ProblemTypeList:
        """List the types of problem.

        Each with its status, what it means and what a caller can do about it; as a page for people where HTML
        is asked for.
        """
        return self._answer(
            Call[models.ProblemTypeList](
                "GET",
                "/problems",
                models.ProblemTypeList,
                safe=True,
            ),
            options,
        )

    def list_rule_layers(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.RuleLayerList:
        """List the layers of rules that `code_basis` may name.

        Each is a document of a country or of the world; the questions that their clauses answer stand beside.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_source_unit_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a source unit, newest first.

        Each with who wrote it, when and why; none is ever changed or deleted.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        before : `next_before` of the page before.
        limit : Most rows on a page. Left out: 50.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.RevisionRow]:
        """List the revisions of a source unit, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_source_unit_revisions takes; `before` is where to begin.
        """
        return rows(
            lambda at: self.list_source_unit_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    def list_source_units(
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
        """List or search source units.

        In order of their keys; pages stay whole while others write.

        words : Beginnings of words of name, slug or kind of load.
        voltage_low : Least nominal voltage [V]. Left out: 0.0.
        voltage_high : Greatest nominal voltage [V]. Left out: 1000.0.
        plug : Designation of a plug or receptacle.
        power_low : Least power [W].
        power_high : Greatest power [W].
        status : Only entries whose newest revision is that.
        limit : Most rows on a page. Left out: 50.
        cursor : `next_cursor` of the page before.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.EntryRow]:
        """List or search source units: every row of every page, a page when its first row is asked for.

        Takes what list_source_units takes; `cursor` is where to begin.
        """
        return rows(
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

    def list_tool_profile_revisions(
        self,
        entry: str,
        *,
        before: int | UnsetType = UNSET,
        limit: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.RevisionPage:
        """List the revisions of a tool profile, newest first.

        Each with who wrote it, when and why; none is ever changed or deleted.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.
        before : `next_before` of the page before.
        limit : Most rows on a page. Left out: 50.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.RevisionRow]:
        """List the revisions of a tool profile, newest first: every row of every page, a page when its first row is asked for.

        Takes what list_tool_profile_revisions takes; `before` is where to begin.
        """
        return rows(
            lambda at: self.list_tool_profile_revisions(entry, before=at, limit=limit, options=options),
            lambda page: page.items,
            lambda page: page.next_before,
            before,
        )

    def list_tool_profiles(
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
        """List or search tool profiles.

        In order of their keys; pages stay whole while others write.

        words : Beginnings of words of name, slug or kind of load.
        voltage_low : Least nominal voltage [V]. Left out: 0.0.
        voltage_high : Greatest nominal voltage [V]. Left out: 1000.0.
        plug : Designation of a plug or receptacle.
        power_low : Least power [W].
        power_high : Greatest power [W].
        status : Only entries whose newest revision is that.
        limit : Most rows on a page. Left out: 50.
        cursor : `next_cursor` of the page before.

        Problems: unauthenticated, forbidden, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Iterator[models.EntryRow]:
        """List or search tool profiles: every row of every page, a page when its first row is asked for.

        Takes what list_tool_profiles takes; `cursor` is where to begin.
        """
        return rows(
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

    def list_units(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.DimensionList:
        """List the units that are accepted, with their factors to SI.

        By kind of figure, with the pattern of its texts: a request writes `"15 A"`, an answer says 15.0 in
        SI.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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

    def list_words(
        self, *, engine_version: str | UnsetType = UNSET, options: CallOptions | None = None
    ) -> models.WordLists:
        """List the open words of answers.

        Rules that a cord is held against, choices, outcomes and what is not assessed, each with its meaning.

        engine_version : Version of the engine; the answer may then be kept for ever.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def plan_outlets(
        self, request: models.OutletPlanRequest, /, *, options: CallOptions | None = None
    ) -> models.OutletPlanAnswer: ...
    @overload
    def plan_outlets(
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
    def plan_outlets(
        self, request: models.OutletPlanRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.OutletPlanAnswer:
        """Plan which tool goes into which receptacle.

        Post what a load check takes, without connections: the source with its receptacles, the tools or a
        kit, the spare cords; with where work is done and how far that is from each receptacle, which tools
        must run together, and what stays on first. Each plan comes with connections to paste into a load
        check, and with that load check's verdict: one that fails is never told, the next best is tried.
        Steady load is planned on the safe side of what is not known. Where not everything can be on, the
        answer names the smallest sets that do not go together, what to leave out, and what to find out. That
        nothing fits is an answer, no problem. Where a rule layer fails already with nothing plugged in, no
        plan changes that, and the verdict says so. A plan needs no order of starting; it informs a qualified
        person and is no permission to energise.

        Takes a `models.OutletPlanRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
            Call[models.OutletPlanAnswer](
                "POST",
                "/v1/outlet-plans",
                models.OutletPlanAnswer,
                body=body_of(models.OutletPlanRequest, request, members),
                safe=True,
            ),
            options,
        )

    def revoke_access_key(self, id: str, *, options: CallOptions | None = None) -> models.AccessKeyRow:
        """Revoke a key for good.

        Workers follow within a second. The row stays; a key that is revoked already stays as it was.

        id : The twelve digits after `ampw_`.

        Problems: unauthenticated, forbidden, no-such-entry, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def size_cords(
        self, request: models.CordSizingRequest, /, *, options: CallOptions | None = None
    ) -> models.CordSizingAnswer: ...
    @overload
    def size_cords(
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
    def size_cords(
        self, request: models.CordSizingRequest | None = None, /, *, options: CallOptions | None = None, **members: Any
    ) -> models.CordSizingAnswer:
        """Size the cord of a tool, or judge the cords at hand.

        Post a source and a tool. With `distance` the answer names the smallest conductor that passes every
        rule and the one a careful person brings, each with its price in volts and watts; with `cords` beside
        it, which of these to use and why not the others; with `run`, whether these cords in series are good
        enough. Without a distance each size or cord tells how far it may go. Every rule is a line with value,
        limit, margin and basis. Leave out what is not known: every omitted figure becomes a stated assumption
        on the safe side. That no cord is enough is an answer, no problem. The answer informs a qualified
        person; it is no permission to energise.

        Takes a `models.CordSizingRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    def validate_kits(
        self, request: models.KitValidationRequest, /, *, options: CallOptions | None = None
    ) -> models.KitValidationAnswer: ...
    @overload
    def validate_kits(
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
    def validate_kits(
        self,
        request: models.KitValidationRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.KitValidationAnswer:
        """Check many kits on many sources for many jobs.

        Each row is a load check of its own, and an energy budget where the day is given: a verdict, one
        sentence for the crew, what to bring and why, what would make the answer void, and on which other
        source of the yard the kit does better. Where a kit does not say how it is plugged in, a plan is made
        and told. What is wrong with one kit, source, job or row stands in its rows; the others are answered.
        An item whose id cannot be read, or is taken, is named by `#` and its place. Up to 600 rows come as
        one JSON answer; accept application/x-ndjson for up to 50,000 as lines while they are made, or
        text/csv for a spreadsheet. Rows that ask the same are worked out once. A broken stream, of lines or
        of CSV, has no last line of the kind `end`: ask for the rest with `rows`.

        Takes a `models.KitValidationRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    def validate_kits_csv(
        self, request: models.KitValidationRequest, /, *, options: CallOptions | None = None
    ) -> str: ...
    @overload
    def validate_kits_csv(
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
    def validate_kits_csv(
        self,
        request: models.KitValidationRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> str:
        """Check many kits on many sources for many jobs.

        Each row is a load check of its own, and an energy budget where the day is given: a verdict, one
        sentence for the crew, what to bring and why, what would make the answer void, and on which other
        source of the yard the kit does better. Where a kit does not say how it is plugged in, a plan is made
        and told. What is wrong with one kit, source, job or row stands in its rows; the others are answered.
        An item whose id cannot be read, or is taken, is named by `#` and its place. Up to 600 rows come as
        one JSON answer; accept application/x-ndjson for up to 50,000 as lines while they are made, or
        text/csv for a spreadsheet. Rows that ask the same are worked out once. A broken stream, of lines or
        of CSV, has no last line of the kind `end`: ask for the rest with `rows`.

        Takes a `models.KitValidationRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
        return self._answer(
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
    ) -> Lines[models.KitValidationLine]: ...
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
    ) -> Lines[models.KitValidationLine]: ...
    def validate_kits_lines(
        self,
        request: models.KitValidationRequest | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> Lines[models.KitValidationLine]:
        """Check many kits on many sources for many jobs.

        Each row is a load check of its own, and an energy budget where the day is given: a verdict, one
        sentence for the crew, what to bring and why, what would make the answer void, and on which other
        source of the yard the kit does better. Where a kit does not say how it is plugged in, a plan is made
        and told. What is wrong with one kit, source, job or row stands in its rows; the others are answered.
        An item whose id cannot be read, or is taken, is named by `#` and its place. Up to 600 rows come as
        one JSON answer; accept application/x-ndjson for up to 50,000 as lines while they are made, or
        text/csv for a spreadsheet. Rows that ask the same are worked out once. A broken stream, of lines or
        of CSV, has no last line of the kind `end`: ask for the rest with `rows`.

        Takes a `models.KitValidationRequest`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, too-much-work, not-ready, overloaded.
        """
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
    def withdraw_cord(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    def withdraw_cord(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    def withdraw_cord(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a cord, or one revision of it.

        Nothing is deleted: every later answer that uses it says so, also one from a release that holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Takes a `models.NewWithdrawal`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def withdraw_kit(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    def withdraw_kit(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    def withdraw_kit(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a kit, or one revision of it.

        Nothing is deleted: every later answer that uses it says so, also one from a release that holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Takes a `models.NewWithdrawal`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def withdraw_power_source(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    def withdraw_power_source(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    def withdraw_power_source(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a power source, or one revision of it.

        Nothing is deleted: every later answer that uses it says so, also one from a release that holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Takes a `models.NewWithdrawal`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def withdraw_source_unit(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    def withdraw_source_unit(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    def withdraw_source_unit(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a source unit, or one revision of it.

        Nothing is deleted: every later answer that uses it says so, also one from a release that holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Takes a `models.NewWithdrawal`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
    def withdraw_tool_profile(
        self, entry: str, request: models.NewWithdrawal, /, *, options: CallOptions | None = None
    ) -> models.WithdrawalNote: ...
    @overload
    def withdraw_tool_profile(
        self,
        entry: str,
        /,
        *,
        why: str,
        by: str | UnsetType = UNSET,
        revision: int | UnsetType = UNSET,
        options: CallOptions | None = None,
    ) -> models.WithdrawalNote: ...
    def withdraw_tool_profile(
        self,
        entry: str,
        request: models.NewWithdrawal | None = None,
        /,
        *,
        options: CallOptions | None = None,
        **members: Any,
    ) -> models.WithdrawalNote:
        """Withdraw a tool profile, or one revision of it.

        Nothing is deleted: every later answer that uses it says so, also one from a release that holds it.

        entry : Key of a catalogue entry: lower-case letters, digits, `-`, `.`.

        Takes a `models.NewWithdrawal`, or its members as keywords.

        Problems: malformed-body, unauthenticated, forbidden, no-such-entry, body-timeout, body-too-large,
        unsupported-media-type, contradictory-request, invalid-request, not-ready, overloaded.
        """
        return self._answer(
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
