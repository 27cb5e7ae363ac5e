"""How a reading is written down to be reviewed: what was written, what was read, what was left out.

    python -m tests.lists.golden        # writes every reading anew; review the difference before it is kept
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from service.domain.errors import NotUnderstood
from service.domain.planting_list import Near, ReadLine, ReadList, ReadName, ReadPrice, ReadSize, Source
from service.intake.planting_list import ListReader, Upload
from service.knowledge.catalogue import read_catalogue
from service.settings import CHECKOUT

HERE = Path(__file__).parent
GOLDEN = HERE / "golden"


def lists() -> list[Path]:
    """The lists of the corpus."""
    return sorted(path for path in HERE.iterdir() if path.name[:2].isdecimal())


def golden_of(path: Path) -> Path:
    """The reviewed reading of a list."""
    return GOLDEN / f"{path.name}.txt"


def reading(reader: ListReader, path: Path) -> str:
    """The reading of a list as text."""
    try:
        return "\n".join(rendered(reader.read(Upload(path.read_bytes(), path.name)))) + "\n"
    except NotUnderstood as refused:
        return f"refused: {refused}\n"


def rendered(read: ReadList) -> Iterator[str]:
    """A list in lines."""
    for source in read.sources:
        yield _source(source)
    for line in read.lines:
        yield f"{line.line}. {line.written}"
        yield from (f"     {part}" for part in _parts(line))
    for skipped in read.skipped:
        yield f"-- {skipped.why}: {skipped.row.text}"
    yield from (f"!! {sentence}" for sentence in read.limits_hit)


def _source(source: Source) -> str:
    place = " / ".join(filter(None, (source.place.attachment, source.place.sheet)))
    told = [source.kind, source.encoding, repr(source.separator) if source.separator else "", place]
    return "# " + ", ".join(filter(None, told)) + (f": {' | '.join(source.headings)}" if source.headings else "")


def _parts(line: ReadLine) -> Iterator[str]:
    for name in line.names:
        yield _name(name)
    told = {
        "quantity": line.quantity,
        "rootstock": line.rootstock and f"{line.rootstock.how} {line.rootstock.rootstock or line.rootstock.written}",
        "size": line.size and _size(line.size),
        "price": line.price and _price(line.price),
        "note": line.note,
        "marks": " ".join(line.marks) or None,
    }
    yield from (f"{what}: {value}" for what, value in told.items() if value is not None)


def _name(name: ReadName) -> str:
    meant = name.cultivar or (f"({name.crop})" if name.crop else "?")
    return f"“{name.written}” {name.how} {meant}{_alternatives(name.alternatives)}"


def _alternatives(near: tuple[Near, ...]) -> str:
    return f", or {', '.join(one.id for one in near)}" if near else ""


def _size(size: ReadSize) -> str:
    told = {
        "tree": size.tree, "form": size.form, "container": size.container, "box_in": size.box_in,
        "height_ft": size.height_ft, "caliper_in": size.caliper_in,
    }  # fmt: skip
    return ", ".join(f"{what} {value}" for what, value in told.items() if value is not None)


def _price(price: ReadPrice) -> str:
    each = {True: "each", False: "for all", None: ""}[price.each]
    return " ".join(filter(None, (str(price.amount), price.currency, each)))


def main() -> None:
    """Write every reading anew."""
    reader = ListReader(read_catalogue(CHECKOUT / "rules"))
    GOLDEN.mkdir(exist_ok=True)
    for path in lists():
        golden_of(path).write_text(reading(reader, path), encoding="utf-8")


if __name__ == "__main__":
    main()
