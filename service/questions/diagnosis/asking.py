"""What to ask next, and what tells the two likeliest causes apart."""

from __future__ import annotations

import numpy as np

from service.compute.evidence import Likelihoods, Split, best_splits
from service.compute.evidence.table import Floats
from service.domain.disorder import Disorder
from service.domain.sick_tree import SickTree
from service.questions.diagnosis.prepared import Prepared
from service.questions.diagnosis.question import Leaning, NextQuestion, TellApart


def questions_next(likelihoods: Likelihoods, tree: SickTree, prepared: Prepared) -> tuple[NextQuestion, ...]:
    """The signs nobody has been asked for that split the remaining causes best."""
    asked = tree.seen.asked
    open_signs = [sign for sign in prepared.askable(tree.crop) if sign not in asked]
    splits = best_splits(likelihoods, open_signs, most=prepared.most("questions"))
    most_telling = max((split.gain for split in splits), default=0.0)
    least = max(prepared.points("questions.least_gain"), prepared.points("questions.least_share") * most_telling)
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


def tell_apart(likelihoods: Likelihoods, tree: SickTree, prepared: Prepared) -> TellApart | None:
    """What tells the likeliest cause from its rival: the second likeliest, or what people often take it for.

    Where nothing speaks for the second, the likeliest of those that the first is often taken for stands in its place;
    where nothing speaks for any of them, there are no two to tell apart.
    """
    ranked, least = likelihoods.ranked, prepared.points("shown.least")
    if len(ranked) < 2 or ranked[0][1] < least:
        return None
    disorders = prepared.rulebook.catalogue.disorders
    first, second = disorders[ranked[0][0]], disorders[ranked[1][0]]
    if ranked[1][1] < least:
        second = next((disorders[name] for name, _ in ranked[1:] if first.like(name) is not None), second)
    return _apart(first, second, tree=tree, prepared=prepared)


def _apart(first: Disorder, second: Disorder, *, tree: SickTree, prepared: Prepared) -> TellApart:
    pair, asked = first.like(second.id), tree.seen.asked
    published = () if pair is None else pair.telling
    signs = [sign for sign in (*published, *_by_difference(first, second, prepared)) if sign not in asked]
    return TellApart(first, second, pair, tuple(dict.fromkeys(signs))[: prepared.most("shown.telling")])


def _by_difference(first: Disorder, second: Disorder, prepared: Prepared) -> list[str]:
    """The signs of either of two disorders on which they differ, the most telling first."""
    table = prepared.table
    differing = {sign for one in (first, second) for sign in (*one.typical, *one.sometimes)}
    apart = table.seen[table.row_of[first.id]] - table.seen[table.row_of[second.id]]
    return sorted(differing, key=lambda sign: (-abs(apart[table.column_of[sign]]), sign))
