"""A booklet in words."""

from dataclasses import replace
from datetime import date

from booklets import a_month, words

from bookgen.binder.book_words import BookletFacts, day_words, span_of


def test_the_booklet_says_what_is_in_it() -> None:
    found = words(a_month())

    assert (found.days, found.rest) == (27, 4)
    assert found.minutes == "8 to 10 minutes"
    assert found.numbers.startswith("1\N{EN DASH}")
    assert found.kinds == {"opening", "review", "new", "variant", "ladder", "test"}
    assert found.characters == {"light", "test"}
    assert found.stages == {1, 2, 3, 5}
    assert found.steps == ("half", "whole")
    assert ("P4", "perfect fourth") in found.intervals


def test_the_span_counts_days_of_rest_at_both_ends() -> None:
    plan = a_month(3)
    facts = BookletFacts("x", span=(date(2026, 11, 29), date(2026, 12, 6)))

    assert span_of(plan, facts) == (date(2026, 11, 29), date(2026, 12, 6))
    assert words(plan, facts=facts).rest == 5
    assert words(plan).rest == 0


def test_what_nobody_wrote_is_none() -> None:
    nobody = replace(a_month(3), player=" \x00 ")

    assert words(nobody).player is None
    assert words(a_month(3)).note is None


def test_a_day_is_said_without_its_year() -> None:
    found = day_words(a_month(2).days[1])

    assert found.date == "Wednesday, 2 December"
    assert (found.minutes, found.character) == ("10 minutes", "light")
