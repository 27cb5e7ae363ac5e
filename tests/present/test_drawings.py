"""Each sign has a drawing of its own, well formed and without anything from elsewhere."""

from __future__ import annotations

from xml.etree import ElementTree

from service.present.drawings import drawing_of
from service.present.drawings.marks import MARKS
from service.present.drawings.outlines import OUTLINES
from service.present.drawings.signs import DRAWN
from service.reasoning.rulebook import Rulebook


def test_every_sign_is_drawn_and_nothing_else(rulebook: Rulebook) -> None:
    assert set(DRAWN) == set(rulebook.catalogue.signs)


def test_no_two_signs_look_the_same() -> None:
    assert len(set(DRAWN.values())) == len(DRAWN)


def test_every_outline_and_every_mark_is_used() -> None:
    assert {outline for outline, _ in DRAWN.values()} == set(OUTLINES)
    assert {mark for _, marks in DRAWN.values() for mark in marks} == set(MARKS)


def test_every_drawing_is_svg_with_a_title_and_no_addresses(rulebook: Rulebook) -> None:
    for sign in rulebook.catalogue.signs.values():
        drawn = drawing_of(sign.id, sign.part, title=sign.name)
        top = ElementTree.fromstring(drawn)
        assert top.tag == "{http://www.w3.org/2000/svg}svg"
        assert top[0].text == sign.name
        assert "href" not in drawn


def test_a_sign_of_another_rulebook_is_drawn_as_its_part() -> None:
    assert OUTLINES["crown"] in drawing_of("rt_new_one", "root_crown", title="<new>")


def test_a_title_cannot_break_out_of_the_drawing() -> None:
    assert "<script>" not in drawing_of("lf_shothole", "leaf", title="<script>")
