"""Everything about a diagnosis that depends on the rulebook alone, worked out once and kept."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from service.compute.evidence import EvidenceTable, SignWeight, Weights, evidence_table
from service.domain.disorder import STAGES, Disorder
from service.intake.complaint_words import ComplaintWords
from service.reasoning.rulebook import Rulebook


@dataclass(frozen=True)
class Prepared:
    """What every diagnosis by one rulebook shares."""

    rulebook: Rulebook
    table: EvidenceTable
    words: ComplaintWords
    _hosted: dict[str, tuple[Disorder, ...]] = field(default_factory=dict)
    _askable: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def points(self, limit: str) -> float:
        """The value of a limit of the diagnosis."""
        return self.rulebook.limits[f"diagnosis.{limit}"].value

    def units(self, points: float) -> float:
        """Points as units of evidence (natural logarithms of the odds)."""
        return points / self.points("points_per_unit")

    def most(self, limit: str) -> int:
        """The value of a limit that counts."""
        return round(self.points(limit))

    def hosted(self, crop: str) -> tuple[Disorder, ...]:
        """The disorders of which a crop is a host, or may be one, in the order of the catalogue."""
        if crop not in self._hosted:
            every = self.rulebook.catalogue.disorders.values()
            self._hosted[crop] = tuple(one for one in every if one.standing(crop) != "not_host")
        return self._hosted[crop]

    def mistaken(self, crop: str, suspected: Collection[str]) -> tuple[Disorder, ...]:
        """Disorders of other crops that people take for one of this crop, and those that somebody suspects."""
        every = self.rulebook.catalogue.disorders.values()
        strangers = (one for one in every if one.standing(crop) == "not_host")
        return tuple(one for one in strangers if crop in one.confused_on or one.id in suspected)

    def askable(self, crop: str) -> tuple[str, ...]:
        """The signs that bear on some disorder of a crop, in the order of the catalogue."""
        if crop not in self._askable:
            bearing = {sign for disorder in self.hosted(crop) for sign in weights_of(disorder)}
            self._askable[crop] = tuple(sign for sign in self.rulebook.catalogue.signs if sign in bearing)
        return self._askable[crop]

    def stages_off(self, disorder: Disorder, stage: str) -> int:
        """How many stages of growth lie between a stage and the nearest in which the disorder shows."""
        here = _PLACE[stage]
        gaps = (abs(here - _PLACE[one]) for one in disorder.stages)
        return min((min(gap, len(STAGES) - gap) for gap in gaps), default=0)


_PLACE: Mapping[str, int] = {stage: place for place, stage in enumerate(STAGES)}


@lru_cache(maxsize=4)
def prepare(rulebook: Rulebook) -> Prepared:
    """What is shared by the diagnoses of this rulebook."""
    catalogue, limits = rulebook.catalogue, rulebook.limits
    scale = limits["diagnosis.points_per_unit"].value
    kinds = ("typical", "sometimes", "rules_out", "unlisted")
    weights = Weights(
        **{kind: limits[f"diagnosis.weight.{kind}"].value / scale for kind in kinds},
        background=limits["diagnosis.background"].value,
    )
    causes = {disorder.id: weights_of(disorder) for disorder in catalogue.disorders.values()}
    return Prepared(rulebook, evidence_table(causes, tuple(catalogue.signs), weights), ComplaintWords(catalogue))


def weights_of(disorder: Disorder) -> dict[str, SignWeight]:
    """The signs that bear on a disorder, with what they count."""
    found: dict[str, SignWeight] = dict.fromkeys(disorder.typical, "typical")
    found.update(dict.fromkeys(disorder.sometimes, "sometimes"))
    found.update(dict.fromkeys(disorder.rules_out, "rules_out"))
    return found
