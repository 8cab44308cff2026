"""Whole sheets of Harbour Lane Strings, measured in the PDF itself."""

import io
import os
import signal
import subprocess
import sys
import time
from itertools import pairwise
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pikepdf
import pypdfium2
import pytest
from kit.shell import bookgen

POINTS_IN_MM = 72 / 25.4
DAY = ("--date", "2026-12-01")
PAPERS = {"a4": (595.276, 841.89), "a5": (419.528, 595.276), "letter": (612.0, 792.0)}
DARK = 100
SCALE = 8.0


@pytest.fixture(params=PAPERS)
def paper(request: pytest.FixtureRequest) -> str:
    """Each of the papers."""
    return str(request.param)


def sheet(*words: str) -> bytes:
    assert bookgen("sheet", *DAY, *words, "--out", "sheet.pdf").code == 0
    return Path("sheet.pdf").read_bytes()


def music_boxes(page: pikepdf.Page) -> list[tuple[float, float, float, float]]:
    """Where the page places music: left, bottom, right, top in points, from its own operators."""
    boxes = []
    matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    for step in pikepdf.parse_content_stream(page):
        if str(step.operator) == "cm":
            a, b, c, d, e, f = (float(value) for value in step.operands)
            matrix = (a, b, c, d, e, f)
        if str(step.operator) == "Do":
            form = page.resources["/XObject"][str(step.operands[0])]
            assert "/Matrix" not in form
            x0, y0, x1, y1 = (float(value) for value in form["/BBox"])
            a, b, c, d, e, f = matrix
            assert (a, b, c, d) == (1, 0, 0, 1), "music is placed, never scaled"
            boxes.append((x0 + e, y0 + f, x1 + e, y1 + f))
    return boxes


def staff_heights_mm(page: pypdfium2.PdfPage) -> list[float]:
    """Heights of all five-line staves, from the outer lines' middles, measured in a picture.

    Staves may stand in two columns, each half as wide as the page.
    """
    picture = np.asarray(page.render(scale=SCALE, grayscale=True).to_pil())
    middle = picture.shape[1] // 2
    return heights_in(picture[:, :middle]) + heights_in(picture[:, middle:])


def heights_in(picture: npt.NDArray[np.uint8]) -> list[float]:
    """Heights of the staves in a part of a page."""
    long = (picture < DARK).sum(axis=1) > 25 * POINTS_IN_MM * SCALE
    rows = np.flatnonzero(long)
    groups = np.split(rows, np.flatnonzero(np.diff(rows) > 1) + 1)
    middles = [group.mean() / SCALE / POINTS_IN_MM for group in groups if len(group)]
    heights = []
    for five in zip(*(middles[start:] for start in range(5)), strict=False):
        gaps = [below - above for above, below in pairwise(five)]
        if max(gaps) - min(gaps) < 0.1 and max(gaps) < 2.2:
            heights.append(float(five[-1] - five[0]))
    return heights


@pytest.mark.published("ISO 216 (A4, A5) and ANSI Y14.1 (Letter) sizes of paper")
def test_pages_are_as_large_as_their_paper(paper: str) -> None:
    document = pypdfium2.PdfDocument(sheet("--paper", paper))

    for page in document:
        assert page.get_size() == pytest.approx(PAPERS[paper], abs=0.5)


def test_every_drills_music_is_there_once_and_inside_the_page(paper: str) -> None:
    assert bookgen("sheet", *DAY, "--paper", paper, "--plan", "plan.json").code == 0
    text = Path("plan.json").read_text(encoding="utf-8")
    with pikepdf.open(next(Path("output").iterdir())) as pdf:
        boxes = [box for page in pdf.pages for box in music_boxes(page)]

    width, height = PAPERS[paper]
    assert len(boxes) == text.count('"key"')
    for left, bottom, right, top in boxes:
        assert 0 < left < right < width
        assert 0 < bottom < top < height


@pytest.mark.published("MOLA, Guidelines for Music Preparation, 2017, p. 5: 7.0 to 8.5 mm")
@pytest.mark.parametrize("instrument", ["violin", "viola"])
def test_staves_are_as_high_as_the_librarians_ask(paper: str, instrument: str) -> None:
    document = pypdfium2.PdfDocument(sheet("--paper", paper, "--instrument", instrument))

    heights = [height for page in document for height in staff_heights_mm(page)]
    assert len(heights) >= 4
    assert all(7.4 <= height <= 7.6 for height in heights), heights


