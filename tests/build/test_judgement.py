"""What the checks found in a printed set is kept, and believed as long as it would be found."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.build import Built, build, judged, judgement
from boxwright.build.current import Standing, keep, last_asked, standing
from boxwright.build.judgement import FILE, keep_judgement, weights_of
from boxwright.choose.store import EDITIONS
from boxwright.problems import Finding, Weighed, has_stop
from tests.games import base, demo


@pytest.fixture
def game(tmp_path: Path) -> Path:
    """A game in which the checks find something, with a printed set."""
    folder = demo(tmp_path, ("bell_to_bell = 55", "bell_to_bell = 22"))
    keep(build(asked := last_asked(folder)), asked)
    return folder


@pytest.fixture
def judgings(monkeypatch: pytest.MonkeyPatch) -> list[Built]:
    """All that is judged from now on."""
    done: list[Built] = []

    def watched(*what: object) -> Built:
        done.append(judged(*what))  # type: ignore[arg-type]
        return done[-1]

    monkeypatch.setattr(judgement, "judged", watched)
    return done


def there(folder: Path) -> Standing:
    found = standing(folder)
    assert isinstance(found, Standing)
    return found


def brief(found: object) -> list[tuple[str, str]]:
    assert isinstance(found, tuple)
    return [(one.id, one.severity) for one in found]


def test_what_is_kept_is_what_a_fresh_judgement_finds(game: Path, judgings: list[Built]) -> None:
    kept = weights_of(there(game))
    assert not judgings
    found = there(game)
    assert brief(kept) == brief(judged(found.folder, found.editions).findings) != []


def test_a_stop_is_kept_as_a_stop(game: Path) -> None:
    found = there(game)
    fresh = judged(found.folder, found.editions)
    first = fresh.findings[0]
    stop = Finding(first.problem, "stop", first.basis, first.evidence)
    keep_judgement(Built(fresh.folder, fresh.editions, (stop, *fresh.findings[1:])), found.made_of)
    assert has_stop(weights_of(there(game)))
    assert not has_stop(fresh.findings)


@pytest.mark.parametrize("text", [None, "", "{", "[]", '{"of": 3, "weights": []}', '{"of": "x"}'])
def test_without_a_readable_one_the_checks_judge(
    game: Path, judgings: list[Built], text: str | None
) -> None:
    file = game / EDITIONS / FILE
    file.unlink()
    if text is not None:
        file.write_text(text, encoding="utf-8")
    weights = weights_of(there(game))
    assert [one.findings for one in judgings] == [weights]


def test_another_printed_set_is_judged(game: Path, judgings: list[Built]) -> None:
    kept = (game / EDITIONS / FILE).read_bytes()
    keep(build(asked := last_asked(game, new=True)), asked)
    (game / EDITIONS / FILE).write_bytes(kept)
    weights_of(there(game))
    assert len(judgings) == 1


def test_a_changed_program_judges_anew(
    game: Path, judgings: list[Built], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = tmp_path / "program"
    (program / "checks").mkdir(parents=True)
    (program / "checks" / "one.py").write_text("old", encoding="utf-8")
    monkeypatch.setattr(judgement, "PROGRAM", program)
    found = there(game)
    keep_judgement(judged(found.folder, found.editions), found.made_of)
    assert weights_of(there(game))
    assert not judgings
    (program / "checks" / "one.py").write_text("newer", encoding="utf-8")
    assert weights_of(there(game))
    assert len(judgings) == 1


def test_a_folder_that_nobody_may_write_to_keeps_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(path: Path, data: bytes) -> None:
        raise PermissionError(path)

    monkeypatch.setattr(judgement, "replace_file", fails)
    folder = base(tmp_path)
    keep(build(asked := last_asked(folder)), asked)
    assert not (folder / EDITIONS / FILE).exists()
    weights: tuple[Weighed, ...] = tuple(weights_of(there(folder)))
    assert weights == judged(there(folder).folder, there(folder).editions).findings
