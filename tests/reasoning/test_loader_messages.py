"""What the loader says of a wrong rule: file, line, rule, what is wrong, and what to write instead."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.reasoning.written_out import changed, faults

WRONG = {
    "an unknown fact": (
        ("crop: {is: peach}", "crp: {is: peach}"),
        "size.yaml:5: keep-it-low: there is no fact 'crp' in vocabulary.yaml; the nearest right word is 'crop'",
    ),
    "a fact of another ruleset": (
        ("tree.height_ft: {above: 12}", "hedge.width_ft: {above: 12}"),
        "size.yaml:6: keep-it-low: the cases of orchard.tree do not carry the fact 'hedge.width_ft' "
        "(it is for orchard.hedge)",
    ),
    "a value outside its set": (
        ("crop: {is: peach}", "crop: {is: peech}"),
        "size.yaml:5: keep-it-low: 'peech' is not among the values of 'crop'; the nearest right word is 'peach'",
    ),
    "a number outside its range": (
        ("above: 12", "above: 61"),
        "size.yaml:6: keep-it-low: 61 lies outside the range of 'tree.height_ft', [0, 60] ft",
    ),
    "a number as text": (("above: 12", 'above: "12"'), "'tree.height_ft' is a number in ft, not '12'"),
    "a flag as a number": (("crop: {is: peach}", "tree.dry: {is: 1}"), "'tree.dry' is true or false, not 1"),
    "a choice tested with at_least": (
        ("crop: {is: peach}", "crop: {at_least: peach}"),
        "size.yaml:5: keep-it-low: 'at_least' does not test a choice; write one of: is, known, none_of, one_of",
    ),
    "a misspelt test": (
        ("above: 12", "abov: 12"),
        "'abov' does not test a number; the nearest right word is 'above'",
    ),
    "a list tested as one value": (
        ("crop: {is: peach}", "tree.pests: {has: [moth]}"),
        "'tree.pests' takes words, not ['moth']",
    ),
    "one value where a list belongs": (
        ("crop: {is: peach}", "crop: {one_of: peach}"),
        "'one_of' takes a list, such as one_of: [one, two]",
    ),
    "a value twice": (("crop: {is: peach}", "crop: {one_of: [peach, peach]}"), "'one_of' names a value twice"),
    "no test": (("crop: {is: peach}", "crop: peach"), "write a test, such as crop: {is: …}, not 'peach'"),
    "between with one end": (("above: 12", "between: [12]"), "'between' takes two numbers"),
    "between upside down": (("above: 12", "between: [14, 12]"), "'between' runs from low to high, not from 14 to 12"),
    "known neither true nor false": (("above: 12", "known: maybe"), "'known' is true or false, not 'maybe'"),
    "unknown and something": (
        ("above: 12", "above: 12, known: false"),
        "'known: false' cannot hold together with another test",
    ),
    "unknown of what is always known": (
        ("crop: {is: peach}", "crop: {known: false}"),
        "'crop' is never unknown, so 'known: false' never holds",
    ),
    "an unknown limit": (
        ("above: 12", "above: {limit: tree.tal_ft}"),
        "there is no limit 'tree.tal_ft' in limits.yaml; the nearest right word is 'tree.tall_ft'",
    ),
    "a limit in another unit": (
        ("above: 12", "above: {limit: tree.points}"),
        "the limit 'tree.points' is in points, and what it is compared with is in ft",
    ),
    "a limit outside the fact's range": (
        ("above: 12", "above: {limit: tree.huge_ft}"),
        "99 lies outside the range of 'tree.height_ft'",
    ),
    "an unknown source": (
        ("ref: a-guide", "ref: a-gide"),
        "there is no source 'a-gide' in sources.yaml; the nearest right word is 'a-guide'",
    ),
    "an unknown caution": (
        ("[ladder]", "[lader]"),
        "there is no caution 'lader' in cautions.yaml; the nearest right word is 'ladder'",
    ),
    "another basis": (
        ("source: [{ref: a-guide, where: page 3}]", "basis: hearsay"),
        "the only basis without a source is: common practice",
    ),
    "an unknown head": (("    why:", "    whi:"), "'whi' has no meaning here; the nearest right word is 'why'"),
    "heads out of order": (
        (
            "    priority: 50\n    reviewed: {last: 2026-11-25, next: 2028-11-25}\n",
            "    reviewed: {last: 2026-11-25, next: 2028-11-25}\n    priority: 50\n",
        ),
        "'reviewed' stands too early; the order is: id, title, when, then, why",
    ),
    "an id with capitals": (("id: keep-it-low", "id: Keep_It"), "the id 'Keep_It' must be small letters, digits and"),
    "two outcomes": (
        ("prefer: 5", "prefer: 5\n      advise: Prune."),
        "a rule has one outcome, and this one has advise and prefer",
    ),
    "no outcome": (
        ('      prefer: 5\n      say: "At {tree.height_ft} your {crop} is {size}."\n', ""),
        "a rule has an outcome with a sentence; write one of: say, advise",
    ),
    "points without a sentence": (
        ('      say: "At {tree.height_ft} your {crop} is {size}."\n', ""),
        "'prefer' needs a sentence beside it",
    ),
    "a sentence in two places": (("prefer: 5", "caution: Mind."), "the sentence stands under 'caution' itself"),
    "too many points": (("prefer: 5", "prefer: 101"), "'prefer' takes whole points from 1 to 100, not 101"),
    "broken points": (("prefer: 5", "prefer: 2.5"), "'prefer' takes whole points from 1 to 100, not 2.5"),
    "points in feet": (
        ("prefer: 5", "prefer: {limit: tree.tall_ft}"),
        "the limit 'tree.tall_ft' is in ft, and what it is compared with is in points",
    ),
    "an unknown conclusion": (
        ("conclude: {size: tall}", "conclude: {siz: tall}"),
        "there is no conclusion 'siz' for orchard.tree in vocabulary.yaml; the nearest right word is 'size'",
    ),
    "a conclusion outside its set": (
        ("conclude: {size: tall}", "conclude: {size: tal}"),
        "'tal' is not among the values of 'concluded.size'; the nearest right word is 'tall'",
    ),
    "a conclusion from a fact of another kind": (
        ("conclude: {size: tall}", "conclude: {size: {fact: crop}}"),
        "'crop' can be what 'concluded.size' cannot",
    ),
    "a placeholder that may be unknown": (
        ("{crop} is", "{tree.dry} is"),
        "{tree.dry} may be unknown here; test it in `when` or leave it out",
    ),
    "a placeholder that is nothing": (
        ("{crop} is", "{corp} is"),
        "{corp} is no fact of orchard.tree, conclusion or limit; the nearest right word is 'crop'",
    ),
    "a placeholder of a conclusion not read": (
        ("{crop} is", "{reach_ft} is"),
        "{reach_ft} is neither concluded here nor tested in `when` as concluded.reach_ft",
    ),
    "a placeholder with concluded.": (("{crop} is", "{concluded.size} is"), "written without 'concluded.': {size}"),
    "a placeholder of an unknown limit": (
        ("{crop} is", "{limit.tree.tal_ft} is"),
        "the sentence names the limit 'tree.tal_ft', which limits.yaml has not",
    ),
    "a stray brace": (("{crop} is", "{crop is"), "a brace stands alone"),
    "a placeholder in why": (("A low tree", "A {crop}"), "'why' is shown as it stands"),
    "no example that fires": (("expect: fires", "expect: silent"), "no example fires; add one with expect: fires"),
    "no example that is silent": (("expect: silent", "expect: fires"), "no example is silent; add one with"),
    "a boundary without an example": (
        ("{crop: peach, tree.height_ft: 12}", "{crop: peach, tree.height_ft: 11}"),
        "no example stands exactly on the boundary of 'tree.height_ft'; add one with tree.height_ft: 12",
    ),
    "an example with an unknown fact": (
        ("{crop: peach, tree.height_ft: 12}", "{crop: peach, tree.heigt_ft: 12}"),
        "there is no fact 'tree.heigt_ft' in vocabulary.yaml; the nearest right word is 'tree.height_ft'",
    ),
    "an example with a wrong value": (
        ("{crop: peach, tree.height_ft: 20}", "{crop: pech, tree.height_ft: 20}"),
        "'pech' is not among the values of 'crop'",
    ),
    "an example that expects nonsense": (
        ("expect: silent", "expect: quiet"),
        "'expect' is fires or silent, not 'quiet'",
    ),
    "two examples of one name": (("name: just there", "name: tall"), "two examples are called 'tall'"),
    "a date that is none": (("last: 2026-11-25", "last: 2026-13-25"), "'last' must be a date such as 2026-11-25"),
    "a review in the past": (("next: 2028-11-25", "next: 2025-11-25"), "the next review must come after the last"),
    "a priority that is no number": (("priority: 50", "priority: high"), "'priority' must be a number, not 'high'"),
    "a repeated key": (
        ("    priority: 50\n", "    priority: 50\n    priority: 60\n"),
        "the key 'priority' stands twice",
    ),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_what_is_wrong_is_said_with_what_to_write(tmp_path: Path, wrong: str) -> None:
    (old, new), sentence = WRONG[wrong]
    (fault,) = faults(tmp_path, changed(old, new))
    assert sentence in fault
    assert fault.startswith("rules/orchard/tree/size.yaml:")
