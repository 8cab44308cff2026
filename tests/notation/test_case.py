"""The type case: all that drills are set in lies there, so that every run draws them alike."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import cycle, product
from pathlib import Path

import pytest
from kit.bench import BESIDE_MM, FULL_MM, HALF_MM, SECONDS, STYLE, workshop
from kit.drills import VIOLA, VIOLIN, drill_of
from kit.pseudo import PSEUDO

from bookgen.model.instrument import Instrument
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.engraver import start
from bookgen.notation.plates import is_pure
from bookgen.notation.style import Style
from bookgen.readers.instrument import read_instrument
from bookgen.words.marks import marks_of

HANDS = (
    *("12-whole", "34-half", "13-minor-third", "14-whole", "1234-half.half.half"),
    *("t1-whole", "t3-fourth"),
)
PLACES = ("1", "2", "12", "17", "2to4")


def sample(instrument: Instrument) -> list[DrillScore]:
    """Drills of all stages, low and high, that take turns with their widths and ways back."""
    turns = cycle(product(Written, (FULL_MM, BESIDE_MM, HALF_MM)))
    keys = [
        f"{hand}-place{place}-strings4321-stage{stage}-low-same"
        for hand, place, stage in product(HANDS, PLACES, range(1, 6))
    ]
    drills = (drill_of(key, instrument) for key in keys)
    can_be_played = [drill for drill in drills if drill.refusal(instrument) is None]
    return [
        DrillScore(drill, width, written)
        for drill, (written, width) in zip(can_be_played, turns, strict=False)
        if written is Written.TWO_LINES or width == FULL_MM
    ]


@pytest.mark.parametrize(
    ("instrument", "style"),
    [
        (VIOLIN, STYLE),
        (VIOLA, replace(STYLE, staff_height_mm=9.5, finger=-1.3, word=0.2, numeral=0.6)),
        (VIOLIN, replace(STYLE, marks=marks_of(PSEUDO))),
        (read_instrument("cello"), STYLE),
        (read_instrument("double_bass"), STYLE),
    ],
)
def test_every_drill_is_drawn_alike_whatever_is_engraved_with_it(
    instrument: Instrument, style: Style, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bookgen.notation.source.IN_A_BOOK", 9)
    scores = sample(instrument)
    some = scores[::-9]
    (tmp_path / "all").mkdir()
    (tmp_path / "some").mkdir()
    made = start(scores, instrument, style, workshop(tmp_path / "all")).finish(SECONDS)
    apart = start(some, instrument, style, workshop(tmp_path / "some")).finish(SECONDS)

    assert len(scores) > 5
    assert made.pure
    assert apart.pure
    assert len(made.cases) == 1, "also of several books, where two processes engrave"
    assert apart.cases == made.cases
    assert apart.drills == made.drills[::-9]


@pytest.mark.parametrize(
    ("pages", "pure"),
    [
        (["/f-0-0 1 Tf [(a)-5(b\\))]TJ", "/f-0-0 2 Tf (\\)ba)Tj"], True),
        (["/f-0-0 1 Tf (ab)Tj", "/f-0-0 1 Tf (c)Tj"], False),
        (["/f-0-0 1 Tf (ab)Tj", "/f-1-0 1 Tf (a)Tj"], False),
        (["/f-0-1 1 Tf <00010002>Tj", "/f-0-1 1 Tf <0002>Tj /f-0-1 1 Tf <0001>Tj"], True),
        (["/f-0-1 1 Tf <00010002>Tj", "/f-0-1 1 Tf <0003>Tj"], False),
    ],
)
def test_a_sign_outside_of_the_case_is_seen(pages: Sequence[str], *, pure: bool) -> None:
    assert is_pure([page.encode() for page in pages]) is pure
