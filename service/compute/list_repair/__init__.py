"""The cheapest repair of a list: what to keep, change, drop and add so that every tree suits and has its pollen."""

from service.compute.list_repair.mend import repair
from service.compute.list_repair.task import Changed, Choice, Costs, Line, NoRepair, Repair, Room, Task

__all__ = ["Changed", "Choice", "Costs", "Line", "NoRepair", "Repair", "Room", "Task", "repair"]
