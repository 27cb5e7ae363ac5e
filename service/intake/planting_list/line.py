"""One row read as one line: its cells by their roles, and what stands in the cell of the name beside the name."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from service.domain.planting_list import Mark, ReadLine, ReadName, ReadPrice, ReadRootstock, ReadSize, WrittenRow
from service.intake.planting_list.amounts import Count, read_count, read_price
from service.intake.planting_list.columns import Columns
from service.intake.planting_list.headings import Role
from service.intake.planting_list.lexicon import Lexicon
from service.intake.planting_list.limits import ListLimits
from service.intake.planting_list.naming import Around, Naming
from service.intake.planting_list.phrase import Phrase
from service.intake.planting_list.sizes import read_size
from service.knowledge.spelling import plain

_SILENT = Phrase()


@dataclass(frozen=True, slots=True)
class Asked:
    """The cells of a line and the roles of their columns; `said` are crops that the rest of the row names."""

    cells: Sequence[str]
    columns: Columns
    said: tuple[str, ...] = ()


class LineReader:
    """Reads lines."""

    def __init__(
        self, lexicon: Lexicon, naming: Naming, phrase: Callable[[str], Phrase], limits: ListLimits
    ) -> None:
        self.lexicon, self.naming, self.phrase, self.limits = lexicon, naming, phrase, limits

    def read(self, asked: Asked, row: WrittenRow, *, number: int, around: Around) -> ReadLine | None:
        """The line of a row under its number, or None where the row names no tree at all."""
        return _Line(self, asked, around).read(number, row)


class _Line:
    """One line on its way: marks gather as it is read."""

    def __init__(self, reader: LineReader, asked: Asked, around: Around) -> None:
        self.reader, self.asked, self.around = reader, asked, around
        self.marks: list[Mark] = []
        self.cells = asked.columns.cells(asked.cells)
        self.phrase = reader.phrase(self._plain_text("name"))
        self.crop_phrase = reader.phrase(self.cells["crop"]) if "crop" in self.cells else _SILENT

    def read(self, number: int, row: WrittenRow) -> ReadLine | None:
        """The line under its number."""
        root = self._root()
        names = self._names(root)
        if not names and not self._names_a_tree():
            return None
        quantity, size, price = self._quantity(), self._size(), self._price()
        note = "; ".join(filter(None, (self.phrase.note, self._cell("note")))) or None
        if max(map(len, self.asked.cells)) > self.reader.limits.cell_characters:
            self.marks.append("cut_short")
        marks = tuple(dict.fromkeys(self.marks))
        return ReadLine(number, row.text, row, names, quantity, root, size, price, note, marks)

    def _cell(self, role: Role) -> str:
        return self.cells.get(role, "")

    def _plain_text(self, role: Role) -> str:
        """The text of a cell; of a formula only what it shows as text is kept."""
        text = self._cell(role)
        if text.startswith("=") and len(text) > 1:
            if text.startswith('="') and text.endswith('"') and '"' not in text[2:-1]:
                return text[2:-1]
            self.marks.append("formula")
            return ""
        return text

    def _names_a_tree(self) -> bool:
        """Whether a row without a name is a line all the same: it was meant as one and says how many or what for."""
        if "formula" in self.marks:
            return True
        return self.phrase.count is not None and self.phrase.root is not None

    def _names(self, root: ReadRootstock | None) -> tuple[ReadName, ...]:
        phrase = self.phrase
        if not phrase.called and any(called.bearers for called in self.crop_phrase.called):
            phrase = replace(phrase, called=self.crop_phrase.called, crops=phrase.crops or self.crop_phrase.crops)
        around = self._around_name(phrase, root)
        if not phrase.called:
            return self._crop_only(phrase, around)
        if phrase.choice:
            return (self.reader.naming.choice(phrase.called, around)[0],)
        if phrase.several:
            self.marks.append("several_on_one_tree")
        most = self.reader.limits.names_on_a_tree
        read = [self.reader.naming.name(called, around) for called in phrase.called[:most]]
        self.marks.extend(mark for _, marks in read for mark in marks)
        names = tuple({name.cultivar or name.written: name for name, _ in read}.values())
        if len(names) > 1 and not phrase.several:
            self.marks.append("several_names")
        self._check_root(root, names)
        return names

    def _around_name(self, phrase: Phrase, root: ReadRootstock | None) -> Around:
        column = self.crop_phrase.crops
        if self._cell("crop") and not column and not any(called.bearers for called in self.crop_phrase.called):
            self.marks.append("crop_not_known")
        carried = self.reader.lexicon.root_crops(root.rootstock) if root and root.rootstock else ()
        return Around(
            said=frozenset(phrase.crops), column=frozenset(column), row=frozenset(self.asked.said),
            root=frozenset(carried), heading=self.around.heading, mostly=self.around.mostly,
        )  # fmt: skip

    def _crop_only(self, phrase: Phrase, around: Around) -> tuple[ReadName, ...]:
        """A line that says the crop and no cultivar."""
        written = phrase.crop_written or self._cell("crop")
        if around.strong and written:
            self.marks.append("crop_only")
            return (ReadName(written, "not_recognised", None, around.sole),)
        self.marks.append("no_name")
        return ()

    def _check_root(self, root: ReadRootstock | None, names: Sequence[ReadName]) -> None:
        if root and root.rootstock:
            carried = self.reader.lexicon.root_crops(root.rootstock)
            if any(name.crop and name.crop not in carried for name in names):
                self.marks.append("rootstock_of_another_crop")

    def _root(self) -> ReadRootstock | None:
        cell = self._cell("rootstock")
        if cell and cell not in ("-", "–", "?", "n/a"):
            found = self.reader.lexicon.root(plain(cell)) or (self.reader.phrase(cell).root or ("", None))[1]
            if found is None and read_size(cell):
                return None
            return self._marked(self.reader.naming.root(cell, found))
        if self.phrase.root:
            return self._marked(self.reader.naming.root(*self.phrase.root))
        return None

    def _marked(self, root: ReadRootstock) -> ReadRootstock:
        if root.how == "not_recognised":
            self.marks.append("rootstock_not_recognised")
        return root

    def _quantity(self) -> int | None:
        cell = self._plain_text("quantity")
        count = read_count(cell) if cell else None
        if count and self.phrase.count and count != self.phrase.count:
            self.marks.append("quantity_in_two_places")
        return self._trees(count or self.phrase.count)

    def _trees(self, count: Count | None) -> int | None:
        if count is None:
            return None
        if count.trees is None or count.trees > self.reader.limits.most_trees:
            self.marks.append("quantity_not_read")
            return None
        if count.trees == 0:
            self.marks.append("quantity_is_zero")
        return count.trees

    def _size(self) -> ReadSize | None:
        cell = self._cell("size")
        size = read_size(cell) if cell else None
        if cell and size is None and cell not in ("-", "–", "?", "n/a"):
            self.marks.append("size_not_read")
        root = self._cell("rootstock")
        return size or self.phrase.size or (read_size(root) if root and not root[:1].isdigit() else None)

    def _price(self) -> ReadPrice | None:
        cell = self._plain_text("price")
        total = self._plain_text("total")
        price = read_price(cell, each=True) if cell else read_price(total, each=False) if total else None
        if cell and price is None and cell not in ("-", "–", "?", "n/a"):
            self.marks.append("price_not_read")
        return price or self.phrase.price
