"""Names of files that mean the same on every computer, and are files there at all."""

from __future__ import annotations

import re

LONGEST = 120
_FORBIDDEN = re.compile(r'[\x00-\x1f\x7f<>:"/\\|?*]')
_DEVICES = re.compile(r"(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(?:\s*\..*)?", re.IGNORECASE)


def is_portable(part: str) -> bool:
    """Tell whether `part`, a name without a folder, can be a file's on every system.

    Some systems know devices by names such as `con.txt`, drop blanks and full stops at the
    end, and hide what begins with a full stop.
    """
    return (
        0 < len(part) <= LONGEST
        and not _FORBIDDEN.search(part)
        and not _DEVICES.fullmatch(part)
        and part[0] not in ". "
        and part[-1] not in ". "
    )
