"""Templates into pages: Jinja with every value escaped, and words from the catalogues."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from boxwright.messages import started_as, words
from boxwright.problems import Arg, Message, Problem, say
from boxwright.web import contents

ROLES = ("game", "kit", "room")
HERE = Path(__file__).parent
TEMPLATES, STATIC = HERE / "templates", HERE / "static"


@cache
def environment() -> Environment:
    """Return the templates, with what all of them may call."""
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.update(t=_text, has_static=has_static, pages_of_a_game=contents.of_a_game)
    made.filters.update(
        words=words, remedy=remedy, remedy_in_file=remedy_in_file, file_words=file_words
    )
    return made


def _text(message_id: str, /, **args: Arg) -> str:
    """Return the words of a message, for templates: `{{ t("boxes.add") }}`."""
    return words(say(message_id, **args))


@cache
def has_static(name: str) -> bool:
    """Tell whether a page has a script or a style sheet of its own."""
    return (STATIC / name).is_file()


def page(
    request: Request, stem: str, values: Mapping[str, Any] | None = None, *, status: int = 200
) -> HTMLResponse:
    """Return the page `stem`, with its values; `game` among them gives it the game's frame."""
    given = {"request": request, "stem": stem, "game": None} | dict(values or {})
    html = environment().get_template(f"{stem}.html").render(given)
    headers = {"Cache-Control": "no-store"}
    game = given["game"]
    if game is not None:
        headers["ETag"] = f'"{game.tag}"'
    return HTMLResponse(html, status, headers)


def fragment(name: str, values: Mapping[str, Any]) -> str:
    """Return a piece of a page, to be put into one that is shown."""
    return environment().get_template(name).render(dict(values))


def remedy(problem: Problem) -> str:
    """Return what helps, said for a page: `CODE.on-page` where the remedy names a command."""
    here = say(f"{problem.code}.on-page", **problem.remedy.args)
    found = words(here)
    return words(problem.remedy) if found.startswith(here.id) else found


def remedy_in_file(problem: Problem) -> str:
    """Return what helps in a file that no page can change: its own words, if nothing is typed."""
    found = words(problem.remedy)
    is_typed = f"{started_as()} " in found or " --" in found
    return remedy(problem) if is_typed else found


def file_words(name: str) -> str:
    """Return how a person calls a file of a game: "the kit", or a table's own name."""
    role = name.removesuffix(".toml")
    return _text(f"studio.file-{role}") if role in ROLES else name.rpartition("/")[2]


def told(message: Message) -> str:
    """Return a message's words, for the JSON that scripts read."""
    return words(message)
