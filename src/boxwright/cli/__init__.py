"""The command line: one short command per step, each loaded when it is called.

A command is a file of this folder with a Click command named `command`, and a line
`cli.NAME` in the catalogue, which the overview prints without loading the file.
"""

from __future__ import annotations

import gc
import sys
from importlib import import_module

import click

from boxwright import __version__
from boxwright.messages import words
from boxwright.problems import Refused, say

COMMANDS = ("new", "check", "build", "print", "make", "solve", "kinds", "lock", "rename")
CANNOT_CHECK = 2
SELDOM = 100_000  # objects between two collections: what a command loads lives to its end
INTERRUPTED = 130


class LateGroup(click.Group):
    """A group whose commands stay unloaded until one is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order of a teacher's evening."""
        return list(COMMANDS)

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
    gc.set_threshold(SELDOM)
    try:
        code = boxwright.main(args=args, prog_name="boxwright", standalone_mode=False)
    except Refused as refused:
        from boxwright.cli.report import show_problems

        show_problems(refused.problems)
        code = CANNOT_CHECK
    except click.Abort:
        code = INTERRUPTED
    except click.ClickException as error:
        error.show()
        code = CANNOT_CHECK
    sys.exit(code if isinstance(code, int) else 0)
