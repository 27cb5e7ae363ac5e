"""rules/look_alikes.yaml: pairs of disorders that are taken for one another, each pair written once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from service.domain.disorder import Disorder, LookAlike
from service.knowledge.entry import Entry, nearest, read_file
from service.knowledge.wording import wording

FILE = "look_alikes.yaml"


def with_look_alikes(folder: Path, disorders: Mapping[str, Disorder]) -> dict[str, Disorder]:
    """The disorders, each with the pairs that it is part of, in the order of the file."""
    pairs: dict[str, list[LookAlike]] = {disorder: [] for disorder in disorders}
    if (folder / FILE).exists():
        file = read_file(folder, FILE)
        file.known(("pairs",))
        seen: set[frozenset[str]] = set()
        for entry in file.each("pairs"):
            first, second = _pair(entry, disorders, seen)
            pairs[first.id].append(_told(entry, first, second))
            pairs[second.id].append(_told(entry, second, first, swapped=True))
    return {name: replace(disorder, look_alikes=tuple(pairs[name])) for name, disorder in disorders.items()}


def _pair(entry: Entry, disorders: Mapping[str, Disorder], seen: set[frozenset[str]]) -> tuple[Disorder, Disorder]:
    entry.known(("of", "check", "first", "second"))
    of = entry.texts("of", disorders)
    if len(set(of)) != 2:
        entry.fail("a pair names two disorders", "of")
    entry.name = " and ".join(of)
    if frozenset(of) in seen:
        entry.fail("the pair stands twice", "of")
    seen.add(frozenset(of))
    return disorders[of[0]], disorders[of[1]]


def _told(entry: Entry, one: Disorder, other: Disorder, *, swapped: bool = False) -> LookAlike:
    this, that = ("second", "first") if swapped else ("first", "second")
    return LookAlike(
        disorder=other.id,
        check=wording(entry, "check"),
        this_shows=wording(entry, this),
        other_shows=wording(entry, that),
        telling=telling(one, other),
    )


def telling(one: Disorder, other: Disorder) -> tuple[str, ...]:
    """The signs that speak for one disorder and not for the other; those that rule the other out come first."""
    shared = {*other.typical, *other.sometimes}
    own = [sign for sign in (*one.typical, *one.sometimes) if sign not in shared]
    return tuple(sorted(own, key=lambda sign: sign not in other.rules_out))


def check_instead(read: Mapping[str, tuple[Disorder, Entry]]) -> None:
    """Refuse what a file says to look for instead when it does not exist or is not met on that crop."""
    for disorder, entry in read.values():
        for crop, instead in disorder.confused_on.items():
            for name in instead:
                if name not in read:
                    entry.fail(f"“{name}” is not a disorder{nearest(name, read)}", "confused_on")
                if read[name][0].standing(crop) == "not_host":
                    entry.fail(f"{crop} is no host of “{name}” either", "confused_on")
