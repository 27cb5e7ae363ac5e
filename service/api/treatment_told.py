"""The answer to a treatment question, as the document describes it."""

from __future__ import annotations

from service.api.advice import ReasonTold
from service.api.fields import Told, choice, flag, list_of, nested, number, text, whole
from service.domain.disorder import DISORDER_KINDS, MEASURE_KINDS
from service.domain.label import LABEL_STAGES
from service.present.treatment import NEXT_STEPS
from service.reasoning.rule import OUTCOMES

NEEDS = ("emergency", "refer", "report", "cause_not_sure", "not_a_pest", "no_product_works", "too_late", "watch",
         "product_may_help")  # fmt: skip
VERDICTS = ("allowed", "caution", "forbidden")
RATINGS = ("excellent", "good", "fair", "poor", "none", "not_rated", "no_data")
_STAGE = text("A stage.", example="petal_fall")



class MeasureForCauseTold(Told):
    """Something to do without a product."""

    measure = text("Id of the measure.", example="rake_leaves", required=True)
    kind = choice("Kind.", values=MEASURE_KINDS, required=True)
    text_ = text("What to do.", example="Rake up fallen leaves.", longest=1000, required=True)
    how = text("How it is done against this cause.", example="In autumn; compost them hot.", longest=2000,
               nullable=True, required=True)  # fmt: skip
    when = list_of(_STAGE, "Stages in which it is done; empty at any time.", example=["leaf_fall"], required=True)
    timing = text("When, in words.", example="leaf fall", longest=500, required=True)
    now = flag("True where the time is now, null where the stage is not known.", nullable=True, required=True)


class TimingTold(Told):
    """When a product can help at all."""

    stages = list_of(_STAGE, "Stages in which treatment is published to work.", example=["pink"], required=True)
    fits = flag("Whether the stage is one of them; null where it is not known.", nullable=True, required=True)
    text_ = text("What is published of the time.", example="every week to ten days in wet springs", longest=2000,
                 nullable=True, required=True)  # fmt: skip


class ProductReasonTold(Told):
    """One reason, with the rule and who stands behind it."""

    rule = text("Id of the rule; see /v1/rules.", example="forbid-a-crop-that-is-not-printed", required=True)
    outcome = choice("What it does.", values=OUTCOMES, example="forbid", required=True)
    text_ = text("The sentence for the customer.", example="The label does not print apple.", longest=3000,
                 required=True)  # fmt: skip
    authority = list_of(text("A regulation or a publication.", example="FIFRA section 12: (a)(2)(G)", longest=2000),
                        "Who stands behind it.", example=["FIFRA section 12: (a)(2)(G)"], required=True)  # fmt: skip


class WaitsTold(Told):
    """A prohibition that hangs on facts nobody told."""

    rule = text("Id of the rule.", example="forbid-wind-over-the-printed-limit", required=True)
    about = text("What the rule is about.", example="Wind over the printed limit", longest=300, required=True)
    facts = list_of(text("Name of a fact.", example="weather.wind_mph"), "What is not known.",
                    example=["weather.wind_mph"], required=True)  # fmt: skip
    needs = list_of(text("What would make it known.", example="the wind", longest=1000), "What to find out.",
                    example=["the wind when it is sprayed"], required=True)  # fmt: skip


class OnLabelTold(Told):
    """Where the amount stands: on the label, never in an answer."""

    text_ = text("What is said in place of an amount.", example="As the label says.", longest=200, required=True)
    where = text("Where on the label it stands.", example="on the container, at “apple”", longest=1000, required=True)
    harvest_words = text("What the label says of harvest.", example="do not apply within 14 days of harvest",
                         longest=2000, nullable=True, required=True)  # fmt: skip
    stages_allowed = list_of(_STAGE, "The only stages at which the directions allow it; null where they name none.",
                             example=["dormant"], nullable=True, required=True)  # fmt: skip
    stages_prohibited = list_of(_STAGE, "Stages at which the directions forbid it.", example=["bloom"], required=True)


class UsesTold(Told):
    """How often this year; null where the label prints no number."""

    this_year = whole("Uses so far.", unit="count", example=1, nullable=True, required=True)
    allowed = whole("Uses that the label allows.", unit="count", example=4, nullable=True, required=True)
    left = whole("Uses that are left.", unit="count", example=3, nullable=True, required=True)


class RotationTold(Told):
    """Groups of mode of action against the log."""

    groups = list_of(text("A group.", example="IRAC 5"), "Its groups with one site.", example=["IRAC 5"], required=True)
    in_a_row = whole("Which spray in a row from one group it would be; 0 without a group.", unit="count", example=1,
                     required=True)  # fmt: skip
    text_ = text("The same in words.", example="It would be spray number 1 in a row.", longest=500, required=True)


