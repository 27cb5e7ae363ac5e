"""The forms that fruit trees are trained to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from service.domain.provenance import Span, Stated


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure of a form: the range that is taught, and the usual figure in it. The unit stands in its name."""

    span: Span
    usual: float | None = None


@dataclass(frozen=True, slots=True)
class TrainingForm:
    """One form: the crops that it suits, and its measures by names such as `head_height_in`."""

    id: str
    name: str
    name_es: str
    suits: tuple[Stated[tuple[str, ...]], ...] = ()
    measures: Mapping[str, Stated[Measure]] = field(default_factory=dict)
    sources: tuple[str, ...] = ()

    @property
    def crops(self) -> tuple[str, ...]:
        """All crops that the form suits."""
        return tuple(crop for stated in self.suits for crop in stated.value)
