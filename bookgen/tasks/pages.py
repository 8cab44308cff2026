"""From a plan to its pages: bind, write; the path on which all tasks meet."""

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from bookgen.binder.page.paper import NoRoomError
from bookgen.errors import BookgenError, Finding, told, why
from bookgen.tasks.engraving import Sources
from bookgen.tasks.files import write_whole
from bookgen.tasks.look import Look, PageWish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.studio_folder import StudioFolder


def bound[Result](binding: Callable[[], Result], wanted: Look) -> Result:
    """What a binder makes, or why it cannot.

    Raises:
        BookgenError: something does not fit its page.
    """
    try:
        return binding()
    except NoRoomError as error:
        mend = told("choose larger paper, or a smaller staff or type in layout.toml")
        place = told("layout {name}", name=wanted.layout.name)
        raise BookgenError(Finding(place, why(error), mend)) from error


def besides(
    folder: StudioFolder,
    wish: PageWish,
    document: bytes,
    sources: Sources | None = None,
    *,
    part: str = "",
) -> Iterator[tuple[Path, bytes]]:
    """What is written beside the pages where it is wanted: the plan document, the source.

    part: folder inside the one for the source, where several books are made.
    """
    if wish.plan is not None:
        yield folder.path / wish.plan, document
    if wish.keep_ly is not None and sources is not None:
        yield from sources.files(folder.path / wish.keep_ly / part)


def publish(files: Iterable[tuple[Path, bytes]], inputs: Iterable[Path]) -> None:
    """Write all that a task has made, together.

    inputs: files that were read; none of them is written over.

    Raises:
        BookgenError: a file cannot be written; then none is.
    """
    made = list(files)
    refuse_places((Place("", path) for path, _ in made), inputs)
    write_whole(made)
