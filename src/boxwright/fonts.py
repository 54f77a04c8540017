"""Which faces there are, which signs they hold, and what is printed for a sign they lack.

The faces come from two packages; any folder of fonts can stand in for them, by argument
or by the environment variable BOXWRIGHT_FONTS (several folders as PATH has them; the
families of the first come first). Every text of the user's passes `gate` before it is
set, so that a missing sign is a note with a substitute, never an empty box.
"""

from __future__ import annotations

import os
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any, NamedTuple

from boxwright.problems import Path as Steps
from boxwright.problems import Problem, Where, refuse, say
from boxwright.text import nfc

ENVIRONMENT = "BOXWRIGHT_FONTS"
# The running text's face first, then the one that helps out.
PACKAGES = ("fontpkg_atkinson_hyperlegible", "fontpkg_noto_sans")
MANY = 6  # different signs missing in one text, from which on they are reported together

_LOOK_ALIKES = {
    "←": "<-",
    "→": "->",
    "↔": "<->",
    "⇐": "<=",
    "⇒": "=>",
    "☐": "[ ]",
    "□": "[ ]",
    "☑": "[x]",
    "☒": "[x]",
    "★": "*",
    "☆": "*",
    "●": "•",
    "○": "o",
    "■": "▪",
    "‐": "-",
    "‑": "-",
    "―": "—",
    "′": "'",
    "″": '"',
    "∶": ":",
    "∙": "·",
    "⋅": "·",
}
COMMON = frozenset(map(chr, [*range(0x20, 0x7F), *range(0xA1, 0xAD), *range(0xAE, 0x100)])) | set(
    "–—‘’“”…•"
)
"""What the first of our own families is known to hold: most texts ask for no more."""
_LEFT_OUT = {0x00AD, 0xFEFF}  # soft hyphen and byte order mark: nothing to see
_CONTROLS = frozenset(
    map(chr, [*range(0x20), *range(0x7F, 0xA0)])
)  # some fonts list them; no page may
_FLAG_A, _FLAG_Z = 0x1F1E6, 0x1F1FF


@dataclass(frozen=True)
class Faces:
    """Folders of fonts, the families in them in order of preference, and the fonts.

    A font is its family, its file, and its number in the file.
    """

    folders: tuple[Path, ...]
    families: tuple[str, ...]
    fonts: tuple[tuple[str, str, int], ...]

    @cached_property
    def signs(self) -> tuple[frozenset[str], ...]:
        """For each family what all of its fonts hold, so that bold and plain print the same."""
        found: dict[str, frozenset[str]] = {}
        for family, path, number in self.fonts:
            signs = _signs(path, number)
            found[family] = found[family] & signs if family in found else signs
        return tuple(found[family] for family in self.families)

    @cached_property
    def known(self) -> frozenset[str]:
        """Signs of the first family that need no font to be opened."""
        own = self.folders == tuple(map(_package_folder, PACKAGES))
        return COMMON if own else frozenset()

    @cached_property
    def as_is(self) -> _AsIs:
        """Tells of a sign whether it is set as it stands."""
        return _AsIs(self)

    def hold(self, cluster: str) -> bool:
        """Tell whether one family holds all of `cluster` (a letter with its accents)."""
        if self.known.issuperset(cluster):
            return True
        return any(family.issuperset(cluster) for family in self.signs)


class Missing(NamedTuple):
    """A sign that cannot be printed: where it stands (from 0), and what is printed for it.

    `substitute` None: nothing is printed, since nothing would have been seen (a control
    character).
    """

    at: int
    sign: str
    substitute: str | None


def font_folders(given: Path | None = None) -> tuple[Path, ...]:
    """Return the folders that hold the fonts: `given`, else the environment's, else our own."""
    if given is not None:
        return (given,)
    chosen = os.environ.get(ENVIRONMENT, "")
    if chosen:
        return tuple(Path(folder) for folder in chosen.split(os.pathsep) if folder)
    return tuple(_package_folder(package) for package in PACKAGES)


def _package_folder(package: str) -> Path:
    spec = find_spec(package)  # found, not imported: the files are all that is wanted
    if spec is None or not spec.origin:
        refuse(Problem.of("font.no-package", Where(package), package=package, name=ENVIRONMENT))
    return Path(spec.origin).with_name("files")


