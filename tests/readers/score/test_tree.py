"""XML from outside as a tree of what is wanted, within limits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.errors import BookgenError
from bookgen.readers.score import tree as score_tree
from bookgen.readers.score.tree import DEEPEST, LONGEST_TEXT, tree_of

KEPT = {"a", "b", "c"}


def names(data: bytes) -> list[str]:
    return [element.tag for element in tree_of(data, "song.xml", KEPT).iter()]


def test_only_what_is_wanted_inside_what_is_wanted() -> None:
    assert names(b"<a><b/><x><b/></x><c><x/><b/></c></a>") == ["a", "b", "c", "b"]


def test_text_and_attributes_are_kept_and_cut() -> None:
    long = b"x" * 5000
    tree = tree_of(b"<a><b n='" + long + b"'> 1&lt;2 </b><c>" + long + b"</c></a>", "x", KEPT)
    b, c = tree

    assert b.text == "1<2"
    assert b.attrib == {"n": "x" * LONGEST_TEXT}
    assert c.text == "x" * LONGEST_TEXT


def test_text_of_what_is_left_out_is_not_its_neighbours() -> None:
    (b,) = tree_of(b"<a>no<b>1<x>2</x>3</b>no</a>", "song.xml", KEPT)

    assert b.text == "13"


def test_the_document_type_of_the_standard_is_no_fault() -> None:
    doctype = b'<!DOCTYPE a PUBLIC "-//Recordare//DTD" "http://www.musicxml.org/x.dtd">'

    assert names(doctype + b"<a/>") == ["a"]


@pytest.mark.parametrize(
    "subset",
    [
        b'<!ENTITY x "y">',
        b'<!ENTITY % x SYSTEM "file:///etc/hostname"> %x;',
        b"<!ELEMENT a ANY>",
        b"",
    ],
)
def test_declarations_in_the_file_are_refused(subset: bytes) -> None:
    with pytest.raises(BookgenError, match="declares entities or the like"):
        names(b"<!DOCTYPE a [" + subset + b"]><a/>")


def test_too_deep() -> None:
    deep = DEEPEST - 1

    assert len(names(b"<a>" * deep + b"</a>" * deep)) == deep
    with pytest.raises(BookgenError, match="more than 40 levels deep"):
        names(b"<x>" * 41 + b"</x>" * 41)


@pytest.mark.parametrize("limit", ["MOST_ELEMENTS", "MOST_KEPT"])
def test_too_many(limit: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(score_tree, limit, 50)

    assert len(names(b"<a>" + b"<b/>" * 49 + b"</a>")) == 50
    with pytest.raises(BookgenError, match="more notes and signs than one file of music"):
        names(b"<a>" + b"<b/>" * 99 + b"</a>")


@pytest.mark.parametrize("data", [b"<x/>", b"<x><a/></x>"])
def test_nothing_wanted_at_the_top(data: bytes) -> None:
    with pytest.raises(BookgenError, match="this is no MusicXML score"):
        names(data)


@given(data=st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    try:
        found = names(data)
    except BookgenError as error:
        found = [str(error)]
    assert found
