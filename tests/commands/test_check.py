"""Whether all that bookgen needs is here."""

from pathlib import Path

import pytest
from shell import bookgen

from bookgen.notation import lilypond


def test_all_is_in_order() -> None:
    outcome = bookgen("check")

    assert outcome.code == 0
    assert "LilyPond 2." in outcome.out
    assert "instruments: Viola, Violin" in outcome.out
    assert "no studio.toml in this folder" in outcome.out


def test_the_studio_is_checked_with_all_its_players() -> None:
    text = '[players.Ines]\nsize = "9/9"\n[players.Jo]\ninstrument = "kazoo"\n'
    Path("studio.toml").write_text(text, encoding="utf-8")

    outcome = bookgen("check")
    assert outcome.code == 2
    assert len(outcome.err.splitlines()) == 2


def test_a_good_studio_is_counted() -> None:
    text = 'name = "Harbour Lane Strings"\n[players.Ines]\n[players.Jo]\n'
    Path("studio.toml").write_text(text, encoding="utf-8")

    assert "studio.toml: Harbour Lane Strings, 2 players" in bookgen("check").out


@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("echo GNU LilyPond 2.18.2", "LilyPond 2.18.2 is older than 2.24"),
        ("true", "it does not say which LilyPond it is"),
        ("exit 4", "LilyPond does not start"),
    ],
)
def test_a_lilypond_that_is_none_is_told(
    here: Path, monkeypatch: pytest.MonkeyPatch, script: str, told: str
) -> None:
    program = here / "lilypond"
    program.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setattr(lilypond, "from_wheel", lambda: program)

    outcome = bookgen("check")
    assert outcome.code == 2
    assert told in outcome.err


def test_a_studios_paper_is_checked() -> None:
    Path("studio.toml").write_text('paper = "a3"', encoding="utf-8")

    assert "studio.toml, paper: no paper 'a3'" in bookgen("check").err


def test_no_lilypond_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lilypond, "from_wheel", lambda: None)
    monkeypatch.setattr(lilypond, "from_path", lambda: None)

    outcome = bookgen("check")
    assert outcome.code == 2
    assert outcome.err.startswith("LilyPond: the music engraver is not installed; install it")
