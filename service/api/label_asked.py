"""A label record in JSON: what each field holds and where on the label it stands.

`LabelAsked` is what a client sends, on the shelf and in a question; `LabelTold` is what we keep of it. They differ in
one field: a rate may be sent and is dropped, for rates stay on the label.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from typing import Any

from service.api.fields import Asked, choice, date_text, flag, list_of, nested, number, text, whole
from service.api.house import parts
from service.domain.errors import NotUnderstood
from service.domain.label import (
    BEE_CLASSES,
    BLOOM_RULES,
    FORMULATIONS,
    LABEL_STAGES,
    LIMIT_BASES,
    METHODS,
    MOA_SCHEMES,
    PESTS_MODES,
    REGISTRATION_STATUSES,
    REGISTRATION_TYPES,
    SIGNAL_WORDS,
    TOXICITY_CATEGORIES,
    USER_SITE_CLASSES,
)
from service.domain.plain_label import ReadRecord, read_record
from service.intake.label_names import LabelNames

LONG = 5000
ID_PATTERN = "[A-Za-z0-9][A-Za-z0-9._-]{0,63}"
ID_WANTS = "An id is 1 to 64 letters, digits, dots, hyphens and underscores, and begins with a letter or digit."
STATE, STATE_WANTS = "[A-Z]{2}", "A state is two capital letters, such as OR."


class LabelActiveAsked(Asked):
    """One line of the ingredient statement."""

    iso_name = text("ISO common name (GET /v1/actives).", example="captan", required=True)
    printed_name = text("Name as the label prints it.", example="Captan")
    cas = text("CAS number.", example="133-06-2", longest=30)
    percent = number("Share by weight.", unit="%", example=48.9, low=0, high=100)
    moa_scheme = choice("Scheme of the mode of action.", values=MOA_SCHEMES)
    moa_code = text("Group in that scheme.", example="M04", longest=20)


class CapturedAsked(Asked):
    """Who typed the record, and who compared it with the container."""

    entered_by = text("Initials of who typed it.", example="ab", longest=60)
    entered_on = date_text("Day on which it was typed.")
    checked_by = text("Initials of the second person, who compared it with the container.", example="cd", longest=60)
    checked_on = date_text("Day on which it was compared.")
    photo_ref = text("Where the photograph of the label is kept.", example="shelf/0042.jpg")


class TemperaturesAsked(Asked):
    """Printed limits of temperature."""

    min_f = whole("Lowest temperature at which it may be used.", unit="°F", example=40, low=-60, high=130)
    max_f = whole("Highest temperature at which it may be used.", unit="°F", example=90, low=-60, high=130)
    freeze_free_hours = whole("Hours that must stay free of frost.", unit="hours", example=48, low=0, high=240)
    basis = choice("Whether the label prints them or the store noted them.", values=LIMIT_BASES)


class PollinatorAsked(Asked):
    """What the label says about bees."""

    statement = text("What it says, without amounts.", example="Do not apply when trees are in bloom.", longest=LONG)
    bloom_rule = choice("What its directions say of bloom.", values=BLOOM_RULES)
    uc_class = choice("Bee class of the product, where a table gives one.", values=BEE_CLASSES)
    box = flag("Whether the bee box stands on it.")


class KeepApartAsked(Asked):
    """Days between this product and another active."""

    with_ = text("ISO common name of the other active.", example="mineral oil", required=True)
    days_before = whole("Days after the other before this may be used.", unit="days", example=14, low=0, high=400)
    days_after = whole("Days after this before the other may be used.", unit="days", example=14, low=0, high=400)
    basis = choice("Whether the label prints them or the store noted them.", values=LIMIT_BASES)


class CompatibilityAsked(Asked):
    """What may not be mixed with the product or follow it."""

    prohibited_mixes = list_of(text("An active.", example="mineral oil"), "Actives that it may not be mixed with.",
                               example=["mineral oil"], most=30)  # fmt: skip
    allowed_mixes_text = text("Mixtures that it names, without amounts.", example="May be mixed with captan.",
                              longest=LONG)  # fmt: skip
    intervals = nested(KeepApartAsked, "Days to keep apart.", many=True, most=20)


class LabelInjuryAsked(Asked):
    """A crop that the label warns may be injured."""

    crop = text("Id of the crop, or any.", example="apricot", required=True)
    text = text("What it says, without amounts.", example="Do not use on apricots.", longest=LONG, required=True)


class EnvironmentAsked(Asked):
    """What the label says about water, wind and rain."""

    do_not_apply_to_water = flag("Whether it bars use on water.")
    buffer_ft = whole("Printed distance from water.", unit="ft", example=25, low=0, high=5280)
    aquatic_toxic = flag("Whether it is toxic to life in water.")
    wind_max_mph = whole("Highest printed wind.", unit="mph", example=10, low=0, high=60)
    rainfast_hours = whole("Hours without rain that it needs.", unit="hours", example=4, low=0, high=240)
    text = text("What it says, without amounts.", example="Toxic to fish.", longest=LONG)


class RiskActiveAsked(Asked):
    """An active of a minimum-risk product."""

    display_name = text("Name as the label prints it.", example="rosemary oil", required=True)
    percent = number("Share by weight.", unit="%", example=1.0, low=0, high=100)


class MinimumRiskAsked(Asked):
    """Whether the conditions of a minimum-risk product are met (40 CFR 152.25(f)); null where nobody looked."""

    actives = nested(RiskActiveAsked, "Its actives.", many=True, most=30)
    actives_all_on_list = flag("Whether every active is on the list of actives.")
    inerts_all_on_list = flag("Whether every other ingredient is on the permitted lists.")
    all_ingredients_printed = flag("Whether all ingredients are printed, the actives with their share.")
    no_public_health_claim = flag("Whether nothing is claimed against carriers of disease.")
    producer_contact_printed = flag("Whether the producer and how to reach it are printed.")
    no_false_claims = flag("Whether nothing on it is false or misleading.")


class EmergencyAsked(Asked):
    """Whom to call, as the label prints it."""

    registrant_line = text("Line of the company.", example="1-800-555-0100")
    poison = text("Line for poisoning.", example="1-800-222-1222")
    npic = text("Line for questions about pesticides.", example="1-800-858-7378")


class LabelSiteTold(Asked):
    """What the label says of one printed crop name."""

    crop_as_printed = text("The crop name as printed.", example="sweet and tart cherries", longest=500, required=True,
                           pattern=r"[\s\S]*\S[\s\S]*", wants="This must not be empty.")  # fmt: skip
    crops = list_of(text("A crop.", example="sweet_cherry"), "Ids of the crops that staff read out of it; empty where"
                    " that is not settled, and then none counts as listed.", example=["sweet_cherry", "tart_cherry"],
                    most=40)  # fmt: skip
    pests = list_of(text("A pest.", example="brown_rot"), "Ids of the pests and diseases printed for it.",
                    example=["brown_rot"], most=200)  # fmt: skip
    pests_as_printed = text("Pests as printed, for those without an id.", example="grasshoppers", longest=LONG)
    method = list_of(choice("A method.", values=METHODS), "How it may be put on.", example=["foliar"], most=4)
    stages_allowed = list_of(choice("A stage.", values=LABEL_STAGES), "The only stages at which it may be used; null"
                             " where the label is silent.", example=["dormant", "bud_swell"], most=14)  # fmt: skip
    stages_prohibited = list_of(choice("A stage.", values=LABEL_STAGES, example="bloom"),
                                "Stages at which it may not be used.", example=["bloom"], most=14)  # fmt: skip
    phi_days = whole("Days from the last use to picking; 0 up to the day of harvest.", unit="days", example=14, low=0,
                     high=400)  # fmt: skip
    phi_text = text("The words about picking.", example="do not apply within 14 days of harvest", longest=500)
    max_apps_per_year = whole("How often it may be used in a year.", unit="count", example=6, low=0, high=100)
    max_apps_per_season = whole("How often it may be used in a season.", unit="count", example=6, low=0, high=100)
    min_retreat_days = whole("Fewest days between two uses.", unit="days", example=7, low=0, high=400)
    max_total_text = text("What it says of the most in a season; amounts are taken out.",
                          example="from all products with this active", longest=LONG)  # fmt: skip
    bearing_only = flag("Whether only bearing trees are meant.", example=False)
    nonbearing_only = flag("Whether only trees are meant whose fruit is not picked within twelve months.",
                           example=False)  # fmt: skip


class LabelSiteAsked(LabelSiteTold):
    """What the label says of one printed crop name."""

    rate_text = text("Taken and dropped: rates stay on the label.", example="see the label", longest=LONG)


class _Label(Asked):
    demo = flag("True for an invented record.", example=False)
    product_name = text("Name as printed.", example="Invented Captan Powder")
    reg_type = choice("How it is registered.", values=REGISTRATION_TYPES)
    epa_reg_no = text("The number after “EPA Reg. No.”; a minimum-risk product has none.", example="9999101-1",
                      longest=40)  # fmt: skip
    epa_est_no = text("The number after “EPA Est. No.”.", example="99999-ZZ-001", longest=40)
    registrant = text("The company that registered or made it.", example="Invented Registrant A")
    distributor_of = text("Registration number that a distributor product rests on.", example="9999124-24", longest=40)
    label_version_date = date_text("Date of this version of the label.", example="2025-01-15")
    label_expiry_date = date_text("Last day on which this text of the label is in force, where one is set.",
                                  example="2027-12-31")
    label_captured_by = nested(CapturedAsked, "Who typed the record and who checked it.")
    registration_status = choice("Where the registration stands.", values=REGISTRATION_STATUSES)
    existing_stocks_sale_end = date_text("Last day on which stock may be sold, after a cancellation.")
    existing_stocks_use_end = date_text("Last day on which stock may be used, after a cancellation.")
    shelf_expiry = date_text("Last day on which it keeps, where printed.")
    states_registered = list_of(text("A state.", example="OR", longest=2, pattern=STATE, wants=STATE_WANTS),
                                "States in which it is registered, by two letters; null where nobody looked.",
                                example=["OR", "WA"], most=60)  # fmt: skip
    restricted_use = flag("Whether it is a restricted-use product.", example=False)
    state_restricted_in = list_of(text("A state.", example="NY", longest=2, pattern=STATE, wants=STATE_WANTS),
                                  "States that restrict it beyond that.", example=[], most=60)  # fmt: skip
    user_site_class = choice("Who may use it where.", values=USER_SITE_CLASSES)
    residential_prohibited_text = text("Words that bar homes.", example="not for residential use", longest=LONG)
    toxicity_category = choice("Highest category of toxicity.", values=TOXICITY_CATEGORIES)
    signal_word = choice("Signal word; none where the label has none.", values=SIGNAL_WORDS)
    poison_skull = flag("Whether “Poison” stands in red with a skull.", example=False)
    child_warning = flag("Whether “Keep out of reach of children” stands on it.")
    precautionary_text = text("Precautionary statements, word for word.", example="Harmful if swallowed.", longest=LONG)
    first_aid_text = text("First aid, word for word.", example="If in eyes: rinse slowly with water.", longest=LONG)
    ppe = list_of(text("One thing.", example="goggles"), "What must be worn.", example=["long sleeves"], most=30)
    active_ingredients = nested(LabelActiveAsked, "The ingredient statement.", many=True, most=10)
    formulation = choice("The kind of preparation.", values=FORMULATIONS)
    systemic = flag("Whether it moves inside the plant.", example=False)
    pests_mode = choice("listed_only where the label says that only printed pests may be treated.", values=PESTS_MODES)
    rei_hours = whole("Hours before anybody may enter, on farms.", unit="hours", example=48, low=0, high=1000)
    reentry_text = text("When people and pets may return.", example="Keep out until sprays have dried.", longest=LONG)
    max_seasonal_ai_text = text("What it says of the most of the active in a season; amounts are taken out.",
                                example="not more than … from all products", longest=LONG)  # fmt: skip
    temperature_limits = nested(TemperaturesAsked, "Limits of temperature.")
    pollinator = nested(PollinatorAsked, "Bees and bloom.")
    compatibility = nested(CompatibilityAsked, "What it may not be mixed with or follow.")
    phytotoxicity = nested(LabelInjuryAsked, "Crops that it may injure.", many=True, most=40)
    environmental = nested(EnvironmentAsked, "Water, wind and rain.")
    storage_disposal_text = text("Storage and disposal.", example="Do not reuse this container.", longest=LONG)
    organic_listed = flag("Whether the whole product is listed for organic production.", example=False)
    exempt_25b = nested(MinimumRiskAsked, "The conditions of a minimum-risk product.")
    misuse_statement = flag("Whether it says that use against its labeling breaks federal law.")
    net_contents = text("How much is in the container.", example="16 oz")
    emergency_contacts = nested(EmergencyAsked, "Whom to call.")


class LabelAsked(_Label):
    """A label record; a field that is left out is not known."""

    id = text("Id of the product, such as the store's own number; given by us where it is left out.", example="P-0042",
              longest=64, pattern=ID_PATTERN, wants=ID_WANTS)  # fmt: skip
    sites = nested(LabelSiteAsked, "Each printed crop name with its directions.", many=True, most=100)


class LabelTold(_Label):
    """A label record as it is kept."""

    id = text("Id of the product.", example="P-0042", required=True)
    sites = nested(LabelSiteTold, "Each printed crop name with its directions.", many=True, required=True)


def record_of(asked: Mapping[str, Any], *, pointer: str = "") -> ReadRecord:
    """The record in a checked JSON object, with ids in the place of names; `pointer` is where the object stands."""
    house = parts()
    return settled_record(asked, LabelNames(house.names, house.rulebook.catalogue), pointer=pointer)


def settled_record(asked: Mapping[str, Any], names: LabelNames, *, pointer: str = "") -> ReadRecord:
    """The same outside of a request; raises NotUnderstood with every name that is not found."""
    settled = names.settle(_json_names(deepcopy(dict(asked))))
    if names.faults:
        raise NotUnderstood(*((pointer + at, sentence) for at, sentence in names.faults))
    return read_record(settled)


def _json_names(asked: dict[str, Any]) -> dict[str, Any]:
    """The loaded object under the names of the JSON: the schema calls `with` by a name that Python takes."""
    for gap in (asked.get("compatibility") or {}).get("intervals") or ():
        gap["with"] = gap.pop("with_")
    return asked
