"""`bookgen passage`: hand placements of a passage, and the pages that lead there."""

import argparse
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Final

from bookgen.commands.arguments import (
    Commands,
    PageArguments,
    add_page_arguments,
    page_arguments,
    read_date,
)
from bookgen.commands.asking import Asked, Wish, asked_of
from bookgen.commands.output import OUTPUT, file_stem, write_whole
from bookgen.commands.pages import (
    LEAST_SECONDS,
    SECONDS_A_DRILL,
    Look,
    bound,
    keep_sources,
    look,
)
from bookgen.commands.printing import add_print_argument, print_if_wanted
from bookgen.commands.progress import told_after_a_moment
from bookgen.commands.roster import LOG_FILE, NO_STUDIO, chosen_player, read_studio
from bookgen.commands.viewer import open_file
from bookgen.errors import BookgenError, Finding
from bookgen.model.costs import Preference
from bookgen.notation.engraved import Engraving
from bookgen.notation.style import Style
from bookgen.plan.passage import Passage
from bookgen.plan.passage_excerpt import excerpts_of
from bookgen.plan.record import Record
from bookgen.readers.studio_passages import bars_of
from bookgen.studio.practice_log import open_log

if TYPE_CHECKING:
    from bookgen.notation.engraver import Running

ENDINGS: Final = (".pdf", ".musicxml")


@dataclass(frozen=True, slots=True)
class Told:
    """What could not be read or played: a line each, and the rest was done."""

    lines: tuple[str, ...]

    def say(self, *, quiet: bool) -> None:
        """Print the lines where errors go."""
        if not quiet:
            sys.stderr.writelines(f"{line}\n" for line in self.lines)


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("passage", help="take a hard passage apart, and lead there")
    parser.add_argument("file", type=Path, metavar="FILE", help="MusicXML, MIDI or plain text")
    parser.add_argument("--bars", metavar="A-B", help="first and last bar, as printed")
    parser.add_argument("--part", metavar="P", help="a part, by its name or number")
    parser.add_argument(
        "--prefer", metavar="WISH", help="low, one-string, few-shifts or few-stretches"
    )
    parser.add_argument("--player", metavar="P", help="who plays; from studio.toml if there is one")
    parser.add_argument("--instrument", metavar="I", help="violin (usual) or viola")
    parser.add_argument("--size", metavar="S", help="e.g. 3/4; the full size if not given")
    parser.add_argument("--date", metavar="D", help="from what is known on that day; today")
    parser.add_argument("--plan", type=Path, metavar="FILE", help="write the placements as JSON")
    add_page_arguments(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_passage)


def run_passage(given: argparse.Namespace) -> Path:
    """Read, solve and engrave a passage. Returns the path of what was written.

    Raises:
        BookgenError: the file cannot be read, or something else that was given is wrong.
    """
    from bookgen.commands.pieces import comes_from, passage_of  # noqa: PLC0415  the solver
    from bookgen.readers.score import read_passage  # noqa: PLC0415

    pages = page_arguments(given)
    path = passage_place(pages.out, given.file)
    prefer, day = preference(given.prefer), read_date(given.date)
    studio = read_studio()
    player = chosen_player(studio, given.player)
    asked = asked_of(player, Wish(given.instrument, given.size))
    appearance = look(pages, layout=studio.layout, paper=studio.paper, studio=studio.name)
    bars = bars_of(given.bars)
    file = read_passage(given.file, asked.instrument, part=given.part, bars=bars)
    known = records_of(asked) if studio is not NO_STUDIO else ()
    with told_after_a_moment("looking for the best fingering …", quiet=given.quiet):
        passage = passage_of(file, asked, comes_from(asked, known, day), prefer)
    unplayable = (f"{file.title}, bar {bar}: {why}" for bar, why in passage.best.unplayable)
    Told((*map(str, file.findings), *unplayable)).say(quiet=given.quiet)
    write(passage, asked, path, pages, appearance)
    if pages.open:
        open_file(path)
    print_if_wanted(path, given)
    return path


def passage_place(given: Path | None, file: Path) -> Path:
    """Where the result goes.

    Raises:
        BookgenError: the place that was given has another ending.
    """
    if given is not None and given.suffix.lower() not in ENDINGS:
        problem = f"pages or MusicXML are made, but the name ends in {given.suffix!r}"
        raise BookgenError(
            Finding(f"--out {given}", problem, f"let it end in {' or '.join(ENDINGS)}")
        )
    return given or OUTPUT / f"{file_stem(file.stem)}-passage.pdf"


