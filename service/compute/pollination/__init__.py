"""Pollination: whose pollen sets which tree, by S-alleles, groups, ploidy and crop, and whether they bloom together."""

from service.compute.pollination.bloom import BloomLimits
from service.compute.pollination.profile import Grounds, crops_alone, gives_pollen, profile_of
from service.compute.pollination.reasons import Reason
from service.compute.pollination.table import PartnerTable
from service.compute.pollination.verdict import Verdict, judge_pair

__all__ = [
    "BloomLimits",
    "Grounds",
    "PartnerTable",
    "Reason",
    "Verdict",
    "crops_alone",
    "gives_pollen",
    "judge_pair",
    "profile_of",
]
