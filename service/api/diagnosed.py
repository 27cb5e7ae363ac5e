"""The answer to a diagnosis, as the document describes it."""

from __future__ import annotations

from service.api.advice import ReasonTold
from service.api.fields import Told, choice, flag, list_of, nested, number, text
from service.domain.disorder import DISORDER_KINDS, MEASURE_KINDS, REGULATED_STATUSES, URGENCIES
from service.domain.sign import PARTS, TOOLS

CERTAINTIES = ("not_enough", "possible", "likely", "very_likely")
REFERRALS = ("agriculture_office", "plant_clinic", "arborist", "extension_office")
PACES = ("same_day", "this_week", "this_season", "no_hurry")
MOVES = ("never", "bagged", "freely")


class NamedDisorderTold(Told):
    """A disorder by name."""

    disorder = text("Id of the disorder; see /v1/disorders.", example="leaf_curl_plum_aphid", required=True)
    name = text("Its name.", example="Leaf curl plum aphid", required=True)
    kind = choice("Kind of cause.", values=DISORDER_KINDS, example="insect", required=True)


class SignSeenTold(Told):
    """A sign that bears on a cause."""

    sign = text("Id of the sign.", example="lf_curl_tight", required=True)
    name = text("What it is.", example="leaves rolled or tightly curled", longest=500, required=True)
    how = choice("Whether it was seen, or looked for and not found.", values=("seen", "not_found"), required=True)


class MeasureToTakeTold(Told):
    """Something that can be done without a product."""

    measure = text("Id of the measure.", example="wash-off", required=True)
    kind = choice("Kind of measure.", values=MEASURE_KINDS, example="mechanical", required=True)
    text_ = text("What to do.", example="Wash the insects off with a hard jet of water.", longest=1000, required=True)


class SuspectTold(NamedDisorderTold):
    """A cause that may be it."""

    likelihood = number("How likely it is by what was told.", unit="share", example=0.82, required=True)
    certainty = choice("The same in words.", values=CERTAINTIES, example="likely", required=True, nullable=True)
    for_ = nested(SignSeenTold, "What speaks for it.", many=True, required=True)
    against = nested(SignSeenTold, "What speaks against it.", many=True, required=True)
    host = choice("How often the crop has it.", values=("common", "occasional", "rare", "uncertain"), required=True)
    season = choice("How the stage of growth fits.", values=("in_season", "near", "out"), required=True, nullable=True)
    urgency = choice("How urgent it is once it is confirmed.", values=URGENCIES, required=True)
    act_by = choice("How soon to act once it is confirmed.", values=PACES, required=True, nullable=True)
    regulated = choice("Whether an authority regulates it.", values=REGULATED_STATUSES, required=True)
    measures = nested(MeasureToTakeTold, "What can be done without a product; empty where it is too early to treat.",
                      many=True, required=True)  # fmt: skip
    from_memory = flag("True where nobody saw the facts in a publication.", example=False, required=True)
    sources = list_of(text("Id of a source.", example="NMSU_H151"), "Who says so; see /v1/sources.",
                      example=["NMSU_H151"], required=True)  # fmt: skip
    reasons = nested(ReasonTold, "What the rules say of it.", many=True, required=True)


class RuledOutTold(NamedDisorderTold):
    """A cause that something pointed to and that cannot be it."""

    often_confused = flag("True where people often suspect it on this crop.", required=True)
    not_a_host = flag("True where it does not live on this crop.", required=True)
    why = text("Why it is ruled out.", example="Plum is no host of the peach leaf curl fungus.", longest=6000,
               required=True)  # fmt: skip
    look_instead = nested(NamedDisorderTold, "What to think of instead.", many=True, required=True)
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class SignAskedTold(Told):
    """A sign to look for."""

    sign = text("Id of the sign.", example="lf_thick_pucker", required=True)
    question = text("The question to the customer.", example="Pinch a leaf: is it thick?", longest=500, required=True)
    part = choice("Part of the tree.", values=PARTS, required=True)
    needs = choice("The tool without which it cannot be told.", values=TOOLS, required=True, nullable=True)
    drawing = text("Where its drawing is found.", example="/v1/signs/lf_thick_pucker/drawing", required=True)


class LeaningTold(Told):
    """The likeliest cause after an answer."""

    disorder = text("Id of the disorder; null where it is something that is not on the list.", example="plum_pockets",
                    required=True, nullable=True)  # fmt: skip
    name = text("Its name.", example="Plum pockets", required=True, nullable=True)
    likelihood = number("How likely it would be then.", unit="share", example=0.9, required=True)
    text_ = text("The same in a sentence.", example="Then the likeliest is plum pockets: about 90 in 100.",
                 longest=500, required=True)  # fmt: skip


class NextQuestionTold(SignAskedTold):
    """A sign worth asking for next, and what each answer would mean."""

    gain = number("What the answer is expected to tell; 1 bit halves the causes.", unit="bits", example=0.42,
                  required=True)  # fmt: skip
    expected_yes = number("How likely the answer is yes.", unit="share", example=0.4, required=True)
    if_yes = nested(LeaningTold, "Where yes would lead.", required=True)
    if_no = nested(LeaningTold, "Where no would lead.", required=True)


