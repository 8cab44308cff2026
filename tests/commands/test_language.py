"""The language of pages, screens, errors and help."""

import contextlib
import io
from pathlib import Path

import pytest
from kit.pseudo import texts
from kit.shell import bookgen, refused

from bookgen.cli import run

DAY = ("--date", "2026-12-01")


def page(file: str) -> str:
    """Everything that a PDF says."""
    return " ".join(text for _, text in texts(Path(file).read_bytes()))


def studio(text: str) -> None:
    """Write a studio file with a player of each kind."""
    players = '[players.Ines]\n[players.Jo]\nlanguage = "de"\n'
    Path("studio.toml").write_text(f"{text}\n{players}", encoding="utf-8")


def test_an_option_asks_for_a_language_once() -> None:
    assert bookgen("sheet", *DAY, "--language", "de", "--out", "one.pdf").code == 0
    assert "Dienstag, 1. Dezember 2026" in page("one.pdf")
    assert bookgen("sheet", *DAY, "--out", "two.pdf").code == 0
    assert "Tuesday, 1 December 2026" in page("two.pdf")


def test_a_player_has_their_own_language_and_an_option_comes_before_it() -> None:
    studio("")
    bookgen("sheet", *DAY, "--player", "Ines", "--out", "ines.pdf")
    bookgen("sheet", *DAY, "--player", "Jo", "--out", "jo.pdf")
    assert "Start here" in page("ines.pdf")
    assert "Hier beginnen" in page("jo.pdf")
    bookgen("sheet", *DAY, "--player", "Jo", "--language", "en", "--out", "jo.pdf")
    assert "Start here" in page("jo.pdf")


def test_pages_that_are_bound_again_keep_their_language() -> None:
    bookgen("sheet", *DAY, "--language", "de", "--plan", "plan.json", "--out", "one.pdf")
    assert bookgen("bind", "plan.json", "--out", "two.pdf").code == 0
    assert Path("one.pdf").read_bytes() == Path("two.pdf").read_bytes()


def test_screens_errors_and_help_speak_the_language_of_the_studio() -> None:
    studio('language = "de"')
    assert refused("sheet", "--player", "Ada").startswith("studio.toml: niemand heißt 'Ada'; ")
    assert refused("booklet", "--seed").startswith("Befehlszeile: --seed: die Angabe dazu fehlt; ")
    assert bookgen("log", "--show", "--player", "Jo").out == "Jo: nichts wurde gedruckt\n"
    bookgen("sheet", *DAY, "--player", "Jo")
    assert "alle 4 Saiten, Saite für Saite" in bookgen("log", "--show", "--player", "Jo").out
    assert "noch nicht gespielt" in page_of_coverage()


def test_a_table_of_results_may_be_in_a_language_and_is_complained_of_in_it() -> None:
    studio('language = "de"')
    bookgen("sheet", *DAY, "--player", "Jo")
    Path("t.csv").write_text("Name;Nummer;Ergebnis\nJo;99;noch nicht\n", encoding="utf-8")
    line = refused("log", "--import", "t.csv")
    assert line.startswith("t.csv, Zeile 2: Nr.\xa099 wurde für Jo nie gedruckt; ")


def page_of_coverage() -> str:
    """The map of a player's fingerboard."""
    assert bookgen("coverage", "--player", "Ines", "--out", "map.pdf").code == 0
    return page("map.pdf")


@pytest.mark.parametrize("text", ["[", "language = 3", "minutes = 1"])
def test_a_damaged_studio_is_refused_in_a_language_that_is_known(text: str) -> None:
    Path("studio.toml").write_text(f"{text}\n", encoding="utf-8")
    assert refused("sheet").startswith("studio.toml")


def test_what_is_wrong_with_a_studio_is_said_in_its_language() -> None:
    studio('language = "de"\npaper = "a0"')
    assert refused("sheet", "--player", "Jo").startswith("studio.toml, paper: kein Papier ")


@pytest.mark.parametrize(
    ("words", "text", "place"),
    [
        (("--language", "xx"), "", "--language"),
        ((), 'language = "xx"', "studio.toml, language"),
    ],
)
def test_a_language_without_a_catalogue_is_refused(
    words: tuple[str, ...], text: str, place: str
) -> None:
    studio(text)
    line = refused("sheet", "--player", "Ines", *words)
    assert line.startswith(f"{place}: there is no catalogue of the language 'xx'; ")
    assert "de" in line


def test_help_is_in_the_language() -> None:
    out = io.StringIO()
    with contextlib.redirect_stdout(out), pytest.raises(SystemExit):
        run(("sheet", "--language=de", "--help"))
    assert out.getvalue().startswith("Aufruf: bookgen sheet [-h]")
    assert "Sprache der Seiten: en, de" in out.getvalue()
