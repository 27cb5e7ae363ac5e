"""How candidates are scored and put in order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Sequence

from service.questions.suggestion.question import Candidate, CropTally, RootChoice
from service.reasoning.conclusions import Judgement

FULL_FIT = 100


def scored(start: float, judgement: Judgement) -> int:
    """The fit, from 0 to 100: where every cultivar starts, with the points that rules gave and took."""
    return max(0, min(FULL_FIT, round(start + judgement.points)))


def fitting(root: RootChoice, judgement: Judgement) -> bool:
    """Whether no rule sets aside the cultivar, nor every root that could bear it."""
    return root.fits and not (judgement.set_aside or judgement.forbidden)


def in_order(candidates: Iterable[Candidate]) -> list[Candidate]:
    """Candidates by fit; among equals the crops take turns, so that one crop does not fill the top of the list."""
    by_points = sorted(candidates, key=lambda one: (-one.fit, -one.judgement.points, one.cultivar.id))
    turns: Counter[tuple[int, str]] = Counter()
    keyed = []
    for candidate in by_points:
        turns[candidate.fit, candidate.crop.id] += 1
        turn = turns[candidate.fit, candidate.crop.id]
        keyed.append(((-candidate.fit, turn, -candidate.judgement.points, candidate.cultivar.id), candidate))
    return [candidate for _, candidate in sorted(keyed, key=lambda entry: entry[0])]


def leading(candidates: Sequence[Candidate], wished: Collection[str], *, limit: int, per_crop: int) -> list[Candidate]:
    """The first of the candidates in order: the best of each wished crop, then few of any one crop, then the rest."""
    turns: Counter[str] = Counter()
    ranked = []
    for place, candidate in enumerate(candidates):
        crop = candidate.crop.id
        turns[crop] += 1
        ranked.append((not (crop in wished and turns[crop] == 1), turns[crop] > per_crop, place))
    return [candidates[place] for place in sorted(place for *_, place in sorted(ranked)[:limit])]


def tallies(candidates: Sequence[Candidate]) -> tuple[CropTally, ...]:
    """How each crop does, from candidates in order of fit; the crop with the fittest cultivar comes first."""
    by_crop: dict[str, list[Candidate]] = {}
    for candidate in candidates:
        by_crop.setdefault(candidate.crop.id, []).append(candidate)
    counted = [_tally(of_crop) for of_crop in by_crop.values()]
    return tuple(sorted(counted, key=lambda tally: (-(tally.best.fit if tally.best else -1), tally.crop.id)))


def _tally(candidates: Sequence[Candidate]) -> CropTally:
    fit_here = [candidate for candidate in candidates if candidate.fits]
    return CropTally(candidates[0].crop, len(candidates), len(fit_here), fit_here[0] if fit_here else None)
