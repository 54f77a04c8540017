"""What goes wrong, for people: one page without internals, or JSON for a page's script."""

from __future__ import annotations

import logging
from collections.abc import Iterable
from typing import Any
from urllib.parse import quote

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, RedirectResponse, Response
from starlette.exceptions import HTTPException

from boxwright.problems import Problem, Refused, plain, say
from boxwright.web.game import FaultyGame
from boxwright.web.render import page, remedy, told

CHANGED = frozenset({"edit.changed-meanwhile"})
KNOWN = (403, 404, 405, 409, 412, 413, 415, 422)
_log = logging.getLogger("boxwright.web")


def problem_json(problem: Problem) -> dict[str, Any]:
    """Return a problem as pages read it: words, the place, and the change that mends it."""
    return {
        "code": problem.code,
        "what": told(problem.what),
        "remedy": remedy(problem),
        "file": problem.where.file,
        "path": plain(problem.where.path),
        "line": problem.where.line,
    }


def refusal(problems: Iterable[Problem]) -> JSONResponse:
    """Return the answer to what cannot be done; 412 where the game has changed meanwhile."""
    told_of = tuple(problems)
    status = 412 if any(one.code in CHANGED for one in told_of) else 422
    return JSONResponse({"problems": [problem_json(one) for one in told_of]}, status)


def handle(app: FastAPI) -> None:
    """Make every error of `app` come back in these ways."""
    app.add_exception_handler(Refused, _refused)
    app.add_exception_handler(HTTPException, _known)
    app.add_exception_handler(RequestValidationError, _unreadable)
    app.add_exception_handler(Exception, _ours)


def wants_page(request: Request) -> bool:
    """Tell whether a browser is to show the answer, not a script to read it."""
    return "text/html" in request.headers.get("accept", "")


async def _refused(request: Request, error: Exception) -> Response:
    """Answer what bars the way; a game's faults are mended on its first page, with undo at hand."""
    assert isinstance(error, Refused)
    if wants_page(request):
        mending = _mending(request, error)
        if mending is not None:
            return RedirectResponse(mending, 303)
        return page(request, "error", {"status": 422, "problems": error.problems}, status=422)
    return refusal(error.problems)


def _mending(request: Request, error: Refused) -> str | None:
    """Return the address where a game's faults are shown, unless it is asked for already."""
    if not isinstance(error, FaultyGame) or request.method != "GET":
        return None
    game = request.path_params["game"]
    boxes = f"/games/{game}/boxes"
    return None if request.scope["path"] == boxes else quote(boxes)


async def _known(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    return _plainly(request, error.status_code)


async def _unreadable(request: Request, error: Exception) -> Response:
    """Answer what no page of ours sends: a field that is missing, too long, of another sort."""
    assert isinstance(error, RequestValidationError)
    if wants_page(request):
        return _plainly(request, 422)
    fields = (".".join(str(step) for step in one["loc"][1:]) for one in error.errors())
    named = ", ".join(dict.fromkeys(fields))
    problem = {"what": told(say("error.field", fields=named)), "remedy": told(say("error.422"))}
    return JSONResponse({"problems": [problem]}, 422)


async def _ours(request: Request, error: Exception) -> Response:
    _log.error("unhandled", exc_info=error)
    return _plainly(request, 500)


def _plainly(request: Request, status: int) -> Response:
    code = status if status in KNOWN else 500 if status >= 500 else 422
    if wants_page(request):
        return page(request, "error", {"status": code, "problems": ()}, status=status)
    problem = {"what": told(say(f"error.{code}")), "remedy": told(say("error.remedy"))}
    return JSONResponse({"problems": [problem]}, status)
