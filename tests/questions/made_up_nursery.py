"""A small nursery with two crops, a handful of cultivars and a rule for each turn of the way; all figures invented."""

from __future__ import annotations

from pathlib import Path

from service.domain.crop import Crop
from service.domain.cultivar import ChillNeed, Cultivar, HarvestTime
from service.domain.pollen import PollenKnowledge
from service.domain.provenance import Span, Stated
from service.domain.rootstock import Rootstock
from service.domain.source import Source
from service.knowledge.catalogue import Catalogue
from service.questions.suggestion import Judges, SuggestionAnswer, SuggestionQuestion, suggest
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, assemble

VOCABULARY = Path(__file__).parents[2] / "rules" / "vocabulary.yaml"
BOOK = ("a-book",)
NOTED = "noted in a garden"


def stated(value: object, **more: object) -> Stated:
    """A value that the one book of this nursery states."""
    return Stated(value, BOOK, **more)


def hours(low: float, high: float) -> Stated[ChillNeed]:
    """A chill need in hours."""
    return stated(ChillNeed(Span(low, high), "hours_below_45f"))


def picked(first: int, last: int) -> Stated[HarvestTime]:
    """A harvest between two days of the year."""
    return stated(HarvestTime(first, last, "a garden", NOTED))


CROPS = (
    Crop(
        "apple", "apple", "manzana", stated("Malus domestica"), "pome",
        self_fertility=stated("self_sterile"), height_ft=stated(Span(20, 30)), hardiness_zone=stated(Span(4, 8)),
        spacing_ft={"standard": stated(Span(20, 20)), "dwarf": stated(Span(8, 8))}, chill_hours=hours(600, 1000),
        good_pairs=(stated(("apple.august", "apple.october")),), not_partner_crops=stated(("peach",)),
    ),
    Crop(
        "peach", "peach", "durazno", stated("Prunus persica"), "stone", self_fertility=stated("self_fertile"),
        height_ft=stated(Span(12, 15)), spacing_ft={"standard": stated(Span(15, 15))},
    ),
)  # fmt: skip
ROOTS = (
    Rootstock("small", "Small", ("apple",), size_percent=stated(Span(35, 40)), spacing_ft=stated(Span(8, 8)),
              incompatible_cultivars=stated(("apple.fussy",))),
    Rootstock("tall", "Tall", ("apple",), size_percent=stated(Span(100, 100))),
)  # fmt: skip
CULTIVARS = (
    Cultivar("apple.august", "apple", "August", chill_hours=hours(700, 800), harvest=picked(213, 243),
             bloom=stated("mid"), uses=stated(("fresh",))),
    Cultivar("apple.october", "apple", "October", harvest=picked(274, 290), bloom=stated("mid")),
    Cultivar("apple.fussy", "apple", "Fussy", hardiness_zone=stated(Span(7, 9), from_memory=True)),
    Cultivar("peach.mild", "peach", "Mild", chill_hours=hours(200, 250), harvest=picked(190, 200),
             chill_portions=stated(ChillNeed(Span(15, 20), "portions"))),
    Cultivar("peach.wintry", "peach", "Wintry", chill_hours=hours(900, 950), harvest=picked(220, 230)),
    Cultivar("peach.counted", "peach", "Counted",
             chill_hours=stated(ChillNeed(Span(800, 800), "utah_units")), ripening=stated("mid")),
)  # fmt: skip

