"""The plan document as JSON, and its schema."""

import json
from datetime import date
from pathlib import Path

import jsonschema
import msgspec
import pytest
from kit.drills import entry, plan_of
from kit.fences import blocks
from kit.planning import planned_from

from bookgen.plan.document import Plan, encode, plan_schema
from bookgen.plan.link import change, kept

SCHEMA = Path(__file__).parents[2] / "docs" / "reference" / "plan.schema.json"
STAGE_4 = "12-whole-place2-strings4321-stage4-low-same"


def test_a_stop_stands_in_the_document_as_the_design_shows_it() -> None:
    text = encode(plan_of("12-whole-place2-strings4321-stage1-low-same"))

    (drill,) = json.loads(text)["drills"]
    assert drill["events"][0] == {
        "stops": [
            {"string": 4, "finger": 1, "semitones": 2, "pitch": "A3", "midi": 57, "hz": 220.0}
        ],
        "duration": "1/4",
        "from_previous": None,
        "crosses": False,
    }
    assert drill["position"] == "1st"
    assert drill["return"] == "same"
    assert [event["from_previous"] for event in drill["events"]][:4] == [None, "M2", "P4", "M2"]


def test_held_notes_and_the_intervals_within_are_told() -> None:
    events = json.loads(encode(plan_of(STAGE_4)))["drills"][0]["events"]

    assert events[1]["stops"][0]["held"] is True
    assert "held" not in events[1]["stops"][1]
    assert events[1]["within"] == "M6"


def test_an_order_stands_only_where_it_is_no_plain_one() -> None:
    key = "1234-whole.half.whole-place2-strings4321-stage3-{}-same"

    assert entry(key.format("high")).order is None
    assert entry(key.format("order1324")).order == (1, 3, 2, 4)


def test_a_drill_past_the_fingerboard_is_refused_not_clipped() -> None:
    with pytest.raises(ValueError, match="24"):
        entry("12-whole-place23-strings43-stage1-low-same")


def test_the_schema_in_the_docs_is_the_one_the_code_reads_by() -> None:
    assert json.loads(SCHEMA.read_text(encoding="utf-8")) == json.loads(json.dumps(plan_schema()))


def test_the_example_in_the_docs_is_a_plan() -> None:
    example, *_ = blocks(SCHEMA.with_name("plan.md"))
    plan = msgspec.json.decode(example.text, type=Plan)
    (drill,) = plan.drills

    assert plan.linked(drill) == plan.named[11]
    assert drill.link.changes == change(plan.named[11], drill.drill)
    assert drill.link.keeps == kept(plan.named[11], drill.drill)


@pytest.mark.published("JSON Schema, draft 2020-12, as the jsonschema package checks it")
def test_a_plan_fits_the_schema_and_a_broken_one_does_not() -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(json.loads(encode(planned_from(date(2026, 12, 1), 10))), schema)

    plan = json.loads(encode(plan_of("12-half-place2-strings4321-stage5-high-mirror")))
    jsonschema.validate(plan, schema)
    plan["drills"][0]["stage"] = 6
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(plan, schema)
