"""MusicXML by hand, from the definitions of MusicXML 4.0: what the player of a violin reads."""

import pytest
from kit.scores import (
    DIVISIONS,
    attributes,
    back,
    bar,
    music,
    packed,
    part,
    parts,
    pitch_element,
    score,
    shown,
    typed,
    wanted,
)
from kit.shorthand import VIOLIN, pitch, specimen

from bookgen.errors import BookgenError
from bookgen.model.instrument import Instrument
from bookgen.readers.score.musicxml import musicxml_passage
from bookgen.readers.score.passage import PassageFile, Wanted

W3C = "MusicXML 4.0 (W3C Community Group), element definitions; examples written by hand"
pytestmark = pytest.mark.published(W3C)

BASS = specimen("double_bass")


def read(data: bytes, name: str | None = None, bars: tuple[str, str] | None = None) -> PassageFile:
    return musicxml_passage(data, wanted(name, bars))


def read_by(instrument: Instrument, data: bytes) -> PassageFile:
    return musicxml_passage(data, Wanted("song.musicxml", "song", instrument))


def told(found: PassageFile) -> list[str]:
    return [f"{str(finding.place).removeprefix('song.musicxml, ')}: {finding.problem}"
            for finding in found.findings]  # fmt: skip


def first_bar(inside: str, meter: str = "4/4", more: str = "") -> bytes:
    return score(bar(attributes(more, meter) + inside))


def test_notes_rests_and_chords() -> None:
    found = read(typed("G3:4 r D4+B4 G3+D4+B4+G5", "A4:2. r:4"))

    assert shown(found) == ["G3 r D4+B4 G3+D4+B4+G5 |", "A4:2. r:4 |"]
    assert found.findings == ()
    assert found.part == "Violin"


def test_key_and_meter_where_they_change() -> None:
    found = read(
        score(
            bar(attributes(meter="3/4", fifths=2) + music("D4:2."), "1"),
            bar(music("E4:2."), "2"),
            bar(attributes(meter="2/4", fifths=2) + music("F#4:2"), "3"),
        )
    )

    assert [(one.meter, one.sharps) for one in found.phrase.bars] == [
        ((3, 4), 2),
        (None, None),
        ((2, 4), None),
    ]


def test_key_and_meter_from_before_the_wanted_bars() -> None:
    data = score(
        bar(attributes(meter="3/4", fifths=-3) + music("Eb4:2."), "1"), bar(music("F4:2."), "2")
    )

    (only,) = read(data, bars=("2", "2")).phrase.bars

    assert (only.number, only.meter, only.sharps) == ("2", (3, 4), -3)


def test_a_meter_of_sums_is_one_meter() -> None:
    beats = "<time><beats>3+2</beats><beat-type>8</beat-type></time>"
    found = read(first_bar(music("D4:2 E4:8"), more=beats))

    assert found.phrase.bars[0].meter == (5, 8)


def test_tuplets_are_exact() -> None:
    found = read(typed("D4:12 E4 F4 G4:20 A4 B4 A4 G4 D4:28 E4 F4 G4 A4 B4 C5 D5:4"))

    durations = [sound.duration for _, sound in found.phrase.sounds()]

    assert sum(durations) == 1
    assert [str(duration) for duration in durations[::4]] == ["1/12", "1/20", "1/28", "1/28"]


def test_a_tied_note_goes_on_over_the_bar_line() -> None:
    assert shown(read(typed("D4:1", "~D4:2 ~D4+~A4:4 D4:4"))) == ["D4:1 |", "~D4:2 ~D4+A4:4 D4 |"]


def test_nothing_is_tied_into_the_first_wanted_bar() -> None:
    assert shown(read(typed("D4:1", "~D4:1"), bars=("2", "2"))) == ["D4:1 |"]


def test_grace_notes_have_no_time_and_stand_before_their_note() -> None:
    found = read(typed("(C5) (D5+F5) E5:2 F5:2 (E5)", "G5:1"))

    assert shown(found) == ["(C5) (D5+F5) E5:2 F5 (E5) |", "G5:1 |"]


def test_fingers_strings_open_strings_and_harmonics_are_kept() -> None:
    given = "A4=III4:4 D4=IV:4 E5=0 A5=Io"
    assert shown(read(typed(given))) == ["A4=III4 D4=IV E5=0 A5=Io |"]

    marks = "<notations><technical><open-string/></technical></notations></note>"
    opened = music("D4:1").replace("</note>", marks)
    assert shown(read(first_bar(opened))) == ["D4=0:1 |"]