_HEAD = """\
    why: It is made up.
    basis: common practice
    reviewed: {last: 2026-01-01, next: 2027-01-01}
    examples:
"""
_HEAD_WITH_LADDER = _HEAD.replace("    reviewed", "    cautions: [ladder]\n    reviewed")
RULES = {
    "suggestion/cultivar/made_up.yaml": f"""\
rules:
  - id: too-little-chill
    title: Too little chill
    when: {{chill.supply_over_low_need: {{below: 1}}}}
    then: {{conclude: {{chill_verdict: too_little}}, set_aside: "{{cultivar}} gets too little chill."}}
{_HEAD}\
      - {{name: half of it, given: {{chill.supply_over_low_need: 0.5}}, expect: fires}}
      - {{name: just enough, given: {{chill.supply_over_low_need: 1}}, expect: silent}}
  - id: enough-chill
    title: Enough chill
    when: {{chill.supply_over_low_need: {{at_least: 1}}}}
    then: {{prefer: 20, say: "{{cultivar}} gets enough chill: {{chill.supply_over_low_need}}."}}
{_HEAD}\
      - {{name: just enough, given: {{chill.supply_over_low_need: 1}}, expect: fires}}
      - {{name: too little, given: {{chill.supply_over_low_need: 0.9}}, expect: silent}}
  - id: needs-a-partner
    title: Needs a partner
    when: {{pollination.self_fertility: {{is: self_sterile}}}}
    then: {{conclude: {{partners_needed: 1}}, advise: "Plant another {{crop}} near {{cultivar}}."}}
{_HEAD}\
      - {{name: self-sterile, given: {{pollination.self_fertility: self_sterile}}, expect: fires}}
      - {{name: self-fertile, given: {{pollination.self_fertility: self_fertile}}, expect: silent}}
  - id: stands-alone
    title: Stands alone
    when: {{pollination.self_fertility: {{is: self_fertile}}}}
    then: {{conclude: {{partners_needed: 0}}, say: "{{cultivar}} fruits alone."}}
{_HEAD}\
      - {{name: self-fertile, given: {{pollination.self_fertility: self_fertile}}, expect: fires}}
      - {{name: self-sterile, given: {{pollination.self_fertility: self_sterile}}, expect: silent}}
  - id: in-a-wished-month
    title: In a wished month
    when: {{harvest.in_wished_months: {{is: true}}}}
    then: {{prefer: 5, say: "{{cultivar}} ripens when you wish."}}
{_HEAD_WITH_LADDER}\
      - {{name: in it, given: {{harvest.in_wished_months: true}}, expect: fires}}
      - {{name: not in it, given: {{harvest.in_wished_months: false}}, expect: silent}}
""",
    "suggestion/rootstock/made_up.yaml": f"""\
rules:
  - id: too-tall
    title: Too tall
    when: {{tree.height_over_wanted: {{above: 1}}}}
    then: {{mark_down: 20, say: "It grows too tall."}}
{_HEAD}\
      - {{name: twice as tall, given: {{tree.height_over_wanted: 2}}, expect: fires}}
      - {{name: just so tall, given: {{tree.height_over_wanted: 1}}, expect: silent}}
""",
    "suggestion/site/made_up.yaml": f"""\
rules:
  - id: call-before-you-dig
    title: Call before you dig
    when: {{answer.candidates: {{at_least: 0}}}}
    then: {{caution: "Have buried lines marked before you dig."}}
{_HEAD}\
      - {{name: always, given: {{answer.candidates: 0}}, expect: fires}}
      - {{name: never, given: {{answer.candidates: unknown}}, expect: silent}}
""",
    "cautions.yaml": """\
cautions:
  ladder: {text: Mind the ladder., text_es: Cuidado con la escalera., when_shown: always, basis: common practice}
""",
    "text/es.yaml": """\
text:
  enough-chill: {say: "{cultivar} recibe suficiente frío: {chill.supply_over_low_need}.", why: Es inventado.}
""",
}
_LIMITS = {
    "planting_set.crop": ("points", 6), "planting_set.month": ("points", 8),
    "planting_set.per_crop_month": ("count", 3), "planting_set.shortlist": ("count", 40),
    "planting_set.trees": ("count", 3),
    "planting_set.unproven_partner": ("points", 10), "planting_set.worth_fit": ("points", 50),
    "pollination.bloom_gap_classes": ("count", 1), "spacing.dwarf_below_percent": ("percent", 60),
    "spacing.edge_share": ("share", 0.5), "spacing.semi_dwarf_below_percent": ("percent", 90),
    "suggestion.answer.length": ("count", 12), "suggestion.answer.partners": ("count", 5),
    "suggestion.answer.rootstocks": ("count", 3), "suggestion.answer.per_crop": ("count", 3),
    "suggestion.answer.set_aside": ("count", 20), "suggestion.fit.start": ("points", 60),
}  # fmt: skip


def catalogue() -> Catalogue:
    """Everything that the nursery knows."""
    return Catalogue(
        crops={crop.id: crop for crop in CROPS},
        cultivars={cultivar.id: cultivar for cultivar in CULTIVARS},
        rootstocks={root.id: root for root in ROOTS},
        sources={"a-book": Source("a-book", "A book", "A press", year=2001)},
        diseases=frozenset(),
        pollen=PollenKnowledge(s_crops=stated(("apple",))),
    )


def nursery(folder: Path) -> Rulebook:
    """The rulebook of the nursery, written into an empty folder."""
    (folder / "vocabulary.yaml").write_text(VOCABULARY.read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "limits.yaml").write_text(written_limits(), encoding="utf-8")
    for name, text in RULES.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return assemble(folder, catalogue())


def written_limits(**more: tuple[str, float]) -> str:
    """The limits of the nursery, and more by name with their unit, as they stand in limits.yaml."""
    entries = [
        f"  {name}: {{meaning: made up, unit: {unit}, value: {value}, range: [0, 1000], basis: common practice,"
        " confirmed: 2026-01-01}\n"
        for name, (unit, value) in {**_LIMITS, **more}.items()
    ]
    return "limits:\n" + "".join(entries)


def answer(rulebook: Rulebook, question: SuggestionQuestion) -> SuggestionAnswer:
    """The answer by the plain matcher alone."""
    matcher = PlainMatcher(rulebook)
    return suggest(question, rulebook=rulebook, judges=Judges(sweeping=matcher, asking=matcher))
