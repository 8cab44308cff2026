"""A style with our text face, and a place for LilyPond to work in, for the tests."""

from pathlib import Path

import fontpkg_pt_serif as face

from bookgen.notation.lilypond import Workshop, find_lilypond
from bookgen.notation.style import Style

FACES = ("Regular", "Italic", "Bold", "BoldItalic")
FONT_FILES = tuple(str(face.ROOT / "files" / f"PT_Serif-Web-{name}.ttf") for name in FACES)
STYLE = Style(7.5, face.FAMILY, FONT_FILES)
FULL_MM = 178.0  # the line of a drill on A4 and Letter at full width, of a passage
BESIDE_MM = 128.0  # beside a chart
HALF_MM = 84.0  # a column
NARROW_MM = 66.5  # beside a chart on A5
SECONDS = 60.0


def workshop(folder: Path) -> Workshop:
    """LilyPond at work in a folder of the test."""
    return Workshop(find_lilypond(), folder)


def stand_in(folder: Path, script: str) -> Workshop:
    """A program in LilyPond's place that does what the script says.

    The script finds the stem of the file it should write in `$out`.
    """
    program = folder / "stand-in"
    find_output = 'for word; do case "$word" in --output=*) out="${word#--output=}";; esac; done'
    program.write_text(f"#!/bin/sh\n{find_output}\n{script}\n", encoding="utf-8")
    program.chmod(0o755)
    return Workshop(program, folder)


def listed_signs(source: str, folder: Path) -> str:
    """Every sign that LilyPond draws of a source, as the lint lists them.

    It keeps all memory to its end, some 5 MB a drill: so it takes half as long.
    """
    folder.mkdir()
    shop = workshop(folder)
    shop.furnish(STYLE)
    lint = Path(__file__).with_name("lint.ily").read_text(encoding="utf-8")
    (folder / "lint.ily").write_text(lint, encoding="utf-8")
    options = ("-dbackend=cairo", "--pdf", "-dinclude-settings=lint.ily")
    run = shop.begin("sample", *options, hoarding=True)
    run.feed(source)
    run.finish(SECONDS)
    return run.written(".lint").decode("ascii")
