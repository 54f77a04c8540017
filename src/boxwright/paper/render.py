"""Pages into PDF, PNG or SVG through Typst, all in memory.

The same pages give the same bytes, on every call and in every process: no date is
written, no system font is seen, nothing is read from disk but the templates and the
fonts. Any warning of Typst's fails the build.
"""

from __future__ import annotations

import json
import re
import threading
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any, Literal, overload

from boxwright.fonts import Faces, faces
from boxwright.paper.fits import overflows
from boxwright.paper.frame import Look
from boxwright.paper.opened import opened
from boxwright.paper.page import Page, gated
from boxwright.paper.pdf import with_print_settings
from boxwright.problems import Problem, Refused

if TYPE_CHECKING:
    import typst

HERE = Path(__file__).parent
PACKAGE = HERE.parent  # what templates call "/"
SHARED = ("page.typ", "marks.typ", "draw.typ", "pictures.typ", "locks.typ", "lists.typ")
PREVIEW_PPI = 110.0

_NAME = re.compile(r"[a-z][a-z0-9_-]*")
_PICTURE = re.compile(r"pictures/[^./\\\x00-\x1f][^/\\\x00-\x1f]*\.(png|jpe?g|svg)", re.IGNORECASE)
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
    pdf = lay_out(pages, look, title)
    problems = misfits(pdf, pages, look)
    if problems:
        raise Refused(problems)
    return pdf if form == "pdf" else _set(pages, look, title, form, ppi)


def draw(
    pages: Sequence[Page], look: Look, form: Literal["png", "svg"], *, ppi: float = PREVIEW_PPI
) -> list[bytes]:
    """Return a picture of each page as it comes: whether all fits its page is not looked at."""
    return _set(pages, look, None, form, ppi)


def misfits(pdf: bytes, pages: Sequence[Page], look: Look) -> list[Problem]:
    """Return a problem for each of `pages` whose content sticks out, laid out as `pdf`."""
    with opened(pdf) as document:
        return overflows(document, pages, look)


def lay_out(pages: Sequence[Page], look: Look, title: str | None = None) -> bytes:
    """Return the PDF of `pages` as it comes: whether all fits its page is not looked at yet."""
    return with_print_settings(_set(pages, look, title, "pdf")[0])


def _set(
    pages: Sequence[Page],
    look: Look,
    title: str | None,
    form: Literal["pdf", "png", "svg"],
    ppi: float = PREVIEW_PPI,
) -> list[bytes]:
    if not pages:
        raise ValueError("no pages to render")
    known = faces()
    clean = [gated(page, known)[0] for page in pages]
    with _on_disk(clean) as root:
        files = _files(clean, look, _name_of(clean, title), known, root)
        return _compile(files, known, root, form, ppi)


def _name_of(pages: Sequence[Page], title: str | None) -> str:
    """Return the document's title, which must not be blank: readers announce it."""
    choices = (title or "", *(page.title for page in pages), pages[0].template.stem)
    return next(choice for choice in choices if choice.strip())


def _files(
    pages: Sequence[Page], look: Look, title: str, known: Faces, root: Path
) -> dict[str, bytes]:
    """Return what Typst takes in memory: what lies under `root` it reads once, and keeps."""
    templates = _templates(pages)
    data = {
        "title": title,
        "families": list(known.families),
        "look": look.data(),
        "pages": [page.data() for page in pages],
    }
    sources = {_place(path): path for path in (*map(HERE.joinpath, SHARED), *templates.values())}
    files = {
        place: _source(path)
        for place, path in sources.items()
        if root != PACKAGE or not path.is_relative_to(root)
    }
    files["pages.json"] = json.dumps(data, ensure_ascii=False, allow_nan=False).encode()
    files["main.typ"] = _main({name: _place(path) for name, path in templates.items()})
    return files


def _place(template: Path) -> str:
    """Return where Typst finds a template: where it lies in the package, or among strangers."""
    if template.is_relative_to(PACKAGE):
        return template.relative_to(PACKAGE).as_posix()
    return f"templates/{template.stem}.typ"


def _main(places: Mapping[str, str]) -> bytes:
    imports = [f'#import "/{place}" as t{at}' for at, place in enumerate(places.values())]
    table = "".join(f'"{name}": t{at}.draw, ' for at, name in enumerate(places))
    first = '#import "/paper/page.typ": print'
    lines = [first, *imports, f'#print(json("/pages.json"), ({table}))']
    return "\n".join(lines).encode()


def _templates(pages: Sequence[Page]) -> dict[str, Path]:
    found: dict[str, Path] = {}
    for template in (one for page in pages for one in (page.template, *page.uses)):
        name = template.stem
        if not _NAME.fullmatch(name) or found.setdefault(name, template) != template:
            raise MisprintError(f"two templates, or none, are named {name!r}: {template}")
    return found


@contextmanager
def _on_disk(pages: Sequence[Page]) -> Iterator[Path]:
    """Give a folder with the pages' pictures: what Typst takes in memory must be text."""
    pictures: dict[str, bytes] = {}
    for page in pages:
        for name, content in page.files.items():
            path = name.lstrip("/")
            if not _PICTURE.fullmatch(path) or pictures.setdefault(path, content) != content:
                raise MisprintError(f"no name for a picture, or given twice: {name!r}")
    if not pictures:
        yield PACKAGE
        return
    with TemporaryDirectory(prefix="boxwright-") as folder:
        for path, content in pictures.items():
            target = Path(folder) / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
        yield Path(folder)


@lru_cache(maxsize=256)
def _source(path: Path) -> bytes:
    return path.read_bytes()


@lru_cache(maxsize=8)
def _fonts(folders: tuple[Path, ...]) -> typst.Fonts:
    import typst

    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(folder) for folder in folders],
    )


def _compiler(known: Faces) -> typst.Compiler:
    """Return this thread's compiler, kept warm: fonts loaded, layouts remembered.

    A compiler serves one thread at a time, hence one for each.
    """
    import typst

    if getattr(_warm, "folders", None) != known.folders:
        fonts = _fonts(known.folders)
        _warm.compiler = typst.Compiler(font_paths=fonts, ignore_system_fonts=True)
        _warm.folders = known.folders
    compiler: typst.Compiler = _warm.compiler
    return compiler


def _compile(
    files: dict[str, bytes],
    known: Faces,
    root: Path,
    form: Literal["pdf", "png", "svg"],
    ppi: float,
) -> list[bytes]:
    import typst

    given: Any = files  # typst's types leave the dict of files out
    try:
        made, warnings = _compiler(known).compile_with_warnings(
            given,
            format=form,
            root=root,
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