def test_fonts_are_embedded_and_words_can_be_searched() -> None:
    Path("studio.toml").write_text("[players.Ines]", encoding="utf-8")
    content = sheet("--player", "Ines")
    words = pypdfium2.PdfDocument(content)[0].get_textpage().get_text_bounded()

    assert "Ines" in words
    assert "Tuesday, 1 December 2026" in words
    assert "Stop at once" in words
    with pikepdf.open(io.BytesIO(content)) as pdf:
        fonts = [
            item
            for item in pdf.objects
            if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor"
        ]
        assert len(fonts) >= 3
        assert all({"/FontFile", "/FontFile2", "/FontFile3"} & set(font) for font in fonts)
        assert pdf.check_pdf_syntax() == []
        assert pdf.docinfo["/Title"] == "Ines · Tuesday, 1 December 2026"
        with pdf.open_outline() as outline:
            assert [item.title for item in outline.root] == ["Tuesday, 1 December 2026"]
            assert len(outline.root[0].children) >= 4


HOSTILE = {
    "quotes and braces": "\"}'{]) \\markup {",
    "code": '#(system "touch hacked") #{ $ %',
    "backslashes": '\\\\ \\n \\include "x"',
    "markup": "<b>Ines</b> <img src='x'/> &amp; {{ 7*7 }} {% raw %}",
    "emoji": "Ines 🎻👩‍🎤",
    "right to left": "إيناس ענת",
    "long": "Ines " * 100,
}
CONTROL = "\t\x07\u202e\u0000"
"""Refused in a player's name; a studio's is printed without it."""


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE.keys())
def test_a_name_neither_breaks_the_page_nor_reaches_lilypond(here: Path, name: str) -> None:
    studio = f"name = {quoted(name + CONTROL)}\n[players.{quoted(name)}]\n"
    Path("studio.toml").write_text(studio, encoding="utf-8")

    outcome = bookgen("sheet", *DAY, "--player", name, "--keep-ly", "ly", "--plan", "p.json")
    assert outcome.code == 0, outcome
    kept = (here / "ly" / "drills-1.ly").read_text(encoding="utf-8")
    assert name not in kept
    assert "Ines" not in kept
    assert not list(here.rglob("hacked"))
    (made,) = Path("output").iterdir()
    assert len(pypdfium2.PdfDocument(made)) == len(pypdfium2.PdfDocument(sheet("--player", name)))
    assert bookgen("bind", "p.json", "--out", "again.pdf").code == 0


def quoted(text: str) -> str:
    """A TOML basic string."""
    escaped = (f"\\U{ord(c):08x}" if c in '"\\' or not c.isprintable() else c for c in text)
    return f'"{"".join(escaped)}"'


def test_the_same_plan_gives_the_same_bytes_anywhere(here: Path) -> None:
    bookgen("sheet", *DAY, "--plan", "plan.json", "--out", "x.pdf")
    plan, made = here / "plan.json", []
    for number, (zone, seed) in enumerate([("Pacific/Auckland", "1"), ("America/Lima", "2")]):
        folder = here / f"folder {number}"
        folder.mkdir()
        environment = {
            "PATH": os.defpath,
            "TZ": zone,
            "PYTHONHASHSEED": seed,
            "SOURCE_DATE_EPOCH": str(1_000_000_000 + number),
            "HOME": str(folder),
        }
        command = [sys.executable, "-m", "bookgen", "bind", str(plan)]
        subprocess.run(command, check=True, cwd=folder, env=environment, capture_output=True)  # noqa: S603
        made.append((folder / "output" / "plan.pdf").read_bytes())

    assert made[0] == made[1] == (here / "x.pdf").read_bytes()


@pytest.mark.parametrize("sent", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_an_interrupted_command_leaves_nothing(here: Path, sent: signal.Signals) -> None:
    (here / "temporary").mkdir()
    command = [sys.executable, "-m", "bookgen", "sheet"]
    environment = {**os.environ, "TMPDIR": str(here / "temporary")}  # noqa: TID251
    process = subprocess.Popen(  # noqa: S603
        command, cwd=here, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
    )
    for _ in range(1000):
        if any((here / "temporary").glob("*/*")) or process.poll() is not None:
            break
        time.sleep(0.01)
    process.send_signal(sent)
    process.communicate()

    assert list((here / "temporary").iterdir()) == []
    files = [path.name for path in here.rglob("*") if path.is_file()]
    if process.returncode == 0:  # it was faster than the signal
        assert len(files) == 1
    else:
        assert files == []
