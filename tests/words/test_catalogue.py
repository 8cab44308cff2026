"""The catalogue is what the code says, and the code says nothing else."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

from house.catalogue import FILE, ROOT, Call, every_call, message_of, text, trees

from bookgen.words.refusals import SENTENCES

CORE = ("model", "plan", "planner", "passage", "studio")
OWN = {"bookgen/words/speech.py", "bookgen/commands/screen.py"}
"""Where the speech itself is made, and handed on."""


def shell() -> list[Call]:
    """The calls outside of the core."""
    return [call for call in every_call() if call.file.parts[1] not in CORE]


def gaps(sentence: str) -> frozenset[str]:
    """Names of the gaps in a sentence."""
    return frozenset(name for _, name, _, _ in Formatter().parse(sentence) if name is not None)


def by_itself(call: Call) -> frozenset[str]:
    """Gaps that a call fills without being told."""
    return frozenset({"number"}) if call.name == "count" else frozenset()


def sentences(call: Call) -> list[str]:
    """The sentences of a call, without their context."""
    message, _ = message_of(call)
    return [message] if isinstance(message, str) else list(message or ())


def place(call: Call) -> str:
    """Where a call stands."""
    return f"{call.file.as_posix()}:{call.line}"


def test_the_catalogue_is_what_the_code_says() -> None:
    written = FILE.read_text(encoding="utf-8")
    assert written == text(), "write it anew: python -m tests.house.catalogue"


def test_a_sentence_is_a_literal_where_it_is_said() -> None:
    loose = [call for call in shell() if not sentences(call) and call.file.as_posix() not in OWN]
    assert list(map(place, loose)) == []


def test_every_gap_is_filled_and_nothing_else_is_given() -> None:
    for call in shell():
        found = sentences(call)
        if not found or call.name in {"Term", "open_sentence"}:
            continue
        needed = frozenset[str]().union(*map(gaps, found)) - by_itself(call)
        if call.facts is not None:
            assert needed == call.facts - by_itself(call), place(call)


def test_both_forms_of_a_count_have_the_same_gaps() -> None:
    for call in shell():
        if call.name == "count" and sentences(call):
            one, many = map(gaps, sentences(call))
            assert one - {"number"} == many - {"number"}, place(call)


def test_markup_in_a_sentence_is_closed() -> None:
    for call in shell():
        for sentence in sentences(call):
            assert sentence.count("<b>") == sentence.count("</b>"), place(call)
            assert sentence.count("<i>") == sentence.count("</i>"), place(call)


def raised() -> Iterator[tuple[str, str, frozenset[str] | None]]:
    """Every refusal that is raised or handed back: its name, where, and its facts."""
    for file, tree in trees():
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and (name := refusal_in(node)):
                yield name, f"{file.relative_to(ROOT)}:{node.lineno}", facts_of(node)


def refusal_in(node: ast.Call) -> str | None:
    """The name of the refusal that a call makes."""
    called = getattr(node.func, "id", "")
    first = node.args[0] if node.args else None
    if called in {"RefusedError", "refused", "Message"} and isinstance(first, ast.Constant):
        return str(first.value)
    return None


def facts_of(node: ast.Call) -> frozenset[str] | None:
    """Names of a refusal's facts; None where they come out of a mapping."""
    names = {keyword.arg for keyword in node.keywords}
    if None in names or len(node.args) > 1:
        mapping = node.args[1] if len(node.args) > 1 else None
        if not isinstance(mapping, ast.Dict) or None in mapping.keys:
            return None
        return frozenset(str(ast.literal_eval(key)) for key in mapping.keys if key is not None)
    return frozenset(name for name in names if name is not None)


def test_every_refusal_has_a_sentence_that_its_facts_fill() -> None:
    for name, where, facts in raised():
        assert name in SENTENCES, where
        assert facts is None or facts == gaps(SENTENCES[name]), where


def test_every_sentence_is_said_somewhere() -> None:
    named = {
        node.value
        for file, tree in trees()
        if file.name != "refusals.py"
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }

    assert sorted(set(SENTENCES) - named) == []


def test_every_function_of_words_is_asked_by_somebody() -> None:
    asked: set[str] = set()
    defined: dict[str, str] = {}
    for file, tree in trees():
        for node in ast.walk(tree):
            if isinstance(node, ast.Name):
                asked.add(node.id)
            if isinstance(node, ast.Attribute):
                asked.add(node.attr)
            if isinstance(node, ast.FunctionDef) and file.parent.name == "words":
                defined[node.name] = f"{file.name}:{node.lineno}"

    loose = {name: at for name, at in defined.items() if name not in asked and name[0] != "_"}
    assert loose == {}


PROSE = re.compile(r"[A-Za-z]{2,},? [a-z]{2,}")
SQL = re.compile(r"\b(SELECT|INSERT|UPDATE|CREATE|DROP|ALTER|FROM|WHERE|PRAGMA|BEGIN)\b")
NO_SENTENCES = {
    # the trade's Italian is the same in every language
    "bookgen/model/marking.py": {"sotto voce", "mezza voce", " sord", "sul pont", "sul tasto"},
    "bookgen/plan/document.py": {"other way", "step back"},  # roles, as the document has them
    "bookgen/plan/record.py": {"not yet"},  # a result
    "bookgen/plan/version_1.py": {"On the way to", "as in No"},  # link lines of old documents
    "bookgen/plan/decoder.py": {"matching regex"},  # what the decoder's own words are cut at
    "bookgen/planner/review.py": {"no memory after "},  # a fault of ours
    "bookgen/studio/copy_version_1.py": {"not yet"},
    "bookgen/studio/merge.py": {" is no row of the log"},  # a fault of ours
    "bookgen/studio/rows.py": {"not yet", ", player", "player, "},
    "bookgen/studio/schema.py": {"other way", "step back"},
}
"""What looks like a sentence in the core and is none."""


def prose(file: Path) -> Iterator[str]:
    """Texts of a file that look like a sentence, without what is written for its readers."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    aside: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr):
            aside.add(id(node.value))
        if isinstance(node, ast.keyword) and node.arg == "description":
            aside |= {id(inner) for inner in ast.walk(node.value)}
    for node in ast.walk(tree):
        text = node.value if isinstance(node, ast.Constant) and id(node) not in aside else None
        if isinstance(text, str) and PROSE.search(text) and not SQL.search(text):
            yield text


def test_the_core_says_no_sentence() -> None:
    used: set[tuple[str, str]] = set()
    for folder in CORE:
        for file in sorted((ROOT / "bookgen" / folder).rglob("*.py")):
            name = file.relative_to(ROOT).as_posix()
            for found in prose(file):
                known = [part for part in NO_SENTENCES.get(name, ()) if part in found]
                assert known, f"{name}: {found!r} belongs into words/"
                used |= {(name, part) for part in known}

    listed = {(name, part) for name, parts in NO_SENTENCES.items() for part in parts}
    assert listed - used == set(), "no longer needed"
