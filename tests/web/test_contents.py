"""A page is one stem, as docs/studio.md says: each part is there, and none belongs to no page."""

from __future__ import annotations

import pytest

from boxwright.messages import words
from boxwright.problems import say
from boxwright.web.contents import CONTENTS, Entry
from boxwright.web.render import HERE, STATIC, TEMPLATES

STEMS = [entry.stem for entry in CONTENTS]
SHARED_TEMPLATES = {"base", "parts", "error", "since"}
SHARED_STATIC = {"studio", "fields", "icon"}


def belongs(name: str, shared: set[str]) -> bool:
    """Whether a file is a page's own, a piece of one (`STEM_PIECE`), or shared by all."""
    return name in shared or any(
        name == stem or name.startswith((f"{stem}_", f"{stem}-")) for stem in STEMS
    )


@pytest.mark.parametrize("entry", CONTENTS, ids=STEMS)
def test_a_page_has_its_parts(entry: Entry) -> None:
    assert entry.router.routes
    assert (HERE / "pages" / f"{entry.stem}.py").is_file()
    assert (TEMPLATES / f"{entry.stem}.html").is_file()


@pytest.mark.parametrize("entry", [one for one in CONTENTS if one.linked], ids=lambda one: one.stem)
def test_a_page_in_the_row_of_links_has_a_name(entry: Entry) -> None:
    name = say(f"studio.page-{entry.stem.replace('_', '-')}")
    assert words(name) != name.id


def test_no_page_or_template_is_without_a_line_in_the_table() -> None:
    pages = {file.stem for file in (HERE / "pages").glob("*.py")} - {"__init__"}
    assert pages == set(STEMS)
    assert [
        file.name for file in TEMPLATES.glob("*.html") if not belongs(file.stem, SHARED_TEMPLATES)
    ] == []


def test_no_script_or_style_is_without_its_page() -> None:
    files = [*STATIC.glob("*.js"), *STATIC.glob("*.css")]
    assert [file.name for file in files if not belongs(file.stem, SHARED_STATIC)] == []
