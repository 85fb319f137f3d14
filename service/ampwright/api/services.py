"""What may a handler call upon?

One object, made once by ``create_app`` and handed to every handler; handlers keep no state of their own.
"""

from __future__ import annotations

from dataclasses import dataclass

from ampwright.api.admission import Lanes
from ampwright.catalogue.database import Database
from ampwright.settings import Settings


@dataclass(frozen=True, slots=True)
class Services:
    """The parts of the house that resources use."""

    settings: Settings
    lanes: Lanes
    database: Database