class ProductPointerTold(Told):
    """One product, and what its label says to the use."""

    product = text("Its id on the shelf or in the request; `own_stock` for stock named by its active.", example="DP12",
                   required=True)  # fmt: skip
    version = whole("Version of the label record.", unit="count", example=1, nullable=True, required=True)
    name = text("Its name.", example="Northfold Garden Spinosad", required=True)
    demo = flag("True where the product is invented.", required=True)
    epa_reg_no = text("Registration number.", example="9999112-12", nullable=True, required=True)
    label_version_date = text("Date of the label version.", example="2025-01-15", nullable=True, required=True)
    actives = list_of(text("An ISO common name.", example="spinosad"), "Active ingredients.", example=["spinosad"],
                      required=True)  # fmt: skip
    verdict = choice("What the label, the law and the day say to it.", values=VERDICTS, required=True)
    next_steps = list_of(choice("A step.", values=NEXT_STEPS), "What to do in the place of using it.",
                         example=["dispose_of_it"], required=True)  # fmt: skip
    why = nested(ProductReasonTold, "Every reason, prohibitions first.", many=True, required=True)
    waits_for = nested(WaitsTold, "Prohibitions that keep it from being allowed until somebody tells.", many=True,
                       required=True)  # fmt: skip
    only_if = nested(WaitsTold, "Prohibitions that the person who sprays must rule out on the spot.", many=True,
                     required=True)  # fmt: skip
    earliest_harvest = text("First day of picking after a use on this day.", example="2025-06-15", nullable=True,
                            required=True)  # fmt: skip
    last_use_before_harvest = text("Last day of use before the harvest that was told.", example="2025-09-01",
                                   nullable=True, required=True)  # fmt: skip
    harvest_text = text("The same in words.", example="Used on 2025-06-01, fruit may be picked from 2025-06-15.",
                        longest=500, required=True)  # fmt: skip
    reentry = text("When people and pets may return.", example="Keep out until sprays have dried.", longest=5000,
                   required=True)  # fmt: skip
    ppe = list_of(text("A thing to wear.", example="long sleeves"), "What the label says to wear.",
                  example=["long sleeves"], required=True)  # fmt: skip
    label = nested(OnLabelTold, "Where the amount stands.", required=True)
    uses = nested(UsesTold, "Uses this year.", required=True)
    opens_again = text("Day on which gaps and counts are kept again; null where they are kept now.",
                       example="2025-05-04", nullable=True, required=True)  # fmt: skip
    opens_again_text = text("The same in words.", example="The label opens again on 2025-05-04.", longest=300,
                            nullable=True, required=True)  # fmt: skip
    rotation = nested(RotationTold, "Rotation.", required=True)
    rating = choice("Best published rating of its actives against the cause.", values=RATINGS, required=True)
    rating_low = choice("Lowest published rating of that active; another than the best where tables differ.",
                        values=RATINGS, required=True)  # fmt: skip


class SprayCheckTold(Told):
    """Something to look at on the day and on the spot."""

    fact = text("Name of the fact.", example="weather.wind_mph", required=True)
    check = text("What to look at.", example="the wind when it is sprayed", longest=1000, required=True)


class TreatmentTold(Told):
    """Whether anything is needed, what to do without a product, and what each product's label says."""

    crop = text("Id of the crop.", example="apple", required=True)
    crop_name = text("Its name.", example="apple", required=True)
    disorder = text("Id of the cause.", example="apple_scab", required=True)
    name = text("Its name.", example="Apple scab", required=True)
    kind = choice("Kind of cause.", values=(*DISORDER_KINDS, "regulated"), example="fungus", required=True)
    likelihood = number("Likelihood by the diagnosis; null where the cause was named.", unit="share", example=0.82,
                        nullable=True, required=True)  # fmt: skip
    date = text("Day of use.", example="2025-05-12", required=True)
    stage = choice("Stage.", values=LABEL_STAGES, nullable=True, required=True)
    state = text("State.", example="PA", nullable=True, required=True)
    need = choice("What it comes to.", values=NEEDS, required=True)
    text_ = text("What it comes to, in words.", example="A product may help, after the measures below.", longest=6000,
                 required=True)  # fmt: skip
    reasons = nested(ReasonTold, "Why.", many=True, required=True)
    measures = nested(MeasureForCauseTold, "What to do without a product, what can be done now first.", many=True,
                      required=True)  # fmt: skip
    do_not = list_of(text("A thing to leave.", example="no copper after half-inch green", longest=2000),
                     "What to leave.", example=["no copper after half-inch green"], required=True)  # fmt: skip
    timing = nested(TimingTold, "When a product can help.", required=True)
    products = nested(ProductPointerTold, "Products, the mildest verdict first.", many=True, required=True)
    before_spraying = nested(SprayCheckTold, "What to look at before any product is used.", many=True, required=True)
    reminders = nested(ReasonTold, "What must stand on the answer.", many=True, required=True)
