"""No sign touches another or misleads: a broad sample of drills, checked box by box."""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import batched, cycle, product
from pathlib import Path
from typing import NamedTuple

import pytest
from kit.bench import BESIDE_MM, FULL_MM, HALF_MM, NARROW_MM, STYLE, listed_signs
from kit.drills import VIOLA, VIOLIN, drill_of
from kit.lint import (
    LABELS,
    SOLID,
    Sign,
    by_system,
    collisions,
    crowded_fingers,
    crowded_marks,
    must_part,
    read_signs,
    stray_accidentals,
    stray_ties,
)

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import mirrors
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.source import lilypond_source
from bookgen.notation.style import Style

PLACES = (1, 2, 5, 9, 12, 17, 22)
STAGES = (1, 2, 3, 4, 5)
PAIRS = {
    "12": ("whole", "half"),
    "23": ("half", "whole"),
    "34": ("half", "whole"),
    "13": ("minor-third", "major-third"),
    "24": ("major-third", "minor-third"),
}
FRAMES = (
    ("123", "whole.half", "low"),
    ("234", "half.whole", "high"),
    ("123", "half.whole", "order132"),
    ("1234", "whole.half.whole", "low"),
    ("1234", "half.whole.whole", "high"),
    ("1234", "whole.half.whole", "order1324"),
    ("1234", "half.half.half", "order1324"),
    ("1234", "whole.whole.whole", "low"),
    ("1234", "whole.half.whole", "order4132"),
)
ASKED_FOR = [
    *(
        f"12-whole-place2to{to}-strings4321-stage{stage}-low-same"
        for to in (3, 4, 9)
        for stage in (1, 2, 3)
    ),
    *(f"34-half-place{places}-strings432-stage1-high-mirror" for places in ("5to7", "9to15")),
    *(f"{one}-place1to{to}-strings4321-stage1-low-same" for one in (1,) for to in (2, 5, 13)),
    *(
        f"2-place{place}-strings4321-stage{stage}-low-same"
        for place in (4, 12)
        for stage in (3, 4, 5)
    ),
    *(f"12-half-place2-strings{run}-stage3-low-same" for run in ("42", "31", "41")),
    *(f"123-whole.half-place2-strings21-stage{stage}-low-same" for stage in (3, 4, 5)),
    "123-half.whole-place9-strings43-stage3-order132-mirror",
    "1234-whole.half.whole-place2to7-strings4321-stage1-low-same",
]
"""Shifts, one finger, skipped strings, three fingers on two strings."""

WHOLE = "12-whole-place2-strings4321"
HIGH = "12-whole-place17-strings4321-stage3-low-same"  # B6 right below its finger
HIDDEN_TIE = "13-minor-third-place2-strings4321-stage4-high-same"  # D5 joined by F#5
TIED_SHARP = "1234-half.half.half-place3-strings4321-stage4-order1324-same"  # F#4 held
LARGE = replace(
    STYLE,
    staff_height_mm=9.5,
    finger=-1.3,
    word=0.2,
    numeral=0.6,
    spacing=1.2,
    finger_padding=0.7,
    word_gap=1.0,
    move_baseline=-2.15,
)
AT_ONCE = 70  # drills of one LilyPond
DOUBLE_BAR = 0.4  # staff spaces; other bar lines before a line break are thinner


class Sheet(NamedTuple):
    """Drills of one instrument in one style."""

    scores: list[DrillScore]
    instrument: Instrument
    style: Style = STYLE


def keys() -> list[str]:
    """Pairs and frames at all places and stages; what else can differ takes turns."""
    turns = cycle(product(("low", "high"), ("same", "mirror"), ("4321", "321", "432"), (0, 1)))
    pairs = [
        f"{pair}-{PAIRS[pair][which]}-place{place}-strings{strings}-stage{stage}-{lead}-{back}"
        for (pair, place, stage), (lead, back, strings, which) in zip(
            product(PAIRS, PLACES, STAGES), turns, strict=False
        )
    ]
    frames = [
        f"{fingers}-{spacings}-place{place}-strings4321-stage{stage}-{order}-{back}"
        for ((fingers, spacings, order), place, stage), (_, back, _, _) in zip(
            product(FRAMES, PLACES[:-1], STAGES), turns, strict=False
        )
    ]
    return pairs + frames[::2] + ASKED_FOR


