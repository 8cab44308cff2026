"""Slurs, signs, dynamics and words by hand, from the definitions of MusicXML 4.0."""

from fractions import Fraction

import pytest
from kit.scores import DIVISIONS, attributes, bar, element, music, score, shown, wanted

from bookgen.model.marking import Instruction, Tempo
from bookgen.readers.score.marking import tempo_of, terms_in
from bookgen.readers.score.musicxml import musicxml_passage
from bookgen.readers.score.passage import PassageFile

W3C = "MusicXML 4.0 (W3C Community Group), element definitions; examples written by hand"
pytestmark = pytest.mark.published(W3C)


def read(*bars: str, bars_wanted: tuple[str, str] | None = None) -> PassageFile:
    music = [
        bar((attributes() if at == 0 else "") + one, str(at + 1)) for at, one in enumerate(bars)
    ]
    return musicxml_passage(score(*music), wanted(bars=bars_wanted))


def note(word: str, notations: str = "") -> str:
    told = f"<notations>{notations}</notations>" if notations else ""
    return music(word).replace("</note>", f"{told}</note>")


def direction(inner: str, offset: int = 0) -> str:
    moved = f"<offset>{offset}</offset>" if offset else ""
    return f"<direction><direction-type>{inner}</direction-type>{moved}</direction>"


def slur(kind: str, number: int = 1) -> str:
    return f'<slur type="{kind}" number="{number}"/>'


def test_slurs_by_their_numbers_over_bars() -> None:
    found = read(
        note("D4:4", slur("start") + slur("start", 2))
        + note("E4:4", slur("stop"))
        + note("F4:4", slur("start"))
        + note("G4:4"),
        note("A4:4", slur("stop") + slur("stop", 2)) + note("B4:2."),
    )

    assert shown(found) == ["{{D4 E4} {F4 G4 |", "A4}} B4:2. |"]


def test_a_slur_without_its_end_is_none() -> None:
    assert shown(read(note("D4:2", slur("start")) + note("E4:2", slur("stop", 3)))) == [
        "{D4:2 E4} |"
    ]
    assert shown(read(note("D4:2", slur("start")) + note("E4:2"))) == ["D4:2 E4 |"]


def test_signs_of_a_note() -> None:
    signs = (
        "<articulations><staccato/><accent/></articulations><ornaments><trill-mark/></ornaments>"
        "<technical><up-bow/></technical><fermata/><dynamics><sf/></dynamics>"
    )

    assert shown(read(note("D4:1", signs))) == [
        "D4:1!staccato!accent!up-bow!fermata!trill-mark!sf |"
    ]


def test_dynamics_hairpins_and_terms_stand_with_the_next_sound() -> None:
    found = read(
        direction("<dynamics><p/></dynamics>")
        + direction("<words>dolce e cresc.</words>")
        + note("D4:2")
        + direction('<wedge type="crescendo"/>')
        + note("E4:2")
        + direction('<wedge type="stop"/>'),
        direction("<dynamics><f/></dynamics>", offset=2 * DIVISIONS) + note("F4:2") + note("G4:2"),
    )

    assert shown(found) == ["D4:2!p!dolce!cresc. E4!crescendo |", "F4!end G4!f |"]


def test_words_that_are_no_terms_are_left_out() -> None:
    assert [*terms_in("dolce")] == [Instruction.DOLCE]
    assert [*terms_in("Pizz.")] == [Instruction.PIZZICATO]
    assert [*terms_in("sotto voce")] == [Instruction.SOTTO_VOCE]
    assert [*terms_in("con sordini")] == [Instruction.CON_SORDINO]
    assert [*terms_in("ask Mara about this cresc.")] == []


def test_a_bracket_is_the_players_own_group() -> None:
    found = read(
        direction('<bracket type="start" line-end="down"/>')
        + note("D4:4")
        + note("E4:4")
        + note("F4:4")
        + direction('<bracket type="stop" line-end="down"/>')
        + note("G4:4")
    )

    assert shown(found) == ["[D4 E4 F4] G4 |"]


def test_a_slur_with_one_finger_at_its_first_note_is_a_group() -> None:
    finger = "<technical><fingering>{}</fingering></technical>"
    first, last = slur("start") + finger.format(2), slur("stop")

    assert shown(read(note("D4:2", first) + note("E4:2", last))) == ["[{D4=2:2 E4}] |"]
    assert shown(read(note("D4:2", first) + note("E4:2", last + finger.format(1)))) == [
        "{D4=2:2 E4=1} |"
    ]


@pytest.mark.parametrize(
    ("inner", "tempo"),
    [
        ("<words>Allegro con brio</words>", Tempo("Allegro con brio")),
        ("<words>Tempo di Menuetto.</words>", Tempo("Tempo di Menuetto.")),
        ("<words>con brio</words>", None),
        ("<words>Allegro for Ines</words>", None),
        (
            (
                "<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/>"
                "<per-minute>84</per-minute></metronome>"
            ),
            Tempo("", Fraction(3, 8), Fraction(84)),
        ),
        (
            "<metronome><beat-unit>quarter</beat-unit><per-minute>fast</per-minute></metronome>",
            None,
        ),
    ],
)
def test_what_is_a_tempo(inner: str, tempo: Tempo | None) -> None:
    assert tempo_of(element(direction(inner))) == tempo


def test_an_excerpt_has_the_tempo_that_goes_on_there() -> None:
    found = read(
        direction("<words>Presto</words>") + note("D4:1"),
        note("E4:1"),
        bars_wanted=("2", "2"),
    )

    assert found.phrase.bars[0].tempo == Tempo("Presto")


def test_the_composer_of_the_score() -> None:
    text = score(bar(attributes() + note("D4:1"))).replace(
        b"<part-list>",
        b'<identification><creator type="lyricist">Jo</creator>'
        b'<creator type="composer"> T.  Harbour </creator></identification><part-list>',
    )

    assert musicxml_passage(text, wanted()).composer == "T. Harbour"
