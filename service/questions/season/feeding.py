"""Nitrogen for one tree: what the rules conclude of rates and share, reckoned and split into doses."""

from __future__ import annotations

from collections.abc import Mapping

from service.compute.feeding import Rates, nitrogen, product_oz
from service.domain.season_tree import SeasonTree
from service.questions.pruning.facts import known
from service.questions.season.question import Facts, Fed
from service.reasoning.vocabulary import Value


def nitrogen_facts(found: Fed) -> Facts:
    """What the rules on tasks may say of it."""
    if found.nitrogen is None:
        return {"nitrogen.bound_by": "none"}
    return known(
        {
            "nitrogen.year_oz": round(found.nitrogen.year_oz, 2),
            "nitrogen.dose_oz": round(found.nitrogen.year_oz / found.doses, 2),
            "nitrogen.doses": found.doses,
            "nitrogen.product_oz": found.product_oz,
            "nitrogen.bound_by": found.nitrogen.bound_by,
        }
    )


def fed(
    tree: SeasonTree, concluded: Mapping[str, Value], facts: Mapping[str, Value], *, percent: float | None
) -> Fed:
    """Nitrogen for this tree; none where the rules say that it is not fed, and unknown where no rate applies."""
    if concluded.get("feeding") == "none":
        return Fed(None, 1, None)
    share = _number(concluded.get("nitrogen_share"))
    rates = Rates(
        first_year_oz=_number(concluded.get("nitrogen_first_year_oz")),
        a_year_oz=_number(concluded.get("nitrogen_a_year_oz")),
        an_inch_oz=_number(concluded.get("nitrogen_an_inch_oz")),
        cap_oz=_number(concluded.get("nitrogen_cap_oz")),
        share=1.0 if share is None else share,
    )
    trunk = _number(facts.get("tree.trunk_diameter_in"))
    found = nitrogen(rates, age_years=tree.summers, trunk_in=trunk)
    doses = round(_number(concluded.get("nitrogen_doses")) or 1)
    if found is None or percent is None:
        return Fed(found, doses, None)
    return Fed(found, doses, round(product_oz(found.year_oz / doses, percent=percent), 1))


def _number(value: Value | None) -> float | None:
    return float(value) if isinstance(value, int | float) else None
