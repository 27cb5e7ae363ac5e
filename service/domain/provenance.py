"""A value together with who says so.

Everything that we know about a crop, a cultivar or a rootstock is a `Stated` value. Unknown is `None`, never a
`Stated` of a guess.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, Literal, TypeVar

T = TypeVar("T")
Basis = Literal["cultivar", "rootstock", "crop"]


@dataclass(frozen=True, slots=True)
class Span:
    """A closed range; an end that no source gives is None. The unit stands in the name of the field that holds it."""

    low: float | None
    high: float | None

    def __post_init__(self) -> None:
        if self.low is None and self.high is None:
            raise ValueError("a span needs at least one end")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"a span runs from low to high, not from {self.low} to {self.high}")

    @property
    def middle(self) -> float:
        """The midpoint, or the only end there is.

        >>> Span(4, 6).middle
        5.0
        >>> Span(None, 3).middle
        3
        """
        if self.low is None:
            return self.high  # type: ignore[return-value]
        if self.high is None:
            return self.low
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Stated(Generic[T]):
    """A value, the ids of the sources that state it, and how sure we may be.

    `from_memory`: nobody saw the figure in the publication. `basis`: whom the statement is about; `crop` means that
    only a crop-wide figure is known. `others`: what other sources say instead.
    """

    value: T
    sources: tuple[str, ...]
    from_memory: bool = False
    basis: Basis = "cultivar"
    others: tuple[Stated[T], ...] = ()
    note: str | None = None
