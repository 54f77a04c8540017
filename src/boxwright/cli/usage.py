"""What Click makes of a mistyped command, as a problem with a remedy."""

from __future__ import annotations

from collections.abc import Sequence

import click

from boxwright.messages import typed
from boxwright.problems import Problem, Where
from boxwright.text import nearest


def no_command(name: str, known: tuple[str, ...]) -> Problem:
    """Return the problem that there is no command `name`, with the nearest that there is."""
    near = nearest(name.lower(), known)
    code = "cli.no-command" if near is None else "cli.no-command-but"
    return Problem.of(code, Where("boxwright"), name=name[:60], near=near or "", choices=known)


def problem_of(error: click.ClickException, words: Sequence[str]) -> Problem:
    """Return what was typed wrongly after the command `words`, and where that explains itself."""
    where, command = Where(typed(*words)), typed(*words, "--help")
    if isinstance(error, click.NoSuchOption):
        return _no_option(error, where, command)
    if isinstance(error, click.BadParameter) and error.param is not None:
        return _bad_value(error, error.param, command)
    if isinstance(error, click.BadOptionUsage):
        where = Where(error.option_name)
    said = " ".join(error.message.split())
    # Words too many come as the plain class; mostly a name with a space was meant.
    code = "cli.too-much" if type(error) is click.UsageError else "cli.usage"
    return Problem.of(code, where, said=said, command=command)


def _bad_value(error: click.BadParameter, param: click.Parameter, command: str) -> Problem:
    """Return the problem that an option's value, or a word of the command, will not do."""
    name = max(param.opts, key=len)
    where = Where(name if isinstance(param, click.Option) else name.upper())
    if isinstance(error, click.MissingParameter):
        return Problem.of("cli.missing", where, name=where.file, command=command)
    said, sort = " ".join(error.message.split()), param.type
    if not isinstance(sort, click.IntRange | click.FloatRange) or sort.min is None:
        return Problem.of("cli.usage", where, said=said, command=command)
    if sort.max is None:
        return Problem.of("cli.no-number", where, said=said, least=sort.min)
    return Problem.of("cli.no-number-between", where, said=said, least=sort.min, most=sort.max)


def _no_option(error: click.NoSuchOption, where: Where, command: str) -> Problem:
    params = error.ctx.command.params if error.ctx is not None else []
    known = [name for param in params if isinstance(param, click.Option) for name in param.opts]
    near = nearest(error.option_name.lower(), known)
    code = "cli.no-option" if near is None else "cli.no-option-but"
    name = error.option_name
    return Problem.of(code, where, name=name[:60], near=near or "", command=command)


def disk_problem(error: OSError) -> Problem:
    """Return the problem that the disk, or who may use it, bars the way."""
    file, why = str(error.filename or "boxwright"), error.strerror or str(error)
    return Problem.of("cli.disk", Where(file), file=file, why=why)
