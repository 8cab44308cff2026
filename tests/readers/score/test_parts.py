"""Which part of a score is meant for the instrument."""

import pytest
from kit.shorthand import VIOLA, VIOLIN, specimen

from bookgen.errors import BookgenError
from bookgen.model.instrument import Instrument
from bookgen.readers.score.parts import PartName, chosen_part, cleaned, fits, is_named, kind_of

CELLO = specimen("cello")
BASS = specimen("double_bass")
FIVE = specimen("five_strings")
VIOL = specimen("six_string_viol")


def called(*names: str) -> list[PartName]:
    """Parts that all lie on a violin."""
    return [PartName(name, None, 60, 72) for name in names]


def chosen(parts: list[PartName], wanted: str | None = None) -> int:
    return chosen_part(parts, wanted, VIOLIN, "song.xml")


def refused(parts: list[PartName], wanted: str | None = None) -> str:
    with pytest.raises(BookgenError) as caught:
        chosen(parts, wanted)
    return str(caught.value).removeprefix("song.xml: ")


@pytest.mark.published("names of string parts in printed scores: common practice, no source")
@pytest.mark.parametrize(
    ("name", "instrument"),
    [
        ("Violin I", VIOLIN), ("2nd Violin", VIOLIN), ("Violini", VIOLIN), ("Vln. 2", VIOLIN),
        ("Violino principale", VIOLIN), ("Violine", VIOLIN), ("Violons", VIOLIN),
        ("GEIGE", VIOLIN), ("Violin", FIVE),
        ("Viola", VIOLA), ("Bratschen", VIOLA), ("Vla.", VIOLA), ("Viole", VIOLA),
        ("Violoncello", CELLO), ("Cello", CELLO), ("Vc.", CELLO), ("Violoncelli e Bassi", CELLO),
        ("Contrabass", BASS), ("Double Bass", BASS), ("Kontrabaß", BASS), ("Cb.", BASS),
        ("Bass viol", VIOL),
    ],
)  # fmt: skip
def test_a_part_is_called_like_its_instrument(name: str, instrument: Instrument) -> None:
    (part,) = called(name)

    assert is_named(part, instrument)


@pytest.mark.parametrize("name", ["Viola", "Violoncello", "Flute", "", "Viols", "Alto", "Bass"])
def test_another_name_is_no_violin(name: str) -> None:
    (part,) = called(name)

    assert not is_named(part, VIOLIN)


@pytest.mark.published("General MIDI Level 1 sound set, programs 41 to 44")
@pytest.mark.parametrize(
    ("program", "instrument"), [(41, VIOLIN), (42, VIOLA), (43, CELLO), (44, BASS)]
)
def test_a_part_is_known_by_its_program_where_it_has_no_name(
    program: int, instrument: Instrument
) -> None:
    assert is_named(PartName("", program, 60, 72), instrument)
    assert is_named(PartName("Solo", program, 60, 72), instrument)
    assert not is_named(PartName("Cembalo", 7, 60, 72), instrument)


def test_kinds() -> None:
    assert [kind_of(one) for one in (VIOLIN, FIVE, CELLO, BASS)] == [
        "violin",
        "violin",
        "cello",
        "bass",
    ]
    assert kind_of(VIOL) == VIOL.key


def test_the_only_part_is_taken_whatever_its_name() -> None:
    assert chosen([PartName("Kazoo", None, 20, 30)]) == 0
    assert chosen([PartName("Rests", None, None, None), *called("Kazoo")]) == 1


def test_the_only_part_of_that_name() -> None:
    assert chosen(called("Flute", "Violin", "Viola")) == 1


def test_the_only_part_in_reach_where_no_name_tells() -> None:
    low, high = PartName("Left", None, 36, 60), PartName("Right", None, 55, 100)

    assert chosen([low, high]) == 1
    assert fits(high, VIOLIN)
    assert not fits(PartName("", None, 54, 60), VIOLIN)
    assert not fits(PartName("", None, 60, 101), VIOLIN)
    assert not fits(PartName("", None, None, None), VIOLIN)


def test_several_are_listed() -> None:
    assert refused(called("Violin I", "Violin II", "Viola")) == (
        "there are several parts for this instrument: 1 Violin I, 2 Violin II; "
        "choose one with --part, by name or number."
    )
    assert refused([PartName("", None, 20, 30)] * 30).startswith("there are several parts: 1, 2, ")
    assert "24 and 6 more;" in refused([PartName("", None, 20, 30)] * 30)


@pytest.mark.parametrize("wanted", ["violin II", "VIOLIN ii", " Violin  II ", "2"])
def test_a_part_by_its_name_or_number(wanted: str) -> None:
    assert chosen(called("Violin I", "Violin II"), wanted) == 1


def test_a_name_that_is_a_number_comes_before_the_number() -> None:
    assert chosen(called("3", "2", "1"), "3") == 0


@pytest.mark.parametrize("wanted", ["0", "3", "Violin III", "", "-1", "\uff19"])
def test_a_part_that_there_is_not(wanted: str) -> None:
    assert refused(called("Violin I", "Violin II"), wanted) == (
        f"no part {wanted!r}; the parts are 1 Violin I, 2 Violin II; "
        "choose one with --part, by name or number."
    )


def test_parts_of_one_name_are_told_apart_by_their_numbers() -> None:
    twins = called("Violin", "Violin")

    assert "several parts are called 'violin': 1 Violin, 2 Violin;" in refused(twins, "violin")
    assert chosen(twins, "2") == 1


@pytest.mark.parametrize("parts", [[], [PartName("Violin", None, None, None)]])
def test_no_notes_at_all(parts: list[PartName]) -> None:
    assert refused(parts) == "no part has a note that can be played; give a file with notes."


@pytest.mark.parametrize(
    ("text", "clean"),
    [
        (" Violin\n I ", "Violin I"),
        ("A\x1b[2JB\u202e", "A [2JB"),
        ("\u0041\u030a", "Å"),
        ("x" * 70, "x" * 59 + "…"),
        ("\0", ""),
    ],
)
def test_names_are_one_printable_line(text: str, clean: str) -> None:
    assert cleaned(text) == clean
