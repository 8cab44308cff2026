"""Passages as JSON."""

import json
from fractions import Fraction

import jsonschema
import pytest
from hypothesis import given, settings
from kit.passage_pages import with_ladders
from kit.passages import any_passage, by_hand, passage

from bookgen.plan.passage import Passage
from bookgen.plan.passage_encoder import encode_passage, time
from bookgen.plan.passage_wire import passage_schema


def document(one: Passage) -> dict[str, object]:
    found: dict[str, object] = json.loads(encode_passage(one))
    return found


def test_notes_stops_groups_and_costs_are_there() -> None:
    one = passage("A4 B4 C#5 D5 E5 F#5 G#5 A5 | A5 B5 C#6 D6 E6 D6 C#6 B5")
    found = document(one)
    best = json.loads(json.dumps(found["best"]))

    assert found["bars"][0]["sounds"][1] == {  # type: ignore[index]
        "at": "1/8",
        "duration": "1/8",
        "notes": [{"pitch": "B4"}],
    }
    assert len(best["placed"]) == 16
    assert best["placed"][1]["stops"] == [{"string": 2, "finger": 1, "semitones": 2, "pitch": "B4"}]
    assert best["cost"] == pytest.approx(
        sum(sum(placed["cost"].values()) for placed in best["placed"])
    )
    assert best["groups"][0]["bars"] == ["33", "34"]
    assert {"string": 2, "finger": 1, "semitones": 2} in best["groups"][0]["stops"]


def test_what_cannot_be_played_is_null_and_told() -> None:
    found = json.loads(encode_passage(passage("F#3 A4")))

    assert found["best"]["placed"][0]["stops"] == [None]
    assert found["best"]["unplayable"][0]["bar"] == "33"


def test_spots_ladders_and_drills_are_there() -> None:
    one = with_ladders()
    found = json.loads(encode_passage(one))
    keys = {drill["key"] for drill in found["plan"]["drills"]}

    assert [spot["number"] for spot in found["spots"]] == [spot.number for spot in one.spots]
    assert [ladder["spot"] for ladder in found["ladders"]] == [spot.number for spot in one.spots]
    assert {key for ladder in found["ladders"] for key in ladder["drills"]} == keys
    jsonschema.validate(found, passage_schema())


def test_the_text_is_the_same_each_time() -> None:
    assert encode_passage(passage()) == encode_passage(passage())


@settings(max_examples=20, deadline=None)
@given(any_passage())
def test_every_passage_fits_the_schema(one: Passage) -> None:
    jsonschema.validate(json.loads(encode_passage(one)), passage_schema())


def test_times_are_parts_of_a_whole_note() -> None:
    assert [time(Fraction(one)) for one in ("0", "3/8", "2")] == ["0", "3/8", "2"]
    assert json.loads(encode_passage(by_hand("A4=5/8")))["bars"][0]["length"] == "5/8"
