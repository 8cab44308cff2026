"""Where intervals live, checked from the notes."""

import pytest
from kit.days_plan import a_desk
from kit.month_plan import KEYS, a_month
from kit.paper import Recorder

from bookgen.binder.page.frame import Frame, frame_of
from bookgen.binder.page.leaf import Leaf, side_of
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.parts.index import homes_of, index_leaves, index_of, worth_an_index
from bookgen.model.interval import Interval, interval_label
from bookgen.model.pitch import Pitch
from bookgen.plan.document import DrillEntry

ENTRIES = a_month(len(KEYS)).drills


def frame(paper: str = "a4") -> Frame:
    return frame_of(a_desk(paper), "Ines", "Stop.", {}, mirrored=True)


def said(leaves: list[Leaf], around: Frame) -> Recorder:
    canvas = Recorder()
    for page, leaf in enumerate(leaves):
        list(leaf.draw(canvas, side_of(page, "1", around.desk.sheet)))
    return canvas


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.key)
def test_each_interval_is_that_of_its_fingers_on_two_neighbouring_strings(
    entry: DrillEntry,
) -> None:
    pitches = {
        (stop.string, stop.finger): Pitch.parse(stop.pitch)
        for event in entry.events
        for stop in event.stops
    }
    for home in homes_of(entry):
        low, high = home.fingers
        found = {
            interval_label(pitches[string, low], pitches[string - 1, high])
            for string in entry.strings[:-1]
            if (string, low) in pitches and (string - 1, high) in pitches
        }
        assert home.label in found


@pytest.mark.published("common practice, no source")
def test_low_lead_makes_fourths_of_a_whole_step_and_high_lead_sixths() -> None:
    up = [entry for entry in ENTRIES if entry.key.startswith("violin-12-whole-place2-strings4321")]
    low = next(entry for entry in up if entry.stage == 1 and entry.lead == "low")
    high = next(entry for entry in up if entry.stage == 1 and entry.lead == "high")
    assert {home.label for home in homes_of(low)} == {"P4"}
    assert {home.label for home in homes_of(high)} == {"M6"}


def test_every_drill_stands_under_each_of_its_intervals_once() -> None:
    found = index_of(ENTRIES)
    for entry in ENTRIES:
        for home in homes_of(entry):
            numbers = found[home.label][home.fingers][home.position]
            assert numbers.count(entry.number) == 1
            assert numbers == sorted(numbers)


def test_intervals_come_from_the_narrowest_to_the_widest() -> None:
    sizes = [Interval.parse(label).semitones for label in index_of(ENTRIES)]
    assert sizes == sorted(sizes)


@pytest.mark.parametrize(("drills", "worth"), [(2, False), (11, False), (12, True), (60, True)])
def test_few_drills_need_no_index(drills: int, *, worth: bool) -> None:
    assert worth_an_index(ENTRIES[:drills]) is worth


def test_drills_of_one_interval_need_none_either() -> None:
    fourths = [entry for entry in ENTRIES if {home.label for home in homes_of(entry)} == {"P4"}]
    assert not worth_an_index(fourths * 12)


@pytest.mark.parametrize("paper", PAPERS)
def test_the_pages_lose_nothing_and_keep_their_margins(paper: str) -> None:
    around = frame(paper)
    canvas = said(index_leaves(ENTRIES, around, None), around)
    text = " ".join(" ".join(canvas.words).split())
    for label, homes in index_of(ENTRIES).items():
        assert label[1:] in text
        for low, high in homes:
            assert f"{low}\N{EN DASH}{high}" in text
    sheet = around.desk.sheet
    for (x, y), _ in canvas.texts:
        assert around.bottom <= y <= around.top
        assert min(sheet.margins.left, sheet.margins.right) <= x <= sheet.width


def test_an_interval_that_goes_on_in_the_next_column_is_named_again() -> None:
    around = frame("half-letter")
    many = [entry for entry in ENTRIES for _ in range(1)]
    canvas = said(index_leaves(many, around, None), around)
    columns: dict[float, list[tuple[float, str]]] = {}
    for (x, y), text in canvas.texts:
        columns.setdefault(round(x), []).append((y, text))
    lefts = sorted(columns, key=lambda x: -len(columns[x]))[:2]
    for left in lefts:
        first = max(columns[left])
        assert "\N{EN DASH}" not in first[1]
