"""A use as facts, whatever the product: the crop, the cause, the customer, the state, the place and the day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict

from service.domain.crop import Crop
from service.domain.disorder import Disorder
from service.domain.label_use import Use
from service.domain.treatment import Treatment
from service.domain.use_law import StateTopic, UseLaw
from service.knowledge.catalogue import Catalogue
from service.questions.treatment.question import Facts
from service.reasoning.vocabulary import Value

_KINDS_OF_STRANGERS = {"citrus": "citrus"}  # crops that stand on labels and are none of ours
_MUST_BE_REPORTED = ("eradicated_report", "report_if_suspected")
_AFTER_HARVEST = ("post_harvest", "leaf_fall", "dormant")
_POINTERS = {"products": "product", "none": "none", "report": "report"}
Open = Mapping[str, Value | None]


def known(facts: Open) -> Facts:
    """The facts that are known."""
    return {name: value for name, value in facts.items() if value is not None}


def case_facts(use: Use, catalogue: Catalogue) -> Facts:
    """All that is told of a use, and what follows from it by reckoning."""
    disorder, treatment = catalogue.disorders.get(use.cause.id), catalogue.label.treatments.get(use.cause.id)
    return known(
        {
            **_use_facts(use, catalogue.crops.get(use.crop)),
            **_cause_facts(use, disorder, treatment),
            **_customer_facts(use),
            **_state_facts(use, treatment, catalogue.use_law),
            **_place_facts(use),
        }
    )


def harvest_days(use: Use) -> int | None:
    """Days to the first picking; None where nobody told, or where the harvest told of is the one that is over."""
    if use.harvest_from is None:
        return None
    days = (use.harvest_from - use.on).days
    return None if days < 0 and use.stage in _AFTER_HARVEST else days


def _use_facts(use: Use, crop: Crop | None) -> Open:
    bloom, harvest = use.full_bloom, harvest_days(use)
    return {
        "use.crop": use.crop,
        "use.crop_kind": crop.kind if crop else _KINDS_OF_STRANGERS.get(use.crop, "other"),
        "use.cultivar": use.cultivar,
        "use.stage": use.stage,
        "use.month": use.on.month,
        "use.method": use.method,
        "use.days_since_full_bloom": None if bloom is None else (use.on - bloom).days,
        "use.new_generation": use.cause.new_generation,
        "harvest.days": harvest,
        "harvest.known": harvest is not None,
    }


def _cause_facts(use: Use, disorder: Disorder | None, treatment: Treatment | None) -> Open:
    cause = use.cause
    return {
        "cause": cause.id,
        "cause.kind": treatment.kind if treatment else disorder.kind if disorder else "regulated",
        "cause.told": "diagnosed" if cause.diagnosed else "named",
        "cause.confidence": cause.confidence,
        "cause.look_alike_open": cause.look_alike_open,
        "cause.pointer": _POINTERS[treatment.pointer] if treatment else "unlisted",
        "cause.report": _reported(disorder, treatment),
        "cause.regulated": disorder.regulated if disorder else "none",
        "cause.stage_fits": _stage_fits(use, treatment),
        "cause.new_to_place": cause.new_to_place,
        "cause.symptoms": cause.symptoms,
        "cause.inside_fruit": cause.inside_fruit,
        "cause.cut_out": cause.cut_out,
    }


def _reported(disorder: Disorder | None, treatment: Treatment | None) -> bool:
    if treatment is not None:
        return treatment.pointer == "report"
    return disorder is not None and disorder.regulated in _MUST_BE_REPORTED


def _stage_fits(use: Use, treatment: Treatment | None) -> bool | None:
    if treatment is None or treatment.any_stage or not treatment.stages:
        return True
    return None if use.stage is None else use.stage in treatment.stages


def _customer_facts(use: Use) -> Open:
    customer = use.customer
    return {
        **{f"customer.{name}": value for name, value in asdict(customer).items()},
        "adviser.licensed": use.adviser_licensed,
        "request.exposure": use.exposure,
        "request.asks": use.also_asked,
        "state.pest_recommendation": use.pest_recommendation,
    }


def _state_facts(use: Use, treatment: Treatment | None, law: UseLaw) -> Open:
    """What the law of the state adds; nothing is known where the state is not."""
    if use.state is None:
        return {"cause.regulated_in_state": None if treatment is None or treatment.regulated_in else False}
    cause = use.cause.id
    return {
        "state": use.state,
        "cause.regulated_in_state": treatment is not None and use.state in treatment.regulated_in,
        "state.needs_pest_on_label": _asks(use, law, "pest_on_label"),
        "state.adviser_licence": _asks(use, law, "adviser_licence"),
        "state.farm_adviser_licence": _asks(use, law, "farm_adviser_licence"),
        "state.exempt_needs_none": False if _asks(use, law, "exempt_registration") else None,
        "state.quarantine": any(cause in one.pests for one in law.of_state("quarantine", use.state, use.on)),
        "state.control_duty": any(cause in one.pests for one in law.of_state("control_duty", use.state, use.on)),
    }


def _asks(use: Use, law: UseLaw, topic: StateTopic) -> bool:
    return bool(law.of_state(topic, use.state or "", use.on))


def _place_facts(use: Use) -> Open:
    place, tree, weather = use.place, use.tree, use.weather
    plants = place.understory_crops
    told = ("water_ft", "drain", "ground_bloom", "hive_ft", "play_area", "pets", "quarantine_area")
    return {
        **{f"site.{name}": getattr(place, name) for name in told},
        "site.understory": None if plants is None else bool(plants),
        "site.understory_coverable": bool(place.understory_coverable) if plants else place.understory_coverable,
        **{f"tree.{name}": value for name, value in asdict(tree).items()},
        **{f"weather.{name}": value for name, value in asdict(weather).items()},
    }
