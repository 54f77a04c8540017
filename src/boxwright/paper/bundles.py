"""Print-outs otherwise than one file each: several as one PDF, a page as a picture."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO


def merged(pdfs: Sequence[bytes], title: str, language: str) -> bytes:
    """Return the pages of `pdfs` as one PDF, printed on one side and unscaled like each of them.

    It is for the printer: the tags by which a screen reader finds its way stay in the files
    that it was put together from.
    """
    import pikepdf

    whole = pikepdf.Pdf.new()
    for pdf in pdfs:
        with pikepdf.Pdf.open(BytesIO(pdf)) as part:
            whole.pages.extend(part.pages)
    whole.docinfo["/Title"] = title
    whole.Root.Lang = pikepdf.String(language)
    whole.Root.ViewerPreferences = pikepdf.Dictionary(
        Duplex=pikepdf.Name.Simplex, PrintScaling=pikepdf.Name("/None"), DisplayDocTitle=True
    )
    made = BytesIO()
    whole.save(made, deterministic_id=True)
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
