"""Every message through hunspell, with a reviewed list of the trade's words; and through gettext.

Dictionaries: Debian's hunspell-de-de, -fr, -es, -it, -en-gb; without one its test is skipped.
"""

import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from house.catalogue import FILE, language_files
from words.test_translations import OTHERS, catalogue, pairs

from bookgen.words.speech import SOURCE

REVIEWED = tomllib.loads(Path(__file__).with_name("spelling.toml").read_text(encoding="utf-8"))
DICTIONARIES = {"en": "en_GB", "de": "de_DE", "fr": "fr", "es": "es_ES", "it": "it_IT"}
HUNSPELL = shutil.which("hunspell")
MSGFMT = shutil.which("msgfmt")

NO_WORDS = re.compile(
    r"`[^`]*`"  # what is typed
    r"|\{[^{}]*\}|<[^<>]*>|&\w+;"  # gaps and cut
    r"|\"[^\"]*\"|(?<!\w)'[^']*'"  # values of files
    r"|--?[a-z][\w-]*|\w+_\w+|\[[^\]]*\]"  # options, keys, tables
    r"|[\w./-]*\.[a-z]{2,8}\b"  # names of files
)
WITHOUT_OCTAVE = re.compile(r'msgctxt "note with its octave"\nmsgid .*\nmsgstr .*\n')
"""The one sentence of which a language leaves out a gap: see `Speech.pitch`."""

WITH_OBJECT = re.compile(r"(?<=[aeiou])(?:l[ao]s?|se)$")
"""The objects at the end of a Spanish imperative, which dictionaries list for few."""

APOSTROPHE = "\N{RIGHT SINGLE QUOTATION MARK}"
WORD = re.compile(rf"[^\W\d_]+(?:[{APOSTROPHE}'][^\W\d_]+)*")


def words(text: str) -> set[str]:
    """The words of a sentence, without what is code."""
    return {word.replace(APOSTROPHE, "'") for word in WORD.findall(NO_WORDS.sub(" ", text))}


def own_words(language: str) -> set[str]:
    """The words of a catalogue; what a sentence has from its source is a name or a key."""
    every = [pair for one in catalogue(FIRST) if one.id for pair in pairs(one)]
    if language == SOURCE:
        return set().union(*(words(ours) for ours, _ in every))
    every = [pair for one in catalogue(language) if one.id for pair in pairs(one)]
    return set().union(*(words(theirs) - words(ours) for ours, theirs in every))


FIRST = OTHERS[0]


def unknown(language: str) -> set[str]:
    """The words that the dictionary of a language does not have, in none of their parts."""
    found = missed(own_words(language), language)
    if language == "es":
        bare = {word: plain(WITH_OBJECT.sub("", word)) for word in found}
        wrong = missed(set(bare.values()), language)
        found = {word for word in found if bare[word] in wrong or not WITH_OBJECT.search(word)}
    return found


def plain(word: str) -> str:
    """A word without the accents that its object has called for: quítala is quita and la."""
    return word.translate(str.maketrans("áéíóú", "aeiou"))


def missed(wanted: set[str], language: str) -> set[str]:
    """Those of some words that the dictionary does not have."""
    if HUNSPELL is None:
        pytest.skip("there is no hunspell here")
    name = DICTIONARIES[language]
    done = subprocess.run(  # noqa: S603  the dictionary is one of ours to name
        [HUNSPELL, "-d", name, "-i", "utf-8", "-l"],
        input="\n".join(sorted(wanted)),
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    if "Can't open" in done.stderr:
        pytest.skip(f"there is no dictionary {name} here")
    assert not done.returncode, done.stderr
    return set(done.stdout.split())


@pytest.mark.published("hunspell's dictionaries, as Debian has them")
@pytest.mark.parametrize("language", [SOURCE, *OTHERS])
def test_every_word_is_known_or_one_of_the_trade(language: str) -> None:
    found = unknown(language)
    assert found - set(REVIEWED[language]) == set()
    there = " ".join(own_words(language))
    assert [word for word in REVIEWED[language] if word not in there] == [], "no message has them"


def test_a_misspelling_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(f"{__name__}.own_words", lambda _: {"Saite", "Seite", "Sayte"})
    assert unknown("de") == {"Sayte"}


@pytest.mark.published("GNU gettext: msgfmt --check")
@pytest.mark.parametrize("file", [FILE, *language_files()], ids=lambda file: file.name)
def test_gettext_compiles_the_catalogue(file: Path, tmp_path: Path) -> None:
    if MSGFMT is None:
        pytest.skip("there is no msgfmt here")
    text = file.read_text(encoding="utf-8")
    checked = tmp_path / file.name
    checked.write_text(WITHOUT_OCTAVE.sub("", text), encoding="utf-8")
    command = [MSGFMT, "--check", "-o", str(tmp_path / "out.mo"), str(checked)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", check=False)  # noqa: S603
    assert done.returncode == 0, done.stderr
    told = [line for line in done.stderr.splitlines() if "header" not in line]
    assert told == [], "its head says nothing that hangs on the day"
