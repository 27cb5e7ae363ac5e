"""What the trees that stand there already can do for the pollination of a new one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from service.compute.pollination import PartnerTable
from service.domain.crop import Crop
from service.domain.site import StandingTree
from service.reasoning.vocabulary import Value

_BEST_FIRST = ("compatible", "partly_compatible", "unknown", "incompatible")
_SETS = ("compatible", "partly_compatible")


@dataclass(frozen=True, slots=True)
class _Pollen:
    """One cultivar that grows on a standing tree; `cultivar` is None where only the crop is known."""

    crop: str
    cultivar: str | None
    distance_ft: float | None
    never: bool = False


@dataclass(frozen=True, slots=True)
class _Offer:
    compatibility: str
    bloom_gap: float | None
    pollen: _Pollen


class Standing:
    """The pollen that stands near, by the crops that could use it."""

    def __init__(self, trees: Sequence[StandingTree] | None, *, crops: Mapping[str, Crop], table: PartnerTable) -> None:
        self._said = trees is not None
        self._table = table
        pollen = [source for tree in trees or () for source in _pollen_of(tree)]
        self._for_crop = {crop.id: tuple(_concerning(crop, pollen)) for crop in crops.values()}

    def facts(self, cultivar: str, crop: str) -> dict[str, Value]:
        """The pollination facts that standing trees give a cultivar; empty where nobody said what stands there."""
        if not self._said:
            return {}
        offers = [self._offer(cultivar, pollen) for pollen in self._for_crop[crop] if pollen.cultivar != cultivar]
        serving = [offer for offer in offers if offer.compatibility in _SETS]
        facts: dict[str, Value] = {
            "pollination.best_standing": _best(offers),
            "pollination.partners_standing": len({offer.pollen.cultivar for offer in serving}),
        }
        distances = [offer.pollen.distance_ft for offer in serving if offer.pollen.distance_ft is not None]
        if distances:
            facts["pollination.nearest_partner_ft"] = min(distances)
        gaps = [offer.bloom_gap for offer in serving if offer.bloom_gap is not None]
        if gaps:
            facts["pollination.bloom_gap_classes"] = min(gaps)
        return facts

    def partners(self, cultivar: str, crop: str) -> tuple[str, ...]:
        """The standing cultivars that set this one, in the order in which they were named."""
        serving = (
            pollen.cultivar
            for pollen in self._for_crop[crop]
            if pollen.cultivar not in (None, cultivar) and self._offer(cultivar, pollen).compatibility in _SETS
        )
        return tuple(dict.fromkeys(one for one in serving if one is not None))

    def _offer(self, cultivar: str, pollen: _Pollen) -> _Offer:
        if pollen.never:
            return _Offer("incompatible", None, pollen)
        if pollen.cultivar is None:
            return _Offer("unknown", None, pollen)
        verdict = self._table.verdict(cultivar, pollen.cultivar)
        return _Offer(verdict.compatibility, verdict.bloom_gap_classes, pollen)


def _pollen_of(tree: StandingTree) -> list[_Pollen]:
    return [_Pollen(tree.crop, cultivar, tree.distance_ft) for cultivar in tree.cultivars or (None,)]


def _concerning(crop: Crop, pollen: Sequence[_Pollen]) -> Iterator[_Pollen]:
    """The pollen of the crop and of crops that cross with it, and, marked, that of crops that people take for such."""
    serving = {crop.id, *(crop.partner_crops.value if crop.partner_crops else ())}
    never = set(crop.not_partner_crops.value if crop.not_partner_crops else ())
    for one in pollen:
        if one.crop in serving:
            yield one
        elif one.crop in never:
            yield replace(one, never=True)


def _best(offers: Sequence[_Offer]) -> str:
    found = {offer.compatibility for offer in offers}
    return next((word for word in _BEST_FIRST if word in found), "none")
