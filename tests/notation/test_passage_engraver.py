"""Passages from LilyPond itself: lines of music, their ink, and no warning whatever they hold."""

from io import BytesIO
from pathlib import Path

import pypdfium2
import pytest
from notation.bench import A4, A5, SECONDS, stand_in, workshop
from passages import by_hand, passage, random_phrase
from shorthand import VIOLA, VIOLIN

from bookgen.errors import EngravingError
from bookgen.notation.engraved import Engraving
from bookgen.notation.passage_engraver import put_together, start_passage
from bookgen.notation.source import passage_source

POINTS_IN_MM = 72 / 25.4


@pytest.fixture(scope="module")
def lines(tmp_path_factory: pytest.TempPathFactory) -> Engraving:
    folder = tmp_path_factory.mktemp("ly")
    return start_passage(passage(), VIOLIN, A5, workshop(folder)).finish(SECONDS)


def test_each_line_of_music_is_a_page_of_its_own(lines: Engraving) -> None:
    assert [(line.file, line.page) for line in lines.drills] == [
        (0, page) for page in range(len(lines.drills))
    ]
    assert len(lines.drills) > 1
    assert {line.box.systems for line in lines.drills} == {1}


def test_lines_are_full_but_the_last_and_begin_at_the_left(lines: Engraving) -> None:
    widths = [line.box.width / POINTS_IN_MM for line in lines.drills]

    assert widths[:-1] == pytest.approx([A5.line_width_mm] * (len(widths) - 1), abs=0.4)
    assert widths[-1] <= A5.line_width_mm + 0.4
    assert len({round(line.box.left, 1) for line in lines.drills}) == 1


def test_the_bars_are_numbered_at_the_beginning_of_lines(lines: Engraving) -> None:
    pdf = pypdfium2.PdfDocument(lines.files[0])
    words = [page.get_textpage().get_text_range() for page in pdf]

    assert "33" in words[0].split()
    assert all(any(str(bar) in text for bar in range(33, 39)) for text in words)


@pytest.mark.timeout(60)
@pytest.mark.parametrize("seed", [20, 21])
def test_no_warning_whatever_a_passage_holds(tmp_path: Path, seed: int) -> None:
    instrument, style = (VIOLA, A5) if seed % 2 else (VIOLIN, A4)
    one = passage(random_phrase(seed, instrument=instrument), instrument)

    assert start_passage(one, instrument, style, workshop(tmp_path)).finish(SECONDS).drills


@pytest.mark.parametrize(
    "text",
    [
        "r=1",
        "r=1/4 | r=1",
        "A4=1 gB4",
        "gB4 A4 | r=7/8",
        "~A4=1 | ~A4=1",
        "A4+A4=1",
        "A4=17/1000 B4=983/1000",
        "A4=2 | B4=9/4",
        "gA4 gB4 r=1",
    ],
)
def test_odd_bars_give_no_warning(tmp_path: Path, text: str) -> None:
    one = by_hand(text)

    assert len(start_passage(one, VIOLIN, A4, workshop(tmp_path)).finish(SECONDS).drills) == 1


def test_the_source_is_the_same_each_time_and_tells_no_title() -> None:
    text = passage_source(passage(), VIOLIN, A4)

    assert text == passage_source(passage(), VIOLIN, A4)
    assert passage().title not in text


def test_two_engravings_become_one(lines: Engraving) -> None:
    both = put_together(lines, lines)

    assert both.files == lines.files * 2
    assert [line.file for line in both.drills] == [0] * len(lines.drills) + [1] * len(lines.drills)
    assert [pypdfium2.PdfDocument(BytesIO(file)) for file in both.files]


def test_a_page_without_ink_is_told(tmp_path: Path) -> None:
    shop = stand_in(tmp_path, 'cat > /dev/null; : > "$out.bbox"; printf "no pdf" > "$out.pdf"')

    with pytest.raises(EngravingError):
        start_passage(by_hand("A4=1"), VIOLIN, A4, shop).finish(SECONDS)
