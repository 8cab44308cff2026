"""Brackets and signs of a typed passage, there and back."""

from fractions import Fraction

import pytest
from hypothesis import given
from kit.scores import markings, shown, wanted

from bookgen.errors import BookgenError
from bookgen.model.marking import NO_MARKING, Dynamic, Hairpin, Instruction, Marking, Sign, Tempo
from bookgen.readers.score.findings import WordError
from bookgen.readers.score.text import text_passage
from bookgen.readers.score.text_marking import marked, parted, tempo_said, tempo_text

ASKED = wanted(file="bars.passage")


@given(marking=markings)
def test_a_marking_is_read_back(marking: Marking) -> None:
    assert parted(marked("D4:8", marking)) == ("D4:8", marking)


def test_every_sign_has_one_name() -> None:
    names = [*Sign, *Dynamic, *Hairpin, *(term.replace(" ", "-") for term in Instruction), "end"]

    assert len(names) == len(set(names))
    assert all(parted(f"D4!{name}")[1] != NO_MARKING for name in names)


@pytest.mark.parametrize("word", ["{", "]", "[]", "D4!", "D4!loud", "D{4", "!p"])
def test_what_is_no_marking(word: str) -> None:
    with pytest.raises(WordError):
        parted(word)


def test_slurs_and_groups_stand_where_they_are_written() -> None:
    text = "{D4:8 [E4!accent F#4}] {G4 {A4!p} B4} r:4 |"

    assert shown(text_passage(text.encode(), ASKED)) == [text]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("{D4:1", ("bars.passage: a bracket is never closed; "
         "write } after a slur's last sound, ] after a group's.")),
        ("D4:1}", "bars.passage, line 1: a slur ends that has not begun; leave out the }."),
        ("D4:1]", "bars.passage, line 1: a group ends that has not begun; leave out the ]."),
        ("[D4:4 [E4 F4]", ("bars.passage, line 1: a group begins within another one; "
         "write ] after the last sound of the first.")),
        ("D4!loud", ("bars.passage, line 1: there is no sign 'loud'; "
         "write e.g. !accent, !trill-mark, !mf, !crescendo, !dolce.")),
        ("tempo: (\nD4", ("bars.passage, line 1: '(' is no tempo; "
         "write e.g. Allegro assai (4. = 84).")),
    ],
)  # fmt: skip
def test_a_fault_is_one_line(text: str, line: str) -> None:
    with pytest.raises(BookgenError) as caught:
        text_passage(text.encode(), ASKED)

    assert str(caught.value) == line


def test_some_bars_keep_whole_slurs_alone_and_the_tempo() -> None:
    text = "tempo: Presto\n{D4 E4 {F4 G4} | A4} {B4 C5} [D5 | E5] F5 [G5 A5]"
    found = text_passage(text.encode(), wanted(bars=("2", "2"), file="bars.passage"))

    assert shown(found) == ["A4 {B4 C5} D5 |"]
    assert found.phrase.bars[0].tempo == Tempo("Presto")


@pytest.mark.parametrize(
    ("text", "tempo"),
    [
        ("Allegro", Tempo("Allegro")),
        ("4 = 96", Tempo("", Fraction(1, 4), Fraction(96))),
        ("Andante, un poco (8. = 52)", Tempo("Andante, un poco", Fraction(3, 16), Fraction(52))),
    ],
)
def test_a_tempo_is_words_or_beats_or_both(text: str, tempo: Tempo) -> None:
    assert tempo_said(text) == tempo
    assert tempo_text(tempo) == text
