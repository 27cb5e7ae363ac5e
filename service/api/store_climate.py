"""The climate that a store reckons with where a customer knows nothing of theirs."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from service.api.fields import Told, choice, flag, month_day, nested, number, text
from service.api.house import Resource, parts
from service.intake.store_climate import FACTS

blueprint = Resource("store-climate", "The climate of the store, for customers who know nothing of their own.")


class StoreWinterTold(Told):
    """The chill of one winter."""

    winter = text("The winter.", example="2023-24", required=True)
    chill_hours = number("Hours at or below 45 °F.", unit="hours", example=870, required=True, nullable=True)
    chill_portions = number("Chill portions.", unit="portions", example=61, required=True, nullable=True)


class StoreClimateTold(Told):
    """The climate of the store; what it does not say is null."""

    name = text("What it is called; null where the store names none.", example="our own ground", required=True,
                nullable=True)  # fmt: skip
    invented = flag("True where it is made up for trying the service out.", example=False, required=True)
    hardiness_zone = text("Hardiness zone.", example="8b", required=True, nullable=True)
    chill_hours = number("Winter chill at or below 45 °F that one may count on.", unit="hours", example=760,
                         required=True, nullable=True)  # fmt: skip
    chill_portions = number("Winter chill in chill portions that one may count on.", unit="portions", example=55,
                            required=True, nullable=True)  # fmt: skip
    latitude = number("Latitude; below zero is south of the equator.", unit="degrees", example=36.1, required=True,
                      nullable=True)  # fmt: skip
    last_spring_frost = month_day("Usual date of the last spring frost.", required=True, nullable=True, example="04-10")
    first_autumn_frost = month_day("Usual date of the first autumn frost.", required=True, nullable=True,
                                   example="10-28")  # fmt: skip
    summer = choice("Character of the growing season.", values=("dry", "humid"), required=True, nullable=True)
    rain = choice("When most rain falls.", values=("winter", "summer", "all_year"), required=True, nullable=True)
    rains_begin = month_day("Usual first day of the rainy season.", required=True, nullable=True, example="10-20")
    winters = nested(StoreWinterTold, "The winters behind the chill.", many=True, required=True)


@blueprint.route("/store-climate")
@blueprint.answers(StoreClimateTold)
def get_store_climate() -> dict[str, Any]:
    """Show the climate of the store.

    Its fields are named as those of a site, so that a client can copy them into a question. A store that has none
    answers with nulls.
    """
    climate = parts().store_climate
    if climate is None:
        return {"name": None, "invented": False, **dict.fromkeys(FACTS), "winters": []}
    told = {"name": climate.name, "invented": climate.invented, "winters": [asdict(one) for one in climate.winters]}
    return {**told, **{name: climate.facts.get(name) for name in FACTS}}