def test_each_note_of_a_chord_keeps_its_own_finger_whatever_their_order() -> None:
    upper = music("B4=III1:1").replace("</pitch>", "</pitch>")
    lower = music("G3=IV0:1").replace("<note>", "<note><chord/>")

    assert shown(read(first_bar(upper + lower))) == ["G3=IV0+B4=III1:1 |"]


def test_the_first_choice_of_fingers_is_read_and_a_pianists_fifth_is_told() -> None:
    two = "<fingering alternate='yes'>3</fingering><fingering>2</fingering>"
    fingers = f"<notations><technical>{two}</technical></notations></note>"
    assert shown(read(first_bar(music("D5:1").replace("</note>", fingers)))) == ["D5=2:1 |"]

    found = read(first_bar(music("D5:1").replace("</note>", fingers.replace(">2<", ">5<"))))
    assert shown(found) == ["D5:1 |"]
    assert told(found) == ["bar 1: '5' is no finger of this hand and is left out"]


def test_a_string_that_the_instrument_has_not_is_told() -> None:
    marks = "<notations><technical><string>5</string></technical></notations></note>"
    found = read(first_bar(music("D5:1").replace("</note>", marks)))

    assert told(found) == ["bar 1: there is no string '5'; it is left out"]


def test_an_artificial_harmonic_is_its_stopped_note() -> None:
    def mark(kind: str) -> str:
        inside = f"<harmonic><artificial/><{kind}-pitch/></harmonic>"
        return f"<notations><technical>{inside}</technical></notations></note>"

    base = music("A4:1").replace("</note>", mark("base"))
    touched = music("D5:1").replace("</note>", mark("touching"))
    found = read(first_bar(base + touched.replace("<note>", "<note><chord/>")))

    assert shown(found) == ["A4:1 |"]
    assert told(found) == ["bar 1: an artificial harmonic is read as its stopped note"]


@pytest.mark.parametrize("change", [-1, -2, 1])
def test_the_octave_of_a_clef_is_in_the_pitches_already(change: int) -> None:
    clef = (
        "<clef><sign>G</sign><line>2</line>"
        f"<clef-octave-change>{change}</clef-octave-change></clef>"
    )
    assert shown(read(first_bar(music("A4:1"), more=clef))) == ["A4:1 |"]


def test_an_8va_sign_is_in_the_pitches_already() -> None:
    sign = (
        "<direction><direction-type><octave-shift type='down' size='8'/></direction-type>"
        "</direction>"
    )
    assert shown(read(first_bar(sign + music("A6:1")))) == ["A6:1 |"]


@pytest.mark.parametrize(
    ("transpose", "words"),
    [
        ("<diatonic>-1</diatonic><chromatic>-2</chromatic>", "D4:2 E4 |"),  # clarinet in B flat
        ("<chromatic>-2</chromatic>", "D4:2 E4 |"),
        ("<diatonic>-5</diatonic><chromatic>-9</chromatic>", "G3:2 A3 |"),  # saxophone in E flat
        ("<diatonic>0</diatonic><chromatic>0</chromatic><octave-change>1</octave-change>",
         "E5:2 F#5 |"),
        ("<chromatic>0</chromatic><octave-change>1</octave-change>", "E5:2 F#5 |"),
        ("<diatonic>4</diatonic><chromatic>-2</chromatic>", "D4:2 E4 |"),  # letters that cannot be
    ],
)  # fmt: skip
def test_a_transposing_part_is_read_at_concert_pitch(transpose: str, words: str) -> None:
    more = f"<transpose>{transpose}</transpose>"

    assert shown(read(first_bar(music("E4:2 F#4"), more=more))) == [words]


def test_the_key_is_transposed_too() -> None:
    more = "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>"
    data = score(bar(attributes(more, fifths=3) + music("B4:1")))

    found = read(data)

    assert shown(found) == ["A4:1 |"]
    assert found.phrase.bars[0].sharps == 1


def test_a_part_changes_its_transposition_on_the_way() -> None:
    to_a = "<transpose><diatonic>-2</diatonic><chromatic>-3</chromatic></transpose>"
    data = score(
        bar(attributes() + music("C5:1"), "1"),
        bar(f"<attributes>{to_a}</attributes>" + music("C5:1"), "2"),
    )

    assert shown(read(data)) == ["C5:1 |", "A4 |"]
    assert shown(read(data, bars=("2", "2"))) == ["A4:1 |"]


OCTAVE = (
    "<transpose><diatonic>0</diatonic><chromatic>0</chromatic>"
    "<octave-change>-1</octave-change></transpose>"
)


