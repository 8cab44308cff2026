"""The spec of a book: what is wrong is told with file, line, chapter and mend."""

import contextlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.errors import BookgenError
from bookgen.model.drill import Lead
from bookgen.model.route import Return
from bookgen.readers.data_file import data_text
from bookgen.readers.supplement.file import parse_spec
from bookgen.readers.supplement.spec import Spec
from bookgen.words.speech import ENGLISH

STARTER = data_text("supplement.toml")
SMALL = """title = "A book"
[[chapter]]
title = "One"
hands = ["12"]
positions = ["1st"]
"""


def faults(text: str) -> list[str]:
    with pytest.raises(BookgenError) as caught:
        parse_spec(text, "book.toml", Path())
    assert caught.value.exit_code == 2
    return [ENGLISH.line(finding) for finding in caught.value.findings]


def small(line: str, *, top: bool = False) -> str:
    return f"{line}\n{SMALL}" if top else f"{SMALL}{line}\n"


def test_the_spec_to_begin_with_is_sound() -> None:
    spec = parse_spec(STARTER, "supplement.toml", Path())

    assert list(spec.instruments) == ["violin", "cello"]
    assert spec.languages == ("en", "de")
    assert spec.kinds == ("student", "teacher", "from-memory")
    assert [chapter.take for chapter in spec.chapters] == ["every", "way", "picked"]
    assert set(spec.title) == {"en", "de"}


def test_what_is_left_out_is_what_the_hand_takes() -> None:
    spec = parse_spec(SMALL, "book.toml", Path())
    (chapter,) = spec.chapters
    search = chapter.searches["violin"]

    assert {frame.span for frame in search.frames} == {1, 2}
    assert search.stages == {1, 2, 3, 4, 5}
    assert search.leads == set(Lead)
    assert search.backs == set(Return)
    assert search.strings == ((4, 3, 2, 1),)
    assert spec.title == {"en": "A book"}


@pytest.mark.parametrize(("hands", "comes"), [('["12"]', False), ('["12", "t1"]', True)])
def test_thumb_position_comes_where_a_hand_asks_for_it(hands: str, *, comes: bool) -> None:
    text = SMALL.replace('positions = ["1st"]\n', "").replace('["12"]', hands)
    spec = parse_spec(f'instruments = ["cello", "violin"]\n{text}', "book.toml", Path())
    (chapter,) = spec.chapters

    assert (chapter.searches["cello"].positions is None) == comes
    assert comes or "thumb" not in (chapter.searches["cello"].positions or ())
    assert chapter.searches["violin"].positions is None


WRONG_AT_TOP = {
    'instruments = ["tuba"]': "line 1, instruments: no instrument 'tuba'",
    "instruments = []": "line 1, instruments: an empty list is no list of instruments",
    'languages = ["xx"]': "line 1, languages: there is no catalogue of the language 'xx'",
    'editions = ["deluxe"]': "line 1, editions: 'deluxe' is no edition",
    'size = "9/4"': "line 1, size: violin has no size '9/4'; choose 4/4, 7/8, 3/4",
    "size = 3": "line 1, size: 3 is no size",
    'size.cello = "1/2"': "line 1, size: the book is not for the 'cello'",
    "subtitle = 5": "line 1, subtitle: 5 is no title",
    'preface = "# No"': "line 1, preface: line 1 of the text, '# No', is no plain paragraph",
    'preface.de = "Ja"\npreface.en = "Yes"': (
        "line 1, preface: the book is not in the language 'de'"
    ),
    'languages = ["en", "de"]\npreface.en = "Yes"': (
        "line 2, preface: nothing is written in the language de"
    ),
    'colour = "red"': "colour: there is no such key",
    "paper = 4": "line 1, paper: 4 is no paper",
}
WRONG_IN_CHAPTER = {
    "difficulty = [3, 2]": "line 6, chapter 1, difficulty: there is nothing from 3 to 2",
    'difficulty = "easy"': "line 6, chapter 1, difficulty: 'easy' is no limit of difficulty",
    "difficulty = [1, 2, 3]": "chapter 1, difficulty: a list is no limit of difficulty",
    "difficulty = -1": "line 6, chapter 1, difficulty: there is nothing from 0 to -1",
    'spacings = ["wide"]': "line 6, chapter 1, spacings: 'wide' is no spacing",
    "stages = [6]": "line 6, chapter 1, stages: 6 is no stage",
    "stages = []": "line 6, chapter 1, stages: an empty list is no list of stages",
    'strings = [["I", "II"]]': "line 6, chapter 1, strings: I II are no neighbours",
    'strings = [["V", "IV"]]': "line 6, chapter 1, strings: none of the instruments has a string V",
    'strings = [["IV"]]': "line 6, chapter 1, strings: a list is no run of strings",
    'take = "all"': "line 6, chapter 1, take: 'all' is no way to take drills",
    'take = "picked"': "line 2, chapter 1, drills: the chapter picks no drills",
    'drills = ["12-half-place2-strings4321-stage1-low-same"]': (
        "line 6, chapter 1, drills: drills are picked, but others are taken"
    ),
    'take = "way"\norder = ["stage"]': "line 7, chapter 1, order: the chapter has an order",
    "limit = 0": "line 6, chapter 1, limit: 0 is no number of drills",
    'order = ["size"]': "line 6, chapter 1, order: 'size' is nothing by which",
    'instruments = ["viola"]': "line 6, chapter 1, instruments: the book is not for the 'viola'",
    'text = "a `b`"': "line 6, chapter 1, text: line 1 of the text, 'a `b`', is no plain",
    'text = "a **b"': "line 6, chapter 1, text: a star of the paragraph in line 1",
    'take = "picked"\ndrills = ["12-half"]': (
        "line 7, chapter 1, drills: 'violin-12-half' is no key"
    ),
    'take = "picked"\ndrills = ["cello-12-half-place2-strings4321-stage1-low-same"]': (
        "line 7, chapter 1, drills: 'cello-12-half-place2-strings43"
    ),
    "returns = [1]": "line 6, chapter 1, returns: 1 is no way back",
}


