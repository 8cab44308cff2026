"""Small books without dates, bound with stand-in music in each language and edition."""

from functools import cache
from pathlib import Path

from kit.books import music_for
from kit.shell import bookgen

from bookgen.binder.books.supplement import bind_supplement, scores_of
from bookgen.binder.page.desk import desk_of
from bookgen.plan.document import Binding, Plan
from bookgen.readers.layout import read_layout
from bookgen.readers.supplement.file import parse_spec
from bookgen.readers.supplement.spec import Spec
from bookgen.tasks.supplement_plans import Chapters, Edition, chapters_of, editions_of, plan_of
from bookgen.words.speech import speech_of

SPEC = """
title = "Close Fingers"
subtitle = "A first book"
author = "Harbour Lane Strings"
imprint = "All rights reserved."
instruments = ["violin", "cello"]
languages = ["en", "de", "fr", "es", "it"]
editions = ["student", "teacher", "from-memory"]
preface = "Play **slowly**, and *listen*."

[[chapter]]
title = "Half steps"
text = "The arm travels."
for_teacher = "Ask for the interval."
hands = ["12", "34"]
spacings = ["half"]
positions = ["1st"]
stages = [1, 2, 3, 4, 5]
leads = ["low"]
returns = ["mirror"]

[[chapter]]
title = "Onwards"
take = "way"
hands = ["12", "23"]
positions = ["1st"]
stages = [1, 3]
leads = ["low"]
limit = 6
"""
LANGUAGES = ("en", "de", "fr", "es", "it")
KINDS = ("student", "teacher", "from-memory")


@cache
def chapters() -> tuple[Spec, Chapters]:
    """The spec, and which drills each of its chapters has."""
    spec = parse_spec(SPEC, "book.toml", Path())
    return spec, chapters_of(spec)


@cache
def edition_of(name: str) -> tuple[Edition, Plan]:
    """An edition by its name, as cello-de-teacher, with its plan."""
    spec, chosen = chapters()
    edition = next(one for one in editions_of(spec) if one.name == name)
    memory = edition.kind == "from-memory"
    binding = Binding(book="supplement", language=edition.language, from_memory=memory)
    return edition, plan_of(spec, chosen, edition, binding)


@cache
def a_supplement(name: str, *, screen: bool = True) -> bytes:
    """An edition by its name, bound."""
    edition, plan = edition_of(name)
    speech, layout = speech_of(edition.language), read_layout("ordinary")
    desk = desk_of(edition.instrument, plan.size, layout, "a4", speech, screen=screen)
    return bind_supplement(plan, music_for(scores_of(plan, desk)), desk)


def books_in(folder: Path, spec: str) -> Path:
    """A folder with all editions of a spec and their plans."""
    (folder / "book.toml").write_text(spec, encoding="utf-8")
    words = ("supplement", str(folder / "book.toml"), "--plans", str(folder), "--quiet")
    outcome = bookgen(*words)
    assert (outcome.code, outcome.err) == (0, "")
    return folder
