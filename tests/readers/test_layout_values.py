"""What is told of a value that a layout cannot take."""

from collections.abc import Iterator
from typing import Annotated, Literal, get_args, get_origin

import msgspec
import pytest

from bookgen.binder.page.layout import Layout
from bookgen.binder.page.measures import Section
from bookgen.readers.layout_values import fault

Points = Annotated[float, msgspec.Meta(ge=6, le=72)]


@pytest.mark.parametrize(
    ("value", "kind", "mend"),
    [
        (99, Points, "give a number from 6 to 72"),
        ("big", Points, "give a number from 6 to 72"),
        (float("inf"), Points, "give a number from 6 to 72"),
        (3.5, Annotated[int, msgspec.Meta(ge=0, le=10)], "give a number from 0 to 10"),
        (3, str, "give a text in quotes"),
        ("yes", bool, "give true or false"),
        ("a3", Literal["a4", "a5"], "give one of a4, a5"),
        (["a3"], list[Literal["a4", "a5"]], "give a list of any of a4, a5"),
        (3, Layout, "give a table"),
        (3, dict[str, str], "give what the ordinary layout gives there"),
    ],
)
def test_the_mend_says_what_can_be_given(value: object, kind: object, mend: str) -> None:
    found = fault(value, kind)
    assert found is not None
    assert str(found[1]) == mend


@pytest.mark.parametrize(("value", "kind"), [(12, Points), ("x", str), (True, bool)])
def test_what_can_be_taken_has_no_fault(value: object, kind: object) -> None:
    assert fault(value, kind) is None


def measures(section: type[Section], inside: str = "") -> Iterator[tuple[str, object]]:
    for field in msgspec.structs.fields(section):
        if isinstance(field.type, type) and issubclass(field.type, Section):
            yield from measures(field.type, f"{inside}{field.encode_name}.")
        else:
            yield f"{inside}{field.encode_name}", field.type


def test_every_measure_of_a_layout_has_bounds() -> None:
    for place, kind in measures(Layout):
        if get_origin(kind) is Annotated and get_args(kind)[0] in {float, int}:
            meta = get_args(kind)[1]
            assert None not in {meta.ge, meta.le}, place
        else:
            assert kind not in {float, int}, place
