"""The LilyPond file of many drills."""

import re
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
from kit.bench import STYLE
from kit.drills import VIOLIN, drill_of

from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.lilypond import find_lilypond, lay_fonts
from bookgen.notation.source import lilypond_source
from bookgen.notation.style import Style

SHORT = "12-whole-place2-strings21-stage3-low-same"
LONG = "12-whole-place2-strings4321-stage1-low-same"


def scores(*keys: str) -> list[DrillScore]:
    return [DrillScore(drill_of(key), 100.0 + at, Written.BOTH) for at, key in enumerate(keys)]


def test_each_drill_is_a_part_of_its_own_under_its_key_on_its_own_width() -> None:
    text = lilypond_source(scores(LONG, SHORT), VIOLIN, STYLE)

    assert text.count("\\bookpart") == 2
    assert re.findall(r"^%% (violin-\S+)$", text, re.MULTILINE) == [
        f"violin-{LONG}",
        f"violin-{SHORT}",
    ]
    assert re.findall(r"line-width = (\S+)\\mm", text) == ["100.0", "101.0"]


def test_the_source_is_the_same_each_time() -> None:
    one, other = (lilypond_source(scores(LONG), VIOLIN, STYLE) for _ in range(2))

    assert one == other


def test_the_sizes_of_the_style_stand_in_it() -> None:
    text = lilypond_source(scores(SHORT), VIOLIN, replace(STYLE, finger=-1.3, word_gap=0.25))

    assert "#(define finger-step -1.3)" in text
    assert "#(define word-gap 0.25)" in text


def test_no_path_of_a_font_stands_in_the_source() -> None:
    hostile = Style(7.5, "Text", ('/home/#(system "id")/a".ttf', "/b.otf"))
    text = lilypond_source(scores(SHORT), VIOLIN, hostile)

    assert '"fonts/text-0.ttf" "fonts/text-1.otf"' in text
    assert "/home" not in text
    assert "#(system" not in text


@pytest.mark.parametrize("with_fonts", [True, False])
def test_a_kept_source_is_engraved_by_plain_lilypond(tmp_path: Path, *, with_fonts: bool) -> None:
    style = STYLE if with_fonts else Style(7.5, "PT Serif", ())
    lay_fonts(style, tmp_path)
    file = tmp_path / "drills-1.ly"
    file.write_text(lilypond_source(scores(SHORT), VIOLIN, style), encoding="utf-8")

    done = subprocess.run(  # noqa: S603  our own file
        [str(find_lilypond()), "--loglevel=WARNING", file.name],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )

    assert done.stderr == ""
    assert file.with_suffix(".pdf").read_bytes().startswith(b"%PDF")
