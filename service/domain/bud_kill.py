"""How much frost buds and blossoms stand at each stage."""

from __future__ import annotations

from dataclasses import dataclass

from service.domain.climate import ModelSource


@dataclass(frozen=True, slots=True)
class BudStage:
    """Temperatures (°F) of which half an hour kills one bud in ten, or nine in ten; the older figure is one for all."""

    stage: str
    kill_10_percent_f: float
    kill_90_percent_f: float | None = None
    older_standard_f: float | None = None
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class BudKill:
    """The stages of one crop from dormant bud to young fruit, in their order."""

    crop: str
    stages: tuple[BudStage, ...]
    sources: tuple[ModelSource, ...]

    def __post_init__(self) -> None:
        for earlier, later in zip(self.stages, self.stages[1:], strict=False):
            if later.kill_10_percent_f < earlier.kill_10_percent_f:
                raise ValueError(f"{later.stage} stands more frost than {earlier.stage} before it")
        for stage in self.stages:
            if stage.kill_90_percent_f is not None and stage.kill_90_percent_f > stage.kill_10_percent_f:
                raise ValueError(f"at {stage.stage} nine buds in ten die before one in ten does")

    def at(self, stage: str) -> BudStage | None:
        """The temperatures of a stage, or None where no source gives them."""
        return next((known for known in self.stages if known.stage == stage), None)
