"""A list of any length, checked and told part by part, in little memory.

    checking = ListInParts(stream, place, desk)
    for part in checking.parts():
        ...                                   # keep it
    told, verdict = checking.whole(tallies)   # what is told of the list as a whole, without its lines

A short list is looked at as a whole and comes as one part. Of a long one each part stands for itself, so that a check
that was broken off goes on after the parts that are kept.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, islice
from typing import Any, Protocol

import orjson

from service.domain.list_batch import Part, letters
from service.domain.planting_list import ReadLine, ReadList, Skipped, Source
from service.domain.units import Language
from service.present.advice import Advice
from service.present.planting_list import planting_list_advice
from service.present.planting_list_line import LineWriter
from service.present.sentences import Sentences
from service.questions.planting_list import (
    LIST_WIDE,
    CheckedLine,
    CheckedList,
    LineChecker,
    ListPlace,
    PlantingListQuestion,
    Tally,
    check_list,
    judge_tally,
    not_judged_but,
    tally_of,
)
from service.questions.suggestion import Judges
from service.reasoning.rulebook import Rulebook

PART_LINES = 500
_SKIPPED_KEPT = 1_000
_FAST = 1  # of the levels of packing


class ListStream(Protocol):
    """Lines and skipped rows as they are read; what it was read from is known at the end."""

    sources: list[Source]

    @property
    def limits_hit(self) -> tuple[str, ...]:
        """Sentences on what was left out."""
        ...

    def __iter__(self) -> Iterator[ReadLine | Skipped]:
        """Read on."""
        ...


@dataclass(frozen=True, slots=True)
class Desk:
    """What a list is judged with, and in which language it is told."""

    rulebook: Rulebook
    judges: Judges
    language: Language = "en"


def packed(told: object) -> bytes:
    """What is told, as packed JSON."""
    return zlib.compress(orjson.dumps(told), _FAST)


def unpacked(told: bytes) -> Any:
    """What was packed."""
    return orjson.loads(zlib.decompress(told))


def json_pieces(told: Mapping[str, Any], parts: Iterable[bytes]) -> Iterator[bytes]:
    """The whole answer as JSON, piece by piece: what is told of the list, with the lines of its packed parts in it."""
    answer = {name: value for name, value in told["answer"].items() if name != "lines"}
    yield orjson.dumps({name: value for name, value in told.items() if name != "answer"})[:-1]
    yield b',"answer":' + orjson.dumps(answer)[:-1] + b',"lines":['
    between = b""
    for part in parts:
        lines = zlib.decompress(part)[1:-1]
        if lines:
            yield between + lines
            between = b","
    yield b"]}}"


class ListInParts:
    """One list on its way through the check."""

    def __init__(self, stream: ListStream, place: ListPlace, desk: Desk) -> None:
        self._stream, self._place, self._desk = stream, place, desk
        self._skipped, self._skips = list[Skipped](), 0
        self._short: CheckedList | None = None
        self._checker = LineChecker(place, rulebook=desk.rulebook, matcher=desk.judges.sweeping)

    def parts(self, *, done: int = 0, lines_done: int = 0) -> Iterator[Part]:
        """The parts that are still to do, where so many parts with so many lines are kept already."""
        most = int(self._desk.rulebook.limits[LIST_WIDE].value)
        lines = self._lines()
        first = list(islice(lines, most + 1))
        if len(first) <= most and not done:
            yield self._whole_list(first)
        else:
            yield from self._by_lines(chain(first, lines), done, lines_done)

    def whole(self, tallies: Iterable[Mapping[str, Any]]) -> tuple[dict[str, Any], str]:
        """What is told of the list as a whole, and its verdict, when all parts are done; `tallies` are those of all."""
        if self._short is not None:
            told = planting_list_advice(self._short, rulebook=self._desk.rulebook, language=self._desk.language)
            told["answer"]["lines"] = []
            return told, self._short.verdict
        counted = _Counted()
        for tally in tallies:
            counted.add(tally)
        checked = self._counted_only(counted)
        told = planting_list_advice(checked, rulebook=self._desk.rulebook, language=self._desk.language)
        sentences = self._sentences(checked.site.southern)
        there = {one["id"] for one in told["cautions"]}
        more = [name for name in counted.cautions if name not in there]
        told["cautions"] += [{"id": name, "text": sentences.caution(name)} for name in more]
        return told, checked.verdict

    def _lines(self) -> Iterator[ReadLine]:
        for one in self._stream:
            if isinstance(one, ReadLine):
                yield one
            else:
                self._skips += 1
                if len(self._skipped) < _SKIPPED_KEPT:
                    self._skipped.append(one)

    def _read(self, lines: Sequence[ReadLine]) -> ReadList:
        sources, hit = tuple(self._stream.sources), self._stream.limits_hit
        return ReadList(tuple(lines), tuple(self._skipped), sources, hit)

    def _sentences(self, southern: bool) -> Sentences:
        return Sentences(self._desk.rulebook, language=self._desk.language, southern=southern)

    def _whole_list(self, lines: Sequence[ReadLine]) -> Part:
        question = PlantingListQuestion(self._read(lines), self._place)
        self._short = check_list(question, rulebook=self._desk.rulebook, judges=self._desk.judges)
        return self._part(0, self._short.lines, self._writer())

    def _by_lines(self, lines: Iterator[ReadLine], done: int, lines_done: int) -> Iterator[Part]:
        for line in islice(lines, lines_done):
            self._checker.repeated(line)  # judged before, but later lines may repeat it
        writer, number, part = self._writer(), done, list[CheckedLine]()
        for line in lines:
            part.append(self._checker.check(line))
            if len(part) == PART_LINES:
                yield self._part(number, part, writer)
                number, part = number + 1, []
        if part:
            yield self._part(number, part, writer)

    def _writer(self) -> LineWriter:
        book, southern = self._desk.rulebook, self._checker.here.place.site.southern
        sentences = self._sentences(southern)
        return LineWriter(book, sentences, Advice(book, sentences), southern=southern)

    def _part(self, number: int, lines: Sequence[CheckedLine], writer: LineWriter) -> Part:
        counted = _Counted()
        for line in lines:
            counted.count(line)
        told = packed([writer.line(line) for line in lines])
        return Part(number, len(lines), letters([line.verdict for line in lines]), counted.plain(), told)

    def _counted_only(self, counted: _Counted) -> CheckedList:
        """The list by what was counted of it."""
        read, here, book = self._read(()), self._checker.here.place, self._desk.rulebook
        judgement = judge_tally(read, counted.tally, self._checker, matcher=self._desk.judges.sweeping)
        known = counted.known | set(judgement.facts)
        return CheckedList(
            place=self._place,
            site=here.site,
            site_facts=here.facts,
            lines=(),
            judgement=judgement,
            totals=counted.tally.totals(self._skips),
            whole=False,
            skipped=read.skipped,
            sources=read.sources,
            limits_hit=read.limits_hit,
            not_judged=not_judged_but(known, here.facts, rulebook=book),
        )


class _Counted:
    """What is counted of lines: their sums, the cautions that rules on them bring, and the facts that are known."""

    def __init__(self) -> None:
        self.tally, self.cautions, self.known = Tally(), dict[str, None](), set[str]()

    def count(self, line: CheckedLine) -> None:
        self.tally.add(line)
        for name in line.names:
            self.known.update(name.judgement.facts)
            for rule in name.judgement.rules:
                self.cautions.update(dict.fromkeys(rule.cautions))

    def add(self, plain: Mapping[str, Any]) -> None:
        self.tally.merge(tally_of(plain["tally"]))
        self.cautions.update(dict.fromkeys(plain["cautions"]))
        self.known.update(plain["known"])

    def plain(self) -> dict[str, Any]:
        return {"tally": self.tally.plain(), "cautions": list(self.cautions), "known": sorted(self.known)}
