"""The plan document as JSON."""

import json

from drills import VIOLIN, plan_of

from bookgen.plan.encoder import encode

STAGE_4 = "12-whole-place2-strings4321-stage4-low-same"


def test_a_stop_stands_in_the_document_as_the_design_shows_it() -> None:
    text = encode(plan_of("12-whole-place2-strings4321-stage1-low-same"), VIOLIN)

    drill = json.loads(text)["days"][0]["drills"][0]
    assert drill["events"][0]["stops"] == [
        {"string": 4, "finger": 1, "semitones": 2, "pitch": "A3", "midi": 57, "hz": 220.0}
    ]
    assert drill["position"] == "1st"
    assert drill["return"] == "same"
    assert [event["from_previous"] for event in drill["events"]][:4] == [None, "M2", "P4", "M2"]


def test_held_notes_and_the_intervals_within_are_told() -> None:
    events = json.loads(encode(plan_of(STAGE_4), VIOLIN))["days"][0]["drills"][0]["events"]

    assert events[1]["stops"][0]["held"] is True
    assert "held" not in events[1]["stops"][1]
    assert events[1]["within"] == "M6"


def test_the_same_plan_gives_the_same_text() -> None:
    assert encode(plan_of(STAGE_4), VIOLIN) == encode(plan_of(STAGE_4), VIOLIN)
