"""A publisher's book: every edition of a spec, with the same numbers in all of them."""

import codecs
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.document import Binding, Plan, encode
from bookgen.readers.data_file import data_text
from bookgen.readers.layout import layout_names
from bookgen.readers.supplement.file import parse_spec
from bookgen.readers.supplement.spec import Spec
from bookgen.tasks.books import book_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.cache import Cache
from bookgen.tasks.look import Look, Made, known_paper, layout_of
from bookgen.tasks.new_studio import write_new
from bookgen.tasks.pages import publish
from bookgen.tasks.places import Place, files_in, refuse_places
from bookgen.tasks.pressed import PressWish, mark_of, press_of, profiles
from bookgen.tasks.proof import prove
from bookgen.tasks.proof_table import proof_files, proof_places
from bookgen.tasks.roster import choose
from bookgen.tasks.studio_folder import OUTPUT, StudioFolder
from bookgen.tasks.supplement_cover import cover_pages, refuse_strays
from bookgen.tasks.supplement_music import music_of
from bookgen.tasks.supplement_plans import MEMORY, Edition, chapters_of, editions_of, plan_of

SPEC_NAME: Final = "supplement.toml"
TOML: Final = ".toml"
LARGEST_SPEC: Final = 4 * 1024 * 1024
"""Bytes; a book of four hundred pages of text has less."""


def make_spec(path: Path) -> Made:
    """Write a spec to begin with, in a folder or under a name that ends in .toml.

    Raises:
        BookgenError: there is one already, or the folder cannot be written.
    """
    file = path if path.suffix.lower() == TOML else path / SPEC_NAME
    write_new(file, data_text(SPEC_NAME).encode())
    return Made((file,))


def make_supplement(
    file: Path,
    out: Path | None,
    only: Sequence[str],
    plans: Path | None,
    cache: Cache | None,
    busy: Busy,
    press: PressWish | None = None,
    *,
    screen: bool = False,
    proof: bool = False,
) -> Made:
    """Make the editions of a spec, all of them or none, for a printing house or for a screen.

    out: folder for them, or None for `output` beside the spec; plans: for their plan documents.
    only: names of editions, or their beginnings; none means all. proof: with an editor's table.

    Raises:
        BookgenError: the spec, or what it asks for, cannot be made into books.
        ProofError: a finished book is not as its plan has it.
    """
    spec = spec_of(file)
    editions = wanted(spec, only)
    look = look_of(spec, file, cache, screen=screen)
    stem = (file.parent / OUTPUT if out is None else out) / file.stem
    mark = mark_of(press, screen=screen)
    targets = [*targets_of(spec, editions, stem, plans, press, mark, proof=proof)]
    inputs = [*inputs_of(spec, file), *profiles(Path(), press)]
    refuse_places([Place("", path) for target in targets for path in target.paths], inputs)
    press_of(Path(), press)  # a profile that will not do is told before any work is done
    music = music_of(spec)
    chapters = chapters_of(spec, music)
    made: list[tuple[Path, bytes]] = []
    unproved: list[Finding] = []
    for target, edition in zip(targets, editions, strict=True):
        bound = look.spoken(edition.language, from_memory=edition.kind == MEMORY)
        plan = plan_of(spec, chapters, edition, bound.binding, music)
        made += files_of(spec, plan, edition, target, bound, busy, press, unproved.append)
    publish(made, inputs)
    return Made(tuple(path for target in targets for path in target.printed), tuple(unproved))


def files_of(
    spec: Spec,
    plan: Plan,
    edition: Edition,
    target: "Target",
    look: Look,
    busy: Busy,
    press: PressWish | None,
    tell: Callable[[Finding], None],
) -> Iterator[tuple[Path, bytes]]:
    """Everything that is written of an edition, its book proved.

    tell: takes what cannot be proved.

    Raises:
        BookgenError: something does not fit its page.
        ProofError: the finished book is not as its plan has it.
    """
    pages = book_of(plan, edition.instrument, look).made(busy).pages
    printed = press_of(Path(), press)(pages)
    on = prove(printed, plan, edition.instrument, look, str(target.book), tell)
    yield target.book, printed
    if target.proof:
        yield from proof_files(target.book, plan, on, edition.instrument, look)
    if target.cover is not None:
        file = str(target.cover)
        yield target.cover, cover_pages(spec, plan, pages, edition, look, press, file)
    if target.plan is not None:
        yield target.plan, encode(plan)


