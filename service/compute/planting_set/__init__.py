"""The planting set: which trees to plant together, chosen exactly, with the second best set beside it."""

from service.compute.planting_set.choice import choose
from service.compute.planting_set.order import Limb, Order, Plot, StandingPartner, Tree, Weights
from service.compute.planting_set.outcome import GivenUp, Outcome, PlantingSet
from service.compute.planting_set.shortlist import shortlist

__all__ = [
    "GivenUp",
    "Limb",
    "Order",
    "Outcome",
    "PlantingSet",
    "Plot",
    "StandingPartner",
    "Tree",
    "Weights",
    "choose",
    "shortlist",
]
