"""From a plan to its pages: engrave, bind, write; the path on which all commands meet."""

import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Final

from bookgen.binder.layout import PAPERS, Layout, NoRoomError
from bookgen.commands.arguments import PageArguments, unknown
from bookgen.commands.output import write_whole
from bookgen.commands.progress import told_after_a_moment
from bookgen.commands.viewer import open_file
from bookgen.errors import BookgenError, Finding
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving
from bookgen.notation.style import Style
from bookgen.plan.document import Plan
from bookgen.plan.encoder import encode
from bookgen.readers.layout import read_layout

if TYPE_CHECKING:
    from bookgen.binder.sheet import Options
    from bookgen.notation.lilypond import Run, Workshop

LEAST_SECONDS: Final = 60.0
SECONDS_A_DRILL: Final = 1.0
"""How long LilyPond may take; measured are 0.3 s and 0.02 s a drill on a slow day."""

ORDINARY_LAYOUT: Final = "ordinary"
ORDINARY_PAPER: Final = "a4"


@dataclass(frozen=True, slots=True)
class Look:
    """How pages look: the layout, the paper, and what is printed besides.

    studio: name in the head, or None.
    booklet: the pages are those of a booklet, where music may stand beside the chart.
    """

    layout: Layout
    paper: str
    cents: bool
    studio: str | None
    booklet: bool = False

    @property
    def options(self) -> "Options":
        """What the player wants of the pages."""
        from bookgen.binder.sheet import Options  # noqa: PLC0415  slow to import

        return Options(self.paper, self.cents, self.studio)

    @property
    def style(self) -> Style:
        """What the engraver must know of the page.

        Raises:
            BookgenError: the layout's measures cannot be engraved.
        """
        fonts = self.layout.fonts
        files = tuple(str(file) for file in (fonts.regular, fonts.bold, fonts.italic))
        try:
            return Style(
                line_width_mm=self.layout.music_width(self.paper, booklet=self.booklet),
                staff_height_mm=self.layout.staff_height_mm,
                text_family=fonts.family,
                text_files=files,
            )
        except ValueError as error:
            place = f"layout {self.layout.name}"
            raise BookgenError(Finding(place, str(error), "mend layout.toml")) from error


def look(
    given: PageArguments,
    *,
    layout: str | None = None,
    paper: str | None = None,
    studio: str | None = None,
) -> Look:
    """The look that was asked for; what the command line leaves open the studio decides.

    Raises:
        BookgenError: there is no such layout or paper, or the layout's files are damaged.
    """
    place = "--layout" if given.layout is not None else "studio.toml, layout"
    chosen = read_layout(given.layout or layout or ORDINARY_LAYOUT, place)
    if paper is not None and paper not in PAPERS:
        raise BookgenError(unknown("studio.toml, paper", "paper", paper, sorted(PAPERS)))
    return Look(chosen, given.paper or paper or ORDINARY_PAPER, given.cents, studio)


@dataclass(frozen=True, slots=True)
class Ready:
    """A LilyPond that has been started and waits for music."""

    shop: "Workshop"
    run: "Run"


@contextmanager
def lilypond_ready(wanted: Look) -> Iterator[Ready]:
    """Start LilyPond, which warms up while it is still being found out what it shall engrave.

    Raises:
        BookgenError: LilyPond is missing or does not start.
    """
    from bookgen.notation.engraver import warm_up  # noqa: PLC0415
    from bookgen.notation.lilypond import Workshop, find_lilypond  # noqa: PLC0415

    with tempfile.TemporaryDirectory(prefix="bookgen-") as folder:
        shop = Workshop(find_lilypond(), Path(folder))
        run = warm_up(wanted.style, shop)
        try:
            yield Ready(shop, run)
        finally:
            run.stop()


def make_pages(
    plan: Plan,
    instrument: Instrument,
    given: PageArguments,
    wanted: Look,
    ready: Ready | None = None,
) -> bytes:
    """Engrave and bind a plan; write its LilyPond source where that is wanted.

    ready: a LilyPond that was started for the same look, if one was.

    Raises:
        BookgenError: LilyPond is missing, the source's folder cannot be written, or a drill
            does not fit its page.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    engraving = engraved(plan, instrument, given, wanted, ready)

    from bookgen.binder.sheet import bind  # noqa: PLC0415  loaded while LilyPond worked

    return bound(lambda: bind(plan, instrument, engraving, wanted.layout, wanted.options), wanted)


def bound(binding: Callable[[], bytes], wanted: Look) -> bytes:
    """What a binder makes, or why it cannot.

    Raises:
        BookgenError: something does not fit its page.
    """
    try:
        return binding()
    except NoRoomError as error:
        mend = "choose larger paper, or a smaller staff or type in layout.toml"
        raise BookgenError(Finding(f"layout {wanted.layout.name}", str(error), mend)) from error


def engraved(
    plan: Plan,
    instrument: Instrument,
    given: PageArguments,
    wanted: Look,
    ready: Ready | None = None,
) -> Engraving:
    """Engrave all drills of a plan, and load the binder meanwhile.

    ready: a LilyPond that was started for the same look, if one was.

    Raises:
        BookgenError: LilyPond is missing, or the source's folder cannot be written.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    if ready is None:
        with lilypond_ready(wanted) as started:
            return engraved(plan, instrument, given, wanted, started)
    from bookgen.notation.engraver import start  # noqa: PLC0415

    drills = [drill for day in plan.days for drill in day.drills]
    style = wanted.style
    with told_after_a_moment(f"engraving {len(drills)} drills …", quiet=given.quiet):
        running = start(drills, instrument, style, ready.shop, ready.run)
        try:
            import_module("bookgen.binder.sheet")  # ReportLab and pikepdf, while LilyPond works
            if given.keep_ly is not None:
                keep_sources(given.keep_ly, running.sources, style)
            return running.finish(LEAST_SECONDS + SECONDS_A_DRILL * len(drills))
        finally:
            running.stop()


def keep_sources(folder: Path, sources: Sequence[str], style: Style) -> None:
    """Write the LilyPond text that is engraved, with the fonts it asks for beside it.

    Raises:
        BookgenError: the folder cannot be written.
    """
    from bookgen.notation.lilypond import FONTS_FOLDER  # noqa: PLC0415
    from bookgen.notation.source import font_names  # noqa: PLC0415

    texts = [
        (folder / f"drills-{number}.ly", text.encode()) for number, text in enumerate(sources, 1)
    ]
    fonts = [
        (folder / FONTS_FOLDER / name, Path(file).read_bytes())
        for name, file in zip(font_names(style), style.text_files, strict=True)
    ]
    write_whole([*texts, *fonts])


def publish(
    pages: bytes, path: Path, plan: Plan | None, instrument: Instrument, given: PageArguments
) -> Path:
    """Write the pages and, where wanted, the plan; open the pages where wanted.

    Raises:
        BookgenError: a file cannot be written, or nothing here opens it.
    """
    files = [(path, pages)]
    if plan is not None and given.plan is not None:
        files.append((given.plan, encode(plan, instrument).encode()))
    write_whole(files)
    if given.open:
        open_file(path)
    return path
