"""What a product is by its actives: families, what it works against, bee hazard, groups of mode of action, rating."""

from __future__ import annotations

from collections.abc import Iterable

from service.domain.label import LabelRecord
from service.domain.treatment import RATINGS, Active, Treatment
from service.knowledge.catalogue import Catalogue

_ROLES = ("insecticide", "miticide", "fungicide", "bactericide", "barrier", "synergist", "fumigant")
_AGAINST_ANIMALS = frozenset({"insecticide", "miticide", "barrier"})
_NOT_FUNGICIDES = frozenset({"insecticide", "barrier", "antibiotic"})
_STRICTEST_FIRST = ("I", "unrated", "II", "III")
_ROLE_OF_PEST = {
    "insect": "insecticide",
    "mite": "miticide",
    "fungus": "fungicide",
    "oomycete": "fungicide",
    "bacterium": "bactericide",
}
_UNRATED = "no_data"


class Substances:
    """Looks at label records with what is known of actives."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._catalogue, self._actives, self._law = catalogue, catalogue.label.actives, catalogue.use_law

    def known(self, record: LabelRecord) -> tuple[Active, ...]:
        """The actives of a record that we know."""
        return tuple(self._actives[name] for name in record.actives if name in self._actives)

    def families(self, names: Iterable[str]) -> tuple[str, ...]:
        """The families of actives, each once, in the order of the alphabet."""
        return tuple(
            sorted({family for name in names for family in self._law.families_of(name, self._actives.get(name))})
        )

    def roles(self, record: LabelRecord) -> tuple[str, ...] | None:
        """What it works against; by the pests that it prints where it has no active; None: an active is not known."""
        if not record.actives:
            return self._roles_by_pests(record)
        known = self.known(record)
        if len(known) < len(record.actives):
            return None
        kinds = {kind for active in known for kind in active.kinds}
        found = kinds | ({"insecticide"} if "barrier" in kinds else set())
        found |= {"bactericide"} if "antibiotic" in kinds else set()
        return tuple(role for role in _ROLES if role in found)

    def _roles_by_pests(self, record: LabelRecord) -> tuple[str, ...] | None:
        pests = {pest for site in record.sites for pest in site.pests}
        kinds = {self._catalogue.label.treatments[pest].kind for pest in pests & set(self._catalogue.label.treatments)}
        found = {_ROLE_OF_PEST[kind] for kind in kinds if kind in _ROLE_OF_PEST}
        return tuple(role for role in _ROLES if role in found) or None

    def bee_class(self, record: LabelRecord) -> str:
        """The strictest bee hazard class among what works against insects and mites."""
        told = record.pollinator.uc_class
        animal = [active for active in self.known(record) if not _AGAINST_ANIMALS.isdisjoint(active.kinds)]
        classes = {active.bee_class or told or "unrated" for active in animal}
        strange = len(self.known(record)) < len(record.actives) or not record.actives
        if strange and not _AGAINST_ANIMALS.isdisjoint(self.roles(record) or _AGAINST_ANIMALS):
            classes.add(told or "unrated")
        if classes and told is not None:
            classes.add(told)
        return next((name for name in _STRICTEST_FIRST if name in classes), "no_insecticide")

    def only_fungicides(self, record: LabelRecord) -> bool:
        """Whether every active is a fungicide and none works against insects or is an antibiotic."""
        known = self.known(record)
        return bool(known) and all(
            "fungicide" in active.kinds and _NOT_FUNGICIDES.isdisjoint(active.kinds) for active in known
        )

    def systemic_neonicotinoid(self, record: LabelRecord) -> bool:
        """Whether it holds a neonicotinoid that moves inside the plant."""
        moves = record.systemic or any(active.systemic for active in self.known(record))
        return "neonicotinoid" in self.families(record.actives) and bool(moves)

    def refused(self, names: Iterable[str]) -> bool:
        """Whether an active may never be pointed to at home; lime sulfur has rules of its own."""
        barred = [name for name in names if name in self._actives and self._actives[name].refuse is not None]
        return any("lime_sulfur" not in self.families([name]) for name in barred)

    def one_site_groups(self, names: Iterable[str], record: LabelRecord | None) -> frozenset[str]:
        """The groups of mode of action with one site: by the label where it prints them, else by the list."""
        printed = {
            active.iso_name: f"{active.moa_scheme} {active.moa_code}"
            for active in (record.active_ingredients if record else None) or ()
            if active.moa_scheme not in (None, "none") and active.moa_code
        }
        groups = {printed.get(name) or self._listed_group(name) for name in names}
        return frozenset(group for group in groups if group is not None and group not in self._law.many_sites)

    def _listed_group(self, name: str) -> str | None:
        active = self._actives.get(name)
        if active is None or active.moa.code is None or active.moa.scheme == "none":
            return None
        return f"{active.moa.scheme} {active.moa.code}"

    def ratings(self, record: LabelRecord, treatment: Treatment | None) -> tuple[str, str]:
        """The best and the lowest rating that tables give its best active against the cause."""
        each = [treatment.ratings(name) for name in record.actives] if treatment else []
        spans = [(found[0], found[-1]) for found in each if found]
        return min(spans, key=lambda span: tuple(map(RATINGS.index, span)), default=(_UNRATED, _UNRATED))
