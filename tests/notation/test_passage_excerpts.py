"""A group's own notes as LilyPond engraves them."""

from dataclasses import replace
from pathlib import Path

import pytest
from passages import passage
from shorthand import VIOLIN

from bookgen.notation.lilypond import Workshop, find_lilypond
from bookgen.notation.passage_excerpts import excerpts_source, start_excerpts
from bookgen.notation.style import Style
from bookgen.plan.passage import Ladder
from bookgen.plan.passage_excerpt import Excerpt, excerpts_of
from bookgen.readers.layout import read_layout

LAYOUT = read_layout("ordinary")


@pytest.fixture(name="excerpts")
def every_excerpt() -> list[Excerpt]:
    one = passage()
    return excerpts_of(
        replace(one, ladders=tuple(Ladder(group.letter, (), ()) for group in one.best.groups))
    )


@pytest.fixture(name="style")
def ordinary_style() -> Style:
    fonts = LAYOUT.fonts
    files = tuple(str(file) for file in (fonts.regular, fonts.bold, fonts.italic))
    return Style(LAYOUT.music_width("a5"), LAYOUT.staff_height_mm, fonts.family, files)


def test_each_excerpt_is_one_page_whatever_its_lines(
    tmp_path: Path, excerpts: list[Excerpt], style: Style
) -> None:
    running = start_excerpts(excerpts, VIOLIN, style, Workshop(find_lilypond(), tmp_path))
    try:
        made = running.finish(60.0)
    finally:
        running.stop()

    assert len(made.drills) == len(excerpts)
    assert max(engraved.box.width for engraved in made.drills) <= style.line_width_mm * 72 / 25.4


def test_the_source_holds_no_bar_numbers_and_no_brackets(
    excerpts: list[Excerpt], style: Style
) -> None:
    source = excerpts_source(excerpts, VIOLIN, style)

    assert source.count(r"\bookpart {") == len(excerpts)
    assert r"\omit BarNumber" in source
    assert r"\startTextSpan" not in source.partition(r"\bookpart")[2]
