"""The parts of a score with their names, staves and ranges."""

import pytest
from kit.scores import attributes, back, bar, element, music, parts

from bookgen.errors import BookgenError
from bookgen.readers.score.catalog import KEPT, heights_of, partwise, staves
from bookgen.readers.score.parts import PartName
from bookgen.readers.score.tree import tree_of


def names(data: bytes) -> list[PartName]:
    return [one.name for one in staves(partwise(tree_of(data, "song.xml", KEPT), "song.xml"))]


def test_names_and_ranges() -> None:
    data = parts(
        {
            "Violin\n I": (bar(attributes() + music("G3:2 E5")),),
            "Rests": (bar(attributes() + music("r:1")),),
        }
    )

    assert names(data) == [
        PartName("Violin I", None, 55, 76),
        PartName("Rests", None, None, None),
    ]


def test_the_range_is_what_sounds() -> None:
    octave = "<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>"
    data = parts({"Bass": (bar(attributes(octave) + music("E2:1")),)})

    assert names(data) == [PartName("Bass", None, 28, 28)]


def test_a_staff_each() -> None:
    both = music("C5:1", staff="1") + back("C5:1") + music("C3:1", voice="2", staff="2")
    data = parts({"Piano": (bar(attributes() + both),), "": (bar(attributes() + both),)})

    assert [name.name for name in names(data)] == [
        "Piano/1",
        "Piano/2",
        "-/1",
        "-/2",
    ]


def test_the_program_of_a_part() -> None:
    text = (
        "<score-partwise><part-list><score-part id='P1'><part-name/>"
        "<midi-instrument><midi-program>41</midi-program></midi-instrument></score-part>"
        "</part-list><part id='P1'/></score-partwise>"
    )
    assert names(text.encode()) == [PartName("", 41, None, None)]


def test_a_part_that_the_list_does_not_name() -> None:
    assert names(b"<score-partwise><part id='P9'/></score-partwise>") == [
        PartName("", None, None, None)
    ]


def test_notes_that_cannot_be_are_not_counted() -> None:
    broken = music("D4:1").replace("<octave>4<", "<octave>44<")
    root = element(f"<part>{bar(attributes() + broken)}</part>")

    assert heights_of(root) == {}


def test_there_is_an_end_to_parts_and_bars() -> None:
    many = b"<score-partwise>" + b"<part/>" * 201 + b"</score-partwise>"
    long = b"<score-partwise><part>" + b"<measure/>" * 20_001 + b"</part></score-partwise>"

    for data in (many, long):
        with pytest.raises(BookgenError, match="more than 200 parts or 20000 bars"):
            names(data)


@pytest.mark.parametrize("data", [b"<part/>", b"<note><part/></note>"])
def test_what_is_no_score(data: bytes) -> None:
    with pytest.raises(BookgenError, match="this is no MusicXML score"):
        names(data)
