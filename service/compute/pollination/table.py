"""Who can set whom, over a whole catalogue: worked out once, asked many times.

Cultivars alike in all that bears on pollen share a decision, so the table takes as many decisions as there are pairs
of kinds, not of cultivars. Pairs of unrelated crops are left out: they never set fruit.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

from service.compute.pollination.bloom import gap_in_classes, gap_in_days, together
from service.compute.pollination.decide import Decision, decide
from service.compute.pollination.profile import Grounds, Profile, profile_of
from service.compute.pollination.verdict import Verdict, judge_pair, named_pair, own_pollen
from service.domain.cultivar import Cultivar

Links = Mapping[str, frozenset[str]]
SETS = ("compatible", "partly_compatible")


class PartnerTable:
    """Verdicts on every pair of a catalogue."""

    def __init__(self, cultivars: Iterable[Cultivar], grounds: Grounds) -> None:
        self.cultivars: Mapping[str, Cultivar] = {cultivar.id: cultivar for cultivar in cultivars}
        self.grounds = grounds
        self._profiles = {id_: profile_of(cultivar, grounds) for id_, cultivar in self.cultivars.items()}
        self._decided: dict[tuple[Profile, Profile], Decision] = {}
        self._verdicts: dict[tuple[str, str], Verdict] = {}

    def verdict(self, seed: str, pollen: str) -> Verdict:
        """Can pollen of the second cultivar set fruit on the first? Both are ids of the catalogue."""
        pair = (seed, pollen)
        if pair not in self._verdicts:
            self._verdicts[pair] = judge_pair(self.cultivars[seed], self.cultivars[pollen], self.grounds)
        return self._verdicts[pair]

    @cached_property
    def proven(self) -> Links:
        """For each cultivar the others whose pollen is known to set it, unless they are known to bloom apart."""
        return self._links[0]

    @cached_property
    def likely(self) -> Links:
        """For each cultivar the others that the usual advice names, though nobody has shown them to set it."""
        return self._links[1]

    @cached_property
    def _links(self) -> tuple[Links, Links]:
        proven: dict[str, set[str]] = {id_: set() for id_ in self.cultivars}
        likely: dict[str, set[str]] = {id_: set() for id_ in self.cultivars}
        for seed, pollen in self._pairs():
            decision = self._decision(seed, pollen)
            if decision.compatibility in SETS:
                proven[seed.id].add(pollen.id)
            elif decision.likely:
                likely[seed.id].add(pollen.id)
        return _frozen(proven), _frozen(likely)

    def _pairs(self) -> Iterator[tuple[Cultivar, Cultivar]]:
        """Pairs of different cultivars, of one crop or of crops that cross, that are not known to bloom apart."""
        by_crop: dict[str, list[Cultivar]] = defaultdict(list)
        for cultivar in self.cultivars.values():
            by_crop[cultivar.crop].append(cultivar)
        for seed in self.cultivars.values():
            for crop in self._related(seed.crop):
                for pollen in by_crop[crop]:
                    if pollen is not seed and self._together(seed, pollen) is not False:
                        yield seed, pollen

    def _related(self, crop: str) -> tuple[str, ...]:
        partners = self.grounds.crops[crop].partner_crops
        named = set(partners.value) if partners else set()
        named |= {
            other.id
            for other in self.grounds.crops.values()
            if other.partner_crops is not None and crop in other.partner_crops.value
        }
        return (crop, *sorted(named - {crop}))

    def _together(self, seed: Cultivar, pollen: Cultivar) -> bool | None:
        if seed.crop != pollen.crop:
            return None
        classes = gap_in_classes(
            seed.bloom.value if seed.bloom else None, pollen.bloom.value if pollen.bloom else None
        )
        return together(classes, gap_in_days(seed, pollen), self.grounds.bloom)

    def _decision(self, seed: Cultivar, pollen: Cultivar) -> Decision:
        special = own_pollen(seed, pollen, self.grounds) or named_pair(seed, pollen, self.grounds)
        if special is not None:
            return special
        kinds = (self._profiles[seed.id], self._profiles[pollen.id])
        if kinds not in self._decided:
            self._decided[kinds] = decide(*kinds, self.grounds)
        return self._decided[kinds]


def _frozen(links: Mapping[str, set[str]]) -> Links:
    return {id_: frozenset(partners) for id_, partners in links.items()}
