"""The proof of a finished book: read back before it is written, and refused where it is wrong."""

from collections.abc import Mapping
from typing import Final

from bookgen.binder.page.block_measures import Arrangement
from bookgen.errors import Finding, ProofError, told
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Plan
from bookgen.proof.fault import MEND
from bookgen.tasks.look import Look

MOST_TOLD: Final = 10
"""Faults that are told each by itself; a book in which all is wrong has thousands."""


def prove(
    pdf: bytes, plan: Plan, instrument: Instrument, look: Look, file: str
) -> Mapping[int, str]:
    """Read a finished book, and compare it with its plan. Returns the drills' pages by number.

    pdf: as it will be written; file: its name in a finding.

    Raises:
        ProofError: a page is not as the plan has it.
    """
    from bookgen.binder.parts.drills import form_on  # noqa: PLC0415  slow to import
    from bookgen.proof.book_proof import (  # noqa: PLC0415  slow to import
        Setting,
        faults_of,
        read_book,
    )

    desk = look.desk(instrument, plan.size)
    block, form = desk.layout.block, form_on(desk, "book")
    forms = (form, block.half, block.long)
    setting = Setting(
        number_pt=desk.layout.text.number_pt * max(one.type_share for one in forms),
        titled=form.arrangement is not Arrangement.FIRST,
        clean=desk.clean,
    )
    book = read_book(pdf, plan, instrument, setting)
    faults = faults_of(book, plan, instrument, setting, look.speech)
    if not faults:
        return {entry.number: book.label(entry.number) for entry in plan.drills}
    findings = [fault.finding(file) for fault in faults[:MOST_TOLD]]
    if len(faults) > MOST_TOLD:
        more = told("more faults: {count}", count=len(faults) - MOST_TOLD)
        findings.append(Finding(file, more, MEND))
    raise ProofError(*findings)
