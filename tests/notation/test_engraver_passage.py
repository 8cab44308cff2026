"""Passages and excerpts from LilyPond itself: their lines, their ink, no warning at all."""

from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest
from kit.bench import FULL_MM, SECONDS, STYLE, stand_in, workshop
from kit.passage_pages import with_ladders
from kit.passages import by_hand, passage, random_phrase
from kit.plates import as_pdf
from kit.shorthand import VIOLA, VIOLIN

from bookgen.errors import EngravingError
from bookgen.notation.bar_count import bars_of_lines
from bookgen.notation.engraved import Engraving
from bookgen.notation.engraver import start_excerpts, start_passage
from bookgen.notation.source import excerpts_source, passage_source
from bookgen.plan.passage import Spot
from bookgen.plan.passage_excerpt import Excerpt, excerpts_of

A5_MM = 126.0
POINTS_IN_MM = 72 / 25.4


@pytest.fixture(scope="module")
def lines(tmp_path_factory: pytest.TempPathFactory) -> Engraving:
    folder = tmp_path_factory.mktemp("ly")
    return start_passage(passage(), VIOLIN, STYLE, A5_MM, workshop(folder)).finish(SECONDS)


def test_each_line_of_music_is_a_page_of_its_own(lines: Engraving) -> None:
    assert len(lines.drills) > 1
    assert {line.box.systems for line in lines.drills} == {1}


def test_lines_are_full_but_the_last_and_begin_at_the_left(lines: Engraving) -> None:
    widths = [line.box.width / POINTS_IN_MM for line in lines.drills]

    assert widths[:-1] == pytest.approx([A5_MM] * (len(widths) - 1), abs=0.4)
    assert widths[-1] <= A5_MM + 0.4
    assert len({round(line.box.left, 1) for line in lines.drills}) == 1


def test_the_bars_are_numbered_at_the_beginning_of_lines(lines: Engraving) -> None:
    pdf = pypdfium2.PdfDocument(as_pdf(lines))
    words = [page.get_textpage().get_text_range() for page in pdf]

    assert "33" in words[0].split()
    assert all(any(str(bar) in text for bar in range(33, 39)) for text in words)


def test_the_bars_of_each_line_are_counted_as_they_are_numbered(lines: Engraving) -> None:
    bars = passage().phrase.bars
    counted = bars_of_lines(lines.drills, len(bars))
    assert counted is not None

    numbers = [bar.number for bar in bars]
    pdf = pypdfium2.PdfDocument(as_pdf(lines))
    words = [page.get_textpage().get_text_range().split() for page in pdf]
    begun = [next(word for word in line if word in numbers) for line in words]
    assert [numbers[line.start] for line in counted] == begun
    assert [at for line in counted for at in line] == [*range(len(bars))]
    assert bars_of_lines(lines.drills, len(bars) + 1) is None


@pytest.mark.timeout(60)
@pytest.mark.parametrize("seed", [20, 21])
def test_no_warning_whatever_a_passage_holds(tmp_path: Path, seed: int) -> None:
    instrument, width = (VIOLA, A5_MM) if seed % 2 else (VIOLIN, FULL_MM)
    one = passage(random_phrase(seed, instrument=instrument), instrument)

    assert start_passage(one, instrument, STYLE, width, workshop(tmp_path)).finish(SECONDS).drills


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

    running = start_passage(one, VIOLIN, STYLE, FULL_MM, workshop(tmp_path))
    assert len(running.finish(SECONDS).drills) == 1


def test_the_number_of_a_spot_that_is_cut_by_a_line_stays_within_it(tmp_path: Path) -> None:
    one = passage(" | ".join(["A4=1/16 B4 C#5 D5 E5 D5 C#5 B4"] * 12))
    cut = tuple(Spot(1888, last, last + 1, last, {}, 1.0) for last in range(7, 88, 8))
    running = start_passage(replace(one, spots=cut), VIOLIN, STYLE, A5_MM, workshop(tmp_path))

    assert len(running.finish(SECONDS).drills) > 1


def test_the_source_is_the_same_each_time_and_tells_no_title() -> None:
    text = passage_source(passage(), VIOLIN, STYLE, FULL_MM)

    assert text == passage_source(passage(), VIOLIN, STYLE, FULL_MM)
    assert passage().title not in text


def test_a_page_without_ink_is_told(tmp_path: Path) -> None:
    shop = stand_in(tmp_path, 'cat > /dev/null; : > "$out.bbox"; printf "no pdf" > "$out.pdf"')

    with pytest.raises(EngravingError):
        start_passage(by_hand("A4=1"), VIOLIN, STYLE, FULL_MM, shop).finish(SECONDS)


@pytest.fixture(name="excerpts", scope="module")
def every_excerpt() -> list[tuple[Excerpt, float]]:
    return [(one, A5_MM / 2) for one in excerpts_of(with_ladders())]


def test_each_excerpt_is_one_page_whatever_its_lines(
    tmp_path: Path, excerpts: list[tuple[Excerpt, float]]
) -> None:
    running = start_excerpts(excerpts, VIOLIN, STYLE, workshop(tmp_path))
    made = running.finish(SECONDS)

    assert len(made.drills) == len(excerpts)
    assert max(engraved.box.width for engraved in made.drills) <= A5_MM / 2 * POINTS_IN_MM + 1


def test_the_source_of_excerpts_holds_no_bar_numbers_and_no_brackets(
    excerpts: list[tuple[Excerpt, float]],
) -> None:
    source = excerpts_source(excerpts, VIOLIN, STYLE)

    assert source.count(r"\bookpart {") == len(excerpts)
    assert r"\omit BarNumber" in source
    assert r"\group" not in source.partition(r"\bookpart {")[2]
