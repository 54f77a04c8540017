"""Game folders for tests: small games, changed as a test needs it, and the examples."""

from __future__ import annotations

import shutil
from pathlib import Path

from boxwright.build import Asked, Built, about_of, build
from boxwright.checks import run
from boxwright.choose.edition import Edition
from boxwright.messages import words
from boxwright.problems import Finding

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parent / "examples"
DEMO = HERE / "small_game"
BASE = HERE / "checks" / "base_game"
MADE = shutil.ignore_patterns("editions", ".history")


def demo(folder: Path, *changes: tuple[str, str], file: str = "game.toml") -> Path:
    """Copy the small game to `folder` and replace texts in one of its files, each found once."""
    return changed(DEMO, folder, *changes, file=file)


def base(folder: Path, *changes: tuple[str, str], file: str = "game.toml") -> Path:
    """Do likewise with the checks' own game: a nested box, a stand-in, a key, a torch, a quiz."""
    return changed(BASE, folder, *changes, file=file)


def trunk(folder: Path, *changes: tuple[str, str]) -> Path:
    """Do likewise with the example for a whole class: many tables, many locks alike."""
    return changed(EXAMPLES / "lost-trunk", folder, *changes, file="game.toml")


def changed(source: Path, folder: Path, *changes: tuple[str, str], file: str) -> Path:
    """Copy a game to `folder`, if it is not there yet, and replace texts in one of its files."""
    game = folder / "game"
    if not game.exists():
        shutil.copytree(source, game, ignore=MADE)
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


def judged(made: Built, edition: Edition, code: str) -> list[Finding]:
    """Return what a check says of another edition of a game that was built."""
    findings = run([(edition, about_of(made.folder, edition))])
    return [one for one in findings if one.problem.code.startswith(code)]


def said(finding: Finding) -> str:
    """Return what a finding says, in English."""
    return words(finding.problem.what)


def remedy(finding: Finding) -> str:
    """Return what a finding advises, in English."""
    return words(finding.problem.remedy)
