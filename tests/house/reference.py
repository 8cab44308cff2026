"""The reference pages that are made from the code: commands and sources.

Write them anew from the top folder: `.venv/bin/python -m tests.house.reference`.
"""

import argparse
import contextlib
import io
import json
import os
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

import pytest

from bookgen.cli import parser
from bookgen.plan.document import plan_schema
from bookgen.plan.passage_wire import passage_schema

ROOT: Final = Path(__file__).parents[2]
FOLDER: Final = ROOT / "docs" / "reference"
NO_SOURCE: Final = "common practice"


def commands_page() -> str:
    """Every command with its arguments, as a page."""
    lines = [
        "# Commands",
        "",
        "Made from the parser; a test compares it. Exit codes: 0 done, 2 the input is at fault,",
        "1 bookgen is at fault, 130 stopped with Ctrl-C. Errors are one line each on the error",
        "stream, and so is a word of progress when work takes more than a second; on a",
        "terminal, work for many players shows a bar with what is left. Commands that make pages",
        "end with the path they wrote; a file of that name is replaced.",
        "",
    ]
    for name, command in subcommands(parser()).items():
        lines += [f"## bookgen {name}", "", "| argument | does |", "|---|---|"]
        lines += [f"| {shown(action)} | {action.help} |" for action in arguments(command)]
        if command.epilog:
            lines += ["", command.epilog]
        lines.append("")
    return "\n".join(lines)


def subcommands(top: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    """The parsers of the commands; argparse has no public way to them.

    Raises:
        ValueError: there are none.
    """
    for action in top._actions:  # noqa: SLF001
        if isinstance(action, argparse._SubParsersAction):  # noqa: SLF001
            return dict(action.choices)
    msg = "there are no commands"
    raise ValueError(msg)


def arguments(command: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    """A command's own arguments, without the help every command has."""
    return (action for action in command._actions if action.dest != "help")  # noqa: SLF001


def shown(action: argparse.Action) -> str:
    """An argument as it is typed."""
    value = str(action.metavar or "").replace("|", "\\|")
    return f"`{' '.join(filter(None, (*action.option_strings, value)))}`"


def sources_page() -> str:
    """Every published source that the tests check against, and where."""
    return sources_table(citations(collected()))


def sources_table(found: dict[str, set[str]]) -> str:
    """The page of these sources, each with the files of tests that cite it."""
    lines = [
        "# Outside sources that the tests check against",
        "",
        "Made from the tests' `published` markers; a test compares it. `common practice, no",
        "source` marks a fact of the trade that we could not find in print.",
        "",
        "| source | checked in |",
        "|---|---|",
    ]
    for title in sorted(found, key=lambda title: (title.startswith(NO_SOURCE), title)):
        files = ", ".join(f"`{file}`" for file in sorted(found[title]))
        lines.append(f"| {title} | {files} |")
    return "\n".join([*lines, ""])


class Collected:
    """Keeps all tests while pytest collects them."""

    def __init__(self) -> None:
        self.items: list[pytest.Item] = []

    def pytest_itemcollected(self, item: pytest.Item) -> None:
        """Keep a test."""
        self.items.append(item)


def collected() -> list[pytest.Item]:
    """All tests.

    Raises:
        RuntimeError: the tests cannot be collected.
    """
    gathered = Collected()
    with contextlib.redirect_stdout(io.StringIO()) as told:
        code = pytest.main(["--collect-only", "-q", "-p", "no:cacheprovider"], plugins=[gathered])
    if code != pytest.ExitCode.OK:
        raise RuntimeError(told.getvalue()[-2000:])
    return gathered.items


def citations(tests: Iterable[pytest.Item]) -> dict[str, set[str]]:
    """Files of these tests by the source they cite."""
    found: dict[str, set[str]] = defaultdict(set)
    for test in tests:
        for marker in test.iter_markers("published"):
            found[str(marker.args[0])].add(test.path.relative_to(ROOT).as_posix())
    return found


def schema_page() -> str:
    """The JSON Schema of the plan document."""
    return json.dumps(plan_schema(), indent=2, ensure_ascii=False) + "\n"


def passage_schema_page() -> str:
    """The JSON Schema of the passage document."""
    return json.dumps(passage_schema(), indent=2, ensure_ascii=False) + "\n"


PAGES: Final = {
    "commands.md": commands_page,
    "sources.md": sources_page,
    "plan.schema.json": schema_page,
    "passage.schema.json": passage_schema_page,
}


def main(names: list[str]) -> None:
    """Write all pages, or print those that are named."""
    for name in names:
        sys.stdout.write(PAGES[name]())
    for name, page in PAGES.items() if not names else ():
        (FOLDER / name).write_text(page(), encoding="utf-8")


if __name__ == "__main__":
    os.chdir(ROOT)
    main(sys.argv[1:])
