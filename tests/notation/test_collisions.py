"""No sign touches another: a broad sample of drills, checked box by box."""

from concurrent.futures import ThreadPoolExecutor
from itertools import cycle, product
from pathlib import Path
from typing import NamedTuple

import pytest
from drills import VIOLA, VIOLIN, entry
from notation.bench import A4, A5, SECONDS, workshop
from notation.lint import LABELS, Sign, collisions, must_part, read_signs

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
)
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
    folder.mkdir()
    shop = workshop(folder)
    shop.furnish(sheet.style)
    lint = Path(__file__).with_name("lint.ily").read_text(encoding="utf-8")
    (folder / "lint.ily").write_text(lint, encoding="utf-8")
    run = shop.begin("sample", "-dbackend=cairo", "--pdf", "-dinclude-settings=lint.ily")
    run.feed(source or lilypond_source(sheet.drills, sheet.instrument, sheet.style))
    run.finish(SECONDS)
    return read_signs(run.written(".lint").decode("ascii"))


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
def test_the_sample_shows_every_kind_of_sign(sample: list[tuple[Sheet, list[Sign]]]) -> None:
    names = {sign.name for _, signs in sample for sign in signs}

    assert names >= LABELS | {"Accidental", "BarLine", "Clef", "NoteHead", "Stem", "Tie"}
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


def test_boxes_touch_when_they_share_ink() -> None:
    one = Sign(0, 0, "Fingering", 0.0, 0.0, 1.0, 1.0)

    assert one.touches(Sign(0, 0, "NoteHead", 0.9, 0.9, 2.0, 2.0))
    assert not one.touches(Sign(0, 0, "NoteHead", 1.0, 0.0, 2.0, 2.0))
    assert not list(collisions([one, Sign(0, 1, "NoteHead", 0.0, 0.0, 2.0, 2.0)]))
    assert not must_part("NoteHead", "Stem")
