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


def test_no_lilypond_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lilypond, "from_wheel", lambda: None)
    monkeypatch.setattr(lilypond, "from_path", lambda: None)

    outcome = bookgen("check")
    assert outcome.code == 2
    assert outcome.err.startswith("LilyPond: the music engraver is not installed; install it")
