"""Walks through a page of the docs as its reader does: types, looks, saves files.

- A block ```sh is typed line by line. `bookgen`, `cd`, `mkdir` and `cmp` are known, no more.
- `# creates: FILE …`, behind a command or on the next line, names files that it makes.
- A block ```text after it is what these commands print: `…` stands for anything in a line, and
  alone on a line for any number of lines.
- A block with a name after its language, as in ```toml studio.toml, is a file to be saved.
"""

import os
import re
import shlex
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, Protocol

from kit.fences import Block, blocks
from kit.shell import Outcome, bookgen

ANYTHING: Final = "…"
CREATES: Final = "# creates:"


class Type(Protocol):
    """Types a bookgen command, in this process or wherever."""

    def __call__(self, *words: str) -> Outcome:
        """Run it in the present folder."""


@dataclass
class Step:
    """One command with the files that it makes.

    line: of the page.
    """

    command: str
    line: int
    creates: list[Path] = field(default_factory=list)


def walk(page: Path, run: Type = bookgen) -> None:
    """Walk through a page in the present folder, which must be empty and the reader's own.

    Raises:
        AssertionError: something is not as the page says.
    """
    here = Path.cwd()
    printed: list[str] | None = None
    try:
        for block in blocks(page):
            at = f"{page.name}:{block.line}"
            if block.language == "sh":
                printed = typed(block, page.name, run)
            elif block.language == "text":
                assert printed is not None, f"{at}: nothing was typed before"
                compare(block.lines, printed, at)
            elif block.name:
                Path(block.name).write_text(block.text, encoding="utf-8")
    finally:
        os.chdir(here)


def typed(block: Block, page: str, run: Type) -> list[str]:
    """Type the commands of a block; the lines that they print together."""
    printed: list[str] = []
    for step in steps(block):
        at = f"{page}:{step.line}: {step.command}"
        there = [path for path in step.creates if path.exists()]
        assert not there, f"{at}: {there} is there before"
        printed += do(shlex.split(step.command), at, run)
        missing = [path for path in step.creates if not path.exists()]
        assert not missing, f"{at}: {missing} is not made"
    return printed


def do(words: Sequence[str], at: str, run: Type) -> list[str]:
    """Do what one command says; the lines that it prints.

    Raises:
        AssertionError: it fails, or a walk does not know it.
    """
    match words:
        case ["bookgen", *rest]:
            outcome = run(*rest)
            assert outcome.code == 0, f"{at}: {outcome}"
            return outcome.out.splitlines()
        case ["cd", folder]:
            os.chdir(folder)
        case ["mkdir", folder]:
            Path(folder).mkdir()
        case ["cmp", one, other]:
            same = Path(one).read_bytes() == Path(other).read_bytes()
            assert same, f"{at}: they differ"
        case _:
            msg = f"{at}: a walk knows only bookgen, cd, mkdir and cmp"
            raise AssertionError(msg)
    return []


def steps(block: Block) -> Iterator[Step]:
    """The commands of a block; a backslash at its end joins a line with the next one."""
    step: Step | None = None
    joined = ""
    for number, line in enumerate(block.lines, start=block.line):
        joined += line
        if joined.endswith("\\"):
            joined = joined[:-1]
            continue
        command, mark, files = joined.partition(CREATES)
        joined = ""
        command = command.split(" # ")[0].strip()
        if command and not command.startswith("#"):
            if step is not None:
                yield step
            step = Step(command, number)
        if mark:
            assert step is not None, f"line {number} creates files without a command"
            step.creates += map(Path, files.split())
    if step is not None:
        yield step


def compare(expected: Sequence[str], printed: Sequence[str], at: str) -> None:
    """What was printed is what the page shows.

    Raises:
        AssertionError: it is not.
    """
    pattern = "".join(
        r"(?:.*\n)*?" if line.strip() == ANYTHING else line_pattern(line) for line in expected
    )
    text = "".join(f"{line.rstrip()}\n" for line in printed)
    shown = "".join(f"{line}\n" for line in expected)
    assert re.fullmatch(pattern, text), f"{at}: the page shows\n{shown}but bookgen prints\n{text}"


def line_pattern(line: str) -> str:
    """A line of a page as a regular expression."""
    return ".*".join(re.escape(part) for part in line.rstrip().split(ANYTHING)) + r"\n"
