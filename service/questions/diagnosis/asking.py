"""What to ask next, and what tells the two likeliest causes apart."""

from __future__ import annotations

import numpy as np

from service.compute.evidence import Likelihoods, Split, best_splits
from service.compute.evidence.table import Floats
from service.domain.disorder import Disorder
from service.domain.sick_tree import SickTree
from service.questions.diagnosis.prepared import Prepared, weights_of
from service.questions.diagnosis.question import Leaning, NextQuestion, TellApart

_SIGNS_APART = 3


def questions_next(likelihoods: Likelihoods, tree: SickTree, prepared: Prepared) -> tuple[NextQuestion, ...]:
    """The signs nobody has been asked for that split the remaining causes best."""
    asked, least = tree.seen.asked, prepared.points("questions.least_gain")
    open_signs = [sign for sign in prepared.askable(tree.crop) if sign not in asked]
    splits = best_splits(likelihoods, open_signs, most=prepared.most("questions"))
    return tuple(_question(split, likelihoods, prepared) for split in splits if split.gain >= least)


def _question(split: Split, likelihoods: Likelihoods, prepared: Prepared) -> NextQuestion:
    return NextQuestion(
        sign=prepared.rulebook.catalogue.signs[split.sign],
        split=split,
        if_yes=_leaning(split.after_yes, likelihoods),
        if_no=_leaning(split.after_no, likelihoods),
    )


def _leaning(shares: Floats, likelihoods: Likelihoods) -> Leaning:
    place = int(np.argmax(shares))
    is_known = place < len(likelihoods.rows)
    return Leaning(likelihoods.table.causes[likelihoods.rows[place]] if is_known else None, float(shares[place]))


def apart(first: Disorder, second: Disorder, *, prepared: Prepared) -> TellApart:
    """What tells two disorders apart: what is published of the pair, and the signs that speak for one of them alone."""
    pair = first.like(second.id)
    signs = pair.telling if pair is not None and pair.telling else _most_different(first, second, prepared)
    return TellApart(first, second, pair, signs)


def _most_different(first: Disorder, second: Disorder, prepared: Prepared) -> tuple[str, ...]:
    """The signs on which two disorders differ most, those of the first before those of the second."""
    table = prepared.table
    differing = {**weights_of(first), **weights_of(second)}
    apart = table.seen[table.row_of[first.id]] - table.seen[table.row_of[second.id]]
    by_difference = sorted(differing, key=lambda sign: (-abs(apart[table.column_of[sign]]), sign))
    return tuple(sorted(by_difference[:_SIGNS_APART], key=lambda sign: -apart[table.column_of[sign]]))
