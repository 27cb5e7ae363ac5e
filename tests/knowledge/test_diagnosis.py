"""What is known of sick trees: strict files, and knowledge that hangs together."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from service.domain.disorder import Disorder
from service.domain.errors import KnowledgeFault
from service.knowledge.catalogue import Catalogue
from service.knowledge.diagnosis import DiagnosisKnowledge, read_diagnosis
from service.knowledge.look_alike_file import telling

SMALL: Mapping[str, str] = {
    "signs.yaml": """\
signs:
  - {id: holes, part: leaf, name: holes, name_es: agujeros, ask: "Holes?", ask_es: "¿Agujeros?", needs: hand_lens}
  - {id: dust, part: leaf, name: dust, name_es: polvo, ask: "Dust?", ask_es: "¿Polvo?", synonyms: [powder]}
""",
    "samples.yaml": """\
samples:
  - id: leaf
    how: {text: pressed flat, text_es: prensada}
    too_late: {text: once dry, text_es: ya seca}
    sources: [a-book]
""",
    "conditions.yaml": "conditions: [{id: rain, about: weather, text: rain, text_es: lluvia}]\n",
    "measures.yaml": "measures: [{id: rake, kind: mechanical, text: rake, text_es: rastrille}]\n",
    "disorders/fungus.yaml": """\
disorders:
  - id: first_spot
    name: first spot
    name_es: primera mancha
    hosts: {common: [peach], rare: [almond]}
    uncertain_hosts: [apricot]
    confused_on: [{crops: [plum], look_for: [second_spot]}]
    stages: [bloom]
    signs: {typical: [holes], rules_out: [dust]}
    favoured_by: [rain]
    urgency: low
    regulated: none
    sample: leaf
    bring: {text: leaves, text_es: hojas}
    measures: [rake]
    sources: [a-book]
    recalled: [stages]
  - id: second_spot
    name: second spot
    name_es: segunda mancha
    hosts: {common: [plum]}
    stages: [bloom, ripening]
    signs: {typical: [dust], sometimes: [holes]}
    urgency: high
    regulated: none
    sample: leaf
    bring: {text: leaves, text_es: hojas}
    sources: [a-book]
""",
    "look_alikes.yaml": """\
pairs:
  - of: [first_spot, second_spot]
    check: {text: rub it, text_es: frote}
    first: {text: clean, text_es: limpio}
    second: {text: dusty, text_es: con polvo}
""",
    "complaints.yaml": """\
complaints:
  - id: spotted
    group: growth_and_leaves
    name: spots
    name_es: manchas
    says: [spots all over]
    says_es: [manchas por todas partes]
    ask_for: [dust]
    causes: [{disorder: first_spot, sources: [a-book]}, {name: old age, name_es: vejez, sources: [a-book]}]
