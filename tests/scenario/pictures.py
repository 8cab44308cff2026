"""Makes the sample pages in docs/pictures: `.venv/bin/python -m tests.scenario.pictures`.

The scenario is Harbour Lane Strings, an invented studio.
"""

import os
import tempfile
from pathlib import Path
from typing import Final

from PIL import Image

from bookgen.binder.picture import png
from bookgen.cli import run

FOLDER: Final = Path(__file__).parents[2] / "docs" / "pictures"
STUDIO: Final = (
    'name = "Harbour Lane Strings"\n[players.Ines]\n[players.Jo]\ninstrument = "viola"\n'
)
DPI: Final = 110
COLOURS: Final = 16
"""Black ink on white paper needs few grays; the files stay small."""

SHEETS: Final = {
    "violin-a4": ("--player", "Ines", "--date", "2026-12-03"),
    "viola-letter": ("--player", "Jo", "--date", "2026-12-04", "--paper", "letter"),
    "violin-a5": ("--player", "Ines", "--date", "2026-12-07", "--paper", "a5"),
}
DRILLS: Final = {
    "overlap": "violin-12-whole-place2-strings4321-stage4-low-mirror",
    "double-stops-high": "violin-23-half-place9-strings4321-stage5-low-same",
    "frame": "viola-1234-whole.half.whole-place2-strings4321-stage1-low-same",
}


def small(file: Path) -> None:
    """Keep a picture's size down."""
    with Image.open(file) as picture:
        picture.convert("L").quantize(COLOURS).save(file, optimize=True)


def main() -> None:
    """Write all pictures anew."""
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        Path("studio.toml").write_text(STUDIO, encoding="utf-8")
        for name, words in SHEETS.items():
            assert run(["sheet", *words, "--out", f"{name}.pdf", "--quiet"]) == 0
            picture = FOLDER / f"{name}.png"
            picture.write_bytes(png(Path(f"{name}.pdf").read_bytes(), dpi=DPI))
            small(picture)
        for name, key in DRILLS.items():
            picture = FOLDER / f"{name}.png"
            assert run(["drill", key, "--out", str(picture), "--quiet"]) == 0
            small(picture)


if __name__ == "__main__":
    main()
