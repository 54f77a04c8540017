"""What was fitted to a printed set is still on the shelf."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.reach import path_of
from boxwright.choose.edition import Edition
from boxwright.choose.fitting import is_envelope
from boxwright.problems import Count, Finding, Problem

CODE = "kit.gone"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each sticker that the kit no longer has."""
    kit = about.folder.kit
    if kit is None:
        return
    there = {*kit.locks, *kit.keys, *kit.boxes, *kit.tools}
    for stickers in edition.stickers.values():
        for id, tag in stickers.items():
            if tag not in there and not is_envelope(tag):
                where = about.where(*path_of(edition, id))
                problem = Problem.of(CODE, where, id=id, tag=tag, kit=kit.kit.name)
                yield Finding(problem, "stop", "computed", Count(0, 1))