def faces(folder: Path | None = None) -> Faces:
    """Return the faces in use; `Refused` where a folder is missing or holds no font."""
    return _faces(font_folders(folder))


@lru_cache(maxsize=8)
def _faces(folders: tuple[Path, ...]) -> Faces:
    fonts = tuple(font for folder in folders for font in _fonts_in(folder))
    return Faces(folders, tuple(dict.fromkeys(family for family, _, _ in fonts)), fonts)


def _fonts_in(folder: Path) -> list[tuple[str, str, int]]:
    """Return family, file and number in the file of each font, by file name."""
    import typst

    if not folder.is_dir():
        refuse(Problem.of("font.no-folder", Where(str(folder)), name=ENVIRONMENT))
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)]
    ).fonts()
    if not fonts:
        refuse(Problem.of("font.none-in-folder", Where(str(folder)), name=ENVIRONMENT))
    return sorted((font.family, font.path or "", font.index) for font in fonts)


def _signs(path: str, number: int) -> frozenset[str]:
    from fontTools.ttLib import TTFont

    with TTFont(path, lazy=True, fontNumber=number) as font:
        return frozenset(map(chr, font["cmap"].getBestCmap() or ())) - _CONTROLS


def clusters(text: str) -> Iterator[tuple[int, str]]:
    """Yield the signs of `text` as a reader counts them, each with its index.

    A simple form of Unicode's grapheme clusters: a base with its marks, variation
    selectors and skin tones; what joiners join; two letters of a flag; line ends.
    """
    start = 0
    for index in range(1, len(text) + 1):
        if index == len(text) or not _belongs(text, start, index):
            yield start, text[start:index]
            start = index


def _belongs(text: str, start: int, index: int) -> bool:
    sign, before = text[index], text[index - 1]
    if sign == "\n":
        return before == "\r"
    if _is_flag(sign):
        return index - start == 1 and _is_flag(before)
    return (
        _joins(sign)
        or sign == "\u200d"
        or before == "\u200d"
        or unicodedata.category(sign)[0] == "M"
    )


def _is_flag(sign: str) -> bool:
    return _FLAG_A <= ord(sign) <= _FLAG_Z


def _joins(sign: str) -> bool:
    """Tell whether a sign is a skin tone or a tag, which belong to the sign before."""
    return 0x1F3FB <= ord(sign) <= 0x1F3FF or 0xE0020 <= ord(sign) <= 0xE007F


def unprintable(text: str, known: Faces | None = None) -> tuple[Missing, ...]:
    """Return the signs of `text` that the faces lack, in order."""
    known = known or faces()
    return tuple(
        Missing(index, cluster, substitute(cluster, known))
        for index, cluster in clusters(text)
        if _plain(cluster, known) is None
    )


class _AsIs(dict[str, bool]):
    """Tells of single signs, each looked up once, whether they are set as they stand."""

    def __init__(self, known: Faces) -> None:
        super().__init__()
        self.known = known

    def __missing__(self, sign: str) -> bool:
        alone = unicodedata.category(sign)[0] != "M" and not (_unseen(sign) or _joins(sign))
        self[sign] = alone and _plain(sign, self.known) == sign
        return self[sign]


def _plain(cluster: str, known: Faces) -> str | None:
    """Return `cluster` as it can be set without loss, or None where it cannot."""
    if cluster in ("\n", "\r\n", "\r", "\u2028", "\u2029", "\x0b", "\x0c", "\x85"):
        return "\n"
    composed = nfc("".join(sign for sign in cluster if ord(sign) not in _LEFT_OUT))
    if known.hold(composed):
        return composed
    if cluster == "\t" or unicodedata.category(cluster[0]) == "Zs":
        return " " if len(cluster) == 1 else None
    bare = "".join(sign for sign in composed if not _unseen(sign))
    return bare if known.hold(bare) else None


def _unseen(sign: str) -> bool:
    return unicodedata.category(sign) == "Cf" or 0xFE00 <= ord(sign) <= 0xFE0F


def substitute(cluster: str, known: Faces) -> str | None:
    """Return what to print for a `cluster` that the faces lack; None: nothing.

    A look-alike, else its plain letters, else its Unicode name in brackets.
    """
    choices = (_LOOK_ALIKES.get(cluster[0], ""), _letters(cluster, known), _name(cluster))
    for choice in choices:
        if choice and all(known.hold(sign) for sign in choice):
            return choice
    return None


