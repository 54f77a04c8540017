"""Whatever is sent to an address of the studio, it answers, and never with a fault of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI
from hypothesis import HealthCheck, Phase, given, settings

from boxwright.game.history import History
from boxwright.web.app import make_app
from boxwright.web.studio import Studio
from tests.web.serving import studio_in

SHARES = 4  # so that several workers can take part
GAME = "tide-mill"
FEW = settings(
    max_examples=5,
    derandomize=True,
    database=None,
    deadline=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)


@pytest.mark.filterwarnings("ignore")  # of the packages that make up the requests
@pytest.mark.parametrize("share", range(SHARES))
def test_nothing_that_is_sent_breaks_the_studio(share: int, tmp_path: Path) -> None:
    from schemathesis.python import asgi

    app: Any = application(tmp_path)
    answers: Counter[str] = Counter()
    with asgi.get_client(app) as session:
        for at, operation in enumerate(list(operations_of(app))[share::SHARES]):
            app.state.studio = studio_in(tmp_path / str(at))  # whatever others did to theirs
            answers += sent(operation, session, app.state.studio)
    assert [answer for answer in answers if answer.startswith("fault")] == []
    assert answers["200"] > 20  # some of it was understood
    assert answers["422"] > 20  # and some was not


@pytest.mark.filterwarnings("ignore")
def test_a_page_that_breaks_would_be_found(tmp_path: Path) -> None:
    from schemathesis.python import asgi

    app = application(tmp_path)

    @app.get("/broken/{number}")
    def broken(number: int) -> float:
        return 1 / (number - number)

    whole: Any = app
    with asgi.get_client(whole) as session:
        (operation,) = (one for one in operations_of(app) if one.path.startswith("/broken"))
        answers = sent(operation, session, app.state.studio)
    assert any(answer.startswith("fault") for answer in answers)


def application(folder: Path) -> FastAPI:
    return make_app(studio_in(folder / "first"), hosts=("localhost", "testserver"))


def operations_of(app: Any) -> Iterator[Any]:
    import schemathesis

    schema: Any = schemathesis.openapi.from_asgi("/openapi.json", app)
    return (found.ok() for found in schema.get_all_operations())


def sent(operation: Any, session: Any, studio: Studio) -> Counter[str]:
    """Send a few requests of one sort; return how often each status came, and what broke."""
    answers: Counter[str] = Counter()
    history = History(studio.games / GAME)

    @FEW
    @given(case=operation.as_strategy())
    def send(case: Any) -> None:
        if "game" in case.path_parameters:
            case.path_parameters["game"] = GAME
            case.headers["If-Match"] = f'"{history.now().tag}"'
        answers[answer_to(case, session)] += 1

    send()
    return answers


def answer_to(case: Any, session: Any) -> str:
    """Return the status of an answer; what was sent as well where the studio broke."""
    try:
        status = case.call(session=session).status_code
    except Exception as error:  # noqa: BLE001 - what the error page was made of
        status = repr(error)
    if isinstance(status, int) and status < 500:
        return str(status)
    return f"fault {status}: {case.as_curl_command()}"[:500]