class TellApartTold(Told):
    """The two likeliest causes and what tells them apart."""

    first = nested(NamedDisorderTold, "The likeliest.", required=True)
    second = nested(NamedDisorderTold, "The second.", required=True)
    check = text("What to check, where that is published of the two.", example="Pinch a curled leaf.", longest=1000,
                 required=True, nullable=True)  # fmt: skip
    first_shows = text("What the first shows.", example="A thick leaf.", longest=1000, required=True, nullable=True)
    second_shows = text("What the second shows.", example="A thin leaf with insects.", longest=1000, required=True,
                        nullable=True)  # fmt: skip
    signs = nested(SignAskedTold, "Signs that speak for one of them alone.", many=True, required=True)


class SampleToTakeTold(Told):
    """What to bring and how."""

    sample = text("Id of the protocol.", example="leaf", required=True)
    bring = text("What to bring for the likeliest cause.", example="10 curled leaves on a twig", longest=1000,
                 required=True, nullable=True)  # fmt: skip
    how = text("How to take and pack it.", example="Between dry paper, never wet.", longest=2000, required=True)
    too_late = text("When it is too late.", example="Dry dead leaves tell nothing.", longest=2000, required=True)
    sources = list_of(text("Id of a source.", example="MU_F260"), "Who says so.", example=["MU_F260"], required=True)


class ReferTold(Told):
    """Who should see it."""

    to = choice("Who should see it.", values=REFERRALS, required=True, nullable=True)
    move_material = choice("Whether parts of the plant may leave the garden.", values=MOVES, required=True,
                           nullable=True)  # fmt: skip


class ComplaintCauseTold(Told):
    """One cause that a complaint may have."""

    disorder = text("Id of the disorder, where it stands among them.", example="spring_frost", required=True,
                    nullable=True)  # fmt: skip
    name = text("The cause.", example="flowers or young fruit frozen", longest=500, required=True)


class ComplaintAgreedTold(Told):
    """The complaint that was agreed to."""

    complaint = text("Id of the complaint.", example="bloom_no_fruit", required=True)
    name = text("The complaint.", example="It blooms and bears nothing.", longest=500, required=True)
    causes = nested(ComplaintCauseTold, "What may be behind it.", many=True, required=True)
    confirm = nested(SignAskedTold, "Signs that it states; ask, and send them as signs.", many=True, required=True)


class ComplaintReadTold(Told):
    """A complaint that the words may mean."""

    complaint = text("Id of the complaint.", example="curled_plum", required=True)
    name = text("The complaint.", example="Curled leaves on a plum.", longest=500, required=True)
    like = text("The phrase that the words are like.", example="leaves are all curled", longest=500, required=True)
    score = number("How alike they are; 100 is the same.", unit="points", example=88, required=True)


class SignReadTold(SignAskedTold):
    """A sign that the words may mean."""

    like = text("The phrase that the words are like.", example="sticky leaves", longest=500, required=True)
    score = number("How alike they are; 100 is the same.", unit="points", example=88, required=True)


class ReadingTold(Told):
    """What the words may mean. Nothing of it counts before the customer agrees and it is sent back."""

    words = text("The words.", example="leaves are curled up and sticky", longest=500, required=True)
    complaints = nested(ComplaintReadTold, "Complaints that they may mean, the likest first.", many=True, required=True)
    signs = nested(SignReadTold, "Signs that they may mean, the likest first.", many=True, required=True)


class DiagnosisTold(Told):
    """The diagnosis."""

    crop = text("Id of the crop.", example="japanese_plum", required=True)
    crop_name = text("Its name.", example="Japanese plum", required=True)
    cultivar = text("Id of the cultivar.", example="japanese_plum.methley", required=True, nullable=True)
    name = text("Its name.", example="Methley", required=True, nullable=True)
    certainty = choice("How sure the answer is.", values=CERTAINTIES, example="likely", required=True, nullable=True)
    treat = choice("Whether treatment may be talked about now.", values=("no", "after_sample", "yes"), required=True,
                   nullable=True)  # fmt: skip
    text_ = text("The answer in sentences.", example="Likely: leaf-curl plum aphid.", longest=10000, required=True)
    reasons = nested(ReasonTold, "What the rules say of the whole.", many=True, required=True)
    suspects = nested(SuspectTold, "The likeliest causes, the likeliest first.", many=True, required=True)
    something_else = number("How likely it is something that is not on the list.", unit="share", example=0.03,
                            required=True)  # fmt: skip
    ruled_out = nested(RuledOutTold, "Causes ruled out; first those that somebody named, then those that people often"
                       " take for one of this crop.", many=True, required=True)  # fmt: skip
    ask_next = nested(NextQuestionTold, "What to look at next, the most telling first.", many=True, required=True)
    tell_apart = nested(TellApartTold, "What tells the two likeliest apart.", required=True, nullable=True)
    sample = nested(SampleToTakeTold, "What to bring.", required=True, nullable=True)
    refer = nested(ReferTold, "Who should see it.", required=True)
    complaint = nested(ComplaintAgreedTold, "The complaint, where one was agreed to.", required=True, nullable=True)
    reading = nested(ReadingTold, "What the customer's words may mean.", required=True, nullable=True)
