"""What is said of whole lists, held against published facts.

Each case names its source by its id in rules/sources.yaml, or says that the fact was recalled and not read again.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from service.domain.site import Site
from service.reasoning.rulebook import Rulebook
from tests.questions.list_counter import ListCounter

PLACE = Site(hardiness_zone=6.5, chill_hours=1100)
HUMID = Site(hardiness_zone=6.5, chill_hours=1100, summer="humid")
SQUARE = Site(hardiness_zone=6.5, chill_hours=1100, width_ft=28, depth_ft=28)
SHORT_OF_CHILL = Site(hardiness_zone=6.5, chill_hours=850)


@dataclass(frozen=True)
class Published:
    """A list, rules that must speak of it and rules that must not, and the fact behind both."""

    fact: str
    text: str
    spoken: tuple[str, ...] = ()
    silent: tuple[str, ...] = ()
    site: Site = PLACE
    state: str | None = None


LACKS = "list-lacks-pollen"
BEETLE = "list-goes-into-a-state-that-keeps-japanese-beetle-out"
CURCULIO = "list-goes-into-a-state-that-keeps-plum-curculio-out"
FLIES = "list-crops-carry-fruit-flies-that-are-regulated"
CASES = [
    Published(
        "osu-cherry-chart: Bing, Lambert and Napoleon are of one group",
        "Bing cherry\nLambert cherry\nNapoleon cherry",
        spoken=(LACKS, "line-others-of-its-kind-do-not-serve"),
    ),
    Published(
        "osu-cherry-chart: a self-fertile cherry that blooms with them serves all others",
        "Bing cherry\nLambert cherry\nStella cherry",
        spoken=("list-pollinates-itself",),
        silent=(LACKS,),
    ),
    Published(
        "umn-stone: tart cherries set alone",
        "Montmorency cherry",
        silent=(LACKS, "line-lacks-its-partner"),
    ),
    Published(
        "usu-hort (from memory): a tart cherry blooms too late for a sweet one",
        "Bing cherry\nMontmorency cherry",
        spoken=(LACKS, "list-cherries-of-two-kinds-do-not-pair"),
    ),
    Published(
        "abdallah-2019 and wsu-fitzgerald: European and Japanese plums do not pair",
        "Shiro plum\nStanley plum",
        spoken=(LACKS, "list-plums-of-two-kinds-do-not-pair"),
    ),
    Published(
        "ext-apples-poll: a triploid and one other apple leave both without pollen",
        "Jonagold apple\nGala apple",
        spoken=(LACKS, "list-holds-trees-that-give-no-pollen", "line-lacks-one-of-its-partners"),
    ),
    Published(
        "ext-apples-poll: a triploid with two others is served, and so are they",
        "Jonagold apple\nGala apple\nLiberty apple",
        spoken=("list-pollinates-itself", "line-gives-no-pollen-to-others"),
        silent=(LACKS,),
    ),
    Published(
        "wvu-fb: Gala, Jonathan and Rome Beauty are susceptible to fire blight",
        "2 Gala apple\n1 Jonathan apple\n1 Rome Beauty apple",
        spoken=("list-shares-fire-blight",),
    ),
    Published(
        "wvu-scabres: Liberty and Enterprise stand fire blight and scab",
        "2 Liberty apple\n2 Enterprise apple",
        silent=("list-shares-fire-blight", "list-has-no-apple-that-scab-leaves-alone"),
        site=HUMID,
    ),
    Published(
        "psu-scabres: McIntosh and Cortland are not among the apples that resist scab",
        "McIntosh apple\nCortland apple",
        spoken=("list-has-no-apple-that-scab-leaves-alone",),
        site=HUMID,
    ),
    Published(
        "UNH_DWARF: on M.9 8 ft between trees and 12 ft between rows",
        "2 Liberty apple on M.9\n2 Enterprise apple on M.9",
        silent=("list-leaves-trees-without-room", "list-needs-more-ground-than-there-is"),
        site=SQUARE,
    ),
    Published(
        "UNH_DWARF: on M.7 14 ft between trees and 22 ft between rows; MM.111 grows larger (ext-rootinfo)",
        "2 Liberty apple on MM.111\n2 Enterprise apple on MM.111",
        spoken=("list-leaves-trees-without-room",),
        site=SQUARE,
    ),
    Published(
        "uga-peach-chill-2016: a shortfall of 100 hours can cost crop",
        "Redhaven peach",
        spoken=("line-gets-somewhat-too-little-chill",),
        site=SHORT_OF_CHILL,
    ),
    Published(
        "PSU_NURSERY_STOCK: a whip of half an inch is preferred to older trees",
        "Liberty apple 2 in caliper\nEnterprise apple 1/2 in caliper",
        spoken=("line-tree-is-sold-with-a-thick-trunk",),
    ),
    Published(
        "WSDA_QUARANTINES and wac_470_101: Washington regulates Japanese beetle, plum curculio and apple maggot",
        "Liberty apple\nStanley plum",
        spoken=(BEETLE, CURCULIO, FLIES),
        state="WA",
    ),
    Published(
        "CDFA_EXTERIOR, section 3256: California regulates cherry fruit flies",
        "Stella cherry",
        spoken=(BEETLE, FLIES),
        silent=(CURCULIO,),
        state="CA",
    ),
    Published(
        "figs are no host of what Washington keeps out (its lists of hosts, from memory)",
        "Celeste fig",
        spoken=("list-trees-cross-a-state-line-with-a-certificate",),
        silent=(BEETLE, CURCULIO, FLIES),
        state="WA",
    ),
]  # fmt: skip


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


@pytest.mark.parametrize("case", CASES, ids=[case.fact[:60] for case in CASES])
def test_a_list_is_told_what_the_published_fact_says(counter: ListCounter, case: Published) -> None:
    checked = counter.check(case.text, case.site, existing_trees=(), state=case.state)
    judged = [checked.judgement, *(name.judgement for line in checked.lines for name in line.names)]
    spoken = {one.rule.id for judgement in judged for one in judgement.conclusions}
    assert set(case.spoken) <= spoken
    assert not set(case.silent) & spoken
    assert checked.verdict == "does_not_pass" or not set(case.spoken) & {LACKS, "list-leaves-trees-without-room"}
