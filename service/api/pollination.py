"""Can the pollen of this tree set fruit on that one?"""

from __future__ import annotations

from typing import Any, cast, get_args

from service.api.advice import ReasonTold, envelope
from service.api.fields import AskedInQuery, Told, choice, flag, list_of, name_text, nested, number, text
from service.api.house import Resource, parts
from service.domain.cultivar import SEASONS
from service.domain.pollen import Compatibility
from service.domain.units import Language
from service.present.pollination import pair_advice
from service.questions.pair_naming import PairNamed, find_pair
from service.questions.pollination import PairQuestion, judge_partners

blueprint = Resource("pollination", "Whether two trees can set fruit on each other.")
COMPATIBILITIES: tuple[Compatibility, ...] = get_args(Compatibility)


class PairAsked(AskedInQuery):
    """Two cultivars by name; give the crop where a name belongs to several crops."""

    cultivar = name_text("The tree that is to set fruit, by name or id.", example="Bing", required=True)
    partner = name_text("The tree that is to give the pollen, by name or id.", example="Lapins", required=True)
    crop = name_text("Crop of the tree, by name or id.", example="sweet cherry")
    partner_crop = name_text(
        "Crop of the partner; left out, the partner is looked for in the crop of the tree first.",
        example="sweet cherry",
    )  # fmt: skip
    distance_ft = number("How far apart the two stand.", unit="ft", example=40, low=0, high=50000)
    language = choice("Language of the sentences.", values=("en", "es"))


class OneOfPairTold(Told):
    """A cultivar of the pair."""

    cultivar = text("Id of the cultivar.", example="sweet_cherry.bing", required=True)
    name = text("Its denomination.", example="Bing", required=True)
    crop = text("Id of its crop.", example="sweet_cherry", required=True)


class FindingTold(Told):
    """What was found on the two trees, and who states what it rests on."""

    finding = text("Code of the finding.", example="one_allele_shared", required=True)
    tree_alleles = text("S-alleles of the tree, where known.", example="S3S4", nullable=True, required=True)
    partner_alleles = text("S-alleles of the partner, where known.", example="S1S4'", nullable=True, required=True)
    sources = list_of(text("Id of a source.", example="osu-cherry-chart"), "Who states what was compared.",
                      example=["osu-cherry-chart"], required=True)  # fmt: skip
    from_memory = flag("True when some of it was seen by nobody in the publication.", example=False, required=True)


class DirectionTold(Told):
    """Pollen of one tree on the flowers of the other."""

    compatibility = choice(
        "Whether the pollen is accepted.", values=COMPATIBILITIES, example="compatible", required=True
    )
    likely = flag("True where it is unknown, yet the usual advice names such a partner.", example=False, required=True)
    reasons = nested(ReasonTold, "What the rules say, what to do first.", many=True, required=True)
    findings = nested(FindingTold, "What it rests on, what decided first.", many=True, required=True)


class BloomTold(Told):
    """Whether the two are open at the same time; null where nobody knows."""

    together = flag("True where they overlap.", nullable=True, required=True)
    gap_classes = number("Bloom classes between them; adjoining classes are 1 apart.", unit="classes", example=1,
                         nullable=True, required=True)  # fmt: skip
    gap_days = number("Days between them, where both are dated from one cultivar.", unit="days", example=2,
                      nullable=True, required=True)  # fmt: skip
    tree = choice("Bloom class of the tree.", values=SEASONS, example="mid", nullable=True, required=True)
    partner = choice("Bloom class of the partner.", values=SEASONS, example="early", nullable=True, required=True)


class DistanceTold(Told):
    """Whether the two stand near enough for bees; null where nobody said or knows."""

    given_ft = number("Distance that was given.", unit="ft", example=40, nullable=True, required=True)
    reach_ft = number("Distance over which bees are counted on for the crop of the tree.", unit="ft", example=75,
                      nullable=True, required=True)  # fmt: skip
    within_reach = flag("True where they stand near enough.", nullable=True, required=True)


class PairTold(DirectionTold):
    """Whether the partner can set the tree, and the tree the partner in return."""

    tree = nested(OneOfPairTold, "The tree that is to set fruit.", required=True)
    partner = nested(OneOfPairTold, "The tree that is to give the pollen.", required=True)
    bloom = nested(BloomTold, "Whether they bloom together.", required=True)
    distance = nested(DistanceTold, "Whether they stand near enough.", required=True)
    in_return = nested(DirectionTold, "The other way round: pollen of the tree on the partner.", required=True)


@blueprint.route("/pollination")
@blueprint.asks_in_query(PairAsked)
@blueprint.answers(envelope("Pollination", PairTold))
@blueprint.shows("pair-shares-one-s-allele", {"pair.tree": "cultivar", "pair.partner": "partner"})
def judge_pollination(asked: dict[str, Any]) -> dict[str, Any]:
    """Judge whether one tree can pollinate another.

    S-alleles, incompatibility groups, named pairs, ploidy and the two crops decide whether the pollen is accepted;
    bloom and distance whether it arrives. What nobody has published is `unknown`, with what the usual advice would be.
    """
    house = parts()
    named = PairNamed(asked["cultivar"], asked["partner"], asked.get("crop"), asked.get("partner_crop"))
    tree, partner = find_pair(house.names, named)
    question = PairQuestion(tree, partner, asked.get("distance_ft"))
    answer = judge_partners(question, rulebook=house.rulebook, matcher=house.asking)
    return pair_advice(answer, rulebook=house.rulebook, language=cast(Language, asked.get("language") or "en"))
