"""The LilyPond file of many drills."""

import re
import subprocess
from pathlib import Path

import pytest
from drills import VIOLIN, entry
from notation.bench import A4, A5

from bookgen.notation.lilypond import find_lilypond, lay_fonts
from bookgen.notation.source import lilypond_source, music_width_mm, sound_source
from bookgen.notation.style import Style

SHORT = "12-whole-place2-strings21-stage3-low-same"
LONG = "12-whole-place2-strings4321-stage1-low-same"


def test_each_drill_is_a_part_of_its_own_under_its_key() -> None:
    drills = [entry(LONG), entry(SHORT, 2)]
    text = lilypond_source(drills, VIOLIN, A4)

    assert text.count("\\bookpart") == len(drills)
    assert re.findall(r"^%% (\d+): (\S+)$", text, re.MULTILINE) == [
        ("1", f"violin-{LONG}"),
        ("2", f"violin-{SHORT}"),
    ]


def test_the_source_is_the_same_each_time() -> None:
    assert lilypond_source([entry(LONG)], VIOLIN, A4) == lilypond_source([entry(LONG)], VIOLIN, A4)


def test_a_long_drill_fills_the_line_and_a_short_one_is_not_drawn_out() -> None:
    assert music_width_mm(entry(LONG), A4) == A4.line_width_mm
    assert music_width_mm(entry(LONG), A5) == A5.line_width_mm
    assert 60.0 < music_width_mm(entry(SHORT), A4) < A4.line_width_mm / 2


def test_no_path_of_a_font_stands_in_the_source() -> None:
    hostile = Style(180.0, 7.5, "Text", ('/home/#(system "id")/a".ttf', "/b.otf"))
    text = lilypond_source([entry(SHORT)], VIOLIN, hostile)

    assert '"fonts/text-0.ttf" "fonts/text-1.otf"' in text
    assert "/home" not in text
    assert "#(system" not in text


@pytest.mark.parametrize("with_fonts", [True, False])
def test_a_kept_source_is_engraved_by_plain_lilypond(tmp_path: Path, *, with_fonts: bool) -> None:
    style = A4 if with_fonts else Style(180.0, 7.5, "PT Serif", ())
    lay_fonts(style, tmp_path)
    file = tmp_path / "drills-1.ly"
    file.write_text(lilypond_source([entry(SHORT)], VIOLIN, style), encoding="utf-8")

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


def test_a_drill_to_be_heard_makes_no_page() -> None:
    text = sound_source(entry(LONG), VIOLIN)

    assert "\\midi" in text
    assert "\\layout" not in text
    assert 'midiInstrument = "violin"' in text
