"""The example games: in the project's own folder, or in the package where it is installed."""

from __future__ import annotations

from pathlib import Path

from boxwright.game.draft import GAME

_PACKAGE = Path(__file__).resolve().parents[1]
PLACES = (_PACKAGE / "examples", _PACKAGE.parents[1] / "examples")


def examples() -> dict[str, Path]:
    """Return the folder of each example game, by its name."""
    found: dict[str, Path] = {}
    for place in PLACES:
        for file in sorted(place.glob(f"*/{GAME}")):
            found.setdefault(file.parent.name, file.parent)
    return found
