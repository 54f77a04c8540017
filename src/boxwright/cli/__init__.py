"""The command line: one short command per step, each loaded when it is called.

A command is a file of this folder with a Click command named `command`, and a line
`cli.NAME` in the catalogue, which the overview prints without loading the file.
"""

from __future__ import annotations

import sys
from importlib import import_module

import click

from boxwright import __version__
from boxwright.messages import words
from boxwright.problems import Problem, Refused, say

COMMANDS = (
    "studio",
    "new",
    "check",
    "forecast",
    "build",
    "print",
    "session",
    "make",
    "solve",
    "kinds",
    "lock",
    "locks",
    "rename",
)
CANNOT_CHECK = 2
INTERRUPTED = 130


class LateGroup(click.Group):
    """A group whose commands stay unloaded until one is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order of a teacher's evening."""
        return list(COMMANDS)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command that was typed; raises Refused where there is none."""
        if args[0] not in COMMANDS and not args[0].startswith("-"):
            from boxwright.cli.usage import no_command

            raise Refused([no_command(args[0], COMMANDS)])
        return super().resolve_command(ctx, args)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load the command `cmd_name`, if there is one."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"boxwright.cli.{cmd_name}_command").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the overview from the catalogue, loading nothing."""
        with formatter.section(words(say("cli.commands"))):
            formatter.write_dl([(name, words(say(f"cli.{name}"))) for name in COMMANDS])


@click.group(
    cls=LateGroup,
    help=words(say("cli.help")),
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, "-V", "--version", prog_name="boxwright")
def boxwright() -> None:
    """Hold the commands together."""


def main(args: list[str] | None = None) -> None:
    """Run the command line and exit: 0, 1 (a stop), 2 (could not be checked), 130."""
    words_typed = sys.argv[1:] if args is None else args
    try:
        code = boxwright.main(args=args, prog_name="boxwright", standalone_mode=False)
    except Refused as refused:
        code = _cannot(*refused.problems)
    except click.Abort:
        code = INTERRUPTED
    except click.exceptions.NoArgsIsHelpError as error:
        error.show()
        code = CANNOT_CHECK
    except click.ClickException as error:
        from boxwright.cli.usage import problem_of

        code = _cannot(problem_of(error, [one for one in words_typed[:1] if one in COMMANDS]))
    except OSError as error:
        from boxwright.cli.usage import disk_problem

        code = _cannot(disk_problem(error))
    sys.exit(code if isinstance(code, int) else 0)


def _cannot(*problems: Problem) -> int:
    """Show what bars the way, and return the code to end with."""
    from boxwright.cli.report import show_problems

    show_problems(problems)
    return CANNOT_CHECK
