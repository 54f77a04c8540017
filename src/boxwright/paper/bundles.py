"""Print-outs otherwise than one file each: several as one PDF, a page as a picture."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

PDF_UA = "1.7"
"""The version of PDF that PDF/UA-1 is a form of."""


def merged(pdfs: Sequence[bytes], title: str, language: str) -> bytes:
    """Return the pages of `pdfs`, with their tags, as one PDF that is printed like each of them.

    On one side, that is, and unscaled.
    """
    import pikepdf

    from boxwright.paper.merged_tags import Tags

    whole = pikepdf.Pdf.new()
    tags = Tags(whole)
    for pdf in pdfs:
        with pikepdf.Pdf.open(BytesIO(pdf)) as part:
            tags.add(part)
    whole.docinfo["/Title"] = title
    with whole.open_metadata(set_pikepdf_as_editor=False) as metadata:
        metadata["dc:title"], metadata["pdfuaid:part"] = title, "1"
    whole.Root.Lang = pikepdf.String(language)
    whole.Root.ViewerPreferences = pikepdf.Dictionary(
        Duplex=pikepdf.Name.Simplex, PrintScaling=pikepdf.Name("/None"), DisplayDocTitle=True
    )
    made = BytesIO()
    whole.save(made, deterministic_id=True, min_version=PDF_UA)
    return made.getvalue()


def pictured(pdf: bytes, page: int, width: int) -> bytes:
    """Return a page (from 0) of a PDF as a picture, PNG, `width` pixels wide.

    Raises IndexError where it has no such page.
    """
    from boxwright.paper.opened import opened

    with opened(pdf) as document:
        if not 0 <= page < len(document):
            raise IndexError(page)
        sheet = document[page]
        image = sheet.render(scale=width / sheet.get_width()).to_pil()
    made = BytesIO()
    image.save(made, "PNG")
    return made.getvalue()
