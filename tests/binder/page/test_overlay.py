"""Music as forms on our pages, read back from the PDF."""

from io import BytesIO

import pikepdf
from kit.paper import stand_in

from bookgen.binder.page.overlay import overlay
from bookgen.binder.page.placed import Placed


def laid(places: list[Placed]) -> pikepdf.Pdf:
    book = pikepdf.new()
    book.add_blank_page(page_size=(600, 800))
    overlay(book, stand_in(2), places)
    return book


def test_the_ink_lands_where_it_was_placed() -> None:
    book = laid([Placed(0, 1, 50.0, 700.0)])

    page = book.pages[0]
    ((name, form),) = page.resources["/XObject"].items()
    matrix = next(
        [float(value) for value in step.operands]
        for step in pikepdf.parse_content_stream(page)
        if str(step.operator) == "cm"
    )
    left, _, _, top = (float(edge) for edge in form["/BBox"])
    assert name == "/Music1"
    assert abs(left + 0.5 + matrix[4] - 50.0) < 0.01
    assert abs(top - 0.5 + matrix[5] - 700.0) < 0.01


def test_the_ink_is_gray_and_needs_no_transparency() -> None:
    book = laid([Placed(0, 0, 50.0, 700.0)])

    ((_, form),) = book.pages[0].resources["/XObject"].items()
    operators = {str(step.operator) for step in pikepdf.parse_content_stream(form)}
    assert "g" in operators
    assert not operators & {"rg", "RG"}
    assert "/Group" not in form


def test_every_drill_has_a_form_of_its_own() -> None:
    book = laid([Placed(0, 0, 50.0, 700.0), Placed(0, 1, 50.0, 500.0)])

    assert set(book.pages[0].resources["/XObject"].keys()) == {"/Music0", "/Music1"}
    out = BytesIO()
    book.save(out)
