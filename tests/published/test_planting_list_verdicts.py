"""Lists whose verdicts follow from published facts, each named with who publishes it.

What the author recalls of a publication and did not read again for this test is marked "from memory".
"""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest

from service.domain.site import Site
from service.reasoning.rulebook import Rulebook
from tests.questions.list_counter import ListCounter, facts

MILD = Site(hardiness_zone=7.5, chill_hours=1100, drainage="good", sun_hours=8)
WARM = Site(hardiness_zone=9.5, chill_hours=150, drainage="good", sun_hours=8)
COLD = Site(hardiness_zone=3.5, chill_hours=2000, drainage="good", sun_hours=8)


@dataclass(frozen=True)
class Published:
    """A list at a place, the verdicts that it must come to, and the fact behind them."""

    fact: str
    list: str
    verdicts: tuple[str, ...]
    site: Site = MILD
    served: tuple[bool, ...] = field(default=())


CASES = [
    Published(
        "Bartlett grafted directly on quince fails; on pear roots it does not (Oregon State University, pear roots; "
        "from memory)",
        "Bartlett pear on Quince A\nHarrow Sweet pear on OHxF 87",
        ("does_not_fit", "fits|caution"),
    ),
    Published(
        "Bing and Lambert do not set one another (Oregon sweet cherry chart, osu-cherry-chart)",
        "Bing cherry\nLambert cherry",
        ("caution|does_not_fit", "caution|does_not_fit"),
        served=(False, False),
    ),
    Published(
        "Stella carries S4' and sets itself and Bing (published S-genotypes of sweet cherries; from memory)",
        "Bing cherry\nStella cherry",
        ("fits|caution", "fits|caution"),
        served=(True, True),
    ),
    Published(
        "Gravenstein and Jonagold are triploid: neither gives the other pollen (extension lists of triploid apples; "
        "from memory)",
        "Gravenstein apple\nJonagold apple",
        ("caution|does_not_fit", "caution|does_not_fit"),
        served=(False, False),
    ),
    Published(
        "Peaches set with their own pollen, so one tree is enough (general extension advice)",
        "Redhaven peach",
        ("fits|caution",),
        served=(True,),
    ),
    Published(
        "Redhaven is listed with about 950 hours of chill and fails where winters give 150 (Clemson, chill of peaches; "
        "from memory)",
        "Redhaven peach",
        ("does_not_fit",),
        WARM,
    ),
    Published(
        "Figs are killed by the winters of zone 3 (general extension advice)",
        "Brown Turkey fig",
        ("does_not_fit",),
        COLD,
    ),
    Published(
        "Sweet cherries are no trees for zone 3 (University of Minnesota; from memory)",
        "Bing cherry",
        ("does_not_fit",),
        COLD,
    ),
    Published(
        "No peach is grown on an apple root (the graft does not take; general nursery practice)",
        "Redhaven peach on M.9",
        ("caution|does_not_fit",),
    ),
]


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


@pytest.mark.parametrize("case", CASES, ids=[case.fact[:60] for case in CASES])
def test_a_list_comes_to_what_the_published_fact_says(counter: ListCounter, case: Published) -> None:
    lines = counter.check(case.list, case.site, existing_trees=()).lines
    verdicts = [line.verdict for line in lines]
    assert all(verdict in wanted.split("|") for verdict, wanted in zip(verdicts, case.verdicts, strict=True)), verdicts
    if case.served:
        assert tuple(facts(line)["pollen.served"] for line in lines) == case.served
