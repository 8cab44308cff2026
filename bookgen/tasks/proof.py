"""The proof of a finished book: read back before it is written, and refused where it is wrong."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Final

from bookgen.binder.page.block_measures import Arrangement
from bookgen.binder.page.desk import Desk
from bookgen.binder.prepress.spine import Stock
from bookgen.errors import Finding, ProofError, told
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Plan
from bookgen.plan.supplement import Supplement
from bookgen.proof.fault import MEND, Fault, unread
from bookgen.tasks.look import Look

if TYPE_CHECKING:
    from bookgen.proof.book_proof import Setting

MOST_TOLD: Final = 10
"""Faults that are told each by itself; a book in which all is wrong has thousands."""


def prove(
    pdf: bytes,
    plan: Plan,
    instrument: Instrument,
    look: Look,
    file: str,
    tell: Callable[[Finding], None],
) -> Mapping[int, str]:
    """Read a finished book, and compare it with its plan. Returns the drills' pages by number.

    pdf: as it will be written; file: its name in a finding; tell: takes what cannot be proved.

    Raises:
        ProofError: a page is not as the plan has it.
    """
    from bookgen.proof.book_proof import faults_of, read_book  # noqa: PLC0415  slow to import

    setting = setting_of(look.desk(instrument, plan.size))
    book = read_book(pdf, plan, instrument, setting)
    faults = faults_of(book, plan, instrument, setting, look.speech)
    if not faults:
        if book.unread:
            tell(unread(file, book.unread))
        return {entry.number: book.label(entry.number) for entry in plan.drills}
    raise ProofError(*findings_of(faults, file))


def findings_of(faults: Sequence[Fault], file: str) -> Iterator[Finding]:
    """The first faults of a file, and how many there are besides."""
    yield from (fault.finding(file) for fault in faults[:MOST_TOLD])
    if len(faults) > MOST_TOLD:
        yield Finding(file, told("more faults: {count}", count=len(faults) - MOST_TOLD), MEND)


def setting_of(desk: Desk) -> "Setting":
    """How a book is set on a desk."""
    from bookgen.binder.parts.drills import form_on  # noqa: PLC0415  slow to import
    from bookgen.proof.book_proof import Setting  # noqa: PLC0415  slow to import

    block, form = desk.layout.block, form_on(desk, "book")
    return Setting(
        number_pt=desk.layout.text.number_pt
        * max(one.type_share for one in (form, block.half, block.long)),
        titled=form.arrangement is not Arrangement.FIRST,
        clean=desk.clean,
    )


def prove_cover(
    pdf: bytes,
    book: bytes,
    said: Supplement,
    stock: Stock,
    digits: str | None,
    desk: Desk,
    file: str,
) -> None:
    """Read a finished cover, and compare it with its book.

    pdf, book: as they will be written; said: by the publisher; digits: of the book's number.
    file: the cover's name in a finding.

    Raises:
        ProofError: the cover is another book's.
    """
    from bookgen.proof.cover_proof import MM, Cover, cover_faults  # noqa: PLC0415  slow to import
    from bookgen.proof.reading import count_pages, read_pages, trim_of  # noqa: PLC0415  with it

    leaves = -(-count_pages(book) // 2)
    cover = Cover(
        title=desk.clean(said.title),
        author=desk.clean(said.author),
        digits=digits,
        page_mm=trim_of(book).width * MM,
        spine_mm=leaves * stock.grams * stock.bulk / 1000,
    )
    faults = [
        Fault(problem)
        for page in read_pages(pdf, [0])
        for problem in cover_faults(page, trim_of(pdf), cover)
    ]
    if faults:
        raise ProofError(*findings_of(faults, file))
