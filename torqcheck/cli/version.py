"""The version option."""

import typer

from torqcheck import __version__

__all__ = ["print_version"]


def print_version(wanted: bool) -> None:
    """Print the version and leave."""
    if wanted:
        print(f"torqcheck {__version__}")
        raise typer.Exit()
