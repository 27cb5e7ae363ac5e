"""Which chill need counts for a cultivar at a place, and how the chill of the place stands to it.

Supply and need are compared only in the same count: portions where both are known in portions, otherwise hours. A need
told in Utah units is not compared with hours; then the count of the comparison stays unknown, and the answer says so.
Where both counts are known on both sides and one says enough and the other too little, that is a fact of its own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.questions.suggestion.known import ChillClaim, Measure
from service.questions.suggestion.place import WinterChill
from service.reasoning.vocabulary import Value

_LARGEST_SHARE = 4000.0
_SUPPLY: Mapping[Measure, str] = {"portions": "site.chill_portions", "hours": "site.chill_hours"}


def chill_facts(claims: Sequence[ChillClaim], place: Mapping[str, Value], winters: WinterChill) -> dict[str, Value]:
    """The chill facts of a cultivar at a place; empty where nobody published a need."""
    claim = _claim_that_counts(claims, place)
    if claim is None:
        return {}
    facts: dict[str, Value] = {"chill.basis": claim.basis, "chill.recalled": claim.recalled}
    if claim.measure is None:
        return facts
    for end, need in (("low", claim.low), ("high", claim.high)):
        if need is not None:
            facts[f"chill.need_{end}_{claim.measure}"] = need
    supply = place.get(_SUPPLY[claim.measure])
    disagree = _counts_disagree([one for one in claims if one.basis == claim.basis], place)
    if disagree is not None:
        facts["chill.counts_disagree"] = disagree
    if supply is not None:
        facts["chill.measure"] = claim.measure
        facts.update(_compared(claim, float(supply)))  # type: ignore[arg-type]
        met = None if claim.low is None else winters.met_share(claim.measure, claim.low)
        if met is not None:
            facts["chill.winters_met_share"] = met
    return facts


class ChillHere:
    """The chill facts of one place; many cultivars rest on the same claims, and each claim is weighed once."""

    def __init__(self, place: Mapping[str, Value], winters: WinterChill) -> None:
        self._place, self._winters = place, winters
        self._weighed: dict[int, tuple[Sequence[ChillClaim], dict[str, Value]]] = {}

    def facts(self, claims: Sequence[ChillClaim]) -> Mapping[str, Value]:
        """The facts that these claims come to here."""
        weighed = self._weighed.get(id(claims))
        if weighed is None:
            weighed = claims, chill_facts(claims, self._place, self._winters)
            self._weighed[id(claims)] = weighed  # the claims are kept with their facts, so no other gets their id
        return weighed[1]


def _claim_that_counts(claims: Sequence[ChillClaim], place: Mapping[str, Value]) -> ChillClaim | None:
    comparable = [claim for claim in claims if claim.measure is not None and _SUPPLY[claim.measure] in place]
    telling = [claim for claim in comparable if not _leaves_open(claim, place)]
    own = [claim for claim in claims if claim.basis == "cultivar"]
    return next(iter((*(claim for claim in telling if claim in own), *telling, *comparable, *claims)), None)


def _counts_disagree(claims: Sequence[ChillClaim], place: Mapping[str, Value]) -> bool | None:
    """Whether one count says that the need is met and the other that it is not; None unless both can be compared."""
    met: dict[Measure, bool] = {}
    for claim in claims:
        if claim.measure is not None and claim.low is not None and _SUPPLY[claim.measure] in place:
            met.setdefault(claim.measure, float(place[_SUPPLY[claim.measure]]) >= claim.low)  # type: ignore[arg-type]
    return len(set(met.values())) > 1 if len(met) == len(_SUPPLY) else None


def _leaves_open(claim: ChillClaim, place: Mapping[str, Value]) -> bool:
    """Whether only the upper end of a need is known and the place gives less, which decides nothing."""
    if claim.low is not None or claim.high is None:
        return False
    return float(place[_SUPPLY[claim.measure]]) < claim.high  # type: ignore[index,arg-type]


def _compared(claim: ChillClaim, supply: float) -> dict[str, Value]:
    """Supply over need; a need of no chill at all counts as one hour or portion, so that the share stays finite."""
    return {
        f"chill.supply_over_{end}_need": min(supply / max(need, 1), _LARGEST_SHARE)
        for end, need in (("low", claim.low), ("high", claim.high))
        if need is not None
    }
