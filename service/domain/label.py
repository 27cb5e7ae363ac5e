"""What the printed label of a product says, and what the store notes beside it.

A record never stands in for the label on the container. Whatever a label may be silent on is None here; None is also
what nobody has typed in yet, and `service/compute/label_record.py` tells which of these a record cannot do without.
Rates are on the label and nowhere else: no field of this module holds one.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal, get_args

RegistrationType = Literal["section3", "distributor", "sln_24c", "exempt_25b"]
REGISTRATION_TYPES: tuple[RegistrationType, ...] = get_args(RegistrationType)
RegistrationStatus = Literal["active", "existing_stocks", "cancelled", "suspended"]
REGISTRATION_STATUSES: tuple[RegistrationStatus, ...] = get_args(RegistrationStatus)
UserSiteClass = Literal["home_garden", "dual", "commercial_only"]
USER_SITE_CLASSES: tuple[UserSiteClass, ...] = get_args(UserSiteClass)
ToxicityCategory = Literal["I", "II", "III", "IV"]
TOXICITY_CATEGORIES: tuple[ToxicityCategory, ...] = get_args(ToxicityCategory)
SignalWord = Literal["DANGER", "WARNING", "CAUTION", "none"]
SIGNAL_WORDS: tuple[SignalWord, ...] = get_args(SignalWord)
Formulation = Literal[
    "WP", "WDG", "SC", "SL", "EC", "dust", "RTU", "hose_end", "concentrate_oil", "granule", "drench", "bait"
]  # fmt: skip
FORMULATIONS: tuple[Formulation, ...] = get_args(Formulation)
PestsMode = Literal["listed_or_2ee", "listed_only"]
PESTS_MODES: tuple[PestsMode, ...] = get_args(PestsMode)
Method = Literal["foliar", "trunk", "soil_drench", "dormant"]
METHODS: tuple[Method, ...] = get_args(Method)
LabelStage = Literal[
    "dormant", "bud_swell", "green_tip", "half_inch_green", "pink", "bloom", "petal_fall", "shuck_split", "fruit_set",
    "fruit_growth", "ripening", "harvest", "post_harvest", "leaf_fall",
]  # fmt: skip
LABEL_STAGES: tuple[LabelStage, ...] = get_args(LabelStage)
BloomRule = Literal["prohibited", "not_while_bees_forage", "allowed", "required_in_bloom", "silent"]
BLOOM_RULES: tuple[BloomRule, ...] = get_args(BloomRule)
BeeClass = Literal["I", "II", "III"]
BEE_CLASSES: tuple[BeeClass, ...] = get_args(BeeClass)
MoaScheme = Literal["FRAC", "IRAC", "none"]
MOA_SCHEMES: tuple[MoaScheme, ...] = get_args(MoaScheme)
LimitBasis = Literal["label", "default"]
LIMIT_BASES: tuple[LimitBasis, ...] = get_args(LimitBasis)


@dataclass(frozen=True, slots=True)
class LabelActive:
    """One line of the ingredient statement; `iso_name` is a name of rules/actives.yaml."""

    iso_name: str
    printed_name: str | None = None
    cas: str | None = None
    percent: float | None = None
    moa_scheme: MoaScheme | None = None
    moa_code: str | None = None


@dataclass(frozen=True, slots=True)
class LabelSite:
    """What the label says of one printed crop name.

    `crops` are the crops that staff read out of the printed name; where that could not be settled it is empty, and the
    crop counts as not listed. `stages_allowed` None: the label is silent; a tuple: a printed limit.
    """

    crop_as_printed: str
    crops: tuple[str, ...] = ()
    pests: tuple[str, ...] = ()
    pests_as_printed: str | None = None
    method: tuple[Method, ...] = ()
    stages_allowed: tuple[LabelStage, ...] | None = None
    stages_prohibited: tuple[LabelStage, ...] = ()
    phi_days: int | None = None
    phi_text: str | None = None
    max_apps_per_year: int | None = None
    max_apps_per_season: int | None = None
    min_retreat_days: int | None = None
    max_total_text: str | None = None
    bearing_only: bool | None = None
    nonbearing_only: bool | None = None


@dataclass(frozen=True, slots=True)
class Captured:
    """Who typed the record and who compared it with the container, by initials."""

    entered_by: str | None = None
    entered_on: date | None = None
    checked_by: str | None = None
    checked_on: date | None = None
    photo_ref: str | None = None


@dataclass(frozen=True, slots=True)
class TemperatureLimits:
    """Printed limits of temperature in °F; `basis` default: noted by the store, not printed."""

    min_f: int | None = None
    max_f: int | None = None
    freeze_free_hours: int | None = None
    basis: LimitBasis | None = None


@dataclass(frozen=True, slots=True)
class Pollinator:
    """What the label says about bees, and the bee class of the product where a table gives one."""

    statement: str | None = None
    bloom_rule: BloomRule | None = None
    uc_class: BeeClass | None = None
    box: bool | None = None


@dataclass(frozen=True, slots=True)
class KeepApart:
    """Days to keep between this product and another active, before it and after it."""

    other: str
    days_before: int | None = None
    days_after: int | None = None
    basis: LimitBasis | None = None


@dataclass(frozen=True, slots=True)
class Compatibility:
    """What may not be mixed with the product or follow it closely."""

    prohibited_mixes: tuple[str, ...] = ()
    allowed_mixes_text: str | None = None
    intervals: tuple[KeepApart, ...] = ()


@dataclass(frozen=True, slots=True)
class InjuryNote:
    """A crop (or `any`) that the label warns may be injured, in its words."""

    crop: str
    text: str


@dataclass(frozen=True, slots=True)
class Environmental:
    """What the label says about water, wind and rain; distances in ft, wind in mph."""

    do_not_apply_to_water: bool | None = None
    buffer_ft: int | None = None
    aquatic_toxic: bool | None = None
    wind_max_mph: int | None = None
    rainfast_hours: int | None = None
    text: str | None = None


@dataclass(frozen=True, slots=True)
class MinimumRiskActive:
    """An active of a minimum-risk product, under its label display name."""

    display_name: str
    percent: float | None = None


@dataclass(frozen=True, slots=True)
class MinimumRisk:
    """Whether the conditions of a minimum-risk product (40 CFR 152.25(f)) are met; None: nobody has looked."""

    actives: tuple[MinimumRiskActive, ...] = ()
    actives_all_on_list: bool | None = None
    inerts_all_on_list: bool | None = None
    all_ingredients_printed: bool | None = None
    no_public_health_claim: bool | None = None
    producer_contact_printed: bool | None = None
    no_false_claims: bool | None = None


@dataclass(frozen=True, slots=True)
class EmergencyContacts:
    """The numbers to call as the label prints them."""

    registrant_line: str | None = None
    poison: str | None = None
    npic: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelRecord:
    """One label version of one product. `id` is the store's own number, None for a record that is not on the shelf.

    `demo` marks an invented record. `states_registered` None: nobody has looked it up.
    """

    id: str | None = None
    demo: bool = False
    product_name: str | None = None
    reg_type: RegistrationType | None = None
    epa_reg_no: str | None = None
    epa_est_no: str | None = None
    registrant: str | None = None
    distributor_of: str | None = None
    label_version_date: date | None = None
    label_expiry_date: date | None = None
    label_captured_by: Captured = Captured()
    registration_status: RegistrationStatus | None = None
    existing_stocks_sale_end: date | None = None
    existing_stocks_use_end: date | None = None
    shelf_expiry: date | None = None
    states_registered: tuple[str, ...] | None = None
    restricted_use: bool | None = None
    state_restricted_in: tuple[str, ...] = ()
    user_site_class: UserSiteClass | None = None
    residential_prohibited_text: str | None = None
    toxicity_category: ToxicityCategory | None = None
    signal_word: SignalWord | None = None
    poison_skull: bool | None = None
    child_warning: bool | None = None
    precautionary_text: str | None = None
    first_aid_text: str | None = None
    ppe: tuple[str, ...] | None = None
    active_ingredients: tuple[LabelActive, ...] = ()
    formulation: Formulation | None = None
    systemic: bool | None = None
    pests_mode: PestsMode | None = None
    sites: tuple[LabelSite, ...] = ()
    rei_hours: int | None = None
    reentry_text: str | None = None
    max_seasonal_ai_text: str | None = None
    temperature_limits: TemperatureLimits = TemperatureLimits()
    pollinator: Pollinator = Pollinator()
    compatibility: Compatibility = Compatibility()
    phytotoxicity: tuple[InjuryNote, ...] = ()
    environmental: Environmental = Environmental()
    storage_disposal_text: str | None = None
    organic_listed: bool | None = None
    exempt_25b: MinimumRisk | None = None
    misuse_statement: bool | None = None
    net_contents: str | None = None
    emergency_contacts: EmergencyContacts = EmergencyContacts()

    @property
    def actives(self) -> tuple[str, ...]:
        """The ISO common names of its active ingredients, in the order of the label."""
        return tuple(active.iso_name for active in self.active_ingredients)

    def sites_of(self, crop: str) -> tuple[LabelSite, ...]:
        """The printed entries that staff read as this crop; none: the crop is not on the label."""
        return tuple(site for site in self.sites if crop in site.crops)
