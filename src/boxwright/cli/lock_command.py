"""`boxwright lock`: ask one lock what it can show, and what it withstands."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import click

from boxwright.cli.lock_sections import (
    Asked,
    Section,
    about,
    guessing,
    handling,
    lost,
    showing,
    word_list,
)
from boxwright.cli.report import envelope
from boxwright.game.draft import read_part
from boxwright.game.mechanisms import Device, device_of, merged, parse_lock
from boxwright.game.model import KitFile, LockMake
from boxwright.game.toml_file import TomlFile, read_toml
from boxwright.messages import words
from boxwright.problems import Problem, Refused, Where, refuse, say
from boxwright.text import nearest

CANNOT_SHOW = 1
WORDS = "20"
TRIES = "40"
COUNT = click.IntRange(1)


def _help(option: str) -> str:
    return words(say(f"lock.help-{option}"))


@click.command("lock", help=_help("lock"), epilog=_help("epilog"))
@click.argument("lock", required=False)
@click.option("--kit", type=click.Path(path_type=Path, dir_okay=False), help=_help("kit"))
@click.option("--tag", help=_help("tag"))
@click.option("--code", help=_help("code"))
@click.option(
    "--words",
    "word_count",
    is_flag=False,
    flag_value=WORDS,
    type=click.IntRange(1),
    help=_help("words"),
)
@click.option("--list", "own_list", type=click.Path(path_type=Path), help=_help("list"))
@click.option("--language", default="en", show_default=True, help=_help("language"))
@click.option("--guess", is_flag=True, help=_help("guess"))
@click.option("--try", "try_s", type=click.FloatRange(0.1, 3600), help=_help("try"))
@click.option("--length", type=click.IntRange(1, 99), help=_help("length"))
@click.option(
    "--lost",
    "lost_count",
    is_flag=False,
    flag_value=TRIES,
    type=click.IntRange(1),
    help=_help("lost"),
)
@click.option("--set", "setting", is_flag=True, help=_help("set"))
@click.option("--json", "as_json", is_flag=True, help=_help("json"))
def command(
    *,
    lock: str | None,
    kit: Path | None,
    tag: str | None,
    code: str | None,
    word_count: int | None,
    own_list: Path | None,
    language: str,
    guess: bool,
    try_s: float | None,
    length: int | None,
    lost_count: int | None,
    setting: bool,
    as_json: bool,
) -> int:
    """Answer what is asked of one lock; 1 if it cannot show the code."""
    asked = Asked(
        *_lock_of(lock, kit, tag),
        code_text=code,
        length=length,
        try_s=None if try_s is None else Fraction(str(try_s)),
        language=language,
        own_list=own_list,
    )
    asks_words = word_count is not None or own_list is not None
    sections = [about(asked)]
    if code is not None:
        sections.append(showing(asked))
    can_show = sections[-1].ok
    if guess:
        sections.append(guessing(asked))
    if asks_words:
        sections.append(word_list(asked, int(WORDS) if word_count is None else word_count))
    if lost_count is not None and can_show:
        sections.append(lost(asked, lost_count))
    if setting and can_show:
        sections.append(handling(asked))
    return _print(sections, as_json)


def _print(sections: list[Section], as_json: bool) -> int:
    ok = all(section.ok for section in sections)
    if as_json:
        click.echo(envelope("lock", ok, {section.name: section.json for section in sections}))
    else:
        click.echo("\n\n".join(section.text() for section in sections))
    return 0 if ok else CANNOT_SHOW


def _lock_of(lock: str | None, kit: Path | None, tag: str | None) -> tuple[LockMake, Device]:
    if lock is not None and kit is None:
        where = Where("LOCK")
        made = parse_lock(lock, where)
        return made, device_of(made, where)
    if kit is None or lock is not None:
        refuse(Problem.of("lock.which", Where("LOCK")))
    return _from_kit(kit, tag)


def _from_kit(path: Path, tag: str | None) -> tuple[LockMake, Device]:
    """Return a real lock of a kit file, and its device."""
    file = read_toml(path, str(path))
    if isinstance(file, Problem):
        refuse(file)
    kit, problems = read_part(file, KitFile)
    if kit is None:
        raise Refused(problems)
    if tag is None or tag.upper() not in kit.locks:
        refuse(_no_tag(kit, tag))
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


def _no_tag(kit: KitFile, tag: str | None) -> Problem:
    where, choices = Where("--tag"), tuple(kit.locks)
    if not choices:
        return Problem.of("lock.empty-kit", where, kit=kit.kit.name)
    if tag is None:
        return Problem.of("lock.which-tag", where, kit=kit.kit.name, choices=choices)
    near = nearest(tag.upper(), choices) or choices[0]
    return Problem.of("lock.no-tag", where, found=tag, nearest=near, choices=choices)
