"""`fruitwright check-list`: check planting lists in files and folders; the exit code tells the worst of them."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, cast

import click
from flask import Flask

from service.api.planting_list_asked import TERMS, place_of, read_terms
from service.assembly import assemble
from service.batches.at_hand import CheckedFile, check_file, expected_in
from service.domain.checked_list import Verdict, worst
from service.domain.errors import FruitwrightError, NotUnderstood
from service.domain.units import Language
from service.knowledge.strict_yaml import read
from service.parts import Parts
from service.present.planting_list_out import SUFFIXES, Format, with_lines, write
from service.present.planting_list_parts import Desk
from service.questions.planting_list import ListPlace
from service.questions.suggestion import Judges
from service.settings import read_settings
from service.storage.stores import find_site

EXIT_CODES: Mapping[Verdict, int] = {"fits": 0, "caution": 3, "does_not_fit": 4, "not_recognised": 5}
NOT_READ = 1
PRINTED = ("text", "json")
UNKNOWN_LENGTH = 100
_LINES = {"fits": "fit", "caution": "with care", "does_not_fit": "do not fit", "not_recognised": "not recognised"}


@click.command("check-list")
@click.argument("files", nargs=-1, required=True, type=click.Path(exists=True, path_type=Path), metavar="FILE...")
@click.option("--site", required=True, metavar="SITE",
              help="Where the trees go: the id of a site that is kept, or a YAML or JSON file.")  # fmt: skip
@click.option("--format", "form", type=click.Choice(("text", "json", "xlsx", "pdf")), default="text", show_default=True,
              help="Form of the results.")  # fmt: skip
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), metavar="FOLDER",
              help="Folder for the results, one a list; without it text and JSON are printed.")  # fmt: skip
@click.option("--language", type=click.Choice(("en", "es")), help="Language of the sentences.")
def check_list(files: tuple[Path, ...], site: str, *, form: str, out: Path | None, language: str | None) -> None:
    """Check the planting list in each FILE; of a folder, all the files in it and below.

    The file of a SITE is the question as the API takes it (site, wishes, existing_trees, state, language), or what
    stands in its site alone. Every list may be of any length.

    \b
    The exit code tells the worst verdict of any line and of any list as a whole:
      0  all fits
      3  something asks for care
      4  something does not fit
      5  a name was not recognised
    and before these
      1  a list or the site could not be read
      2  the command was not understood
    """
    if out is None and form not in PRINTED:
        raise click.UsageError(f"--out is needed for --format {form}.")
    app = assemble(read_settings(os.environ))
    with app.app_context():
        desk, place = _desk_and_place(app, site, language)
        sys.exit(_Run(desk, place, cast(Format, form), out).check(tuple(_lists(files))))


class _Run:
    """One call of the command."""

    def __init__(self, desk: Desk, place: ListPlace, form: Format, out: Path | None) -> None:
        self.desk, self.place, self.form, self.out = desk, place, form, out
        self.verdicts, self.unread = list[Verdict](), False

    def check(self, paths: Sequence[Path]) -> int:
        """Check all lists; the exit code."""
        if not paths:
            raise FruitwrightError("There is no file in what was named.")
        lengths = [expected_in(path) or UNKNOWN_LENGTH for path in paths]
        with click.progressbar(length=sum(lengths), label="Checking", file=sys.stderr) as bar:
            for path, length in zip(paths, lengths, strict=True):
                self._one(path, length, bar)
        return NOT_READ if self.unread else EXIT_CODES[worst(self.verdicts)]

    def _one(self, path: Path, length: int, bar: Any) -> None:
        left = length

        def on(lines: int) -> None:
            nonlocal left
            step = min(lines, left)
            left -= step
            bar.update(step)

        try:
            checked = check_file(path, self.place, self.desk, on=on)
        except NotUnderstood as fault:
            self.unread = True
            click.echo(f"{path}: {'; '.join(detail for _, detail in fault.faults)}.", err=True)
        else:
            self.verdicts.append(checked.worst)
            self._write(checked)
            checked.parts.close()
            click.echo(f"{path}: {_in_words(checked)}", err=True)
        on(left)

    def _write(self, checked: CheckedFile) -> None:
        day = datetime.now(UTC).date()
        if self.out is None:
            write(with_lines(checked.told, checked.lines()), self.form, sys.stdout.buffer, on=day)
            click.echo()
            return
        self.out.mkdir(parents=True, exist_ok=True)
        with _free_name(self.out, checked.path.name, SUFFIXES[self.form]).open("xb") as file:
            write(with_lines(checked.told, checked.lines()), self.form, file, on=day)


def _lists(files: Sequence[Path]) -> Iterator[Path]:
    """The files, and those in folders in the order of their names; what is hidden is left out."""
    for path in files:
        if not path.is_dir():
            yield path
            continue
        inside = (one for one in sorted(path.rglob("*")) if one.is_file())
        yield from (one for one in inside if not any(part.startswith(".") for part in one.relative_to(path).parts))


def _free_name(folder: Path, name: str, suffix: str) -> Path:
    """A name for the result beside those that are there: two folders may hold lists of one name."""
    path, number = folder / (name + suffix), 2
    while path.exists():
        path, number = folder / f"{name}-{number}{suffix}", number + 1
    return path


def _desk_and_place(app: Flask, site: str, language: str | None) -> tuple[Desk, ListPlace]:
    parts: Parts = app.extensions["fruitwright"]
    try:
        terms = read_terms(_plain_terms(parts, site))
        place = place_of(terms)
    except NotUnderstood as fault:
        raise FruitwrightError("\n".join(f"--site {pointer}: {detail}" for pointer, detail in fault.faults)) from None
    spoken = cast(Language, language or terms.get("language") or "en")
    return Desk(parts.rulebook, Judges(sweeping=parts.sweeping, asking=parts.asking), spoken), place


def _plain_terms(parts: Parts, site: str) -> object:
    """What SITE says, as the API takes it."""
    if Path(site).is_file():
        said = read(Path(site))
        known = isinstance(said, Mapping) and not said.keys().isdisjoint(TERMS)
        return said if known else {"site": said}
    facts = find_site(parts.database, site)
    if facts is None:
        raise FruitwrightError(f"--site: there is no file '{site}', and no site of this id is kept.")
    return {"site": facts}


def _in_words(checked: CheckedFile) -> str:
    counts = ", ".join(f"{count:,} {_LINES[verdict]}" for verdict, count in checked.verdicts.items() if count)
    return f"{checked.list_verdict.replace('_', ' ')}; {sum(checked.verdicts.values()):,} lines: {counts or 'none'}."
