"""Several print-outs as one: one PDF to be printed in one go, or one archive to be carried away."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from io import BytesIO

_SAME_DAY = (1980, 1, 1, 0, 0, 0)  # the earliest that an archive can tell: the same bytes again


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


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Return files as an archive; the same files give the same bytes."""
    from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

    made = BytesIO()
    with ZipFile(made, "w", ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(ZipInfo(name, _SAME_DAY), data, ZIP_DEFLATED)
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
