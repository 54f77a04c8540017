"""`python -m boxwright`."""

from boxwright.cli import main

if __name__ == "__main__":
    main()
