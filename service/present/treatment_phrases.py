"""The few phrases of a treatment answer that no rule writes, in English and Spanish."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from service.domain.units import Language

_AS_THE_LABEL_SAYS: Mapping[Language, str] = {"en": "As the label says.", "es": "Como dice la etiqueta."}
_WHERE: Mapping[Language, str] = {
    "en": "How much, and how it is mixed: on the container, under Directions for Use, at “{crop}”.",
    "es": "Cuánto y cómo se mezcla: en el envase, en Directions for Use, en «{crop}».",
}
_WHERE_NOT: Mapping[Language, str] = {
    "en": "The label prints no directions for this crop.",
    "es": "La etiqueta no trae instrucciones para este cultivo.",
}
_REENTRY: Mapping[Language, str] = {
    "en": "The record holds no words on when people and pets may return: read them on the container.",
    "es": "La ficha no dice cuándo pueden volver personas y mascotas: léalo en el envase.",
}
_AFTER_SPRAY: Mapping[Language, str] = {
    "en": "Used on {used}, fruit may be picked from {picked}.",
    "es": "Si se usa el {used}, la fruta se puede cosechar desde el {picked}.",
}
_NO_INTERVAL: Mapping[Language, str] = {
    "en": "The record holds no number of days before harvest for this crop.",
    "es": "La ficha no da los días antes de la cosecha para este cultivo.",
}
_OPENS: Mapping[Language, str] = {
    "en": "The label opens again on {day}.",
    "es": "La etiqueta lo permite otra vez desde el {day}.",
}
_NO_GROUP: Mapping[Language, str] = {
    "en": "It belongs to no group against which resistance builds up easily.",
    "es": "No pertenece a un grupo contra el que se forme resistencia con facilidad.",
}
_GROUP: Mapping[Language, str] = {
    "en": "Mode of action {groups}: it would be spray number {run} in a row from this group.",
    "es": "Modo de acción {groups}: sería la aplicación número {run} seguida de este grupo.",
}
_ANY_TIME: Mapping[Language, str] = {"en": "at any time", "es": "en cualquier época"}
_OWN_STOCK: Mapping[Language, str] = {"en": "Stock of your own: {what}", "es": "Producto propio: {what}"}
_NO_NAME: Mapping[Language, str] = {"en": "a product without a name", "es": "un producto sin nombre"}


@dataclass(frozen=True, slots=True)
class TreatmentPhrases:
    """The phrases of one language."""

    language: Language

    def label(self) -> str:
        """What stands where another page would print a rate."""
        return _AS_THE_LABEL_SAYS[self.language]

    def where(self, printed_crop: str | None) -> str:
        """Where on the label the directions stand."""
        if printed_crop is None:
            return _WHERE_NOT[self.language]
        return _WHERE[self.language].format(crop=printed_crop)

    def reentry(self, printed: str | None) -> str:
        """The printed words on when people and pets may return."""
        return printed or _REENTRY[self.language]

    def harvest(self, used: date, picked: date | None) -> str:
        """From when fruit may be picked.

        >>> TreatmentPhrases("en").harvest(date(2025, 6, 1), date(2025, 6, 15))
        'Used on 2025-06-01, fruit may be picked from 2025-06-15.'
        """
        if picked is None:
            return _NO_INTERVAL[self.language]
        return _AFTER_SPRAY[self.language].format(used=used.isoformat(), picked=picked.isoformat())

    def opens(self, day: date | None) -> str | None:
        """When the label opens again; None where nothing of it is shut by a count or a gap."""
        return None if day is None else _OPENS[self.language].format(day=day.isoformat())

    def rotation(self, groups: tuple[str, ...], run: int) -> str:
        """Its groups, and which spray in a row it would be.

        >>> TreatmentPhrases("en").rotation(("IRAC 1B",), 3)
        'Mode of action IRAC 1B: it would be spray number 3 in a row from this group.'
        """
        if not groups:
            return _NO_GROUP[self.language]
        return _GROUP[self.language].format(groups=", ".join(groups), run=run)

    def any_time(self) -> str:
        """That something may be done whatever the tree is doing."""
        return _ANY_TIME[self.language]

    def own_stock(self, what: str) -> str:
        """The name of stock that the customer owns."""
        return _OWN_STOCK[self.language].format(what=what)

    def no_name(self) -> str:
        """The name of a record that carries none."""
        return _NO_NAME[self.language]
