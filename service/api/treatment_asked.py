"""How a client asks what may be put on a tree: the schemas of the request."""

from __future__ import annotations

from service.api.fields import Asked, choice, date_text, flag, list_of, name_text, nested, number, text, whole
from service.api.label_or_id import label_or_id, text_or_flag
from service.domain.label import LABEL_STAGES, METHODS
from service.domain.label_use import ALSO_ASKED, CUSTOMER_KINDS

_PRODUCT = "A product: its id on the shelf, or a whole label record."


class SuspectAsked(Asked):
    """A cause as a diagnosis names it."""

    disorder = name_text("Id or name of the disorder.", example="apple_scab", required=True)
    likelihood = number("How likely the diagnosis holds it.", unit="share", example=0.82, low=0, high=1, required=True)


class UsedBeforeAsked(Asked):
    """One use in the past on this tree; the product, or the actives where the product is not known."""

    date = date_text("The day.", example="2025-04-20", required=True)
    product = label_or_id(_PRODUCT, nullable=True)
    actives = list_of(name_text("ISO common name of an active ingredient.", example="captan"),
                      "The actives, where the product is not on the shelf.", example=["captan"], most=20)  # fmt: skip


class DayWeatherAsked(Asked):
    """The forecast for the day of use. Leave out what nobody knows."""

    high_f = number("Highest temperature of the day.", unit="°F", example=76, low=-60, high=135)
    temp_f = number("Temperature when it would be used.", unit="°F", example=62, low=-60, high=135)
    low_48h_f = number("Lowest temperature within 48 hours.", unit="°F", example=48, low=-80, high=110)
    wind_mph = number("Wind when it would be used.", unit="mph", example=4, low=0, high=200)
    rain_in_hours = number("Hours until rain is expected.", unit="hours", example=36, low=0, high=500)
    heavy_rain_24h = flag("True where heavy rain is forecast within a day.", example=False)


class CustomerAsked(Asked):
    """Who asks, and who would spray; left out, a grower at home without a certificate."""

    kind = choice("Whether the fruit is for the home or for sale.", values=CUSTOMER_KINDS)
    organic = flag("True where nothing but products listed for organic use are wanted.", example=False)
    certified = flag("True where the customer is a certified applicator.", example=False)
    for_hire = flag("True where trees of others are treated for pay.", example=False)
    applicator_age = whole("Age of the person who would spray.", unit="years", example=40, low=1, high=120)


class UsePlaceAsked(Asked):
    """What lies under and beside the tree. Leave out what nobody knows; an empty list says that there is nothing."""

    understory_crops = list_of(name_text("An edible plant under the tree.", example="strawberry"),
                               "Edible plants under the tree.", example=["strawberry"], most=30)  # fmt: skip
    understory_coverable = flag("True where they can be covered, or picked before.")
    water_ft = number("Distance to open water.", unit="ft", example=80, low=0, high=50000)
    drain = flag("True where spray or its runoff can reach a street drain.", example=False)
    ground_bloom = flag("True where anything blooms under or beside the tree.", example=False)
    hive_ft = number("Distance to the nearest bee hive.", unit="ft", example=500, low=0, high=50000)
    play_area = flag("True where children play under the tree.", example=False)
    pets = flag("True where pets come under the tree.", example=False)
    quarantine_area = flag("True where the place lies in a quarantine area.", example=False)


class TreatedTreeAsked(Asked):
    """The state of the tree."""

    drought_stressed = flag("True where it lacks water.", example=False)
    nonbearing = flag("True where no fruit will be picked from it within twelve months.", example=False)
    no_crop = flag("True where it carries no fruit this year.", example=False)


class ContainerAsked(Asked):
    """What the customer reads on the container in hand."""

    product = text("Id of the product that it is taken for.", example="DP01", longest=64, required=True)
    epa_reg_no = text("The number after “EPA Reg. No.”.", example="9999101-1", longest=40)
    label_version_date = date_text("The date of the label.", example="2025-01-15")
    actives = list_of(name_text("ISO common name of an active ingredient.", example="captan"),
                      "The active ingredients as printed.", example=["captan"], most=20)  # fmt: skip


class TreatmentAsked(Asked):
    """The treatment question; the crop and the cause are needed, and what is left out counts as unknown."""

    crop = name_text("The crop by name or id.", example="apple", required=True)
    cultivar = name_text("The cultivar by name.", example="Liberty")
    disorder = name_text("What is to be treated, by id or name; else `suspects`.", example="apple_scab")
    suspects = nested(SuspectAsked, "What a diagnosis holds likely; the likeliest is answered for.", many=True, least=1,
                      most=50, example=[{"disorder": "apple_scab", "likelihood": 0.82}])  # fmt: skip
    date = date_text("The day of use; today where it is left out.", example="2025-05-12")
    stage = choice("What the tree is doing on that day.", values=LABEL_STAGES, example="petal_fall")
    state = text("The state, by its two letters.", example="PA", longest=2, pattern="[A-Z]{2}",
                 wants="This must be the two capital letters of a state, such as PA.")  # fmt: skip
    harvest_from = date_text("The day on which picking begins.", example="2025-09-15")
    full_bloom_date = date_text("The day of full bloom.", example="2025-05-04")
    method = choice("How it would be put on, where that is fixed.", values=METHODS)
    history = nested(UsedBeforeAsked, "What was put on this tree; an entry of the log need not be told again.",
                     many=True, most=200, example=[{"date": "2025-04-20", "product": "DP09"}])  # fmt: skip
    reference = text("Code of the tree in the log of applications; its entries are read.", example="tree-17",
                     longest=64, pattern="[A-Za-z0-9][A-Za-z0-9._-]*",
                     wants="A code is letters, digits, dots, dashes and underscores.")  # fmt: skip
    weather = nested(DayWeatherAsked, "The forecast.")
    customer = nested(CustomerAsked, "Who asks.")
    site = nested(UsePlaceAsked, "The place.")
    tree = nested(TreatedTreeAsked, "The tree.")
    exposure_reported = flag("True where a person or a pet has swallowed, breathed or been splashed.", example=False)
    own_stock_active = text_or_flag(
        "ISO common name of the active of a product that the customer has already; or true where the customer has the "
        "products that are asked about already.", example="malathion",
    )  # fmt: skip
    own_stock_cancelled = flag("True where the products asked about are the customer's own and their registration is "
                               "cancelled.", example=False)  # fmt: skip
    new_generation = flag("True where a new generation of the insect began since the last spray.", example=False)
    new_to_place = flag("True where the pest was never seen at this place before.", example=False)
    symptoms = flag("True where symptoms show already.")
    inside_fruit = flag("True where larvae are inside the fruit already.", example=False)
    cut_out = flag("True where the affected wood has been cut out.", example=False)
    asks = list_of(choice("What else is asked for.", values=ALSO_ASKED), "What the customer also asks for.",
                   example=["rate"], most=5)  # fmt: skip
    tank_mix = list_of(label_or_id(_PRODUCT), "What it would be mixed with.", example=["DP09"], most=10)
    containers = nested(ContainerAsked, "What stands on containers that the customer has.", many=True, most=20)
    pest_recommendation = flag("True where a written recommendation approved by the state is at hand.", example=False)
    adviser_licensed = flag("True where the adviser holds a licence to recommend pesticides.", example=False)
    products = list_of(label_or_id(_PRODUCT), "The products; the whole shelf where the list is left out.",
                       example=["DP01"], most=200)  # fmt: skip
    language = choice("Language of the sentences.", values=("en", "es"))
    keep = flag("True to keep the question and its answer as a consultation.", example=False)