@pytest.mark.parametrize(
    ("name", "more", "words", "line"),
    [
        ("Contrabass", OCTAVE, "E2:1", "E2:1 |"),
        ("Violoncello", "", "E2:1", "E3:1 |"),
        ("Kontrabass", "<clef><sign>F</sign><clef-octave-change>-1</clef-octave-change></clef>",
         "E1:1", "E2:1 |"),
        ("Double Bass", "", "E2:1", "E2:1 |"),
    ],
)  # fmt: skip
def test_a_double_bass_reads_an_octave_above_what_sounds(
    name: str, more: str, words: str, line: str
) -> None:
    data = score(bar(attributes(more) + music(words)), name=name)

    assert shown(read_by(BASS, data)) == [line]


def test_a_bass_part_that_does_not_say_how_it_sounds_is_told() -> None:
    found = read_by(BASS, score(bar(attributes() + music("E2:1")), name="Double Bass"))

    assert [str(finding) for finding in found.findings] == [
        (
            "song.musicxml: the part does not say how it sounds; its notes are read as written; "
            "give the part the transposition of its instrument."
        )
    ]


def test_voices_that_begin_together_are_a_chord() -> None:
    upper, lower = "B4:2 C5:2", "D4:2 E4:2"
    data = first_bar(music(upper) + back(upper) + music(lower, voice="2"))

    found = read(data)

    assert shown(found) == ["D4+B4:2 E4+C5 |"]
    assert found.findings == ()


def test_a_long_note_is_held_over_those_of_the_other_voice() -> None:
    upper, lower = "B4:1", "D4:4 E4 r F4"
    found = read(first_bar(music(upper) + back(upper) + music(lower, voice="2")))

    assert shown(found) == ["D4+B4 E4+~B4 ~B4 F4+~B4 |"]
    assert told(found) == [
        "bar 1: voices that do not begin together are read as double stops, the longer note held"
    ]


def test_silence_without_a_rest_is_a_rest() -> None:
    forward = f"<forward><duration>{DIVISIONS}</duration></forward>"

    assert shown(read(first_bar(forward + music("D4:2") + forward + music("(E4)")))) == [
        "r D4:2 r:4 (E4) |"
    ]


def test_more_than_four_notes_keep_the_highest() -> None:
    five = music("D4:1") + "".join(
        music(f"{name}:1").replace("<note>", "<note><chord/>") for name in ("F4", "A4", "C5", "E5")
    )
    found = read(first_bar(five))

    assert shown(found) == ["F4+A4+C5+E5:1 |"]
    assert told(found) == ["bar 1: 5 notes at once; the highest 4 are read"]


@pytest.mark.parametrize(
    ("alter", "name"), [(3, "D#4:1"), (-3, "A3:1"), (2, "C##4:1"), (4, "E4:1"), (0.4, "C4:1")]
)
def test_a_name_that_no_staff_can_show_is_written_otherwise(alter: float, name: str) -> None:
    note = music("C#4:1").replace("<alter>1<", f"<alter>{alter}<")

    assert shown(read(first_bar(note))) == [f"{name} |"]


def test_a_quarter_tone_is_told() -> None:
    found = read(first_bar(music("C#4:1").replace("<alter>1<", "<alter>0.5<")))

    assert told(found) == ["bar 1: a quarter tone is read as the nearest half step"]


def test_drums_cues_and_broken_notes_are_told_and_the_rest_is_done() -> None:
    drum = music("D4:4").replace(pitch_element(pitch("D4")), "<unpitched/>")
    cue = music("D4:4").replace("<note>", "<note><cue/>")
    high = music("D4:4").replace("<octave>4<", "<octave>99<")
    timeless = "<note><pitch><step>D</step><octave>4</octave></pitch></note>"
    found = read(first_bar(drum + cue + high + timeless + music("A4:4")))

    assert shown(found) == ["r:2 r:4 A4 |"]
    assert told(found) == [
        "bar 1: a note without a pitch that can be is read as a rest",
        "bar 1: small cue notes are left out",
        "bar 1: a note whose length cannot be is left out",
    ]


def test_repeats_are_played_as_written() -> None:
    again = "<barline location='right'><repeat direction='backward'/></barline>"
    data = score(bar(attributes() + music("D4:1") + again, "1"), bar(music("E4:1"), "2"))

    assert shown(read(data)) == ["D4:1 |", "E4 |"]


def test_a_whole_rest_lasts_as_long_as_the_bar() -> None:
    rest = f"<note><rest measure='yes'/><duration>{4 * DIVISIONS}</duration></note>"
    data = score(bar(attributes(meter="3/4") + rest, "1"), bar(music("D4:2."), "2"))

    assert shown(read(data)) == ["r:2. |", "D4 |"]


def test_an_empty_bar_is_a_rest() -> None:
    data = score(bar(attributes(meter="3/4"), "1"), bar(music("D4:2."), "2"))

    assert shown(read(data)) == ["r:2. |", "D4 |"]


