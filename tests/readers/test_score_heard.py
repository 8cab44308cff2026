"""A clean score through music21, bar by bar."""

from xml.etree.ElementTree import Element

import pytest
from scores import attributes, back, bar, element, music, part

from bookgen.errors import BookgenError
from bookgen.readers.score_heard import Heard, heard
from bookgen.readers.score_text_sound import note_text
from bookgen.readers.score_voices import Timed


def listened(*bars: str) -> list[Heard]:
    listed = "<part-list><score-part id='P1'><part-name>Part</part-name></score-part></part-list>"
    score = element(f"<score-partwise>{listed}{part(*bars)}</score-partwise>")
    return heard(score, "song.xml")


def words(voice: tuple[Timed, ...]) -> str:
    return " ".join("+".join(map(note_text, timed.notes)) or "r" for timed in voice)


def test_voices_meter_and_key() -> None:
    upper = "D5:4 (E5) D5 r"
    one, two = listened(
        bar(attributes(meter="3/4", fifths=2) + music(upper) + back(upper)
            + music("G4:2.", voice="2")),
        bar(music("A4:2.")),
    )  # fmt: skip

    assert [words(voice) for voice in one.voices] == ["D5 E5 D5 r", "G4"]
    assert [timed.start for timed in one.voices[0]] == [0, 0.25, 0.25, 0.5]
    assert [str(timed.length) for timed in one.voices[0]] == ["1/4", "0", "1/4", "1/4"]
    assert (one.meter, one.sharps) == ((3, 4), 2)
    assert (two.meter, two.sharps) == ((3, 4), 2)


def test_ties_and_bent_names() -> None:
    (one,) = listened(bar(attributes() + music("~D##4:2 E4").replace(">2<", ">3<")))

    assert words(one.voices[0]) == "~F4 E4"


def test_what_music21_cannot_read_is_a_finding() -> None:
    with pytest.raises(BookgenError, match="music21 cannot read it") as caught:
        heard(Element("score-partwise"), "song.xml")

    assert len(caught.value.findings) == 1
