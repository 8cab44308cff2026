"""Where intervals live, checked from the stops."""

from booklets import a_month, furniture
from hypothesis import given
from hypothesis import strategies as some
from paper import Recorder, a_drill, playable, violin

from bookgen.binder.interval_index import homes_of, index_leaves, index_of, index_words
from bookgen.binder.leaf import side_of
from bookgen.model.interval import Interval, interval_label
from bookgen.plan.document import PlannedDrill

SAMPLE = list(playable())
PLAN = a_month(6)


@given(some.sampled_from(SAMPLE))
def test_each_interval_is_that_of_its_fingers_on_its_strings(planned: PlannedDrill) -> None:
    pitches = {
        (note.stop.string, note.stop.finger): note.pitch
        for event in planned.events
        for note in event.notes
    }
    for home, (low, high) in homes_of(planned):
        assert low == high + 1, "neighbouring strings, the lower one first"
        one, other = pitches[low, home.fingers[0]], pitches[high, home.fingers[1]]
        assert interval_label(one, other) == home.label
        assert home.position == planned.position


def test_double_stops_have_a_home_too() -> None:
    labels = {
        home.label for home, _ in homes_of(a_drill("12-whole-place2-strings43-stage5-low-same"))
    }

    assert labels == {"M6"} or "M6" in labels


def test_every_drill_and_day_is_found_under_its_intervals() -> None:
    found = index_of(PLAN.days)

    for day in PLAN.days:
        for planned in day.drills:
            for home, strings in homes_of(planned):
                where = found[home]
                assert strings in where.strings
                assert planned.number in dict(where.days)[day.date]


def test_intervals_come_from_the_narrowest_to_the_widest() -> None:
    listed = index_words(index_of(PLAN.days), violin())

    names = [interval.name for interval in listed]
    assert names == list(dict.fromkeys(names)), "each once"
    homes = {home.label for home in index_of(PLAN.days)}
    assert len(names) == len(homes)
    assert names[0] == "perfect fourth"
    assert Interval.parse("P4").semitones == min(Interval.parse(h).semitones for h in homes)


def test_the_index_names_fingers_position_strings_numbers_and_days() -> None:
    (entry, *_) = index_words(index_of(PLAN.days), violin())[0].entries

    assert entry.fingers == "2\N{EN DASH}1"
    assert entry.position == "1st"
    assert "IV\N{EN DASH}III" in entry.strings
    assert entry.days[0][0] == "1 Dec"


def test_the_pages_lose_nothing() -> None:
    for paper in ("a5", "a4"):
        around = furniture(PLAN, paper)
        leaves = index_leaves(PLAN, around)
        canvas = Recorder()
        for leaf in leaves:
            list(leaf.draw(canvas, side_of(0, "1", around.desk.sheet)))
        said = " ".join(" ".join(canvas.words).split())
        for interval in index_words(index_of(PLAN.days), violin()):
            assert interval.name in said
            for entry in interval.entries:
                assert entry.fingers in said
        assert min(y for (_, y), _ in canvas.texts) >= around.bottom - 0.5
