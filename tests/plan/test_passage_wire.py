"""The passage document's schema."""

import json

import jsonschema
import pytest
from kit.passages import passage

from bookgen.plan.passage_encoder import encode_passage
from bookgen.plan.passage_wire import passage_schema


def test_a_passage_is_valid_and_a_spoilt_one_is_not() -> None:
    document = json.loads(encode_passage(passage()))
    jsonschema.Draft202012Validator.check_schema(passage_schema())
    jsonschema.validate(document, passage_schema())

    for key, value in (("version", 1), ("bars", []), ("best", None), ("more", 1)):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**document, key: value}, passage_schema())