@pytest.mark.parametrize("line", WRONG_AT_TOP)
def test_a_wrong_value_is_told_with_its_line(line: str) -> None:
    (said,) = faults(small(line, top=True))
    assert WRONG_AT_TOP[line] in said
    assert said.startswith("book.toml, ")
    assert "; " in said


@pytest.mark.parametrize("line", WRONG_IN_CHAPTER)
def test_a_wrong_value_of_a_chapter_is_told_with_line_and_chapter(line: str) -> None:
    (said,) = faults(small(line))
    assert WRONG_IN_CHAPTER[line] in said
    assert "; " in said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "title: the book has no title"),
        ('title = "x"', "there are 0 chapters"),
        ('title = "x"\nchapter = []', "line 2, chapter: there are 0 chapters"),
        ('title = "x"\nchapter = [3]', "chapter 1: 3 is no table"),
        ("title = ", "book.toml: "),
        ("title = 'x'\nchapter = " + "[" * 2000, "book.toml: "),
        ("title = ' '", "line 1, title: ' ' is no title"),
        (
            'title.en = "x"\ntitle.de = 0\nlanguages = ["en", "de"]\n[[chapter]]\ntitle = "b"',
            "book.toml, line 2, title.de: 0 is no title; ",
        ),
        (
            'title = "x"\n[[chapter]]\ntitle = "b"\ntext.en = "a"\ntext."de" = [1]',
            "book.toml, line 5, chapter 1, text.de: a list is no text; ",
        ),
        (
            'title = "x"\nisbn.violin-en-student = 978\n[[chapter]]\ntitle = "b"',
            "line 2, isbn.violin-en-student: 978 is no ISBN in quotes; ",
        ),
        (
            '[[chapter]]\n[[chapter]]\ntitle="b"',
            "line 1, chapter 1, title: the chapter has no title",
        ),
    ],
)
def test_a_file_that_is_no_spec_is_told(text: str, said: str) -> None:
    assert any(said in fault for fault in faults(text))


def test_a_table_where_a_list_of_tables_is_wanted_is_told_once() -> None:
    (said,) = faults('title = "x"\n[chapter]\ntitle = "y"')
    assert said.startswith("book.toml, line 2, chapter: a table is no list of chapters; ")


def test_everything_that_is_wrong_is_told_at_once() -> None:
    text = SMALL.replace('"12"', '"17"').replace('"1st"', '"99th"').replace("A book", "")
    assert len(faults(text)) == 3


def test_an_instrument_may_be_a_file_of_ones_own(tmp_path: Path) -> None:
    (tmp_path / "small_violin.toml").write_text('like = "violin"\nname = "Small"', encoding="utf-8")
    spec = parse_spec(
        small('instruments = ["./small_violin.toml", "violin"]', top=True), "book.toml", tmp_path
    )

    assert list(spec.instruments) == ["small_violin", "violin"]
    assert spec.chapters[0].searches.keys() == {"small_violin", "violin"}
    assert "cannot be read" in faults(small('instruments = ["./none.toml"]', top=True))[0]


def test_a_hand_that_one_of_the_instruments_has_is_none_too_many() -> None:
    text = small('instruments = ["violin", "cello"]', top=True).replace('"12"', '"13"')
    spec = parse_spec(f'{text}spacings = ["whole"]\n', "book.toml", Path())

    assert spec.chapters[0].searches["cello"].frames
    assert not spec.chapters[0].searches["violin"].frames


@given(st.text(max_size=60), st.integers(0, len(STARTER)))
def test_no_spec_however_broken_is_a_fault_of_ours(noise: str, at: int) -> None:
    text = STARTER[:at] + noise + STARTER[at + len(noise) :]
    with contextlib.suppress(BookgenError):
        assert isinstance(parse_spec(text, "book.toml", Path()), Spec)


def test_a_size_is_one_for_all_or_one_for_each() -> None:
    spec = parse_spec(
        small('instruments = ["violin", "cello"]\nsize = "3/4"', top=True), "book.toml", Path()
    )
    assert spec.sizes == {"violin": "3/4", "cello": "3/4"}
    spec = parse_spec(
        small('instruments = ["violin", "cello"]\nsize.cello = "1/2"', top=True), "x", Path()
    )
    assert spec.sizes == {"violin": "4/4", "cello": "1/2"}


@pytest.mark.parametrize(
    ("line", "bounds"), [("difficulty = 3", (0.0, 3.0)), ("difficulty = [2, 3.5]", (2.0, 3.5))]
)
def test_a_limit_of_difficulty_is_the_most_or_the_least_and_the_most(
    line: str, bounds: tuple[float, float]
) -> None:
    assert parse_spec(small(line), "book.toml", Path()).chapters[0].difficulty == bounds
