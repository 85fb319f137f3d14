"""What may a handler call upon?

One object, made once by ``create_app`` and handed to every handler; handlers keep no state of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ampwright.api.access import Access
from ampwright.api.admission import Lanes
from ampwright.catalogue.database import Database
from ampwright.catalogue.snapshot import ReleaseStore
from ampwright.contract.document_bodies import decode_document
from ampwright.settings import Settings
from ampwright.studies.cord_sizing import CordSizingStudy
from ampwright.studies.energy_budget import EnergyBudgetStudy
from ampwright.studies.energy_budget_batch import EnergyBudgetBatchStudy
from ampwright.studies.load_check import LoadCheckStudy
from ampwright.studies.outlet_plan import OutletPlanStudy
from ampwright.studies.stop_diagnosis import StopDiagnosisStudy


@dataclass(frozen=True, slots=True)
class Services:
    """The parts of the house that resources use."""

    settings: Settings
    lanes: Lanes
    access: Access
    database: Database
    store: ReleaseStore[Any]
    load_check: LoadCheckStudy
    cord_sizing: CordSizingStudy
    energy_budget: EnergyBudgetStudy
    energy_budget_batch: EnergyBudgetBatchStudy
    outlet_plan: OutletPlanStudy
    stop_diagnosis: StopDiagnosisStudy

    @classmethod
    def of(cls, settings: Settings, database: Database) -> Services:
        """Everything that one process shares."""
        store: ReleaseStore[Any] = ReleaseStore(database, decode_document, keep=settings.releases_in_memory)
        return cls(
            settings,
            Lanes(settings),
            Access(settings, database),
            database,
            store,
            LoadCheckStudy(store, settings.cost_limit_units),
            CordSizingStudy(store, settings.cost_limit_units),
            EnergyBudgetStudy(store, settings.cost_limit_units),
            EnergyBudgetBatchStudy.of(store, settings.cost_limit_units),
            OutletPlanStudy(store, settings.cost_limit_units),
            StopDiagnosisStudy(store, settings.cost_limit_units),
        )
