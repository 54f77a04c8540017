"""A file laid out and read back, as one step: what is not proven is not handed on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from boxwright.frozen import frozen_value
from boxwright.paper.frame import Look
from boxwright.paper.page import Page
from boxwright.paper.readback import prove
from boxwright.paper.render import lay_out


@frozen_value
class Proof:
    """A finished PDF that was read back, and how many sheets of paper it takes."""

    pdf: bytes
    sheets: int


class Press(Protocol):
    """Lays pages out as one PDF under a title and reads it back.

    `Refused` where something does not fit its page or is wrong; `MisprintError` where a
    template is at fault.
    """

    def __call__(self, pages: Sequence[Page], look: Look, title: str | None = None) -> Proof:
        """Return the proof of `pages`."""


def pressed(pages: Sequence[Page], look: Look, title: str | None = None) -> Proof:
    """Return the proof of `pages`, made in this process."""
    pdf = lay_out(pages, look, title)
    return Proof(pdf, prove(pdf, pages, look))
