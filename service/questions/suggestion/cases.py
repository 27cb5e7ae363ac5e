"""A cultivar at a place as one case: what lasts, what the place adds, what the customer wishes, what stands there."""

from __future__ import annotations

from dataclasses import dataclass

from service.compute.harvest import Window
from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.domain.site import StandingTree, Wishes
from service.questions.suggestion.chill import ChillHere
from service.questions.suggestion.known import ChillClaim
from service.questions.suggestion.question import Facts, RootChoice
from service.questions.suggestion.standing import Standing
from service.reasoning.vocabulary import Value


@dataclass(frozen=True, slots=True)
class KnownCultivar:
    """A cultivar with what holds of it at every place."""

    cultivar: Cultivar
    crop: Crop
    facts: Facts
    chill: tuple[ChillClaim, ...]
    harvest: Window | None
    months: frozenset[int]
    southern_months: frozenset[int]
    uses: frozenset[str] | None


@dataclass(frozen=True, slots=True)
class Asked:
    """What one question brings to every case: the place as facts, its chill, the wishes and the standing trees."""

    place: Facts
    southern: bool
    chill: ChillHere
    wishes: Wishes
    considered: frozenset[str]
    growing: frozenset[str]
    standing: Standing

    def shared(self, root: RootChoice) -> dict[str, Value]:
        """What all cultivars at this place on this root have in common."""
        return {**self.place, **root.facts}

    def own(self, known: KnownCultivar, *, incompatible: bool) -> dict[str, Value]:
        """What this cultivar adds to it here, apart from what holds of it at every place."""
        cultivar = known.cultivar.id
        facts: dict[str, Value] = {}
        facts["cultivar.asked_about"] = cultivar in self.considered
        facts["cultivar.already_there"] = cultivar in self.growing
        facts["rootstock.named_incompatible"] = incompatible
        facts.update(self.chill.facts(known.chill))
        facts.update(self.standing.facts(cultivar, known.crop.id))
        self._add_margins(facts, known)
        self._add_harvest(facts, known)
        self._add_wishes(facts, known)
        return facts

    def months_of(self, known: KnownCultivar) -> frozenset[int]:
        """The calendar months in which the cultivar is picked at this place."""
        return known.southern_months if self.southern else known.months

    def _add_margins(self, facts: dict[str, Value], known: KnownCultivar) -> None:
        zone = self.place.get("site.hardiness_zone")
        if zone is None:
            return
        coldest, warmest = known.facts.get("zone.coldest"), known.facts.get("zone.warmest")
        if coldest is not None:
            facts["zone.margin"] = zone - coldest  # type: ignore[operator]
        if warmest is not None:
            facts["zone.heat_margin"] = warmest - zone  # type: ignore[operator]

    def _add_harvest(self, facts: dict[str, Value], known: KnownCultivar) -> None:
        last = known.facts.get("harvest.last_day")
        if last is None:
            return
        frost = self.place.get("site.first_autumn_frost_day")
        if frost is not None:
            facts["harvest.days_before_frost"] = frost - last  # type: ignore[operator]
        if self.wishes.harvest_months:
            facts["harvest.in_wished_months"] = not self.months_of(known).isdisjoint(self.wishes.harvest_months)

    def _add_wishes(self, facts: dict[str, Value], known: KnownCultivar) -> None:
        if self.wishes.crops:
            facts["wish.crop_named"] = known.crop.id in self.wishes.crops
        if self.wishes.uses and known.uses is not None:
            met = sum(use in known.uses for use in self.wishes.uses)
            facts["wish.uses_met"] = met
            facts["wish.uses_met_share"] = met / len(self.wishes.uses)


def growing_there(trees: tuple[StandingTree, ...] | None) -> frozenset[str]:
    """The cultivars that stand there already.

    >>> sorted(growing_there((StandingTree("apple", ("apple.liberty", "apple.freedom")),)))
    ['apple.freedom', 'apple.liberty']
    """
    return frozenset(cultivar for tree in trees or () for cultivar in tree.cultivars)
