"""No sign of a passage touches another: a broad sample, checked box by box."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

import music21
import pytest
from kit.bench import FULL_MM, STYLE, listed_signs
from kit.lint import (
    PASSAGE_LABELS,
    Sign,
    by_system,
    collisions,
    crowded_fingers,
    must_part_in_passage,
    read_signs,
)
from kit.passages import by_hand, passage, random_phrase
from kit.quartets import parts
from kit.shorthand import VIOLA, VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.notation.source import passage_source
from bookgen.plan.passage import Passage
from bookgen.readers.score.kinds import read_passage

A5_MM = 126.0
SEEDS = range(6)
QUARTET = "mozart/k458/movement3"
SINGLE = by_hand(
    "A4=1/16 " * 8 + "A4=1/2",
    "- " * 9,
    [(at, at) for at in range(9)],
)
"""Nine groups of one note each, as dense as notes stand."""

EXCERPT = by_hand("~A4+E5=1/4 B4=1/4 A4=1/2", "II0+I0 II1 II0", [(0, 2)])
"""It begins with a tie from the bar before."""

CORPUS = Path(music21.__file__).parent / "corpus"
SIGNED = (
    ("haydn/opus74no1/movement1.mxl", "1", ("1", "24"), VIOLIN),
    ("beethoven/opus18no1/movement1.mxl", "3", ("1", "40"), VIOLA),
)
"""Bars full of slurs, dots, trills, fermatas, dynamics and words."""


class Sheet(NamedTuple):
    """A passage of one instrument on one width."""

    passage: Passage
    instrument: Instrument
    width_mm: float


def engraved(sheet: Sheet, folder: Path, source: str | None = None) -> list[Sign]:
    """All signs of a passage as LilyPond places them."""
    text = source or passage_source(sheet.passage, sheet.instrument, STYLE, sheet.width_mm)
    return read_signs(listed_signs(text, folder))


def sheets() -> list[Sheet]:
    """Everything by hand, all sorts at random, and parts of quartets with and without signs."""
    by_hands = (passage(), SINGLE, EXCERPT)
    found = [Sheet(one, VIOLIN, width) for one in by_hands for width in (FULL_MM, A5_MM)]
    for seed in SEEDS:
        instrument, width = (VIOLA, A5_MM) if seed % 2 else (VIOLIN, FULL_MM)
        found.append(Sheet(passage(random_phrase(seed), instrument), instrument, width))
    for part, (instrument, width) in zip((0, 2), ((VIOLIN, FULL_MM), (VIOLA, A5_MM)), strict=True):
        bars = Phrase(parts(QUARTET)[part].bars[:20])
        found.append(Sheet(passage(bars, instrument), instrument, width))
    for name, number, wanted, instrument in SIGNED:
        file = read_passage(CORPUS / name, instrument, part=number, bars=wanted)
        found.append(Sheet(passage(file.phrase, instrument), instrument, FULL_MM))
    return found


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> list[list[Sign]]:
    """The signs of each passage."""
    folder = tmp_path_factory.mktemp("lint")
    found = sheets()
    with ThreadPoolExecutor(max_workers=2) as two:
        return [*two.map(engraved, found, [folder / str(at) for at in range(len(found))])]


@pytest.mark.timeout(120)
def test_no_label_touches_anything(sample: list[list[Sign]]) -> None:
    assert [pair for signs in sample for pair in collisions(signs, must_part_in_passage)] == []


@pytest.mark.timeout(120)
def test_fingers_keep_clear_of_heads_and_lines(sample: list[list[Sign]]) -> None:
    assert [pair for signs in sample for pair in crowded_fingers(signs)] == []


@pytest.mark.timeout(120)
def test_the_sample_shows_every_kind_of_sign(sample: list[list[Sign]]) -> None:
    names = {sign.name for signs in sample for sign in signs}
    more = {"Beam", "Clef", "KeySignature", "TimeSignature", "Tie", "RepeatTie", "TupletBracket"}

    assert names >= PASSAGE_LABELS | more
    assert sum(len(by_system(signs)) for signs in sample) > 60


@pytest.mark.timeout(120)
def test_brackets_do_not_run_past_the_line(sample: list[list[Sign]]) -> None:
    for signs in sample:
        for system in by_system(signs):
            [staff] = [sign for sign in system if sign.name == "StaffSymbol"]
            brackets = [sign for sign in system if sign.name == "TextSpanner"]

            assert all(one.right <= staff.right + 0.15 for one in brackets)
            assert all(one.left >= staff.left for one in brackets)


def test_groups_of_one_note_have_room_on_one_line(tmp_path: Path) -> None:
    ours, spoilt = "(minimum-length . ,group::minimum-length)", "(minimum-length . 0)"
    source = passage_source(SINGLE, VIOLIN, STYLE, A5_MM)
    assert ours in source

    def heights(name: str, text: str) -> set[float]:
        signs = engraved(Sheet(SINGLE, VIOLIN, A5_MM), tmp_path / name, text)
        return {round(sign.top, 1) for sign in signs if sign.name == "TextSpanner"}

    assert len(heights("ours", source)) == 1
    assert len(heights("spoilt", source.replace(ours, spoilt))) > 1


@pytest.mark.parametrize(
    ("ours", "spoilt"),
    [
        ("TextSpanner.outside-staff-priority = #500", "TextSpanner.outside-staff-priority = ##f"),
        ("outside-staff-priority #(+ 200 row)", "Y-offset #1"),
    ],
)
def test_the_check_sees_each_fault(tmp_path: Path, ours: str, spoilt: str) -> None:
    one = passage(random_phrase(1), VIOLA)
    sheet = Sheet(one, VIOLA, A5_MM)
    source = passage_source(one, VIOLA, STYLE, A5_MM)
    assert ours in source

    signs = engraved(sheet, tmp_path / "spoilt", source.replace(ours, spoilt))

    assert list(collisions(signs, must_part_in_passage))
