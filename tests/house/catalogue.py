"""The catalogue of sentences as the code has them; each with where it stands, for translators.

Write it and those of all languages anew from the top folder: `.venv/bin/python -m
tests.house.catalogue`. What is translated stays; a sentence that has changed is to be translated.
"""

import ast
import io
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from bookgen.words.refusals import SENTENCES

ROOT: Final = Path(__file__).parents[2]
FILE: Final = ROOT / "bookgen" / "words" / "catalogues" / "bookgen.pot"

KEYWORDS: Final = frozenset({"say", "told", "open_sentence", "say_in", "Term", "count"})
"""What takes a sentence."""

HEAD: Final = """\
# Every sentence that bookgen says. To translate it, copy this file to LANGUAGE.po, and put the
# name of the teacher who has proofread it, and the date, here."""

LEFT_OUT: Final = tuple(
    f'"{name}-' for name in ("Project", "Report", "POT", "PO", "Last", "Language", "Generated")
)
"""What in a catalogue's head hangs on the day, the program and the translator."""


class Call(NamedTuple):
    """A call that takes a sentence.

    texts: its arguments by their places, None where one is no literal; facts: names that fill
    gaps, None where they come out of a mapping.
    """

    file: Path
    line: int
    name: str
    texts: tuple[str | None, ...]
    facts: frozenset[str] | None
    where: str


def calls(tree: ast.AST, file: Path, where: str = "") -> Iterator[Call]:
    """Every call of a keyword in a tree; `where` is what the function around it says of itself."""
    for node in ast.iter_child_nodes(tree):
        around = where
        if isinstance(node, ast.FunctionDef):
            around = (ast.get_docstring(node) or "").partition("\n")[0]
        if isinstance(node, ast.Call):
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if name in KEYWORDS and (name != "count" or len(node.args) > 2):
                yield call_of(node, name, file, where)
        yield from calls(node, file, around)


def call_of(node: ast.Call, name: str, file: Path, where: str) -> Call:
    """A call as far as it can be read without running it."""
    texts = tuple(
        argument.value
        if isinstance(argument, ast.Constant) and isinstance(argument.value, str)
        else None
        for argument in node.args
    )
    names = {keyword.arg for keyword in node.keywords}
    known = frozenset(name for name in names if name is not None)
    return Call(file, node.lineno, name, texts, None if None in names else known, where)


@cache
def every_call() -> list[Call]:
    """Every call in the package."""
    return [call for file, tree in trees() for call in calls(tree, file.relative_to(ROOT))]


@cache
def trees() -> list[tuple[Path, ast.Module]]:
    """Every file of the package, read once."""
    files = sorted((ROOT / "bookgen").rglob("*.py"))
    return [(file, ast.parse(file.read_text(encoding="utf-8"))) for file in files]


def message_of(call: Call) -> tuple[str | tuple[str, str] | None, str | None]:
    """The message of a call as Babel keeps it, one or one and many, and its context."""
    match call.name, call.texts:
        case "say_in" | "Term", (str() as context, str() as sentence, *_):
            return sentence, context
        case "count", (str() as one, str() as many, *_):
            return (one, many), None
        case _, (str() as sentence, *_):
            return sentence, None
        case _:
            return None, None


def catalogue() -> Catalog:
    """Every sentence of the package."""
    made = Catalog(project="bookgen", charset="utf-8", fuzzy=False, header_comment=HEAD)
    for call in every_call():
        message, context = message_of(call)
        if message is not None:
            place, comments = [(call.file.as_posix(), 0)], [call.where] if call.where else []
            made.add(message, None, place, auto_comments=comments, context=context)
    for name, sentence in SENTENCES.items():
        place = [("bookgen/words/refusals.py", 0)]
        made.add(sentence, None, place, auto_comments=[f"refusal {name}"])
    return made


def text() -> str:
    """The catalogue as its file."""
    return written(catalogue())


def language_text(file: Path) -> str:
    """The catalogue of a language with the sentences that the code has now."""
    translated = read_po(io.BytesIO(file.read_bytes()), locale=file.stem)
    translated.update(catalogue(), no_fuzzy_matching=True, update_header_comment=False)
    return written(translated)


def written(made: Catalog) -> str:
    """A catalogue as its file, without what hangs on the day and the program."""
    file = io.BytesIO()
    write_po(file, made, sort_output=True, include_lineno=False, width=100, ignore_obsolete=True)
    head, _, rest = file.getvalue().decode().partition("\n\n")
    kept = [line for line in head.splitlines() if not line.startswith(LEFT_OUT)]
    return "\n".join((*kept, "", rest))


def language_files() -> list[Path]:
    """The catalogues of the languages."""
    return sorted(FILE.parent.glob("*.po"))


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
    for one in language_files():
        one.write_text(language_text(one), encoding="utf-8")
    sys.stdout.writelines(f"{file}\n" for file in (FILE, *language_files()))
