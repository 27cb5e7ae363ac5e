"""The roots of each crop judged for the place, best first: one tree on one root is one case for the rules."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from service.compute.size_control import mature_height
from service.compute.spacing import SizeLimits, fits, size_class, spacing_for
from service.domain.crop import Crop
from service.domain.provenance import Stated
from service.domain.rootstock import Rootstock
from service.domain.site import Site
from service.questions.suggestion.question import RootChoice
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

RULESET = "suggestion.rootstock"
_RATED = (
    "staking", "cold_hardiness", "wet_soil", "lime_soil", "dry_soil", "precocity", "fire_blight", "crown_rot",
    "replant_disease", "woolly_apple_aphid", "root_knot_nematode", "bacterial_canker",
)  # fmt: skip
_SPACING_LIMITS = ("spacing.dwarf_below_percent", "spacing.semi_dwarf_below_percent", "spacing.edge_share")


@dataclass(frozen=True, slots=True)
class KnownRoot:
    """A crop on one root, or on whatever root it grows on where the catalogue knows none, with its lasting facts."""

    crop: Crop
    rootstock: Rootstock | None
    facts: Mapping[str, Value]
    low_ft: float | None
    high_ft: float | None
    spacing_ft: float | None

    def facts_here(self, site: Site, edge_share: float) -> dict[str, Value]:
        """The lasting facts with those that the place adds."""
        facts = dict(self.facts)
        if site.max_height_ft:
            if self.low_ft is not None:
                facts["tree.height_over_wanted"] = self.low_ft / site.max_height_ft
            if self.high_ft is not None:
                facts["tree.height_high_over_wanted"] = self.high_ft / site.max_height_ft
        if site.width_ft and site.depth_ft and self.spacing_ft is not None:
            held = fits(site.width_ft, site.depth_ft, spacing_ft=self.spacing_ft, edge_share=edge_share)
            facts["tree.fits_count"] = held
        return facts


def known_roots(rulebook: Rulebook) -> Mapping[str, tuple[KnownRoot, ...]]:
    """The roots of each crop; a crop without roots in the catalogue has one entry without a root."""
    dwarf, semi_dwarf = (rulebook.limits[name].value for name in _SPACING_LIMITS[:2])
    limits = SizeLimits(dwarf, semi_dwarf)
    return {
        crop.id: tuple(_known_root(crop, root, limits) for root in rulebook.catalogue.rootstocks_of(crop.id) or (None,))
        for crop in rulebook.catalogue.crops.values()
    }


def _known_root(crop: Crop, root: Rootstock | None, limits: SizeLimits) -> KnownRoot:
    height, spacing = mature_height(crop, root), spacing_for(crop, root, limits)
    facts: dict[str, Value | None] = {"crop": crop.id, "crop.kind": crop.kind, **_root_facts(root)}
    if height is not None:
        facts |= {"tree.height_low_ft": height.span_ft.low, "tree.height_high_ft": height.span_ft.high}
        facts["tree.height_basis"] = height.basis
    if spacing is not None:
        facts |= {"tree.spacing_ft": spacing.ft, "tree.spacing_basis": spacing.basis}
    facts["tree.years_to_bear"] = _years_to_bear(crop, root, limits)
    return KnownRoot(
        crop=crop,
        rootstock=root,
        facts={name: value for name, value in facts.items() if value is not None},
        low_ft=None if height is None else height.span_ft.low,
        high_ft=None if height is None else height.span_ft.high,
        spacing_ft=None if spacing is None else spacing.ft,
    )


def _root_facts(root: Rootstock | None) -> dict[str, Value | None]:
    if root is None:
        return {}
    rated = {f"rootstock.{name}": _value(getattr(root, name)) for name in _RATED}
    size = root.size_percent
    return {
        "rootstock": root.name,
        "rootstock.id": root.id,
        "rootstock.size_percent": None if size is None else size.value.middle,
        "rootstock.suckers": None if root.suckering is None else root.suckering.value == "many",
        **rated,
    }


def _value(stated: Stated[str] | None) -> str | None:
    return None if stated is None else stated.value


def _years_to_bear(crop: Crop, root: Rootstock | None, limits: SizeLimits) -> float | None:
    if root is not None and root.years_to_bear is not None:
        return root.years_to_bear.value.middle
    size = "standard" if root is None else size_class(root, limits)
    stated = None if size is None else crop.years_to_bear.get(size)
    return None if stated is None else stated.value.middle


@dataclass(frozen=True, slots=True)
class PlaceFacts:
    """The place as facts for the rules on roots, and the names of the facts that rules on cultivars look at.

    Facts of the root that no rule on cultivars looks at are not carried into the cases of hundreds of cultivars.
    """

    for_roots: Mapping[str, Value]
    carried: frozenset[str]


class RootChooser:
    """Judges every root of a crop for one place, once, and picks for each cultivar the best one that bears it."""

    def __init__(self, known: Mapping[str, tuple[KnownRoot, ...]], *, place: PlaceFacts, site: Site) -> None:
        self._known = known
        self._place = place.for_roots
        self._carried = place.carried
        self._site = site
        self._ranked: dict[str, tuple[RootChoice, ...]] = {}

    def judge(self, crops: Iterable[str], *, matcher: Matcher, edge_share: float) -> None:
        """Judge all roots of these crops."""
        for crop in crops:
            judged = [self._judged(known, matcher, edge_share) for known in self._known[crop]]
            judged.sort(key=_rank)
            self._ranked[crop] = tuple(judged)

    def ranked(self, crop: str) -> tuple[RootChoice, ...]:
        """The roots of a crop, the best for this place first."""
        return self._ranked[crop]

    def best(self, crop: str, cultivar: str) -> tuple[RootChoice, bool]:
        """The best root that is not named as failing with the cultivar; the flag says that there is no such root."""
        ranked = self._ranked[crop]
        for choice in ranked:
            if choice.fits and not named_incompatible(choice.rootstock, cultivar):
                return choice, False
        return ranked[0], named_incompatible(ranked[0].rootstock, cultivar)

    def others(self, crop: str, cultivar: str, *, most: int) -> tuple[RootChoice, ...]:
        """The next best roots after the best one, so that staff can pick the one that is in stock."""
        bearing = [choice for choice in self._ranked[crop] if not named_incompatible(choice.rootstock, cultivar)]
        return tuple(choice for choice in bearing[1:] if choice.fits)[:most]

    def _judged(self, known: KnownRoot, matcher: Matcher, edge_share: float) -> RootChoice:
        here = known.facts_here(self._site, edge_share)
        judgement = matcher.judge(RULESET, {**self._place, **here})
        carried = {name: value for name, value in here.items() if name.startswith("tree.") or name in self._carried}
        return RootChoice(known.crop, known.rootstock, carried, judgement)


def _rank(choice: RootChoice) -> tuple[bool, int, str]:
    return not choice.fits, -choice.judgement.points, "" if choice.rootstock is None else choice.rootstock.id


def named_incompatible(root: Rootstock | None, cultivar: str) -> bool:
    """Whether the cultivar is named as failing on the root."""
    named = None if root is None else root.incompatible_cultivars
    return named is not None and cultivar in named.value
