"""Which pollen a style accepts, by S-alleles.

A style stops a pollen grain whose one S-allele is also among the style's own (gametophytic self-incompatibility;
the account we follow is that of the Oregon sweet cherry chart, source osu-cherry-chart). Some alleles have lost the
part that shows in the pollen or the part that works in the style; which, arrives as data.
"""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.cultivar import SGenotype
from service.domain.pollen import ChangedAllele

Changed = Mapping[str, ChangedAllele]
DIPLOID = 2


def share_accepted(style: SGenotype, pollen: SGenotype, changed: Changed) -> float | None:
    """Share of the pollen of a diploid tree that a style accepts; None where the two cannot be compared.

    Figures of the sweet cherry chart (source osu-cherry-chart): Bing S3S4, Lambert S3S4, Van S1S3.

    >>> bing, lambert, van = (SGenotype(tuple(pair)) for pair in (["S3", "S4"], ["S3", "S4"], ["S1", "S3"]))
    >>> share_accepted(bing, lambert, {}), share_accepted(bing, van, {})
    (0.0, 0.5)
    >>> share_accepted(bing, SGenotype(("Sa", "Sb"), notation="lettered"), {}) is None
    True
    """
    if style.notation != pollen.notation or len(pollen.alleles) != DIPLOID:
        return None
    stopped = stopped_by_style(style, changed)
    passing = [allele for allele in pollen.alleles if shown_by_pollen(allele, changed) not in stopped]
    return len(passing) / DIPLOID


def stopped_by_style(style: SGenotype, changed: Changed) -> frozenset[str]:
    """The alleles whose pollen a style stops; a triploid style has three."""
    return frozenset(
        stops
        for allele in style.alleles
        if (stops := changed[allele].style_stops if allele in changed else allele) is not None
    )


def shown_by_pollen(allele: str, changed: Changed) -> str | None:
    """The allele as which a style knows a pollen grain; None where no style stops it any more."""
    return changed[allele].pollen_stopped_as if allele in changed else allele


def passes_everywhere(pollen: SGenotype, changed: Changed) -> bool:
    """Whether some of the pollen is accepted by every tree of the crop: such a tree is called a universal donor."""
    return any(shown_by_pollen(allele, changed) is None for allele in pollen.alleles)