@dataclass(frozen=True, slots=True)
class Target:
    """Where an edition goes: its book; cover, plan document and editor's table where wanted."""

    book: Path
    cover: Path | None
    plan: Path | None
    proof: tuple[Path, ...] = ()

    @property
    def printed(self) -> tuple[Path, ...]:
        """What is to be printed."""
        return tuple(path for path in (self.book, self.cover, *self.proof) if path is not None)

    @property
    def paths(self) -> tuple[Path, ...]:
        """All of it."""
        return self.printed if self.plan is None else (*self.printed, self.plan)


def targets_of(
    spec: Spec,
    editions: Sequence[Edition],
    stem: Path,
    plans: Path | None,
    press: PressWish | None,
    mark: str,
    *,
    proof: bool,
) -> Iterator[Target]:
    """Where editions go; stem: how the names of their books begin; mark: at their ends."""
    for edition in editions:
        name = f"{stem.name}-{edition.name}"
        book = stem.with_name(f"{name}{mark}.pdf")
        cover = stem.with_name(f"{name}{mark}-cover.pdf")
        yield Target(
            book=book,
            cover=cover if press and spec.stock else None,
            plan=None if plans is None else plans / f"{name}.json",
            proof=proof_places(book) if proof else (),
        )


def spec_of(file: Path) -> Spec:
    """A spec from its file.

    Raises:
        BookgenError: it cannot be read, or something in it is wrong.
    """
    spec = parse_spec(read_spec(file), str(file), file.parent)
    refuse_strays(spec, [edition.name for edition in editions_of(spec)])
    return spec


def inputs_of(spec: Spec, file: Path) -> list[Path]:
    """The files that are read: the spec itself, its passages and a layout of one's own."""
    own = [] if spec.layout in layout_names() else files_in(file.parent / spec.layout)
    passages = [spec.folder / one.excerpt.file for one in spec.chapters if one.excerpt]
    return [file, *passages, *own]


def read_spec(file: Path) -> str:
    """The text of a spec.

    Raises:
        BookgenError: it cannot be read, or is far too large.
    """
    mend = told("give a spec; `bookgen new-supplement` writes one to begin with")
    try:
        with file.open("rb") as stream:
            found = stream.read(LARGEST_SPEC + 1)
        text = found.removeprefix(codecs.BOM_UTF8).decode()
    except OSError as error:
        problem = told("cannot be read ({reason})", reason=error.strerror)
        raise BookgenError(Finding(str(file), problem, mend)) from error
    except UnicodeDecodeError as error:
        problem = told("cannot be read ({reason})", reason=error)
        mend = told("make it a readable text file in UTF-8")
        raise BookgenError(Finding(str(file), problem, mend)) from error
    if len(found) > LARGEST_SPEC:
        raise BookgenError(Finding(str(file), told("larger than any spec"), mend))
    return text


def wanted(spec: Spec, only: Sequence[str]) -> list[Edition]:
    """The editions that are asked for, in the order of the spec.

    Raises:
        BookgenError: a name means none of them.
    """
    every = [*editions_of(spec)]
    names = [edition.name for edition in every]
    for name in only:
        if not any(edition.called(name) for edition in every):
            problem = told("the spec has no edition {name}", name=repr(name))
            raise BookgenError(Finding("--only", problem, choose(name, names)))
    return [one for one in every if not only or any(map(one.called, only))]


def look_of(spec: Spec, file: Path, cache: Cache | None, *, screen: bool = False) -> Look:
    """How all editions look, but for their languages.

    screen: pages tell what is read on them.

    Raises:
        BookgenError: there is no such paper or layout, or the layout's file is damaged.
    """
    paper = known_paper(spec.place("paper"), spec.paper)
    layout = layout_of(StudioFolder(file.parent), spec.layout, spec.place("layout"))
    binding = Binding(book="supplement", paper=paper, layout=spec.layout)
    return Look(layout, binding, cache, screen)
