"""Which column of a list holds what: by its headings, or by what stands in it where there are none."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from service.intake.planting_list.amounts import read_count, read_price, take_price
from service.intake.planting_list.headings import Role, heading_row, role_of, roles_of
from service.intake.planting_list.phrase import Phrase
from service.intake.planting_list.sizes import take_size

_LOOKED_AT = 200
_ENOUGH = 0.6
_NAMES = 0.4
_RUNNING = 3
Reader = Callable[[str], Phrase]


@dataclass(frozen=True, slots=True)
class Columns:
    """The roles of the columns; without a column of names a row is read as one text.

    `heading` is the place of the row of headings among the first rows, `headings` is how it is written.
    """

    roles: tuple[Role | None, ...] = ()
    heading: int | None = None
    headings: tuple[str, ...] = ()

    def __contains__(self, role: Role) -> bool:
        return role in self.roles

    def cells(self, cells: Sequence[str]) -> dict[Role, str]:
        """What a row holds of each role; several notes are joined."""
        found: dict[Role, str] = {}
        for role, cell in zip(self.roles, cells, strict=False):
            if role and (text := cell.strip()):
                found[role] = f"{found[role]}; {text}" if role in found else text
        return found


def columns_of(rows: Sequence[Sequence[str]], read: Reader) -> Columns:
    """The columns of a table whose first rows these are."""
    seen = rows[:_LOOKED_AT]
    if not seen:
        return Columns()

    def is_named(cell: str) -> bool:
        return bool(cell.strip()) and role_of(cell) is None and _is_name(read(cell))

    place = heading_row(seen, [any(map(is_named, cells)) for cells in seen[:30]])
    if place is not None:
        body, written = seen[place + 1 :], [cell.strip() for cell in seen[place]]
        told = ["" if role_of(cell) == "quantity" and _runs(body, at) else cell for at, cell in enumerate(written)]
        return Columns(roles_of(told), place, tuple(written))
    return Columns(_by_content(seen, read))


def _by_content(rows: Sequence[Sequence[str]], read: Reader) -> tuple[Role | None, ...]:
    """The roles of columns without headings; none where no column holds mostly names."""
    width = max(len(cells) for cells in rows)
    if width < 2:
        return ()
    columns = [[cells[at].strip() for cells in rows if at < len(cells) and cells[at].strip()] for at in range(width)]
    shares = [_share(column, lambda cell: _is_name(read(cell))) for column in columns]
    if max(shares) < _NAMES:
        return ()
    roles: list[Role | None] = [None] * width
    roles[shares.index(max(shares))] = "name"
    for at, column in enumerate(columns):
        role = _role(column, read) if roles[at] is None else None
        if role and role not in roles:
            roles[at] = role
        elif roles[at] is None and column and not _counts(column):
            roles[at] = "note"
    return tuple(roles)


def _role(column: list[str], read: Reader) -> Role | None:
    priced = any(take_price(cell)[1] for cell in column)
    tests: tuple[tuple[Role, Callable[[str], bool]], ...] = (
        ("quantity", lambda cell: (count := read_count(cell)) is not None and count.trees is not None),
        ("price", lambda cell: priced and read_price(cell) is not None),
        ("rootstock", lambda cell: (root := read(cell).root) is not None and root[1] is not None),
        ("crop", lambda cell: bool(read(cell).crops) and not read(cell).called),
        ("size", lambda cell: take_size(cell)[1] is not None),
    )
    if not column or _is_running(column):
        return None
    return next((role for role, test in tests if _share(column, test) >= _ENOUGH), None)


def _runs(rows: Sequence[Sequence[str]], at: int) -> bool:
    return _is_running([cells[at].strip() for cells in rows if at < len(cells) and cells[at].strip()])


def _is_running(column: Sequence[str]) -> bool:
    """Whether a column numbers its rows: 1, 2, 3 and so on."""
    return len(column) >= _RUNNING and all(cell.strip("#. ") == str(at) for at, cell in enumerate(column, 1))


def _counts(column: Sequence[str]) -> bool:
    return all(cell.strip("#. ").isdecimal() for cell in column)


def _is_name(phrase: Phrase) -> bool:
    return any(called.bearers for called in phrase.called)


def _share(column: Sequence[str], test: Callable[[str], bool]) -> float:
    return sum(test(cell) for cell in column) / len(column) if column else 0.0
