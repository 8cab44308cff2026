"""Numbers, keys, meters and lengths of bars."""

from dataclasses import replace
from fractions import Fraction

import pytest
from kit.phrases import phrase

from bookgen.model.phrase import Phrase
from bookgen.notation.bars import bar_name, length_of, writable
from bookgen.notation.passage_staff import key_signature, meter_commands

BARS = phrase("A4=1 | A4=1 | A4=1")


def changed(at: int, **changes: object) -> Phrase:
    """Three bars of which one is another."""
    bars = list(BARS.bars)
    bars[at] = replace(bars[at], **changes)  # type: ignore[arg-type]
    return Phrase(tuple(bars))


def test_the_first_bar_tells_its_meter_and_the_others_what_changes() -> None:
    assert list(meter_commands(BARS)) == [["\\time 4/4"], [], []]
    assert list(meter_commands(changed(1, meter=(3, 4), length=Fraction(3, 4))))[1] == [
        "\\time 3/4",
        "\\set Timing.measureLength = #(ly:make-moment 1)",
    ]


def test_a_short_first_bar_is_an_upbeat_and_a_short_one_later_is_short() -> None:
    first, *later = meter_commands(phrase("A4 | A4=1 | A4=1/2 | A4=1"))

    assert first[-1] == "\\partial 1*1/8"
    assert [one[-1] for one in later[1:]] == [
        "\\set Timing.measureLength = #(ly:make-moment 1/2)",
        "\\set Timing.measureLength = #(ly:make-moment 1)",
    ]


def test_a_bar_lasts_as_long_as_what_is_in_it() -> None:
    (one,) = phrase("A4=1 A4=1/4").bars

    assert length_of(replace(one, length=Fraction(1))) == Fraction(5, 4)
    assert length_of(replace(one, length=Fraction(2))) == 2


@pytest.mark.parametrize(
    ("number", "printed"),
    [("12", "12"), ("12a", "12a"), ("0", ""), ("X1", ""), ('1") #(system "id")', ""), ("1\n2", "")],
)
def test_only_numbers_are_printed(number: str, printed: str) -> None:
    assert bar_name(changed(0, number=number).bars[0]) == printed


@pytest.mark.parametrize(
    ("meter", "shown"), [((5, 6), False), ((0, 4), False), ((7, 8), True), (None, False)]
)
def test_a_meter_that_no_staff_shows_is_left_out(
    meter: tuple[int, int] | None, *, shown: bool
) -> None:
    assert writable(meter) is shown
    assert ("\\time" in " ".join(next(meter_commands(changed(0, meter=meter))))) is shown


@pytest.mark.parametrize(("sharps", "name"), [(0, "c"), (7, "cs"), (-7, "cf"), (3, "a"), (9, "c")])
def test_a_key_is_named_by_its_sharps(sharps: int, name: str) -> None:
    assert key_signature(sharps).tonic.name() == name