def test_bars_by_their_printed_numbers_with_the_upbeat() -> None:
    data = score(
        bar(attributes(meter="3/4") + music("A4:4"), None),
        bar(music("D4:2."), "1"),
        bar(music("E4:2."), "2"),
    )

    assert [one.number for one in read(data).phrase.bars] == ["0", "1", "2"]
    assert shown(read(data, bars=("0", "1"))) == ["A4 |", "D4:2. |"]


def test_there_is_no_such_bar() -> None:
    with pytest.raises(BookgenError) as caught:
        read(typed("D4:1", "E4:1"), bars=("1", "9"))

    assert str(caught.value) == (
        "song.musicxml: there is no bar '9'; the 2 bars are numbered 1 to 2; "
        "give --bars A-B with numbers that are printed there."
    )


def test_two_movements_in_one_file_count_from_one_each() -> None:
    data = score(
        bar(attributes() + music("D4:1"), "1"),
        bar(music("E4:1"), "2"),
        bar(music("F4:1"), "1"),
        bar(music("G4:1"), "2"),
    )
    found = read(data, bars=("1", "2"))

    assert shown(found) == ["D4:1 |", "E4 |"]
    assert [str(finding) for finding in found.findings] == [
        (
            "song.musicxml: 2 bars have the number 1; the one at place 1 is taken; "
            "give --bars by their order in the file, e.g. #1."
        ),
        (
            "song.musicxml: 2 bars have the number 2; the one at place 2 is taken; "
            "give --bars by their order in the file, e.g. #2."
        ),
    ]
    assert shown(read(data, bars=("#3", "#4"))) == ["F4:1 |", "G4 |"]


QUARTET = parts(
    {
        "Violin I": (bar(attributes() + music("A5:1")),),
        "Violin II": (bar(attributes() + music("D5:1")),),
        "Viola": (bar(attributes() + music("A3:1")),),
        "Violoncello": (bar(attributes() + music("D2:1")),),
    },
    title="Harbour\nair",
)


def test_the_part_that_is_called_like_the_instrument() -> None:
    assert read_by(specimen("cello"), QUARTET).part == "Violoncello"
    assert read(QUARTET, "violin ii").part == "Violin II"
    assert read(QUARTET, "3").part == "Viola"
    assert read(QUARTET, "3").title == "Harbour air"


def test_several_parts_are_listed() -> None:
    with pytest.raises(BookgenError) as caught:
        read(QUARTET)

    assert str(caught.value) == (
        "song.musicxml: there are several parts for this instrument: 1 Violin I, 2 Violin II; "
        "choose one with --part, by name or number."
    )


def test_each_staff_of_a_part_is_chosen_by_itself() -> None:
    upper, lower = "C5:2 E5", "C3:1"
    both = music(upper, staff="1") + back(upper) + music(lower, voice="2", staff="2")
    data = score(bar(attributes("<staves>2</staves>") + both), name="Piano")

    assert shown(read(data, "Piano/1")) == ["C5:2 E5 |"]
    assert shown(read(data, "Piano/2")) == ["C3:1 |"]
    assert read(data).part == "Piano/1"  # the other one lies too low


def test_a_timewise_score_is_the_same() -> None:
    timewise = (
        "<score-timewise><part-list><score-part id='P1'><part-name>Violin</part-name>"
        "</score-part></part-list>"
        f"<measure number='1'>{part(attributes() + music('D4:1'))}</measure>"
        f"<measure number='2'>{part(music('E4:1'))}</measure></score-timewise>"
    )
    found = read(timewise.encode())

    assert shown(found) == ["D4:1 |", "E4 |"]
    assert [one.number for one in found.phrase.bars] == ["1", "2"]


def test_a_packed_score_is_the_same() -> None:
    data = packed({"music/score.xml": typed("D4:1")}, container="music/score.xml")

    assert shown(read(data)) == ["D4:1 |"]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "iso-8859-1"])
def test_any_encoding_that_the_file_names(encoding: str) -> None:
    text = score(bar(attributes() + music("D4:1")), name="Geige, größere").decode()
    data = text.replace("UTF-8", encoding.upper()).encode(encoding)

    assert read(data).part == "Geige, größere"


def test_bars_without_a_note_are_refused() -> None:
    with pytest.raises(BookgenError) as caught:
        read(typed("D4:1", "r:1"), bars=("2", "2"))

    assert str(caught.value) == (
        "song.musicxml: there is no note in these bars; "
        "choose other bars with --bars, or another part with --part."
    )


def test_the_violin_reads_what_it_is_given() -> None:
    assert read_by(VIOLIN, typed("G3:1")).phrase == read(typed("G3:1")).phrase
