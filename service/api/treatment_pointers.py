"""What to put on it: measures first, then products of the shelf with a verdict inside their labels."""

from __future__ import annotations

from typing import Any, cast

from service.api.advice import envelope
from service.api.house import Resource, parts
from service.api.keeping import keeps
from service.api.treatment_asked import TreatmentAsked
from service.api.treatment_read import read_treatment
from service.api.treatment_told import TreatmentTold
from service.domain.units import Language
from service.present.treatment import treatment_advice
from service.questions.suggestion import Judges
from service.questions.treatment import point

blueprint = Resource("treatment-pointers", "What can be done about a cause, and which products their labels allow.")


@blueprint.route("/treatment-pointers", methods=["POST"])
@blueprint.asks(TreatmentAsked)
@blueprint.answers(envelope("Treatment", TreatmentTold))
@blueprint.shows("need-to-wait-for-leaf-fall-with-leaf-curl", {"cause": "disorder", "use.stage": "stage"},
                 crop="peach", date="2025-04-20", products=[])  # fmt: skip
@keeps("treatment-pointers")
def point_to_treatment(asked: dict[str, Any]) -> dict[str, Any]:
    """Say what can be done about a cause.

    First whether anything is needed, then what helps without a product and when, then each product with `allowed`,
    `caution` or `forbidden`, every reason tied to its rule and to who stands behind it. How much is used is never
    told: it stands on the label. A prohibition that hangs on a fact nobody told never leaves a product allowed: it
    stands under `waits_for`, and what only the person who sprays can see, under `only_if`. The container label
    overrides all of this.
    """
    house = parts()
    judges = Judges(sweeping=house.sweeping, asking=house.asking)
    answer = point(read_treatment(asked), rulebook=house.rulebook, judges=judges)
    return treatment_advice(answer, rulebook=house.rulebook, language=cast(Language, asked.get("language") or "en"))
