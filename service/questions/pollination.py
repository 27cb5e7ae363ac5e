"""One question: can the pollen of this tree set fruit on that one, and will they bloom together?"""

from __future__ import annotations

from functools import lru_cache

from service.compute.pollination import BloomLimits, Grounds, PartnerTable
from service.reasoning.rulebook import Rulebook


@lru_cache(maxsize=4)
def partner_table(rulebook: Rulebook) -> PartnerTable:
    """Who can set whom, over the whole catalogue of a rulebook."""
    catalogue = rulebook.catalogue
    bloom = BloomLimits(classes=rulebook.limits["pollination.bloom_gap_classes"].value)
    return PartnerTable(catalogue.cultivars.values(), Grounds(catalogue.crops, catalogue.pollen, bloom))
