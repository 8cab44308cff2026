"""The fenced blocks of a page of the docs, in their order."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

DOCS: Final = Path(__file__).parents[2] / "docs"
FENCE: Final = re.compile(r"^```(?P<info>[^`\n]*)\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True)
class Block:
    """A fenced block.

    language: first word after the fence; name: the second one, for a block that is a file.
    line: of the page, where the block's body begins.
    """

    language: str
    name: str
    lines: tuple[str, ...]
    line: int

    @property
    def text(self) -> str:
        """The body as it stands."""
        return "".join(f"{line}\n" for line in self.lines)


def blocks(page: Path) -> Iterator[Block]:
    """All fenced blocks of a page."""
    text = page.read_text(encoding="utf-8")
    for found in FENCE.finditer(text):
        language, _, name = found["info"].strip().partition(" ")
        line = text.count("\n", 0, found.start("body")) + 1
        yield Block(language, name, tuple(found["body"].splitlines()), line)


def commands(block: Block) -> Iterator[tuple[int, str]]:
    """The command lines of a block with their lines on the page.

    A backslash at its end joins a line with the next one; comments and empty lines are left out.
    """
    joined = ""
    for number, line in enumerate(block.lines, start=block.line):
        joined += line
        if joined.endswith("\\"):
            joined = joined[:-1]
            continue
        if joined.strip() and not joined.lstrip().startswith("#"):
            yield number, joined.strip()
        joined = ""
