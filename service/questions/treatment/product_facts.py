"""A label record as facts: what the product is, what its directions print for this crop, and how the day fits them."""

from __future__ import annotations

from datetime import date

from service.compute.label_record import basic_number
from service.domain.label import LabelRecord, LabelSite
from service.domain.label_use import OWN_STOCK, Offered, Use
from service.domain.treatment import Treatment
from service.knowledge.catalogue import Catalogue
from service.questions.treatment.case_facts import Open, harvest_days, known
from service.questions.treatment.log_facts import Log
from service.questions.treatment.question import Facts, TreatmentQuestion
from service.questions.treatment.recorded import record_facts
from service.questions.treatment.substances import Substances

NO_DIRECTION = LabelSite("")


class Products:
    """Says of each product under each of its directions what the rules may test."""

    def __init__(self, question: TreatmentQuestion, catalogue: Catalogue) -> None:
        self.question, self.use, self.catalogue = question, question.use, catalogue
        self.substances = Substances(catalogue)
        self.treatment: Treatment | None = catalogue.label.treatments.get(self.use.cause.id)

    def facts(self, offered: Offered, direction: LabelSite | None) -> Facts:
        """All facts of one product under one of its directions; None: no printed entry is read as the crop."""
        record, printed = offered.record, direction or NO_DIRECTION
        return {
            **record_facts(record, self.catalogue.label.model, self.use.on),
            **known(self._standing(offered)),
            **known(self._made_of(record)),
            **known(self._directions(record, direction)),
            **known(self._harvest(printed)),
            **known(self._day(record)),
            **known(self._place_and_mix(record)),
            **self.log(offered, direction).facts(),
        }

    def log(self, offered: Offered, direction: LabelSite | None) -> Log:
        """The log of the tree as this product and this direction see it."""
        return Log(self.use, offered.record, direction, self.substances)

    def _standing(self, offered: Offered) -> Open:
        """Where its registration stands, for whom it is made, and how it differs from what is in hand."""
        record, day = offered.record, self.use.on
        return {
            "customer.owns_it": offered.owned,
            "product.label_told": offered.id != OWN_STOCK,
            "product.status": record.registration_status,
            "product.sale_ended": _past(record.existing_stocks_sale_end, day),
            "product.use_ended": _past(record.existing_stocks_use_end, day),
            "product.stock_expired": _past(record.shelf_expiry, day),
            "product.registered_in_state": self._registered(record),
            "product.restricted_use": record.restricted_use,
            "product.restricted_in_state": self._restricted(record),
            "product.site_class": record.user_site_class,
            "product.residential_prohibited": bool(record.residential_prohibited_text),
            "product.container_differs": self._container_differs(offered),
            "product.same_name_differs": any(_namesake(record, other) for other in self.question.shelf),
        }

    def _registered(self, record: LabelRecord) -> bool | None:
        if self.use.state is None or record.states_registered is None:
            return None
        return self.use.state in record.states_registered

    def _restricted(self, record: LabelRecord) -> bool | None:
        """Whether the state restricts it; known to be false without a state where no state is known to."""
        law = self.catalogue.use_law
        barred = [one for one in law.states.values() if not set(one.actives).isdisjoint(record.actives)]
        if self.use.state is None:
            return None if barred or record.state_restricted_in else False
        by_law = any(one.topic == "retail_bar" and one.binds(self.use.state, self.use.on) for one in barred)
        return by_law or self.use.state in record.state_restricted_in

    def _container_differs(self, offered: Offered) -> bool:
        container, record = self.use.container_of(offered.id), offered.record
        if container is None:
            return False
        pairs = (
            (container.epa_reg_no, record.epa_reg_no),
            (container.label_version_date, record.label_version_date),
            (_sorted(container.actives), _sorted(record.actives)),
        )
        return any(told is not None and told != recorded for told, recorded in pairs)

    def _made_of(self, record: LabelRecord) -> Open:
        """What it is by its actives, and what the front of the label says."""
        substances = self.substances
        best, lowest = substances.ratings(record, self.treatment)
        return {
            "product.signal_word": record.signal_word,
            "product.poison_skull": record.poison_skull,
            "product.organic_listed": bool(record.organic_listed),
            "product.formulation": record.formulation,
            "product.roles": substances.roles(record),
            "product.families": substances.families(record.actives),
            "product.actives": len(record.actives),
            "product.refused": substances.refused(record.actives),
            "product.bee_class": substances.bee_class(record),
            "product.bloom_rule": record.pollinator.bloom_rule,
            "product.systemic_neonicotinoid": substances.systemic_neonicotinoid(record),
            "product.only_fungicides": substances.only_fungicides(record),
            "product.rating": best,
            "product.rating_low": lowest,
            "product.ratings_differ": best != lowest,
        }

    def _directions(self, record: LabelRecord, direction: LabelSite | None) -> Open:
        """What the directions for this crop print of pests, methods and stages."""
        printed, method = direction or NO_DIRECTION, self.use.method
        unresolved = any(not site.crops for site in record.sites)
        return {
            "product.crop_print": "printed" if direction else "unresolved" if unresolved else "not_printed",
            "product.pest_printed": self.use.cause.id in printed.pests,
            "product.pests_mode": record.pests_mode,
            "product.methods": printed.method,
            "product.method_printed": method is None or method in printed.method,
            "product.nonbearing_only": bool(printed.nonbearing_only),
            "product.max_covers_all": _covers_all(record),
            **self._stages(printed),
        }

    def _stages(self, printed: LabelSite) -> Open:
        stage, allowed = self.use.stage, printed.stages_allowed
        if stage is None:
            return {
                "product.stage_prohibited": None if printed.stages_prohibited else False,
                "product.stage_outside": None if allowed is not None else False,
                "product.stage_printed": None if allowed else False,
            }
        return {
            "product.stage_prohibited": stage in printed.stages_prohibited,
            "product.stage_outside": allowed is not None and stage not in allowed,
            "product.stage_printed": allowed is not None and stage in allowed,
        }

    def _harvest(self, printed: LabelSite) -> Open:
        """The printed days before harvest against the days that are left; a printed 0 is kept on any day before it."""
        days, phi = harvest_days(self.use), printed.phi_days
        short = None if phi is None else phi - days if days is not None else 0 if phi == 0 else None
        return {
            "product.phi_printed": phi is not None,
            "product.phi_text_printed": bool((printed.phi_text or "").strip()),
            "product.phi_days": phi,
            "product.phi_short_days": short,
        }

    def _day(self, record: LabelRecord) -> Open:
        """The printed limits of temperature, wind and rain against the forecast."""
        weather, limits, around = self.use.weather, record.temperature_limits, record.environmental
        return {
            "product.max_f_printed": limits.max_f is not None,
            "product.over_max_f": _difference(weather.high_f, limits.max_f),
            "product.min_f_printed": limits.min_f is not None,
            "product.under_min_f": _difference(limits.min_f, weather.temp_f),
            "product.freeze_hours_printed": limits.freeze_free_hours is not None,
            "product.wind_printed": around.wind_max_mph is not None,
            "product.over_wind_mph": _difference(weather.wind_mph, around.wind_max_mph),
            "product.rainfast_printed": around.rainfast_hours is not None,
            "product.rain_short_hours": _difference(around.rainfast_hours, weather.rain_in_hours),
        }

    def _place_and_mix(self, record: LabelRecord) -> Open:
        around, place = record.environmental, self.use.place
        return {
            "product.buffer_printed": around.buffer_ft is not None,
            "product.buffer_short_ft": _difference(around.buffer_ft, place.water_ft),
            "product.aquatic_toxic": bool(around.aquatic_toxic),
            "product.understory_unprinted": self._understory_unprinted(record),
            **self._mix(record),
        }

    def _understory_unprinted(self, record: LabelRecord) -> bool | None:
        plants = self.use.place.understory_crops
        if plants is None:
            return None
        printed = {crop for site in record.sites for crop in site.crops}
        return any(plant not in printed for plant in plants)

    def _mix(self, record: LabelRecord) -> Open:
        others = [other for other in self.use.tank_mix if other.record is not record]
        clash = [_mix_forbidden(record, other.record, self.substances) for other in others]
        speaks = [_mentions(record, other.record) or _mentions(other.record, record) for other in others]
        return {
            "mix.planned": bool(others),
            "mix.prohibited": any(clash),
            "mix.unmentioned": not all(said or barred for said, barred in zip(speaks, clash, strict=True)),
        }


