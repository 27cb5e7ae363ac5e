"""Every text of the pages is there in both languages, under the keys that the scripts and templates ask for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from service.domain.errors import KnowledgeFault
from service.pages import wording
from service.pages.form_fields import form_fields
from service.pages.wording import FOLDER, LANGUAGES, page_words

PAGES = FOLDER.parent
SCRIPTS = sorted(path for path in (PAGES / "static").rglob("*.mjs"))
TEMPLATES = sorted((PAGES / "templates").glob("*.html"))
ASKED = re.compile(r"""\bt\(\s*"([a-z_]+\.[^"]+)"|(?:title|button) = "([a-z_]+\.[^"]+)\"""")
STARTS = re.compile(r"""\bt\(\s*`([a-z_]+\.[a-z_]*)\$\{""")
IN_TEMPLATES = re.compile(r"""words\["([^"]+)"\]|data-t="([^"]+)\"""")
VALUES = re.compile(r"\{\w+\}")


def keys_in(text: str, pattern: re.Pattern[str]) -> set[str]:
    return {next(filter(None, found)) for found in pattern.findall(text)}


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: str(path.relative_to(PAGES)))
def test_every_text_that_a_script_asks_for_is_there(script: Path) -> None:
    text = script.read_text(encoding="utf-8")
    known = page_words("en")
    assert keys_in(text, ASKED) <= set(known)
    for start in STARTS.findall(text):
        assert any(key.startswith(start) for key in known), start


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.name)
def test_every_text_that_a_template_asks_for_is_there(template: Path) -> None:
    assert keys_in(template.read_text(encoding="utf-8"), IN_TEMPLATES) <= set(page_words("en"))


def test_both_languages_fill_in_the_same_values() -> None:
    english, spanish = page_words("en"), page_words("es")
    assert english.keys() == spanish.keys()
    for key, text in english.items():
        assert set(VALUES.findall(text)) == set(VALUES.findall(spanish[key])), key
        assert text.strip(), key
        assert spanish[key].strip(), key


def test_a_text_without_its_translation_is_refused(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "half.yaml").write_text('title: {en: "Pears", es: "Peras"}\nlead: {en: "Ripe"}\n', encoding="utf-8")
    monkeypatch.setattr(wording, "FOLDER", tmp_path)
    with pytest.raises(KnowledgeFault) as caught:
        page_words.__wrapped__("en")
    assert str(caught.value) == "words/half.yaml:2: lead: a text is told in en and in es"


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_words_of_choices_come_with_the_texts(client: FlaskClient, language: str) -> None:
    told = client.get(f"/words/{language}.json").json
    assert told["choice.open_centre"] == {"en": "open centre", "es": "vaso abierto"}[language]
    assert told["shell.ask"] == {"en": "Ask", "es": "Preguntar"}[language]


def test_a_language_that_the_pages_do_not_speak_is_not_found(client: FlaskClient) -> None:
    assert client.get("/words/fr.json").status_code == 404


def test_the_page_comes_in_the_language_that_the_browser_prefers(client: FlaskClient) -> None:
    page = client.get("/counter", headers={"Accept-Language": "es-MX,es;q=0.9,en;q=0.5"}).text
    assert '<html lang="es">' in page
    assert page_words("es")["shell.title"] in page


def test_every_question_has_its_fields(client: FlaskClient) -> None:
    fields = client.get("/fields.json").json
    assert fields["thinning-plans"]["/crop"]["needed"]
    length = fields["thinning-plans"]["/branches/{n}/length_in"]
    assert length == {"kind": "number", "unit": "in", "low": 1, "high": 600}
    assert fields["variety-suggestions"]["/wishes/harvest_months"]["kind"] == "months"
    assert fields["variety-suggestions"]["/site/last_spring_frost"]["kind"] == "month_day"
    assert fields["pruning-plans"]["/observations"]["kind"] == "checks"
    assert fields["season-plans"]["/trees"]["kind"] == "entries"


def test_a_question_that_takes_no_json_has_no_fields() -> None:
    document = {"components": {"schemas": {}}, "paths": {"/v1/diagnoses": {"post": {"requestBody": {"content": {}}}}}}
    assert form_fields(document) == {}
