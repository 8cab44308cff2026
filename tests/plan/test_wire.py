"""The schema of the plan document."""

import json
from pathlib import Path

import jsonschema
import pytest
from drills import VIOLIN, plan_of

from bookgen.plan.encoder import encode
from bookgen.plan.wire import plan_schema

SCHEMA = Path(__file__).parents[2] / "docs" / "reference" / "plan.schema.json"


def test_the_schema_in_the_docs_is_the_one_the_code_reads_by() -> None:
    assert json.loads(SCHEMA.read_text(encoding="utf-8")) == plan_schema()


@pytest.mark.published("JSON Schema, draft 2020-12, as the jsonschema package checks it")
def test_a_plan_fits_the_schema_and_a_broken_one_does_not() -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    plan = json.loads(encode(plan_of("12-half-place2-strings4321-stage5-high-mirror"), VIOLIN))
    jsonschema.validate(plan, schema)

    plan["days"][0]["drills"][0]["stage"] = 6
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(plan, schema)
