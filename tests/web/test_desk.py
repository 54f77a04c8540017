"""One desk for a whole studio, and no ledger before somebody plays."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.problems import Refused
from boxwright.web.desk import LateDesk
from boxwright.web.studio import Studio
from tests.web.serving import client


def test_looking_at_games_leaves_the_ledger_alone(studio: Studio) -> None:
    assert client(studio).get("/games").status_code == 200
    assert studio.ledger is not None
    assert not Path(studio.ledger).exists()


def test_all_pages_share_one_desk(tmp_path: Path) -> None:
    late = LateDesk(str(tmp_path / "ledger.db"))
    assert late.open() is late.open()
    late.close()


def test_a_desk_that_was_closed_is_opened_again(tmp_path: Path) -> None:
    late = LateDesk(str(tmp_path / "ledger.db"))
    first = late.open()
    late.close()
    assert late.open() is not first
    late.close()


def test_a_ledger_that_cannot_be_used_is_told(tmp_path: Path) -> None:
    (tmp_path / "ledger.db").write_text("no database", encoding="utf-8")
    with pytest.raises(Refused):
        LateDesk(str(tmp_path / "ledger.db")).open()
