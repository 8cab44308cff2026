"""A layout's templates, filled."""

import re
from dataclasses import fields, is_dataclass, replace
from pathlib import Path

import pytest
from booklets import LAYOUT

from bookgen.binder.answers import ANSWER_PARTS, AnswerWords
from bookgen.binder.book_words import BookWords, DayWords
from bookgen.binder.cover import COVER_PARTS
from bookgen.binder.coverage_map import MAP_PARTS, MapWords
from bookgen.binder.how_to import HOW_TO_PARTS
from bookgen.binder.interval_index import INDEX_PARTS, IndexEntry, IndexInterval
from bookgen.binder.layout import FILES, Template
from bookgen.binder.log_columns import LOG_PARTS
from bookgen.binder.page_words import PAGE_PARTS
from bookgen.binder.passage_summary import Difference, PassageWords
from bookgen.binder.passage_words import PASSAGE_PARTS, GroupWords, LadderWords
from bookgen.binder.sheet_words import SHEET_PARTS
from bookgen.binder.summary import SUMMARY_PARTS, SummaryWords
from bookgen.binder.templates import Words
from bookgen.binder.week import WEEK_PARTS, WeekDay, WeekWords
from bookgen.binder.words import BLOCK_PARTS
from bookgen.errors import BookgenError

PARTS = frozenset({"a", "d"})


def words(text: str) -> Words:
    return Words(replace(LAYOUT, templates={"x": Template("my/x.j2", text)}))


def test_the_ordinary_layout_has_every_template() -> None:
    assert set(LAYOUT.templates) == set(FILES)
    assert set(Words(LAYOUT).templates) == set(FILES)


def test_paragraphs_come_in_order_and_by_name() -> None:
    found = words("<a>{{ n }}</a><d>x</d><a>y</a>")

    assert [p.plain for p in found.fill("x", {"n": 1}, PARTS)] == ["1", "x", "y"]
    assert found.named("x", {"n": 1}, PARTS)["d"].plain == "x"


def test_facts_are_text_and_never_mark_up() -> None:
    (found,) = words("<a>{{ n }}</a>").fill("x", {"n": "</a><b>{{ 7 * 7 }}"}, PARTS)

    assert found.plain == "</a><b>{{ 7 * 7 }}"


@pytest.mark.parametrize(
    ("text", "told_as"),
    [
        ("<a>\n{{ m }}</a>", r"my/x\.j2, line 2: .*'m' is undefined"),
        ("<a>{{ n", r"my/x\.j2, line 1"),
        ("<c>x</c>", r"my/x\.j2: <c> cannot stand here"),
        ("<a>{{ n.__class__ }}</a>", r"my/x\.j2, line 1: .*unsafe"),
    ],
)
def test_a_damaged_template_gives_one_clear_line(text: str, told_as: str) -> None:
    with pytest.raises(BookgenError, match=told_as) as caught:
        words(text).fill("x", {"n": 1}, PARTS)
    assert len(caught.value.findings) == 1


DOCS = Path(__file__).parents[2] / "docs" / "how-to" / "layouts.md"
PARTS_OF = {
    "block.j2": BLOCK_PARTS,
    "sheet.j2": SHEET_PARTS,
    "cover.j2": COVER_PARTS,
    "how-to.j2": HOW_TO_PARTS,
    "page.j2": PAGE_PARTS,
    "week.j2": WEEK_PARTS,
    "map.j2": MAP_PARTS,
    "index.j2": INDEX_PARTS,
    "answers.j2": ANSWER_PARTS,
    "log.j2": LOG_PARTS | SUMMARY_PARTS,
    "passage.j2": PASSAGE_PARTS,
}


def row(name: str) -> str:
    """The last table row of the layouts page that begins with that name."""
    text = DOCS.read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line.startswith(f"| `{name}`")][-1]


@pytest.mark.parametrize("file", FILES)
def test_the_docs_list_what_each_template_may_print(file: str) -> None:
    told = set(re.findall(r"`([a-z-]+)`", row(file)))

    assert set(PARTS_OF) == set(FILES)
    assert told >= PARTS_OF[file], PARTS_OF[file] - told


@pytest.mark.parametrize(
    ("name", "facts"),
    [
        ("book", BookWords),
        ("day", DayWords),
        ("week", WeekWords),
        ("week", WeekDay),
        ("map", MapWords),
        ("intervals", IndexInterval),
        ("intervals", IndexEntry),
        ("answers", AnswerWords),
        ("summary", SummaryWords),
        ("passage", PassageWords),
        ("passage", Difference),
        ("group", GroupWords),
        ("ladder", LadderWords),
    ],
)
def test_the_docs_list_what_each_template_knows(name: str, facts: type) -> None:
    told = set(re.findall(r"`([a-z_]+)`", row(name)))

    assert is_dataclass(facts)
    assert told >= {field.name for field in fields(facts)}
