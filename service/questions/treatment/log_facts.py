"""What the log of a tree says of one product: how often, how long ago, next to what, and with which group before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from service.compute.label_days import days_short, first_day_again, run_of_one_group
from service.compute.label_record import basic_number
from service.domain.label import KeepApart, LabelRecord, LabelSite
from service.domain.label_use import Applied, Use
from service.questions.treatment.question import Facts
from service.questions.treatment.substances import Substances

PAIRS = {"oil_sulfur": (("oil",), ("sulfur", "lime_sulfur")), "oil_captan": (("oil",), ("captan",))}
_GROUP_SCHEMES = ("FRAC", "IRAC")


class Log:
    """The log of one tree, looked at for one product and its directions."""

    def __init__(
        self, use: Use, record: LabelRecord, direction: LabelSite | None, substances: Substances
    ) -> None:
        self.use, self.record, self.substances = use, record, substances
        self.direction, self.is_printed = direction or LabelSite(""), direction is not None

    def facts(self) -> Facts:
        """Counts, gaps and rotation by the names of the vocabulary."""
        found = {**self._counts(), **self._retreat(), **self._rotation()}
        found["product.apart_short_days"] = self._apart_short()
        for pair in PAIRS:
            found.update(self._pair(pair))
        return found

    def _of_product(self) -> list[Applied]:
        """The uses of this very product, the latest first."""
        return [one for one in self.use.past if same_product(one, self.record)]

    def _counts(self) -> Facts:
        ours = set(self.record.actives)
        year = self.use.this_year
        own = [one for one in year if same_product(one, self.record)]
        elsewhere = [one for one in year if one not in own and not ours.isdisjoint(one.actives)]
        printed = (self.direction.max_apps_per_year, self.direction.max_apps_per_season)
        most = min((number for number in printed if number is not None), default=None)
        found: Facts = {
            "product.uses": len(own),
            "product.active_uses": len(own) + len(elsewhere),
            "product.active_uses_elsewhere": len(elsewhere),
            "product.max_uses_printed": most is not None,
        }
        if most is not None:
            found["product.max_uses"] = most
            found["product.uses_left"] = most - len(own)
            found["product.active_uses_left"] = most - len(own) - len(elsewhere)
        return found

    def _retreat(self) -> Facts:
        gap, used = self.direction.min_retreat_days, self._of_product()
        if gap is None:
            return {"product.retreat_short_days": 0}
        short = max(0, days_short(gap, used[0].on, self.use.on)) if used else 0
        return {"product.retreat_days": gap, "product.retreat_short_days": short}

    def _rotation(self) -> Facts:
        own = self._groups_of(self.record.actives, self.record)
        before = [self._groups_of(one.actives, one.record) for one in self.use.this_year]
        runs = []
        for scheme in _GROUP_SCHEMES:  # a fungicide between two insecticides breaks no run of insecticides
            ours = _of_scheme(own, scheme)
            theirs = [_of_scheme(groups, scheme) for groups in before]
            runs.append(run_of_one_group(ours, [groups for groups in theirs if groups]))
        run = max(runs)
        return {"product.group_run": run, "product.group_shared": run > 1}

    def _groups_of(self, names: Iterable[str], record: LabelRecord | None) -> frozenset[str]:
        return self.substances.one_site_groups(names, record)

    def _pair(self, name: str) -> Facts:
        """One pair that burns when too close: whether this product and the log make it, and how far apart."""
        met = self.met(name)
        found: Facts = {f"product.{name}_met": met is not None, f"product.{name}_printed": False}
        if met is None:
            return found
        found[f"product.{name}_days"] = (self.use.on - met.on).days
        wanted = self._printed_gap(met, families=sum(PAIRS[name], ()))
        if wanted is not None:
            found[f"product.{name}_printed"] = True
            found[f"product.{name}_short_days"] = days_short(wanted, met.on, self.use.on)
        return found

    def met(self, name: str) -> Applied | None:
        """The latest use of the other side of a pair."""
        ours = set(self.substances.families(self.record.actives))
        one, other = PAIRS[name]
        wanted: set[str] = set()
        wanted |= set(other) if ours.intersection(one) else set()
        wanted |= set(one) if ours.intersection(other) else set()
        return next((past for past in self.use.past if self._holds(past, wanted)), None)

    def _holds(self, past: Applied, families: set[str]) -> bool:
        return not families.isdisjoint(self.substances.families(past.actives))

    def _printed_gap(self, past: Applied, *, families: Iterable[str]) -> int | None:
        """The longest gap that either label prints between these two, matched by name or by family."""
        wanted = set(families)
        return max(self._gaps_between(past, wanted), default=None)

    def _gaps_between(self, past: Applied, families: set[str] | None = None) -> Iterator[int]:
        for gap in self.record.compatibility.intervals:
            if gap.days_before is not None and self._means(gap, past.actives, families):
                yield gap.days_before
        for gap in past.record.compatibility.intervals if past.record else ():
            if gap.days_after is not None and self._means(gap, self.record.actives, families):
                yield gap.days_after

    def _means(self, gap: KeepApart, names: Iterable[str], families: set[str] | None) -> bool:
        """Whether a printed gap speaks of one of these actives; in a pair "sulfur" speaks of lime sulfur as well."""
        if gap.other in names:
            return True
        named, theirs = set(self.substances.families([gap.other])), self.substances.families(names)
        if families is None:
            return not named.isdisjoint(theirs)
        return not named.isdisjoint(families) and not families.isdisjoint(theirs)

    def _apart_short(self) -> int:
        """Days by which any printed gap to another product is not kept, but for the pairs that have their own facts."""
        in_pairs = {id(met) for met in (self.met(name) for name in PAIRS) if met is not None}
        others = [one for one in self.use.past if id(one) not in in_pairs and not same_product(one, self.record)]
        short = [days_short(gap, one.on, self.use.on) for one in others for gap in self._gaps_between(one)]
        return max([0, *short])

    def gaps_end(self) -> date | None:
        """The day from which every printed gap to the log is kept; None where the log asks for none."""
        ends = [first_day_again(one.on, gap) for one in self.use.past for gap in self._gaps_between(one)]
        used, gap = self._of_product(), self.direction.min_retreat_days
        if used and gap is not None:
            ends.append(first_day_again(used[0].on, gap))
        return max(ends, default=None)


def _of_scheme(groups: Iterable[str], scheme: str) -> frozenset[str]:
    return frozenset(group for group in groups if group.startswith(scheme))


def same_product(past: Applied, record: LabelRecord) -> bool:
    """Whether a past use was of this product: by its number on the shelf, or by the registration number printed."""
    if past.record is None:
        return past.product is not None and past.product == record.id
    numbers = past.record.epa_reg_no, record.epa_reg_no
    return (past.record.id is not None and past.record.id == record.id) or (
        numbers[0] is not None and basic_number(numbers[0]) == basic_number(numbers[1] or "")
    )
