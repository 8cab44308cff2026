"""Typed passages: what they become, the way back, and one line for each fault."""

import pytest
from hypothesis import given, settings
from kit.fences import DOCS, blocks
from kit.scores import phrases, shown, wanted

from bookgen.errors import BookgenError
from bookgen.model.phrase import Bar, Phrase, Sound
from bookgen.readers.score.passage import PassageFile, Wanted
from bookgen.readers.score.text import MOST_BYTES, passage_text, text_passage
from bookgen.readers.score.text_draft import QUARTER

ASKED = wanted(file="bars.passage")


def read(text: str, asked: Wanted = ASKED) -> PassageFile:
    return text_passage(text.encode(), asked)


def refused(text: str, asked: Wanted = ASKED) -> list[str]:
    with pytest.raises(BookgenError) as caught:
        read(text, asked)
    return str(caught.value).splitlines()


def test_bars_with_key_meter_and_number() -> None:
    found = read("title: Harbour air\nkey: D major\nmeter: 3/4\nbar: 12\nD4:2 F#4:4 | A4:2. |")

    assert found.title == "Harbour air"
    assert [bar.number for bar in found.phrase.bars] == ["12", "13"]
    assert found.phrase.bars[0].meter == (3, 4)
    assert found.phrase.bars[0].sharps == 2
    assert found.phrase.bars[1].meter is None
    assert found.findings == ()


def test_what_is_not_said_is_usual() -> None:
    found = read("D4 E4 F#4 G4")

    assert found.title == "bars"
    assert found.phrase.bars[0].meter == (4, 4)
    assert found.phrase.bars[0].sharps == 0
    assert [bar.number for bar in found.phrase.bars] == ["1"]


def test_an_upbeat_is_bar_0_and_told_of_no_one() -> None:
    found = read("meter: 3/4\nA4:4 | D4:2. | D4:2 |")

    assert [bar.number for bar in found.phrase.bars] == ["0", "1", "2"]
    assert found.findings == ()


def test_a_bar_that_does_not_last_as_long_as_its_meter_is_told() -> None:
    found = read("D4 E4 F4 G4 | A4:8 | D5:1 |")

    assert [str(finding) for finding in found.findings] == [
        "bars.passage, bar 2: it lasts 1/8 of a whole note, its meter is 4/4; count its lengths."
    ]


def test_comments_end_with_the_line_and_sharps_are_none() -> None:
    assert shown(read("# mine\nF#4:2 # the low one\n F##4 | # end")) == ["F#4:2 F##4 |"]


def test_some_bars_keep_key_and_meter_and_nothing_is_tied_into_them() -> None:
    text = "key: 3 flats\nmeter: 2/4\nD4:2 | ~D4:4 E4 | C4:2"
    found = read(text, wanted(bars=("2", "2"), file="bars.passage"))

    assert shown(found) == ["D4 E4 |"]
    assert found.phrase.bars[0].meter == (2, 4)
    assert found.phrase.bars[0].sharps == -3


def test_a_part_is_not_looked_for() -> None:
    found = read("D4:1", wanted(part="Violin II", file="bars.passage"))

    assert "a typed passage has no parts" in str(found.findings[0])


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("H4", "line 1: 'H4' is no pitch name; write a letter, #, ##, b or bb, and an octave."),
        ("\nD4:0", "line 2: '0' is no length; write 4 for a quarter, 8. with a dot, or 3/16."),
        ("D4:99/4", "line 1: '99/4' is no length; write 4 for a quarter, 8. with a dot, or 3/16."),
        ("D4=9", "line 1: '9' are no marks; write string, finger and o, e.g. =III2, =IV, =o."),
        ("D4=V", "line 1: there is no string V; the strings are I to IV."),
        ("(D4", "line 1: '(D4' opens a bracket; write a grace note as (C5) or (C5+E5)."),
        ("~D4", "line 1: ~D4 goes on from no D4 before it; leave out the ~."),
        ("D4+F4+A4+C5+E5", "line 1: 5 notes at once; write at most 4."),
        ("clef: alto\nD4", ("line 1: there is no setting 'clef'; the settings are title, "
         "composer, key, meter, bar, tempo.")),
        ("D4\nmeter: 3/4", "line 2: meter: changes only at a bar line; write | before it."),
        ("meter: 3/5\nD4", "line 1: '3/5' is no meter; write beats and beat, e.g. 3/4."),
        ("key: H\nD4", "line 1: 'H' is no key; write e.g. D major, B minor or 2 sharps."),
        ("key: G# major\nD4", ("line 1: 'G# major' has more than seven sharps or flats; "
         "write e.g. D major, B minor or 2 sharps.")),
        ("bar: last\nD4", ("line 1: 'last' is no bar number; write digits, with a small letter "
         "at most.")),
    ],
)  # fmt: skip
def test_a_fault_is_one_line_with_its_place(text: str, line: str) -> None:
    assert refused(text) == [f"bars.passage, {line}"]


def test_all_faults_are_told_at_once_up_to_twenty() -> None:
    assert len(refused("H4 D4 J4\n\nX")) == 3
    assert len(refused("H4 " * 50)) == 20
    assert len(refused("H4\n" * 50)) == 20


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing", "r:1 | r", "meter: 3/4", "| | |"])
def test_no_note_at_all_is_refused(text: str) -> None:
    assert refused(text) == [
        (
            "bars.passage: there is no note in it; "
            "docs/reference/passage-text.md shows how to write it."
        )
    ]


def test_what_is_no_utf_8_is_refused() -> None:
    with pytest.raises(BookgenError, match=r"this is no UTF-8 text; save it as UTF-8 text\."):
        text_passage("D4 Fläche".encode("latin-1"), ASKED)


def test_a_byte_order_mark_is_no_fault() -> None:
    assert shown(text_passage("\ufeffD4:1".encode(), ASKED)) == ["D4:1 |"]


def test_there_is_an_end_to_it() -> None:
    assert "more than 10000 sounds" in refused("D4:4 " * (MOST_BYTES // 5))[0]
    assert len(refused("D" * MOST_BYTES)[0]) < 200
    assert len(refused("D4=" + "1" * MOST_BYTES)[0]) < 200
    assert len(refused(f"key: {'x' * MOST_BYTES}\nD4")[0]) < 200


@settings(max_examples=60, deadline=None)
@given(phrase=phrases())
def test_a_phrase_is_read_back_from_its_text(phrase: Phrase) -> None:
    if any(not sound.is_rest for _, sound in phrase.sounds()):
        assert read(passage_text(phrase, title="x")).phrase == phrase


def test_a_phrase_with_a_gap_has_no_text() -> None:
    rest = Sound(QUARTER, QUARTER, ())

    with pytest.raises(ValueError, match="bar 1 has no sound at 0"):
        passage_text(Phrase((Bar("1", (rest,), 2 * QUARTER),)))
    with pytest.raises(ValueError, match="bar 1 has no sound at 0"):
        passage_text(Phrase((Bar("1", (), QUARTER),)))


def test_the_example_of_the_manual() -> None:
    (example,) = blocks(DOCS / "reference" / "passage-text.md")
    found = read(example.text)

    assert found.title == "Harbour air"
    assert found.findings == ()
    assert [bar.number for bar in found.phrase.bars] == ["12", "13", "14"]
    assert found.phrase.bars[0].sharps == 1
    assert shown(found) == [
        "{D4:8!p E4 F#4} G4:8. A4:16 B4:8!staccato |",
        "(A4) G4+B4:4 ~G4+C5 r |",
        "[D4=IV3:12 E4 F#4] A4=0:2 |",
    ]
