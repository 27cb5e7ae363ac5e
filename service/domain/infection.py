"""What weather lets a disease infect: how long plant parts must stay wet at which temperature, in which stages."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class InfectionConditions:
    """The published conditions for one disease.

    `wet_hours` pairs a mean temperature (°F) with the hours of wetness needed at it, from cold to warm; between two
    rows the hours lie on the line between them, and outside the first and last row there is no infection.
    """

    id: str
    disorder: str
    meaning: str
    stages: tuple[str, ...]
    wet_hours: tuple[tuple[float, float], ...]
    sources: tuple[str, ...]
    least_rain_in: float | None = None
    from_memory: bool = False