def preference(name: str | None) -> Preference | None:
    """What the player would rather have.

    Raises:
        BookgenError: there is no such preference.
    """
    if name is None:
        return None
    if name not in tuple(Preference):
        mend = f"choose {', '.join(Preference)}"
        raise BookgenError(Finding("--prefer", f"no preference {name!r}", mend))
    return Preference(name)


def records_of(asked: Asked) -> tuple[Record, ...]:
    """What the practice log knows of the player.

    Raises:
        BookgenError: the log is damaged.
    """
    with open_log(LOG_FILE, make=False) as log:
        return log.records(asked.name) if asked.name else ()


def write(passage: Passage, asked: Asked, path: Path, pages: PageArguments, wanted: Look) -> None:
    """Write the pages or the MusicXML, and the placements as JSON where they are wanted.

    Raises:
        BookgenError: a file cannot be written, or something does not fit its page.
    """
    from bookgen.plan.passage_encoder import encode_passage  # noqa: PLC0415

    if path.suffix.lower() == ".musicxml":
        from bookgen.notation.passage_musicxml import passage_musicxml  # noqa: PLC0415

        files = [(path, passage_musicxml(passage, asked.instrument))]
    else:
        files = [(path, pages_of(passage, asked, pages, wanted))]
    if pages.plan is not None:
        files.append((pages.plan, encode_passage(passage, asked.instrument).encode()))
    write_whole(files)


def pages_of(passage: Passage, asked: Asked, pages: PageArguments, wanted: Look) -> bytes:
    """Engrave the passage and its drills, and bind the pages.

    Raises:
        BookgenError: LilyPond is missing, or something does not fit its page.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    music, drills = engraved_both(passage, asked, pages, wanted)

    from bookgen.binder.passage_book import bind_passage  # noqa: PLC0415  loaded meanwhile

    return bound(
        lambda: bind_passage(
            passage, asked.instrument, music, drills, wanted.layout, wanted.options
        ),
        wanted,
    )


def engraved_both(
    passage: Passage, asked: Asked, pages: PageArguments, wanted: Look
) -> tuple[Engraving, Engraving]:
    """The music of the passage, and that of its drills and excerpts, engraved at the same time.

    Raises:
        BookgenError: LilyPond is missing, or the source's folder cannot be written.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    from bookgen.notation.passage_engraver import put_together  # noqa: PLC0415

    style, progress = wanted.style, f"engraving {bars(passage)} bars and the way there …"
    told = told_after_a_moment(progress, quiet=pages.quiet)
    with told, tempfile.TemporaryDirectory(prefix="bookgen-") as folder:
        running = list(started(passage, asked, style, Path(folder)))
        try:
            import_module("bookgen.binder.passage_book")  # ReportLab, while LilyPond works
            if pages.keep_ly is not None:
                sources = [source for one in running for source in one.sources]
                keep_sources(pages.keep_ly, sources, style)
            music, *rest = [one.finish(seconds_for(passage)) for one in running]
        finally:
            for one in running:
                one.stop()
    return music, reduce(put_together, rest, Engraving((), ()))


def started(passage: Passage, asked: Asked, style: Style, folder: Path) -> Iterator["Running"]:
    """LilyPond at work on the passage, on its drills and on its excerpts.

    Each has a folder of its own: none may lay out its fonts while another one reads them.

    Raises:
        BookgenError: LilyPond is missing.
    """
    from bookgen.notation.engraver import start  # noqa: PLC0415
    from bookgen.notation.lilypond import Workshop, find_lilypond  # noqa: PLC0415
    from bookgen.notation.passage_engraver import start_passage  # noqa: PLC0415
    from bookgen.notation.passage_excerpts import start_excerpts  # noqa: PLC0415

    lilypond = find_lilypond()
    shops = [Workshop(lilypond, folder / name) for name in ("passage", "drills", "excerpts")]
    for shop in shops:
        shop.folder.mkdir()
    yield start_passage(passage, asked.instrument, style, shops[0])
    if passage.plan is not None:
        yield start(passage.plan.days[0].drills, asked.instrument, style, shops[1])
    excerpts = excerpts_of(passage)
    if excerpts:
        yield start_excerpts(excerpts, asked.instrument, style, shops[2])


def seconds_for(passage: Passage) -> float:
    """How long LilyPond may take."""
    drills = 0 if passage.plan is None else len(passage.plan.days[0].drills)
    return LEAST_SECONDS + SECONDS_A_DRILL * (drills + bars(passage))


def bars(passage: Passage) -> int:
    """How many bars the passage has."""
    return len(passage.phrase.bars)
