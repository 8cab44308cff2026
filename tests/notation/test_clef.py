"""Clefs of drills and of passages."""

import pytest
from kit.drills import drill_of
from kit.phrases import phrase
from kit.shorthand import VIOLA, VIOLIN, specimen

from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.notation.clef import BOTTOM_LINES, clef_of, clefs_of, ledger_lines, ledgers
from bookgen.readers.instrument import read_instrument


def lines(key: str, clef: str, instrument: Instrument = VIOLA) -> int:
    return ledger_lines(play(drill_of(key, instrument), instrument), clef, instrument)


def clef(key: str, before: str | None = None, instrument: Instrument = VIOLA) -> str:
    return clef_of(play(drill_of(key, instrument), instrument), instrument, before)


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("place", "strings", "found"),
    [
        (2, "4321", "alto"),
        (2, "21", "alto"),
        (5, "321", "alto"),
        (7, "21", "treble"),
        (12, "43", "alto"),
        (12, "4321", "treble"),
        (17, "21", "treble"),
    ],
)
def test_a_viola_climbs_from_alto_to_treble(place: int, strings: str, found: str) -> None:
    assert clef(f"12-whole-place{place}-strings{strings}-stage1-low-same") == found


def test_a_violin_stays_in_treble() -> None:
    assert clef("12-whole-place22-strings21-stage1-low-same", instrument=VIOLIN) == "treble"


@pytest.mark.published("common practice: ledger lines of notes on a staff of five lines")
@pytest.mark.parametrize(
    ("key", "name", "count"),
    [
        # C#3 hangs below the first line under the staff, E3 below the staff; each stands twice
        ("13-minor-third-place1-strings43-stage1-low-same", "alto", 2),
        # C#3 four, E3 three, G#3 two, B3 one
        ("13-minor-third-place1-strings43-stage1-low-same", "treble", 20),
        ("12-whole-place2-strings21-stage1-low-same", "treble", 0),  # E4 F#4 B4 C#5
        ("12-whole-place2-strings21-stage1-low-same", "alto", 4),  # B4 on a line, C#5 above it
    ],
)
def test_lines_above_and_below_are_counted(key: str, name: str, count: int) -> None:
    assert lines(key, name) == count


def test_a_clef_is_kept_from_drill_to_drill_where_that_costs_little() -> None:
    keys = [f"12-whole-place{place}-strings4321-stage1-low-same" for place in range(2, 12)]
    kept = [key for key in keys if {clef(key, "alto"), clef(key, "treble")} == {"alto", "treble"}]

    assert kept
    for key in keys:
        for before in ("alto", "treble"):
            best = min(lines(key, "alto"), lines(key, "treble"))
            notes = len(play(drill_of(key, VIOLA), VIOLA))
            assert lines(key, clef(key, before)) <= best + notes * VIOLA.clefs[0].more_lines
    assert clef(keys[0], "no such clef") == "alto"


CELLO = specimen("cello")
BASS = specimen("double_bass")


def clefs(text: str, key: str = "viola") -> str:
    """The first letters of the bars' clefs."""
    instrument = {"viola": VIOLA, "violin": VIOLIN, "cello": CELLO, "bass": BASS}[key]
    return "".join(name[0] for name in clefs_of(phrase(text), instrument))


LOW = "C3 G3 D4 A4 C3 G3 D4 A4"
HIGH = "A5 B5 C6 D6 A5 B5 C6 D6"


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("text", "found"),
    [
        (f"{LOW} | {LOW}", "aa"),
        (f"{HIGH} | {HIGH}", "tt"),
        ("A4 B4 C5 D5 E5 F5 E5 D5 | C5 B4 A4 G4", "aa"),
        (f"{LOW} | {HIGH} | {HIGH} | {LOW}", "atta"),
        (f"{LOW} | {HIGH} | r=1 | {LOW}", "ataa"),
    ],
)
def test_a_viola_changes_clef_where_it_is_worth_it(text: str, found: str) -> None:
    assert clefs(text) == found


def test_each_instrument_has_its_own_clefs() -> None:
    assert clefs(HIGH, "violin") == "t"
    assert clefs("C2 G2 D3 A3 C2 G2 D3 A3 | A4 B4 C5 A4 B4 C5 A4 B4", "cello") == "bt"
    assert clefs("E2 G3 | D4 E4 F4 G4 A4", "bass") == "bb"


@pytest.mark.published("E. Gould, Behind Bars, 2011, ch. 14: the lowest clef that will do")
@pytest.mark.parametrize(
    ("key", "found"),
    [
        ("13-whole-place2-strings4321-stage1-low-same", "bass"),
        ("34-half-place4-strings21-stage5-low-same", "bass"),
        ("13-whole-place7-strings21-stage1-low-same", "bass"),
        ("12-whole-place12-strings21-stage1-low-same", "tenor"),
        ("12-whole-place8-strings4321-stage1-low-same", "bass"),  # to G4
        ("12-whole-place9-strings4321-stage1-low-same", "tenor"),  # to G sharp 4
        ("t1-whole-place12-strings4321-stage1-low-same", "tenor"),  # C3 to B4
        ("t1-whole-place12-strings432-stage1-low-same", "bass"),  # to E4
        ("12-half-place16-strings321-stage1-low-same", "tenor"),  # to D5
        ("12-half-place17-strings321-stage1-low-same", "treble"),  # to E flat 5
        ("12-half-place17-strings4321-stage1-low-same", "tenor"),  # from F3, too low for treble
        ("23-whole-place14-strings21-stage5-low-same", "treble"),
    ],
)
def test_a_cello_reads_the_lowest_clef_that_will_do(key: str, found: str) -> None:
    cello = read_instrument("cello")
    assert clef_of(play(drill_of(key, cello), cello), cello) == found
    five = read_instrument("five_string_cello")
    assert clef_of(play(drill_of(key, five), five), five) in {"bass", "tenor", "treble"}


@pytest.mark.published("E. Gould, Behind Bars, 2011, ch. 14: three ledger lines before a change")
@pytest.mark.parametrize(
    ("key", "found"),
    [
        ("14-whole-place8-strings4321-stage1-low-same", "bass"),
        ("13-whole-place12-strings4321-stage1-low-same", "bass"),  # 7th position, to A4
        ("t1-whole-place12-strings4321-stage1-low-same", "bass"),  # to A4
        ("12-half-place14-strings4321-stage1-low-same", "tenor"),
        ("13-whole-place15-strings321-stage1-low-same", "tenor"),  # to C5
    ],
)
def test_a_bass_leaves_its_clef_only_in_thumb_position(key: str, found: str) -> None:
    bass = read_instrument("double_bass")

    assert clef_of(play(drill_of(key, bass), bass), bass) == found


@pytest.mark.parametrize("place", range(1, 17))
def test_no_drill_of_the_cello_has_more_than_three_lines_where_a_clef_spares_them(
    place: int,
) -> None:
    cello = read_instrument("cello")
    events = play(drill_of(f"12-half-place{place}-strings4321-stage1-low-same", cello), cello)
    found = clef_of(events, cello)
    top = max(note.pitch.degree for event in events for note in event.notes)

    assert ledgers(top - BOTTOM_LINES[found]) <= 3


def test_five_strings_of_a_violin_are_treble_but_for_the_lowest() -> None:
    five = read_instrument("five_string_violin")
    for strings, found in (("54321", "treble"), ("4321", "treble"), ("543", "alto")):
        drill = drill_of(f"12-whole-place2-strings{strings}-stage1-low-same", five)
        assert clef_of(play(drill, five), five) == found
