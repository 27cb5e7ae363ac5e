"""A list of trees that somebody wrote, and what it was read as: both stand side by side, so that nothing is lost.

A reading never hides a doubt. A name that was guessed says so and carries what else it may be; a name that nobody
knows stays `not_recognised`, and the rest of the line is read all the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, get_args

from service.domain.crop import TreeSize

How = Literal["exact", "synonym", "guess", "ambiguous", "not_recognised"]
Kind = Literal["columns", "xlsx", "ods", "text", "mail"]
Form = Literal["container", "box", "bare_root", "balled", "potted"]
Currency = Literal["USD", "EUR", "GBP", "MXN"]
Why = Literal["heading", "crop_heading", "total", "comment", "empty_of_trees"]
Mark = Literal[
    "several_on_one_tree", "several_names", "no_name", "crop_only", "crop_from_heading", "crop_from_column",
    "crop_from_rootstock", "crop_from_list", "crop_not_known", "crop_and_name_disagree", "quantity_not_read",
    "quantity_is_zero", "quantity_in_two_places", "rootstock_not_recognised", "rootstock_of_another_crop",
    "size_not_read", "price_not_read", "formula", "cut_short",
]  # fmt: skip
MARKS: tuple[Mark, ...] = get_args(Mark)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a row stands: in a file, of a workbook in a sheet, of a mail in an attachment or in its body."""

    file: str | None = None
    sheet: str | None = None
    attachment: str | None = None


@dataclass(frozen=True, slots=True)
class WrittenCell:
    """A cell as it was written, under the heading of its column where the list has headings."""

    text: str
    heading: str = ""


@dataclass(frozen=True, slots=True)
class WrittenRow:
    """A row as it was written; `number` counts the rows of its place from 1, as a spreadsheet shows them."""

    number: int
    cells: tuple[WrittenCell, ...]
    place: Place = Place()

    @property
    def text(self) -> str:
        """The row in one line.

        >>> WrittenRow(3, (WrittenCell("2"), WrittenCell(""), WrittenCell("Liberty"))).text
        '2 | Liberty'
        """
        return " | ".join(cell.text for cell in self.cells if cell.text)


@dataclass(frozen=True, slots=True)
class Near:
    """A name that may be meant; `score` is its likeness to what was written and runs to 100."""

    id: str
    name: str
    score: float


@dataclass(frozen=True, slots=True)
class ReadName:
    """One cultivar of a line.

    `cultivar` is set where `how` is exact, synonym or guess. `crop` may be known where the cultivar is not, from a
    heading, a column or the name itself. `alternatives` are what else was possible, the likeliest first; of an
    ambiguous name they are all that bear it.
    """

    written: str
    how: How
    cultivar: str | None = None
    crop: str | None = None
    alternatives: tuple[Near, ...] = ()

    def __post_init__(self) -> None:
        if (self.cultivar is None) == (self.how in ("exact", "synonym", "guess")):
            raise ValueError(f"a name read as {self.how} does not go with the cultivar {self.cultivar}")


@dataclass(frozen=True, slots=True)
class ReadRootstock:
    """The rootstock of a line, read like a name; `rootstock` is its id."""

    written: str
    how: How
    rootstock: str | None = None
    alternatives: tuple[Near, ...] = ()

    def __post_init__(self) -> None:
        if (self.rootstock is None) == (self.how in ("exact", "synonym", "guess")):
            raise ValueError(f"a rootstock read as {self.how} does not go with the id {self.rootstock}")


@dataclass(frozen=True, slots=True)
class ReadSize:
    """How big the tree is sold, or how big it is said to grow (`tree`); what was not said is None.

    `container` is a nursery's container number or volume in gallons, as sold by either name.
    """

    written: str
    tree: TreeSize | None = None
    form: Form | None = None
    container: float | None = None
    box_in: float | None = None
    height_ft: tuple[float, float] | None = None
    caliper_in: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class ReadPrice:
    """A price as it was written; `each` is False for the price of the whole line, None where nothing says which."""

    written: str
    amount: Decimal
    currency: Currency | None = None
    each: bool | None = None


@dataclass(frozen=True, slots=True)
class ReadLine:
    """One line of the list; `line` counts the lines of all sources from 1 and is the line's name in every answer.

    `written` is the row as one text, `row` the cells it came in. A tree with several cultivars has several `names`.
    `marks` say what is odd about the line or what its reading leans on.
    """

    line: int
    written: str
    row: WrittenRow
    names: tuple[ReadName, ...] = ()
    quantity: int | None = None
    rootstock: ReadRootstock | None = None
    size: ReadSize | None = None
    price: ReadPrice | None = None
    note: str | None = None
    marks: tuple[Mark, ...] = ()

    @property
    def trees(self) -> int:
        """How many trees the line asks for: one where it does not say."""
        return 1 if self.quantity is None else self.quantity

    @property
    def recognised(self) -> bool:
        """Whether every name of the line was read as one cultivar, be it as a guess."""
        return bool(self.names) and all(name.cultivar for name in self.names)


@dataclass(frozen=True, slots=True)
class Skipped:
    """A row that is no line of the list, and why."""

    row: WrittenRow
    why: Why


@dataclass(frozen=True, slots=True)
class MailHead:
    """What an answer to a mail needs of it; `sender` is the address that it came from, None where it is not said."""

    sender: str | None = None
    subject: str | None = None
    message_id: str | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """One thing that rows were read from, and how: `headings` are those of its columns, where it has any.

    `mail` is the mail that it came in, which a forwarded mail inside it is not.
    """

    place: Place
    kind: Kind
    encoding: str | None = None
    separator: str | None = None
    headings: tuple[str, ...] = ()
    mail: MailHead | None = None


@dataclass(frozen=True, slots=True)
class ReadList:
    """A whole list. `limits_hit` are sentences on what was left out because a stated limit was reached."""

    lines: tuple[ReadLine, ...]
    skipped: tuple[Skipped, ...] = ()
    sources: tuple[Source, ...] = ()
    limits_hit: tuple[str, ...] = ()
