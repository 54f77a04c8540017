"""Pages into PDF, PNG or SVG through Typst, all in memory.

The same pages give the same bytes, on every call and in every process: no date is
written, no system font is seen, nothing is read from disk but the templates and the
fonts. Any warning of Typst's fails the build.
"""

from __future__ import annotations

import json
import re
import threading
from collections.abc import Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, overload

from boxwright.fonts import Faces, faces
from boxwright.paper.fits import overflows
from boxwright.paper.frame import Look
from boxwright.paper.page import Page, gated
from boxwright.paper.pdf import with_print_settings
from boxwright.problems import Refused

if TYPE_CHECKING:
    import typst

HERE = Path(__file__).parent
SHARED = ("page.typ", "marks.typ", "draw.typ")
PREVIEW_PPI = 110.0

_NAME = re.compile(r"[a-z][a-z0-9_-]*")
_warm = threading.local()


class MisprintError(Exception):
    """A template or this module is at fault: Typst refused or warned. Never the user's doing."""


@overload
def render(
    pages: Sequence[Page], look: Look, form: Literal["pdf"] = "pdf", *, title: str | None = None
) -> bytes: ...
@overload
def render(
    pages: Sequence[Page],
    look: Look,
    form: Literal["png", "svg"],
    *,
    title: str | None = None,
    ppi: float = PREVIEW_PPI,
) -> list[bytes]: ...
def render(
    pages: Sequence[Page],
    look: Look,
    form: Literal["pdf", "png", "svg"] = "pdf",
    *,
    title: str | None = None,
    ppi: float = PREVIEW_PPI,
) -> bytes | list[bytes]:
    """Return `pages` as one PDF (PDF/UA-1, simplex, unscaled), or as one picture each.

    `title` names the document; the first page's title if not given. `Refused` with a
    problem for every page whose content does not fit its paper; `MisprintError` where a
    template is at fault. Signs that the fonts lack come out replaced: call `gated`
    before, to learn which.
    """
    if not pages:
        raise ValueError("no pages to render")
    known = faces()
    clean = [gated(page, known)[0] for page in pages]
    files = _files(clean, look, title or clean[0].title, known)
    pdf = _compile(files, known, "pdf", ppi)[0]
    problems = overflows(pdf, clean, look)
    if problems:
        raise Refused(problems)
    return with_print_settings(pdf) if form == "pdf" else _compile(files, known, form, ppi)


def _files(pages: Sequence[Page], look: Look, title: str, known: Faces) -> dict[str, bytes]:
    templates = _templates(pages)
    data = {
        "title": title,
        "families": list(known.families),
        "look": look.data(),
        "pages": [page.data() for page in pages],
    }
    files = {name: _source(HERE / name) for name in SHARED}
    files |= {f"templates/{name}.typ": _source(path) for name, path in templates.items()}
    for page in pages:
        files |= _pictures(page.files, files)
    files["pages.json"] = json.dumps(data, ensure_ascii=False, allow_nan=False).encode()
    files["main.typ"] = _main(list(templates))
    return files


def _main(names: Sequence[str]) -> bytes:
    imports = [f'#import "/templates/{name}.typ" as t{at}' for at, name in enumerate(names)]
    table = "".join(f'"{name}": t{at}.draw, ' for at, name in enumerate(names))
    lines = ['#import "/page.typ": print', *imports, f'#print(json("/pages.json"), ({table}))']
    return "\n".join(lines).encode()


def _templates(pages: Sequence[Page]) -> dict[str, Path]:
    found: dict[str, Path] = {}
    for page in pages:
        name = page.template.stem
        if not _NAME.fullmatch(name) or found.setdefault(name, page.template) != page.template:
            raise MisprintError(f"two templates, or none, are named {name!r}: {page.template}")
    return found


def _pictures(given: Mapping[str, bytes], files: Mapping[str, bytes]) -> dict[str, bytes]:
    pictures = {path.lstrip("/"): content for path, content in given.items()}
    for path, content in pictures.items():
        if files.get(path, content) != content or path.endswith((".typ", ".json")):
            raise MisprintError(f"two files are named {path!r}")
    return pictures


@lru_cache(maxsize=256)
def _source(path: Path) -> bytes:
    return path.read_bytes()


def _compiler(known: Faces) -> typst.Compiler:
    """Return this thread's compiler, kept warm: fonts loaded, layouts remembered.

    A compiler serves one thread at a time, hence one for each.
    """
    import typst

    if getattr(_warm, "folders", None) != known.folders:
        fonts = typst.Fonts(
            include_system_fonts=False,
            include_embedded_fonts=False,
            font_paths=[str(folder) for folder in known.folders],
        )
        _warm.compiler = typst.Compiler(root=HERE, font_paths=fonts, ignore_system_fonts=True)
        _warm.folders = known.folders
    compiler: typst.Compiler = _warm.compiler
    return compiler


def _compile(
    files: dict[str, bytes], known: Faces, form: Literal["pdf", "png", "svg"], ppi: float
) -> list[bytes]:
    import typst

    given: Any = files  # typst's types leave the dict of files out
    try:
        made, warnings = _compiler(known).compile_with_warnings(
            given,
            format=form,
            ppi=ppi if form == "png" else None,
            pdf_standards="ua-1" if form == "pdf" else [],
        )
    except typst.TypstError as error:
        raise MisprintError(error.diagnostic or error.message) from error
    if warnings:
        raise MisprintError("\n".join(warning.diagnostic for warning in warnings))
    if made is None:
        raise MisprintError("Typst made nothing")
    return made if isinstance(made, list) else [made]
