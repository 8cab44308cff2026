"""An instrument file of the user's own, on the command line and in studio.toml."""

import json
from pathlib import Path

import pytest
from kit.shell import bookgen, refused
from kit.shorthand import SPECIMENS

MINE = 'like = "cello"\nname = "Baroque cello"\n[sizes]\nusual = 677\n'


@pytest.fixture
def mine(here: Path) -> Path:
    file = here / "mine.toml"
    file.write_text(MINE, encoding="utf-8")
    return file


def done(*words: str) -> str:
    outcome = bookgen(*words)
    assert outcome.code == 0, outcome.err
    return outcome.out


def test_a_sheet_by_the_path_of_a_file_and_its_plan_is_bound(here: Path, mine: Path) -> None:
    done("sheet", "--instrument", "./mine.toml", "--out", "a.pdf", "--plan", "a.json")
    plan = json.loads((here / "a.json").read_bytes())
    assert (plan["instrument"], plan["size"]) == ("mine", "usual")
    assert all(drill["key"].startswith("mine-") for drill in plan["drills"])

    done("bind", "a.json", "--out", "b.pdf")
    (here / "away").mkdir()
    mine.rename(here / "away" / "mine.toml")
    line = refused("bind", "a.json", "--out", "c.pdf")
    assert line.startswith("a.json, instrument: no instrument mine;")
    done("bind", "a.json", "--instrument", "away/mine.toml", "--out", "c.pdf")
    assert len({(here / f"{name}.pdf").read_bytes() for name in "abc"}) == 1


def test_a_roster_names_a_file_beside_it(here: Path, mine: Path) -> None:
    (here / "sub").mkdir()
    mine.rename(here / "sub" / "mine.toml")
    viol = (SPECIMENS / "six_string_viol.toml").read_text(encoding="utf-8")
    (here / "viol.toml").write_text(viol, encoding="utf-8")
    (here / "studio.toml").write_text(
        '[players.Mara]\ninstrument = "./sub/mine.toml"\n'
        '[[players.Mara.also]]\ninstrument = "viol.toml"\n',
        encoding="utf-8",
    )
    done("check")
    for which in ([], ["--instrument", "viol"]):
        done("sheet", *which, "--date", "2026-11-02", "--out", "day.mid")
        done("sheet", *which, "--date", "2026-11-02", "--out", "day.mid")
    done("log", "Mara", "1", "--secure", "--date", "2026-11-02")
    shown = done("log", "--show")
    assert "1 and 3, whole step" in shown
    assert "Mara, viol\n" in shown
    done("drill", "1", "--player", "Mara", "--out", "one.musicxml")
    assert "Baroque cello usual" in done("coverage")


@pytest.mark.parametrize(
    ("name", "text", "line"),
    [
        ("./none.toml", None, "--instrument: ./none.toml cannot be read (No such file"),
        ("./cello.toml", MINE, "--instrument: bookgen has a cello of its own; give the file"),
        ("./My.toml", MINE, "--instrument: 'My' cannot stand in the key of a drill; name the"),
        ("./m.toml", "name = ", "./m.toml: Invalid value (at end of document); mend the file;"),
        ("./m.toml", 'like = "lute"', "./m.toml, like: no instrument 'lute'; choose cello,"),
        ("./m.toml", f'strings = ["A3"]\n{MINE}', "./m.toml: 1 strings; give two to 6;"),
        ("./m.toml", f"sounding = -99\n{MINE}", "./m.toml: its notes must lie between C0 and G9"),
        ("./m.toml", f"{MINE}[hand]\nreach = []", "./m.toml, hand.reach: no two fingers take a"),
        ("./m.toml", MINE.replace("Baroque", "\\u0007"), "./m.toml, name: it holds characters"),
        ("kazoo", None, "--instrument: no instrument 'kazoo'; choose cello,"),
    ],
)
def test_what_is_no_instrument_file_is_told_in_one_line(
    here: Path, name: str, text: str | None, line: str
) -> None:
    if text is not None:
        (here / name).write_text(text, encoding="utf-8")

    assert refused("sheet", "--instrument", name).startswith(line)


def test_a_roster_with_a_wrong_file_names_the_player(here: Path, mine: Path) -> None:
    (here / "studio.toml").write_text('[players.Jo]\ninstrument = "./no.toml"\n', encoding="utf-8")
    assert refused("sheet").startswith('studio.toml, player "Jo", instrument: ./no.toml cannot be')

    (here / "studio.toml").write_text('[players.Jo]\ninstrument = "mine.toml"\n', encoding="utf-8")
    mine.write_text('like = "cello"\nsounding = "low"\n', encoding="utf-8")
    assert refused("sheet").startswith("mine.toml, sounding: Expected `int`, got `str`;")
