"""How many fruit a tree and its branches can carry: the measures that apply, and the lowest of them."""

from service.compute.crop_load.bending import Fruiting, Limb, safe_fruit, strain
from service.compute.crop_load.bounds import Bound, Reach, Targets, branch_bounds, lowest, tree_bounds
from service.compute.crop_load.carrying import Carried, CarriedBranch, Part, carry
from service.compute.crop_load.placing import Thirds, in_thirds

__all__ = [
    "Bound",
    "Carried",
    "CarriedBranch",
    "Fruiting",
    "Limb",
    "Part",
    "Reach",
    "Targets",
    "Thirds",
    "branch_bounds",
    "carry",
    "in_thirds",
    "lowest",
    "safe_fruit",
    "strain",
    "tree_bounds",
]