def playable(instrument: Instrument, widths_mm: Sequence[float]) -> list[DrillScore]:
    """The sample as far as strings and hand reach, on the widths in turn."""
    drills = [drill_of(key, instrument) for key in keys()]
    found = [drill for drill in drills if drill.refusal(instrument) is None]
    return [
        DrillScore(drill, width, written(drill, width, instrument))
        for drill, width in zip(found, cycle(widths_mm), strict=False)
    ]


def written(drill: Drill, width_mm: float, instrument: Instrument) -> Written:
    """As pages have it: half the notes where the way back mirrors them, else as much as fits."""
    if mirrors(drill, instrument):
        return Written.UP
    return Written.BOTH if width_mm > HALF_MM else Written.TWO_LINES


def engraved(sheet: Sheet, folder: Path, source: str | None = None) -> list[Sign]:
    """All signs of the drills as LilyPond places them."""
    text = source or lilypond_source(sheet.scores, sheet.instrument, sheet.style)
    return read_signs(listed_signs(text, folder))


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[Sheet, list[Sign]]]:
    """The sample on one of the widths, half of it for the viola as well; some in large print."""
    folder = tmp_path_factory.mktemp("lint")
    widths = (FULL_MM, NARROW_MM, BESIDE_MM, HALF_MM)
    sheets = [
        *(Sheet([*some], VIOLIN) for some in batched(playable(VIOLIN, widths), AT_ONCE)),
        *(Sheet([*some], VIOLA) for some in batched(playable(VIOLA, widths)[::2], AT_ONCE)),
        Sheet(playable(VIOLA, [FULL_MM])[::9], VIOLA, LARGE),
    ]
    with ThreadPoolExecutor(max_workers=2) as two:
        signs = two.map(engraved, sheets, [folder / str(number) for number in range(len(sheets))])
        return list(zip(sheets, signs, strict=True))


@pytest.mark.timeout(120)
def test_no_sign_touches_another(sample: list[tuple[Sheet, list[Sign]]]) -> None:
    touching = [
        (sheet.scores[one.page], one, other)
        for sheet, signs in sample
        for one, other in collisions(signs)
    ]

    assert touching == []


@pytest.mark.timeout(120)
def test_fingers_keep_clear_of_heads_and_lines(sample: list[tuple[Sheet, list[Sign]]]) -> None:
    assert [pair for _, signs in sample for pair in crowded_fingers(signs)] == []


@pytest.mark.timeout(120)
def test_marks_keep_apart_and_never_stand_under_a_clef(
    sample: list[tuple[Sheet, list[Sign]]],
) -> None:
    assert [pair for _, signs in sample for pair in crowded_marks(signs)] == []


@pytest.mark.timeout(120)
def test_every_tie_ends_at_its_own_head(sample: list[tuple[Sheet, list[Sign]]]) -> None:
    ends = [sign for _, signs in sample for sign in signs if sign.name == "TieEnd"]

    assert len(ends) > 200
    assert list(stray_ties(ends)) == []


@pytest.mark.timeout(120)
def test_every_accidental_stands_close_to_its_note(
    sample: list[tuple[Sheet, list[Sign]]],
) -> None:
    assert [sign for _, signs in sample for sign in stray_accidentals(signs)] == []


@pytest.mark.timeout(120)
def test_fingers_over_notes_within_the_staff_stand_on_one_line(
    sample: list[tuple[Sheet, list[Sign]]],
) -> None:
    for sheet, signs in sample:
        for system in by_system(signs):
            if "Tie" in {sign.name for sign in system} or max_stack(system) > 1:
                continue
            [staff] = [sign for sign in system if sign.name == "StaffSymbol"]
            heights = {
                round(finger.bottom - staff.top, 1)
                for finger in system
                if finger.name == "Fingering"
                if head_of(finger, system).top <= staff.top + 0.6
            }
            assert len(heights) <= 1, sheet.scores[system[0].page]


