"""Run the command: ``torqcheck``, or ``python -m torqcheck``."""

import sys

__all__ = ["main"]


def main() -> None:
    """Run the command line of this process and exit with its code; a break while it starts is no crash."""
    try:
        from torqcheck.cli import main as command

        command()
    except KeyboardInterrupt:
        if sys.stderr is not None:
            sys.stderr.write("interrupted\n")
        sys.exit(130)


if __name__ == "__main__":
    main()
