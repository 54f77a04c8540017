"""`python -m boxwright`: a process that lives for one command."""

from __future__ import annotations

import gc
import os


def main() -> None:
    """Run the command line, set up for a short life."""
    gc.disable()  # what a command loads lives to its end, which is soon
    # Looking for plugins of pydantic's reads what is installed, which takes a while.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

    from boxwright import cli

    try:
        cli.main()
    finally:
        gc.freeze()  # else Python would look through all of it once more on its way out


if __name__ == "__main__":
    main()
