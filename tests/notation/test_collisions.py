"""No sign touches another or misleads: a broad sample of drills, checked box by box."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import cycle, product
from pathlib import Path
from typing import NamedTuple

import pytest
from drills import VIOLA, VIOLIN, entry
from notation.bench import A4, A5, LETTER, listed_signs
from notation.lint import (
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
from bookgen.notation.source import lilypond_source
from bookgen.notation.style import Style
from bookgen.plan.document import PlannedDrill

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
HIDDEN_TIE = "13-minor-third-place2-strings4321-stage4-high-same"  # D5 joined by F#5
TIED_SHARP = "1234-half.half.half-place3-strings4321-stage4-order1324-same"  # F#4 held
DOUBLE_BAR = 0.4  # staff spaces; other bar lines before a line break are thinner


class Sheet(NamedTuple):
    """Drills of one instrument on one width."""

    drills: list[PlannedDrill]
    instrument: Instrument
    style: Style


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
    return pairs + frames[::2]


def playable(instrument: Instrument) -> list[PlannedDrill]:
    """The sample as far as strings and hand reach."""
    found = [
        key
        for key in keys()
        if Drill.parse_key(f"{instrument.key}-{key}").refusal(instrument) is None
    ]
    return [entry(key, number, instrument) for number, key in enumerate(found, start=1)]


def engraved(sheet: Sheet, folder: Path, source: str | None = None) -> list[Sign]:
    """All signs of the drills as LilyPond places them."""
    text = source or lilypond_source(sheet.drills, sheet.instrument, sheet.style)
    return read_signs(listed_signs(text, sheet.style, folder))


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[Sheet, list[Sign]]]:
    """Every other drill on each width, both instruments."""
    folder = tmp_path_factory.mktemp("lint")
    sheets = [
        Sheet(playable(instrument)[first::2], instrument, style)
        for instrument in (VIOLIN, VIOLA)
        for first, style in enumerate((A4, A5))
    ]
    with ThreadPoolExecutor(max_workers=2) as two:
        signs = two.map(engraved, sheets, [folder / str(number) for number in range(4)])
        return list(zip(sheets, signs, strict=True))


@pytest.mark.timeout(120)
def test_no_sign_touches_another(sample: list[tuple[Sheet, list[Sign]]]) -> None:
    touching = [
        (sheet.drills[one.page].drill.key, sheet.style.line_width_mm, one, other)
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

    assert len(ends) > 500
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
            assert len(heights) <= 1, sheet.drills[system[0].page].drill.key


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
    assert LETTER in {sheet.style for sheet, _ in sample}
    assert sum(len(sheet.drills) for sheet, _ in sample) > 400


@pytest.mark.timeout(120)
def test_a_line_ends_at_the_turn_wherever_a_drill_takes_two(
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
            if (page, system + 1) in ends:
                assert bar.right - bar.left > DOUBLE_BAR, sheet.drills[page].drill.key
                broken += 1

    assert broken > 10


def test_the_check_sees_labels_that_nothing_keeps_apart(tmp_path: Path) -> None:
    sheet = Sheet([entry("12-whole-place2-strings4321-stage5-low-same")], VIOLIN, A4)
    source = lilypond_source(sheet.drills, VIOLIN, A4)
    tied_down = source.replace("outside-staff-priority #(+ 200 row)", "Y-offset #1")
    assert tied_down != source

    signs = engraved(sheet, tmp_path / "spoilt", tied_down)

    assert {frozenset((one.name, other.name)) for one, other in collisions(signs)} >= {
        frozenset(("Fingering",)),
        frozenset(("Fingering", "NoteHead")),
    }


@pytest.mark.parametrize(
    ("key", "ours", "spoilt", "fault"),
    [
        ("12-whole-place5-strings4321-stage1-low-same", "padding = #0.7", "padding = #0.3", 0),
        ("12-whole-place2-strings4321-stage3-low-same", "move-gap 0.3", "move-gap 0.1", 1),
        ("1234-whole.half.whole-place1-strings4321-stage1-low-same", "#move::keep-first", "##f", 1),
        (TIED_SHARP, "= #leave-tied-alone", "= ##f", 3),
        (HIDDEN_TIE, "control-points = #reach-own-note", "minimum-length = #4", 2),
    ],
)
def test_each_check_sees_its_fault(
    tmp_path: Path, key: str, ours: str, spoilt: str, fault: int
) -> None:
    sheet = Sheet([entry(key)], VIOLIN, A5)
    source = lilypond_source(sheet.drills, VIOLIN, A5)
    assert ours in source

    signs = engraved(sheet, tmp_path / "spoilt", source.replace(ours, spoilt))

    checks = (crowded_fingers, crowded_marks, collisions, stray_accidentals)
    assert list(checks[fault](signs))


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
