"""Active ingredients as plain data; what rests on a publication that nobody saw is named as recalled."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.domain.source import Source
from service.domain.treatment import Active
from service.present.reference import known, plain


def active_told(active: Active, sources: Mapping[str, Source]) -> dict[str, Any]:
    """An active with its usual intervals as a list, and the fields whose source nobody saw."""
    cited = {
        "moa": (active.moa.source,),
        "bee_class": (active.bee_source,),
        "farm_reentry_hours": (active.farm_reentry_source,),
        "usual_intervals": tuple(one.source for one in active.usual_intervals.values()),
        "injuries": tuple(one.source for one in active.injuries),
    }
    recalled = [name for name, ids in cited.items() if any(id and not sources[id].confirmed for id in ids)]
    intervals = [{"crop": crop, **plain(one)} for crop, one in active.usual_intervals.items()]
    return {**known(active), "usual_intervals": intervals, "recalled": recalled}