def _past(end: date | None, day: date) -> bool:
    return end is not None and end < day


def _difference(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one - other


def _sorted(names: tuple[str, ...] | None) -> tuple[str, ...] | None:
    return None if names is None else tuple(sorted(names))


def _covers_all(record: LabelRecord) -> bool:
    return "all products" in " ".join((record.max_seasonal_ai_text or "").lower().split())


def _namesake(record: LabelRecord, other: LabelRecord) -> bool:
    """Whether another product of the shelf shares the first word of the name and differs in actives or crops."""
    words = [(one.product_name or "").split()[:1] for one in (record, other)]
    if not words[0] or words[0] != words[1] or _same_label(record, other):
        return False
    return _sorted(record.actives) != _sorted(other.actives) or _crops(record) != _crops(other)


def _same_label(record: LabelRecord, other: LabelRecord) -> bool:
    same_id = record.id is not None and record.id == other.id
    return same_id or basic_number(record.epa_reg_no or "-") == basic_number(other.epa_reg_no or "")


def _crops(record: LabelRecord) -> frozenset[str]:
    return frozenset(crop for site in record.sites for crop in site.crops)


def _mix_forbidden(record: LabelRecord, other: LabelRecord, substances: Substances) -> bool:
    pairs = ((record, other), (other, record))
    return any(_barred_by(one, them, substances) or _burns(one, them, substances) for one, them in pairs)


def _barred_by(record: LabelRecord, other: LabelRecord, substances: Substances) -> bool:
    barred = record.compatibility.prohibited_mixes
    if not set(barred).isdisjoint({*other.actives, other.product_name, other.id}):
        return True
    return not set(substances.families(barred)).isdisjoint(substances.families(other.actives))


def _burns(record: LabelRecord, other: LabelRecord, substances: Substances) -> bool:
    one, two = set(substances.families(record.actives)), set(substances.families(other.actives))
    return "oil" in one and not two.isdisjoint({"sulfur", "lime_sulfur", "captan"})


def _mentions(record: LabelRecord, other: LabelRecord) -> bool:
    text = (record.compatibility.allowed_mixes_text or "").lower()
    return any(name.lower() in text for name in (*other.actives, other.product_name or "\n"))


def directions_for(record: LabelRecord, use: Use) -> tuple[LabelSite | None, ...]:
    """The printed entries to judge by: those for the crop that print the pest, else all for the crop, else none."""
    sites = record.sites_of(use.crop)
    with_pest = tuple(site for site in sites if use.cause.id in site.pests)
    return with_pest or sites or (None,)


