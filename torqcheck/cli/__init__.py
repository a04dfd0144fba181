"""The command line: parse, call, print, exit. The only place where an error becomes an exit code."""

import os
import sys
from collections.abc import Sequence

import typer

from torqcheck.cli.assess import assess
from torqcheck.cli.materials import materials
from torqcheck.cli.schema import schema
from torqcheck.cli.version import print_version
from torqcheck.errors import TorqcheckError

__all__ = ["app", "main", "run"]

HELP = """Check the splined joints between an electric motor and an old gearbox.

Write down in one file what is on the bench, then ask. In the order of the job:

\b
  torqcheck schema                  what a scenario file may hold (JSON Schema)
  torqcheck materials               which steels are in the tables
  torqcheck assess SCENARIO.toml    the check itself: torque, blow, stress, mate, wear

Exit codes: 0 pass or marginal, 1 fail, 2 bad input, 3 undecided, 4 could not finish.

The results are estimates. They do not replace local codes or the judgement of a licensed engineer."""

app = typer.Typer(
    help=HELP,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    add_completion=True,
)
app.command()(assess)
app.command()(materials)
app.command()(schema)


@app.callback(help=HELP)
def top(
    version: bool = typer.Option(
        False, "--version", help="Print the version and stop.", callback=print_version, is_eager=True
    ),
) -> None:
    """Hold the options that stand before any command."""


def main() -> None:
    """Run the command line of this process and exit with its code."""
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Run one command; return its exit code. Never raises, except for SystemExit of the shell."""
    try:
        code = _dispatch(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        # the reader has gone (torqcheck ... | head): nothing to report, and nobody to report it to
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 4
    return code


def _dispatch(arguments: Sequence[str]) -> int:
    """Turn every way in which a command can end into an exit code."""
    try:
        result = app(list(arguments), standalone_mode=False, prog_name="torqcheck")
    except TorqcheckError as error:
        print(error, file=sys.stderr)
        return error.exit_code
    except KeyboardInterrupt:
        print("interrupted", file=sys.stderr)
        return 130
    except BrokenPipeError:
        raise
    except Exception as error:
        return _other(error)
    return result if isinstance(result, int) else 0


def _other(error: Exception) -> int:
    """Usage errors of the parser end with 2, aborts with 130; everything else is a defect of ours."""
    shown = getattr(error, "format_message", None)
    if shown is not None:
        context = getattr(error, "ctx", None)
        if context is not None:
            print(context.get_usage(), file=sys.stderr)
        print(f"torqcheck: {shown()}", file=sys.stderr)
        return 2
    if type(error).__name__ == "Abort":
        print("interrupted", file=sys.stderr)
        return 130
    if os.environ.get("TORQCHECK_DEBUG"):
        raise error
    print(
        f"torqcheck could not finish: {type(error).__name__}: {error}. This is a defect of torqcheck; "
        "set TORQCHECK_DEBUG=1 to see where.",
        file=sys.stderr,
    )
    return 4
