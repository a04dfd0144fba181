"""Run the command with ``python -m torqcheck``."""

from torqcheck.cli import main

if __name__ == "__main__":
    main()
