"""The reference pages say what the code does."""

import pytest
from house.reference import FOLDER, PAGES, citations, sources_table

SOURCES = "sources.md"


@pytest.mark.parametrize("name", PAGES.keys() - {SOURCES})
def test_a_page_is_what_the_code_says(name: str) -> None:
    assert written(name) == PAGES[name](), "write it anew: python -m tests.house.reference"


def test_the_sources_are_those_of_the_tests(request: pytest.FixtureRequest) -> None:
    found = citations(request.session.items)

    assert all(f"| {title} |" in written(SOURCES) for title in found)
    if request.config.args_source is pytest.Config.ArgsSource.TESTPATHS:
        assert written(SOURCES) == sources_table(found)


def written(name: str) -> str:
    return (FOLDER / name).read_text(encoding="utf-8")
