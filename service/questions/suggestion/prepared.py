"""Everything about the variety question that depends on the rulebook alone, worked out once and kept."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

from service.compute.harvest import Window, harvest_window, months_covered
from service.compute.planting_set import Limb
from service.compute.pollination import PartnerTable
from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.questions.pollination import partner_table
from service.questions.suggestion.cases import KnownCultivar
from service.questions.suggestion.known import ChillClaim, chill_claims, lasting_facts
from service.questions.suggestion.roots import KnownRoot, known_roots
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value


@dataclass(frozen=True)
class Prepared:
    """What every variety question of one rulebook shares."""

    rulebook: Rulebook
    cultivars: Mapping[str, KnownCultivar]
    roots: Mapping[str, tuple[KnownRoot, ...]]
    table: PartnerTable
    limbs: dict[tuple[str, int], Limb] = field(default_factory=dict)

    def number(self, limit: str) -> float:
        """The value of a limit."""
        return self.rulebook.limits[limit].value

    def crops_alone(self, cultivar: str) -> bool:
        """Whether a cultivar is known to fruit without a partner."""
        return self.cultivars[cultivar].facts.get("pollination.self_fertility") == "self_fertile"

    def limb(self, cultivar: str, partners: int) -> Limb:
        """A cultivar as a limb of a tree that needs so many partners."""
        limb = self.limbs.get((cultivar, partners))
        if limb is None:
            proven, likely = self.table.proven[cultivar], self.table.likely[cultivar]
            limb = self.limbs[cultivar, partners] = Limb(cultivar, partners, proven, likely)
        return limb

    @cached_property
    def looked_at(self) -> frozenset[str]:
        """The facts that rules on cultivars test or show."""
        rules = self.rulebook.rulesets.get("suggestion.cultivar", ())
        return frozenset(name for rule in rules for name in (*rule.tested, *rule.placeholders))

    @cached_property
    def by_crop(self) -> Mapping[str, tuple[KnownCultivar, ...]]:
        """The cultivars of each crop, by id."""
        return {
            crop: tuple(known for _, known in sorted(self.cultivars.items()) if known.crop.id == crop)
            for crop in sorted(self.rulebook.catalogue.crops)
        }


@lru_cache(maxsize=4)
def prepare(rulebook: Rulebook) -> Prepared:
    """What is shared by the questions of this rulebook; worked out at the first call, which takes about a second."""
    table = partner_table(rulebook)
    catalogue = rulebook.catalogue
    crops = catalogue.crops
    named = {crop: _by_name(catalogue.cultivars_of(crop)) for crop in crops}
    known = {
        cultivar.id: _known(cultivar, crops[cultivar.crop], named[cultivar.crop], table)
        for cultivar in catalogue.cultivars.values()
    }
    known = _sharing_claims(known)
    return Prepared(rulebook, known, known_roots(rulebook), table)


def _sharing_claims(known: Mapping[str, KnownCultivar]) -> dict[str, KnownCultivar]:
    """Equal chill claims become one and the same, so that a place weighs them once."""
    kept: dict[tuple[ChillClaim, ...], tuple[ChillClaim, ...]] = {}
    return {name: replace(one, chill=kept.setdefault(one.chill, one.chill)) for name, one in known.items()}


def _by_name(cultivars: Iterable[Cultivar]) -> Mapping[str, Cultivar]:
    """Cultivars of one crop by id and by denomination, as reference dates name them."""
    return {name: cultivar for cultivar in cultivars for name in (cultivar.denomination, cultivar.id)}


def _known(cultivar: Cultivar, crop: Crop, others: Mapping[str, Cultivar], table: PartnerTable) -> KnownCultivar:
    window = harvest_window(cultivar, crop, others)
    facts: dict[str, Value] = {**lasting_facts(cultivar, crop), **_harvest_facts(window)}
    partners = table.proven[cultivar.id] | table.likely[cultivar.id]
    facts["pollination.partners_in_catalogue"] = len(partners)
    return KnownCultivar(
        cultivar=cultivar,
        crop=crop,
        facts=facts,
        chill=chill_claims(cultivar, crop),
        harvest=window,
        months=frozenset(() if window is None else months_covered(window)),
        southern_months=frozenset(() if window is None else months_covered(window, southern=True)),
        uses=None if cultivar.uses is None else frozenset(cultivar.uses.value),
    )


def _harvest_facts(window: Window | None) -> dict[str, Value]:
    return {} if window is None else {"harvest.basis": window.basis, "harvest.last_day": max(window.days)}
