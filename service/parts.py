"""The parts of the running service, joined once at start and never changed after."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from service.domain.climate_models import ClimateModels
    from service.domain.store import StoreClimate
    from service.knowledge.names import NameBook
    from service.reasoning.matcher import Matcher
    from service.reasoning.rulebook import Rulebook
    from service.settings import Settings
    from service.storage.database import Database


@dataclass(frozen=True, slots=True)
class Parts:
    """What a view may lean on; `asking` answers questions, `sweeping` judges the whole catalogue."""

    settings: Settings
    rulebook: Rulebook
    asking: Matcher
    sweeping: Matcher
    names: NameBook
    database: Database
    climate: ClimateModels
    store_climate: StoreClimate | None = None