def _letters(cluster: str, known: Faces) -> str:
    taken_apart = unicodedata.normalize("NFKD", cluster)
    marks = [sign for sign in taken_apart if unicodedata.category(sign)[0] == "M"]
    letters = "".join(sign for sign in taken_apart if sign not in marks and not _unseen(sign))
    kept = nfc(letters + "".join(mark for mark in marks if known.hold(letters + mark)))
    return kept if known.hold(kept) else letters


def _name(cluster: str) -> str:
    if all(_is_flag(sign) for sign in cluster):
        return "(" + "".join(chr(ord(sign) - _FLAG_A + ord("A")) for sign in cluster) + ")"
    seen = [sign for sign in cluster if not _unseen(sign) and unicodedata.category(sign) != "Cc"]
    names = [unicodedata.name(sign, f"U+{ord(sign):04X}") for sign in seen]
    said = ", ".join(name if name.startswith("U+") else name.lower() for name in names)
    return f"({said})" if said else ""


def gate(text: str, where: Where, known: Faces | None = None) -> tuple[str, tuple[Problem, ...]]:
    """Return `text` as it can be printed, and a problem for each sign that was replaced.

    The text is composed (NFC); spaces and line ends of other widths become plain ones.
    """
    known = known or faces()
    if _is_plain(text, known):
        return text, ()
    missing = {lack.at: lack for lack in unprintable(text, known)}
    pieces = (
        (missing[index].substitute or "") if index in missing else _plain(cluster, known) or ""
        for index, cluster in clusters(text)
    )
    return nfc("".join(pieces)), tuple(_problems(text, where, list(missing.values())))


def _is_plain(text: str, known: Faces) -> bool:
    """Tell whether all of `text` is set as it stands."""
    return all(map(known.as_is.__getitem__, set(text))) and unicodedata.is_normalized("NFC", text)


def _problems(text: str, where: Where, missing: Sequence[Missing]) -> Iterator[Problem]:
    by_sign: dict[str, list[Missing]] = {}
    for lack in missing:
        by_sign.setdefault(lack.sign, []).append(lack)
    if len(by_sign) >= MANY:
        first = missing[0]
        yield Problem.of(
            "font.lacks-many",
            where,
            signs=tuple(by_sign)[:MANY],
            n=len(by_sign),
            position=first.at + 1,
            text=_around(text, first.at),
            name=ENVIRONMENT,
        )
        return
    for sign, lacks in by_sign.items():
        yield _problem(text, where, sign, lacks)


def _problem(text: str, where: Where, sign: str, lacks: Sequence[Missing]) -> Problem:
    printed = lacks[0].substitute
    return Problem.of(
        "font.lacks",
        where,
        sign=sign if sign.isprintable() else f"U+{ord(sign[0]):04X}",
        substitute=say("font.nothing") if printed is None else say("font.quoted", text=printed),
        position=lacks[0].at + 1,
        n=len(lacks),
        text=_around(text, lacks[0].at),
    )


def _around(text: str, index: int) -> str:
    start = max(0, index - 15)
    piece = text[start : index + 16]
    return "".join(sign if sign.isprintable() else " " for sign in piece).strip()


def gate_all(
    value: Any, where: Where, known: Faces | None = None
) -> tuple[Any, tuple[Problem, ...]]:
    """Return JSON `value` with each text in it gated; problems name the path to the text."""
    known = known or faces()
    problems: list[Problem] = []
    return _gate_inside(value, (), where, known, problems), tuple(problems)


def _gate_inside(
    value: Any, path: Steps, where: Where, known: Faces, problems: list[Problem]
) -> Any:
    if isinstance(value, str):
        if _is_plain(value, known):
            return value  # before its place is worked out, which few texts need
        text, found = gate(value, replace(where, path=(*where.path, *path)), known)
        problems += found
        return text
    if isinstance(value, dict):
        return {
            key: _gate_inside(item, (*path, key), where, known, problems)
            for key, item in value.items()
        }
    if isinstance(value, list | tuple):
        inside = enumerate(value)
        return [_gate_inside(item, (*path, at), where, known, problems) for at, item in inside]
    return value