""",
}
# The maggots of these flies look alike to the eye: only an expert tells them apart, and that is what the pair says.
ONLY_AN_EXPERT = {
    ("cherry_fruit_fly", "european_cherry_fruit_fly"),
    ("cherry_fruit_fly", "exotic_fruit_flies"),
    ("european_cherry_fruit_fly", "exotic_fruit_flies"),
}
Read = Callable[..., DiagnosisKnowledge]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """Reads the small folder; one text of one file may be replaced by another."""

    def reading(file: str = "", wrong: str = "", instead: str = "") -> DiagnosisKnowledge:
        (tmp_path / "disorders").mkdir()
        for name, text in SMALL.items():
            assert name != file or wrong in text
            (tmp_path / name).write_text(text.replace(wrong, instead, 1) if name == file else text, encoding="utf-8")
        return read_diagnosis(tmp_path, sources={"a-book"}, crops={"peach", "almond", "apricot", "plum", "fig"})

    return reading


def test_a_folder_without_the_files_knows_nothing(tmp_path: Path) -> None:
    assert read_diagnosis(tmp_path, sources=(), crops=()) == DiagnosisKnowledge()


def test_the_file_says_the_kind_and_a_crop_named_nowhere_is_no_host(read: Read) -> None:
    first = read().disorders["first_spot"]
    assert first.kind == "fungus"
    standings = [first.standing(crop) for crop in ("peach", "almond", "apricot", "plum", "fig")]
    assert standings == ["common", "rare", "uncertain", "not_host", "not_host"]
    assert first.confused_on == {"plum": ("second_spot",)}


def test_a_pair_is_written_once_and_told_from_both_sides(read: Read) -> None:
    knowledge = read()
    there, back = (
        knowledge.disorders["first_spot"].like("second_spot"),
        knowledge.disorders["second_spot"].look_alikes[0],
    )
    assert there is not None
    assert (there.this_shows, there.other_shows) == (back.other_shows, back.this_shows)
    assert back.this_shows.text == "dusty"
    assert back.telling == ("dust",)
    assert there.telling == ()


def test_a_cause_of_a_complaint_takes_its_name_from_the_disorder(read: Read) -> None:
    complaint = read().complaints["spotted"]
    assert [(cause.disorder, cause.name) for cause in complaint.causes] == [
        ("first_spot", "first spot"),
        (None, "old age"),
    ]
    assert complaint.disorders == ("first_spot",)
    assert complaint.signs == ("dust",)


@pytest.mark.parametrize(
    ("file", "wrong", "instead", "sentence"),
    [
        ("signs.yaml", "Holes?", "Holes.", "a question ends in “?”"),
        ("signs.yaml", "hand_lens", "hand_lense", "did you mean “hand_lens”?"),
        ("signs.yaml", "id: dust", "id: holes", "the id “holes” stands twice"),
        ("samples.yaml", "    sources: [a-book]\n", "", "an entry needs at least one id under “sources”"),
        ("conditions.yaml", "about: weather", "about: wether", "did you mean “weather”?"),
        ("measures.yaml", "kind: mechanical", "kind: chemical", "“chemical” is not one of"),
        ("disorders/fungus.yaml", "typical: [holes]", "typical: [hole]", "did you mean “holes”?"),
        ("disorders/fungus.yaml", "typical: [holes], rules_out", "rules_out", "at least one typical sign"),
        ("disorders/fungus.yaml", "rules_out: [dust]", "rules_out: [holes]", "“holes” stands twice"),
        ("disorders/fungus.yaml", "rare: [almond]", "rare: [peach]", "“peach” has two levels"),
        ("disorders/fungus.yaml", "[apricot]", "[peach]", "“peach” stands both among the hosts and elsewhere"),
        ("disorders/fungus.yaml", "stages: [bloom]", "stages: [blooming]", "did you mean “bloom”?"),
        ("disorders/fungus.yaml", "look_for: [second_spot]", "look_for: [third_spot]", "is not a disorder"),
        (
            "disorders/fungus.yaml",
            "look_for: [second_spot]",
            "look_for: [first_spot]",
            "plum is no host of “first_spot”",
        ),
        ("disorders/fungus.yaml", "favoured_by: [rain]", "favoured_by: [reign]", "“reign” is not known here"),
        ("disorders/fungus.yaml", "sample: leaf", "sample: leaves", "did you mean “leaf”?"),
        ("disorders/fungus.yaml", "recalled: [stages]", "recalled: [stage]", "did you mean “stages”?"),
        ("disorders/fungus.yaml", "id: second_spot", "id: first_spot", "the id “first_spot” stands twice"),
        ("look_alikes.yaml", "[first_spot, second_spot]", "[first_spot, first_spot]", "a pair names two disorders"),
        ("look_alikes.yaml", "    second:", "    secnd:", "did you mean “second”?"),
        ("complaints.yaml", "disorder: first_spot", "disorder: first_spott", "did you mean “first_spot”?"),
        ("complaints.yaml", "    says: [spots all over]\n", "", "needs the words of customers under “says”"),
    ],
)
def test_a_faulty_entry_is_told_with_what_is_wrong(
    read: Read, file: str, wrong: str, instead: str, sentence: str
) -> None:  # fmt: skip
    with pytest.raises(KnowledgeFault) as caught:
        read(file, wrong, instead)
    assert sentence in str(caught.value)
    assert str(caught.value).startswith(file)


def test_a_pair_that_stands_twice_is_refused(read: Read) -> None:
    again = SMALL["look_alikes.yaml"] + SMALL["look_alikes.yaml"].removeprefix("pairs:\n").replace(
        "[first_spot, second_spot]", "[second_spot, first_spot]"
    )
    with pytest.raises(KnowledgeFault, match="the pair stands twice"):
        read("look_alikes.yaml", SMALL["look_alikes.yaml"], again)


def test_a_file_of_an_unknown_kind_is_refused(tmp_path: Path) -> None:
    (tmp_path / "disorders").mkdir()
    (tmp_path / "disorders" / "fungi.yaml").write_text("disorders: []\n", encoding="utf-8")
    with pytest.raises(KnowledgeFault, match="“fungi” is not a kind of cause; did you mean “fungus”"):
        read_diagnosis(tmp_path, sources=(), crops=())


def test_every_sign_speaks_for_some_disorder(catalogue: Catalogue) -> None:
    named = {sign for one in catalogue.disorders.values() for sign in (*one.typical, *one.sometimes)}
    assert set(catalogue.signs) - named == set()


def test_every_condition_measure_and_sample_is_used(catalogue: Catalogue) -> None:
    knowledge, disorders = catalogue.diagnosis, catalogue.disorders.values()
    assert set(knowledge.conditions) == {name for one in disorders for name in one.favoured_by}
    treated = {each.id for one in catalogue.label.treatments.values() for each in one.measures}
    assert set(knowledge.measures) == {name for one in disorders for name in one.measures} | treated
    assert set(knowledge.samples) == {one.sample for one in disorders}


def test_no_two_disorders_of_a_crop_show_the_same(catalogue: Catalogue) -> None:
    seen: dict[tuple[str, frozenset[str], frozenset[str]], str] = {}
    for one in catalogue.disorders.values():
        for crop in one.hosts:
            key = (crop, frozenset(one.typical), frozenset(one.sometimes))
            first = seen.setdefault(key, one.id)
            assert first == one.id or (first, one.id) in ONLY_AN_EXPERT


def test_two_look_alikes_of_one_crop_can_be_told_apart_by_a_sign(catalogue: Catalogue) -> None:
    untold = {
        tuple(sorted((one.id, pair.disorder)))
        for one in catalogue.disorders.values()
        for pair in one.look_alikes
        if share_a_crop(one, catalogue.disorders[pair.disorder])
        and not pair.telling
        and not telling(catalogue.disorders[pair.disorder], one)
    }
    assert untold <= ONLY_AN_EXPERT


def share_a_crop(one: Disorder, other: Disorder) -> bool:
    return not set(one.hosts).isdisjoint(other.hosts)


def test_what_must_not_be_moved_is_regulated_and_has_the_sample_that_moves_nothing(catalogue: Catalogue) -> None:
    kept = [one for one in catalogue.disorders.values() if one.do_not_move]
    assert kept
    assert all(one.regulated != "none" and one.sample == "regulated" for one in kept)
