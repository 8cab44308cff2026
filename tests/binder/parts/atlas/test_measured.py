"""The atlas of the fingerboard: every stop once, at its measure, by the names of music21."""

from itertools import pairwise

import pytest
from kit.paper import Recorder
from kit.shorthand import SPECIMEN_KEYS, VIOLA, VIOLIN, specimen
from kit.sources import published, published_rows
from music21 import pitch as m21_pitch

from bookgen.binder.page.canvas import Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.fonts import Fonts
from bookgen.binder.page.frame import Frame, frame_of
from bookgen.binder.page.leaf import side_of
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.parts.atlas.pages import atlas_leaves
from bookgen.model.instrument import Instrument
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH, speech_of

STOPS = published_rows("stops_by_size", "stop_mm")
NODES = published("luthiers_frets", "factor")
CASES = [
    (one, size.name, paper)
    for one in (VIOLIN, VIOLA, *map(specimen, SPECIMEN_KEYS))
    for size in (one.sizes[0], one.sizes[-1])
    for paper in PAPERS
]
LAYOUT = read_layout("ordinary")
FONTS = Fonts(LAYOUT.fonts)


def around(instrument: Instrument, size: str, paper: str, language: str = "en") -> Frame:
    speech = ENGLISH if language == "en" else speech_of(language)
    desk = Desk(instrument, size, LAYOUT, paper, FONTS, speech)
    return frame_of(desk, "A book", "Stop.", {}, mirrored=True)


class Measured(Recorder):
    """A canvas that knows how wide letters are."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk

    def width(self, text: str, style: Style) -> float:
        return self.desk.fonts.width(text, style)


def drawn(frame: Frame) -> list[Recorder]:
    """Each page of the atlas."""
    pages: list[Recorder] = []
    for page, leaf in enumerate(atlas_leaves(frame)):
        canvas = Measured(frame.desk)
        list(leaf.draw(canvas, side_of(page, "1", frame.desk.sheet)))
        pages.append(canvas)
    return pages


def stops_on(page: Recorder) -> list[tuple[float, list[float]]]:
    """Where each string lies, the lowest first, with the heights of its spots, downwards."""
    across = sorted({round(x, 3) for x, _ in page.spots})
    return [
        (at, sorted((y for x, y in page.spots if round(x, 3) == at), reverse=True)) for at in across
    ]


FIGURE_MM = 2.4
"""Names nearer to each other would touch."""


def names_on(page: Recorder) -> dict[float, list[float]]:
    """The heights of names by where they begin."""
    found: dict[float, list[float]] = {}
    for (x, y), text in page.texts:
        if text[:1] in {*"CDEFGAB"}:
            found.setdefault(round(x, 3), []).append(y)
    return found


def scale_of(page: Recorder) -> float:
    """The second figure of the scale that the page names."""
    (words,) = (text for text in [" ".join(page.words)] if "1 : " in text)
    return float(words.partition("1 : ")[2].partition(")")[0])


@pytest.mark.parametrize(
    ("instrument", "size", "paper"),
    CASES,
    ids=[f"{one.key}-{size.replace('/', '.')}-{paper}" for one, size, paper in CASES],
)
def test_every_stop_stands_once_on_one_page_or_two(
    instrument: Instrument, size: str, paper: str
) -> None:
    frame = around(instrument, size, paper)
    pages = drawn(frame)

    assert len(pages) in {1, 2}
    counts = [[len(spots) for _, spots in stops_on(page)] for page in pages]
    assert {len(own) for own in counts} == {len(instrument.strings)}
    wanted = instrument.highest_stop + (len(pages) - 1)  # two pages meet at one stop
    assert [sum(own) for own in zip(*counts, strict=True)] == [wanted] * len(instrument.strings)
    for page in pages:
        for (x, y), _ in page.texts:
            assert frame.desk.sheet.margins.left <= x <= frame.desk.sheet.width
            assert frame.bottom <= y <= frame.top
        for heights in names_on(page).values():
            assert all(high - low >= FIGURE_MM for low, high in pairwise(sorted(heights)))


@pytest.mark.published(STOPS.title)
@pytest.mark.parametrize(
    ("instrument", "size", "row"),
    [
        (VIOLIN, "4/4", "violin 4/4 328"),
        (VIOLIN, "1/2", "violin 1/2 287"),
        (specimen("cello"), "4/4", "cello 4/4 690"),
    ],
)
def test_each_stop_lies_as_the_makers_tables_say(
    instrument: Instrument, size: str, row: str
) -> None:
    assert instrument.size(size).string_length_mm == float(row.rpartition(" ")[2])
    (page,) = drawn(around(instrument, size, "a4"))
    per = scale_of(page)
    for _, spots in stops_on(page):
        away = [(spots[0] - y) * per + STOPS.values[row][1] for y in spots]
        assert away == pytest.approx(STOPS.values[row][1 : instrument.highest_stop + 1], abs=0.02)
    figures = [text for _, text in page.texts if text.isdecimal()]
    for figure, mm in zip(figures, STOPS.values[row][1:], strict=False):
        assert abs(int(figure) - mm) < 0.51
    assert len(figures) == instrument.highest_stop


@pytest.mark.published("music21 10.5, names of notes")
@pytest.mark.parametrize("language", ["en", "de"])
def test_each_stop_has_the_names_of_its_note(language: str) -> None:
    (page,) = drawn(around(VIOLIN, "4/4", "a4", language))
    for (at, spots), open_string in zip(stops_on(page), reversed(VIOLIN.strings), strict=True):
        for stop, y in enumerate(spots, start=1):
            here = [text for (x, low), text in page.texts if 0 < x - at < 5 and abs(low - y) < 1.5]
            assert here == [called(open_string.midi + stop, language)]


def called(midi: int, language: str) -> str:
    """The names of a note by music21."""
    pitch = m21_pitch.Pitch(midi=midi)
    other = pitch.getEnharmonic()
    found = [pitch]
    if pitch.accidental is not None and other is not None:
        found = sorted((pitch, other), key=lambda one: -one.alter)
    if language == "de":
        return "  ".join(one.german for one in found)
    return "  ".join(one.unicodeName for one in found)


@pytest.mark.published(NODES.title)
def test_harmonics_lie_at_the_parts_of_the_string() -> None:
    (page,) = drawn(around(VIOLIN, "4/4", "a4"))
    per, length = scale_of(page), 328.0
    (_, spots), *_ = stops_on(page)
    nut = spots[0] + length * NODES.values["1"] / per
    diamonds = {
        round((nut - (max(y for _, y in one) + min(y for _, y in one)) / 2) * per / length, 3)
        for one in page.shapes
        if len({round(x, 3) for x, _ in one}) == 3
    }
    assert diamonds >= {0.2, 0.25, 0.333, 0.4, 0.5, 0.6, 0.667, 0.75}
    assert len(diamonds) == 9, "and the one of the key"


def test_a_half_size_is_drawn_to_its_own_measure() -> None:
    desks: list[Desk] = [around(VIOLIN, size, "a4").desk for size in ("4/4", "1/2")]
    whole, half = (drawn(around(VIOLIN, desk.size, "a4"))[0] for desk in desks)
    assert "Violin 1/2" in " ".join(half.words)
    assert scale_of(half) == 1.0 < scale_of(whole)