def head_of(finger: Sign, system: list[Sign]) -> Sign:
    """The head above which a finger number stands."""
    heads = [sign for sign in system if sign.name == "NoteHead"]
    return min(heads, key=lambda head: abs(head.left + head.right - finger.left - finger.right))


def max_stack(system: list[Sign]) -> int:
    """How many finger numbers stand above one note."""
    middles = [round(s.left + s.right, 0) for s in system if s.name == "Fingering"]
    return max((middles.count(middle) for middle in middles), default=0)


@pytest.mark.timeout(120)
def test_the_sample_shows_every_kind_of_sign(sample: list[tuple[Sheet, list[Sign]]]) -> None:
    names = {sign.name for _, signs in sample for sign in signs}

    assert names >= LABELS | SOLID | {"Accidental", "BarLine", "Clef", "Stem", "Tie", "TieEnd"}
    assert sum(len(sheet.scores) for sheet, _ in sample) > 400


@pytest.mark.timeout(120)
def test_a_line_ends_at_the_turn_where_a_drill_stands_on_two(
    sample: list[tuple[Sheet, list[Sign]]],
) -> None:
    broken = 0
    for sheet, signs in sample:
        ends: dict[tuple[int, int], Sign] = {}
        for sign in signs:
            if sign.name == "BarLine":
                line = sign.page, sign.system
                ends[line] = max(sign, ends.get(line, sign), key=lambda bar: bar.right)
        for (page, system), bar in ends.items():
            around = [(page, system + step) in ends for step in (-1, 1, 2)]
            if sheet.scores[page].written is Written.TWO_LINES and around == [False, True, False]:
                assert bar.right - bar.left > DOUBLE_BAR, sheet.scores[page]
                broken += 1

    assert broken > 10


def one_drill(key: str) -> Sheet:
    return Sheet([DrillScore(drill_of(key), NARROW_MM, Written.TWO_LINES)], VIOLIN)


@pytest.mark.parametrize(
    ("key", "ours", "spoilt", "check"),
    [
        (HIGH, "finger-padding 0.65", "finger-padding 0.1", crowded_fingers),
        (f"{WHOLE}-stage3-low-same", "move-gap 0.95", "move-gap 0.1", crowded_marks),
        (f"{WHOLE}-stage1-low-same", "#move::keep-first", "##f", crowded_marks),
        (f"{WHOLE}-stage5-low-same", "(+ 200 number)", "200", collisions),
        (f"{WHOLE}-stage1-low-same", "UP 350 0.9", "UP 200 0.9", collisions),
        (TIED_SHARP, "= #leave-tied-alone", "= ##f", stray_accidentals),
        (HIDDEN_TIE, "control-points = #reach-own-note", "minimum-length = #4", collisions),
    ],
)
def test_each_check_sees_its_fault(
    tmp_path: Path,
    key: str,
    ours: str,
    spoilt: str,
    check: Callable[[list[Sign]], Iterator[object]],
) -> None:
    sheet = one_drill(key)
    source = lilypond_source(sheet.scores, VIOLIN, STYLE)
    assert ours in source

    signs = engraved(sheet, tmp_path / "spoilt", source.replace(ours, spoilt))

    assert list(check(signs))


def test_a_tie_is_stray_when_it_ends_before_an_accidental_of_another_note() -> None:
    near = Sign(0, 0, "TieEnd", 1.0, 0.0, 1.3, 0.7)

    assert list(stray_ties([near])) == []
    assert list(stray_ties([replace(near, left=0.2)])) == [replace(near, left=0.2)]
    assert list(stray_ties([replace(near, top=2.0)])) == [replace(near, top=2.0)]


def test_boxes_touch_when_they_share_ink() -> None:
    one = Sign(0, 0, "Fingering", 0.0, 0.0, 1.0, 1.0)

    assert one.touches(Sign(0, 0, "NoteHead", 0.9, 0.9, 2.0, 2.0))
    assert not one.touches(Sign(0, 0, "NoteHead", 1.0, 0.0, 2.0, 2.0))
    assert not list(collisions([one, Sign(0, 1, "NoteHead", 0.0, 0.0, 2.0, 2.0)]))
    assert not must_part("NoteHead", "Stem")
    assert not must_part("TieEnd", "Fingering")
