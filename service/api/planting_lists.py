"""Will this list work at my place? A planting list from rows, a pasted text or a file to verdicts."""

from __future__ import annotations

from typing import Any, cast

from service.api.advice import envelope
from service.api.house import Resource, parts
from service.api.keeping import keeps
from service.api.planting_list_asked import FORM, FORM_BODY, PlantingListAsked, question_in_form, question_in_json
from service.api.planting_list_told import PlantingListTold
from service.domain.units import Language
from service.present.planting_list import planting_list_advice
from service.questions.planting_list import check_list
from service.questions.suggestion import Judges

blueprint = Resource("planting-lists", "Will this list work here: a verdict for each line and for the whole.")


@blueprint.route("/planting-lists", methods=["POST"])
@blueprint.asks(PlantingListAsked, also=(FORM,))
@blueprint.answers(envelope("PlantingList", PlantingListTold))
@blueprint.shows("line-cultivar-fails-on-its-root", {"line.cultivar": "rows.variety", "rootstock": "rows.rootstock"},
                 documented=("site.hardiness_zone", "site.chill_hours"))  # fmt: skip
@blueprint.doc(requestBody={"content": {FORM: FORM_BODY}})  # type: ignore[untyped-decorator]
@keeps("planting-lists")
def check_planting_list(asked: dict[str, Any] | None) -> dict[str, Any]:
    """Check a planting list.

    Takes up to 500 lines as rows or as a pasted text in JSON, or as a file in a form (`multipart/form-data`): csv,
    xlsx, ods, a mail or a text, told by its content. The answer says beside what was written what it was read as, gives
    each line a verdict, and looks at the list as a whole: pollination with the smallest addition that mends it, room
    with a sketch, the harvest through the season, disease, law, the order of planting, and the cheapest repair.
    """
    question, terms = question_in_form() if asked is None else (question_in_json(asked), asked)
    house = parts()
    checked = check_list(question, rulebook=house.rulebook, judges=Judges(sweeping=house.sweeping, asking=house.asking))
    language = cast(Language, terms.get("language") or "en")
    return planting_list_advice(checked, rulebook=house.rulebook, language=language)
