"""How many pages every upper string part of the quartets in music21's corpus makes.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.passages [WORD …]`; words
choose files by their names, `--paper` the papers. Prints a line a part: sounds, frames, hard spots,
drills, and the pages on each paper, or why there are none.
"""

import argparse
import json
import os
from pathlib import Path
from tempfile import TemporaryDirectory

import music21
import pypdfium2
from kit.shell import bookgen

CORPUS = Path(music21.__file__).parent / "corpus"
COMPOSERS = ("haydn", "mozart", "beethoven")
NO_QUARTETS = ("k545",)
PARTS = (("1", "violin"), ("2", "violin"), ("3", "viola"))


def files(words: list[str]) -> list[Path]:
    """The quartets whose names have one of the words."""
    found = sorted(path for one in COMPOSERS for path in (CORPUS / one).rglob("*.mxl"))
    found = [path for path in found if not any(word in str(path) for word in NO_QUARTETS)]
    return [path for path in found if not words or any(word in str(path) for word in words)]


def pages(path: Path, part: str, instrument: str, paper: str) -> tuple[str, str]:
    """What a part is, and its pages or what is told instead of them."""
    words = ["--part", part, "--instrument", instrument, "--paper", paper, "--quiet"]
    outcome = bookgen("passage", str(path), *words, "--out", "p.pdf", "--plan", "p.json")
    if outcome.code:
        return "", outcome.err.strip().splitlines()[-1]
    document = json.loads(Path("p.json").read_text(encoding="utf-8"))
    best, plan = document["best"], document["plan"]
    facts = (
        len(best["placed"]),
        len({group["letter"] for group in best["groups"]}),
        len(document["spots"]),
        len(plan["drills"]) if plan else 0,
    )
    with pypdfium2.PdfDocument("p.pdf") as pdf:
        return " | ".join(map(str, facts)), str(len(pdf))


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("words", nargs="*")
    parser.add_argument("--paper", nargs="+", default=["a4", "letter", "a5"])
    given = parser.parse_args()
    print("part | sounds | frames | spots | drills |", " | ".join(given.paper))  # noqa: T201
    with TemporaryDirectory() as folder:
        os.chdir(folder)
        for path in files(given.words):
            for part, instrument in PARTS:
                found = [pages(path, part, instrument, paper) for paper in given.paper]
                name = f"{path.relative_to(CORPUS)} {part}"
                print(name, found[0][0], *(count for _, count in found), sep=" | ", flush=True)  # noqa: T201


if __name__ == "__main__":
    main()
