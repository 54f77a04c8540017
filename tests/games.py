"""Game folders for tests: a small game, changed as a test needs it, and the examples."""

from __future__ import annotations

import shutil
from pathlib import Path

from boxwright.build import Asked, Built, build
from boxwright.problems import Finding

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parent / "examples"
DEMO = HERE / "small_game"
MADE = shutil.ignore_patterns("editions", ".history")


def demo(folder: Path, *changes: tuple[str, str], file: str = "game.toml") -> Path:
    """Copy the small game to `folder` and replace texts in one of its files, each found once."""
    game = folder / "game"
    if not game.exists():
        shutil.copytree(DEMO, game, ignore=MADE)
    text = (game / file).read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
        text = text.replace(old, new)
    (game / file).write_text(text, encoding="utf-8")
    return game


def built(game: Path) -> Built:
    """Build a game folder from seed 1."""
    return build(Asked(game))


def found(game: Path, code: str) -> list[Finding]:
    """Return what a check says of a game folder, built from seed 1."""
    return [one for one in built(game).findings if one.problem.code.startswith(code)]
