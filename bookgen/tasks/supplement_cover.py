"""The cover of an edition: as wide as its pages and the paper make it."""

from collections.abc import Sequence
from io import BytesIO
from pathlib import Path

from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.document import Plan
from bookgen.readers.supplement.spec import Spec
from bookgen.tasks.look import Look
from bookgen.tasks.pages import bound
from bookgen.tasks.pressed import PressWish, press_of
from bookgen.tasks.proof import prove_cover
from bookgen.tasks.roster import choose
from bookgen.tasks.supplement_plans import MEMORY, Edition


def refuse_strays(spec: Spec, names: Sequence[str]) -> None:
    """Refuse numbers of editions that there are not.

    names: of all editions.

    Raises:
        BookgenError: there is such a number; all of them are told.
    """
    findings = [
        Finding(
            spec.place("isbn"),
            told("the spec has no edition {name}", name=repr(name)),
            choose(name, names),
        )
        for name in spec.numbers
        if name not in names
    ]
    if findings:
        raise BookgenError(*findings)


def cover_pages(
    spec: Spec,
    plan: Plan,
    pages: bytes,
    edition: Edition,
    look: Look,
    press: PressWish | None,
    file: str,
) -> bytes:
    """The cover of a finished book, for the press, proved.

    pages: the book; look: in the language of the edition; file: its name in a finding.

    Raises:
        BookgenError: its words do not fit.
        ProofError: the finished cover is another book's.
        ValueError: the paper is not known, or the plan is of no book.
    """
    import pikepdf  # noqa: PLC0415  slow to import

    from bookgen.binder.books.cover_sheet import CoverSheet  # noqa: PLC0415  slow to import

    if spec.stock is None or plan.binding is None or plan.binding.supplement is None:
        msg = "a cover goes around a book, on a paper that is known"
        raise ValueError(msg)
    with pikepdf.open(BytesIO(pages)) as book:
        spine = spec.stock.spine_mm(len(book.pages))
    said, number = plan.binding.supplement, spec.numbers.get(edition.name)
    desk = look.desk(edition.instrument, plan.size)
    cover = CoverSheet(
        book=said,
        back=spec.back[edition.language],
        number=number,
        spine=spine,
        desk=desk,
        from_memory=edition.kind == MEMORY,
    )
    finished = press_of(Path(), press, cover.folds)(bound(cover.bound, look))
    prove_cover(finished, pages, said, spec.stock, number.digits if number else None, desk, file)
    return finished
