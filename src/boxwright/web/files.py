"""Files that a page hands out: under their names, shown in the browser or saved by it."""

from __future__ import annotations

from typing import Literal
from urllib.parse import quote

from fastapi.responses import Response

# The browser's own viewer shows a PDF, in ways that our pages' policy would not let it.
_POLICY = "frame-ancestors 'self'; base-uri 'none'"  # not read by people

_NAME = "filename*=UTF-8''"


def file_answer(
    name: str, data: bytes, kind: str, how: Literal["inline", "attachment"] = "attachment"
) -> Response:
    """Return a file of a media type as an answer; `inline` has it shown, not saved."""
    headers = {
        "Content-Disposition": f"{how}; {_NAME}{quote(name, safe='')}",
        "Content-Security-Policy": _POLICY,
        "Cache-Control": "no-store",
    }
    return Response(data, media_type=kind, headers=headers)
