"""Print settings into a finished PDF: one side of the paper, no scaling; nothing else changes."""

from __future__ import annotations

from io import BytesIO


def with_print_settings(pdf: bytes) -> bytes:
    """Return `pdf` with viewer preferences for printing; the same bytes for the same input.

    A sheet scaled by the printer no longer fits the film that lies on it, and a clue on
    the back of another sheet is in the wrong box. Tags and metadata stay as they are.
    """
    import pikepdf

    with pikepdf.open(BytesIO(pdf)) as document:
        preferences = document.Root.get("/ViewerPreferences", pikepdf.Dictionary())
        preferences["/Duplex"] = pikepdf.Name("/Simplex")
        preferences["/PrintScaling"] = pikepdf.Name("/None")
        preferences["/DisplayDocTitle"] = True
        document.Root["/ViewerPreferences"] = preferences
        out = BytesIO()
        document.save(
            out,
            deterministic_id=True,
            fix_metadata_version=False,  # nor is the metadata touched
            object_stream_mode=pikepdf.ObjectStreamMode.preserve,
        )
    return out.getvalue()
