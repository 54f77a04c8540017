"""A real lock out of a kit file, by its sticker."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from boxwright.game.draft import KIT, read_part
from boxwright.game.mechanisms import Device, device_of, merged
from boxwright.game.model import KitFile, KitLock
from boxwright.game.toml_file import TomlFile, read_toml
from boxwright.problems import Problem, Refused, Where, refuse
from boxwright.text import nearest


def read_kit(path: Path) -> tuple[TomlFile, KitFile]:
    """Return a kit file, or that of a game folder; raises Refused where it is none."""
    path = path / KIT if path.is_dir() else path
    file = read_toml(path, str(path))
    if isinstance(file, Problem):
        refuse(file)
    kit, problems = read_part(file, KitFile)
    if kit is None:
        raise Refused(problems)
    return file, kit


def lock_of_kit(
    file: TomlFile, kit: KitFile, tag: str | None, asked: Where
) -> tuple[KitLock, Device]:
    """Return a real lock and its device; `asked` is where its sticker was typed."""
    if tag is None or tag.upper() not in kit.locks:
        refuse(_no_tag(kit, tag, asked))
    lock = kit.locks[tag.upper()]
    model = kit.models.get(lock.model) if lock.model else None
    try:
        device = device_of(
            lock,
            Where(file.name, ("locks", tag.upper())),
            model=model,
            model_where=Where(file.name, ("models", lock.model or "")),
        )
    except Refused as refused:
        raise Refused([_placed(problem, file) for problem in refused.problems]) from None
    return merged(model, lock), device


def _placed(problem: Problem, file: TomlFile) -> Problem:
    return replace(problem, where=file.where(problem.where.path))


def _no_tag(kit: KitFile, tag: str | None, asked: Where) -> Problem:
    choices = tuple(kit.locks)
    if not choices:
        return Problem.of("lock.empty-kit", asked, kit=kit.kit.name)
    if tag is None:
        return Problem.of("lock.which-tag", asked, kit=kit.kit.name, choices=choices)
    near = nearest(tag.upper(), choices) or choices[0]
    option = asked.file
    return Problem.of("lock.no-tag", asked, found=tag, nearest=near, choices=choices, option=option)
