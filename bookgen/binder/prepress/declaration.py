"""What a file for the press says of itself: PDF/X-4, for which press, of which day."""

from datetime import UTC, datetime
from hashlib import sha256
from typing import Final
from uuid import UUID

import pikepdf

from bookgen.binder.prepress.icc import Profile

STANDARD: Final = "PDF/X-4"
NAMESPACE: Final = "http://www.npes.org/pdfx/ns/id/"
REGISTER: Final = "http://www.color.org"
"""Of printing conditions (ISO 32000-1, table 365)."""


def declare(book: pikepdf.Pdf, profile: Profile, moment: datetime, contents: bytes) -> None:
    """Write the press, the dates and the standard into a file.

    moment: with its time zone; contents: what the file is made of, by which it is known.

    Source: ISO 15930-7:2010; ISO 32000-1, 14.11.5 (output intents), 14.11.6 (trapping).
    """
    book.Root["/OutputIntents"] = pikepdf.Array([book.make_indirect(intent(book, profile))])
    at = moment.astimezone(UTC)
    info = book.docinfo
    info["/CreationDate"] = info["/ModDate"] = at.strftime("D:%Y%m%d%H%M%SZ")
    title = str(info.get("/Title", ""))
    stamp = at.strftime("%Y-%m-%dT%H:%M:%SZ")
    known = UUID(bytes=sha256(contents + stamp.encode()).digest()[:16], version=5)
    pikepdf.models.PdfMetadata.register_xml_namespace(NAMESPACE, "pdfxid")
    with book.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as xmp:
        xmp.load_from_docinfo(info)
        xmp["dc:title"] = title
        xmp["dc:format"] = "application/pdf"
        for key in ("xmp:CreateDate", "xmp:ModifyDate", "xmp:MetadataDate"):
            xmp[key] = stamp
        xmp["xmpMM:DocumentID"] = f"uuid:{known}"
        xmp["xmpMM:VersionID"] = "1"
        xmp["xmpMM:RenditionClass"] = "default"
        xmp["pdf:Trapped"] = "False"
        xmp[f"{{{NAMESPACE}}}GTS_PDFXVersion"] = STANDARD
    info["/Trapped"] = pikepdf.Name("/False")


def intent(book: pikepdf.Pdf, profile: Profile) -> pikepdf.Dictionary:
    """For which press the file is made: by its registered name, else by that of its profile."""
    made = pikepdf.Dictionary(
        Type=pikepdf.Name.OutputIntent,
        S=pikepdf.Name.GTS_PDFX,
        OutputConditionIdentifier=pikepdf.String(profile.condition or profile.name),
        Info=pikepdf.String(profile.name),
        DestOutputProfile=book.make_stream(profile.data, N=profile.inks),
    )
    if profile.condition:
        made["/RegistryName"] = pikepdf.String(REGISTER)
    return made
