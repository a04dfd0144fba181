"""The command line: parse, call, print, exit. The only place where an error becomes an exit code."""

import gc
import os
import sys
from collections.abc import Callable, Sequence

import typer

from torqcheck.cli.assess import assess
from torqcheck.cli.breaks import no_break_is_lost
from torqcheck.cli.compare import compare
from torqcheck.cli.geometry import geometry
from torqcheck.cli.help_page import HelpPage
from torqcheck.cli.identify import identify
from torqcheck.cli.influence import influence
from torqcheck.cli.life import life
from torqcheck.cli.mate import mate
from torqcheck.cli.materials import materials
from torqcheck.cli.new import new
from torqcheck.cli.options import INTERRUPTED
from torqcheck.cli.order import order
from torqcheck.cli.ramp import ramp
from torqcheck.cli.record import record
from torqcheck.cli.schema import schema
from torqcheck.cli.sheet import sheet
from torqcheck.cli.size import size
from torqcheck.cli.stack import stack
from torqcheck.cli.sweep import sweep
from torqcheck.cli.version import print_version
from torqcheck.cli.why import why
from torqcheck.errors import TorqcheckError

__all__ = ["app", "main", "run"]


HELP = """Check the splined joints between an electric motor and an old gearbox.

Write down in one file, the scenario, what is on the bench; then ask:

\b
  torqcheck new my.toml         asks for it, question by question
  torqcheck assess my.toml      makes the whole check

Exit codes: 0 pass or marginal, 1 fail, 2 bad input, 3 undecided, 4 could not finish.

The results are estimates. They do not replace local codes or the judgement of a licensed engineer.

The commands stand below in the order of the job. `torqcheck COMMAND --help` shows how each is used."""

FOREIGN_WORDS = {
    "Value error, ": "",
    "Input should be a valid integer, unable to parse string as an integer": "must be a whole number",
    "Input should be a valid number, unable to parse string as a number": "must be a number",
}
"""What the checker of types says of an option, in words of our own."""
MANY_OBJECTS = 100_000
"""New objects between two searches for cycles."""

app = typer.Typer(
    help=HELP,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    add_completion=True,
)


def _add(command: Callable[..., None], words: str) -> None:
    r"""Add a command; a line that holds only \b in its docstring keeps the next block as it is laid out."""
    page = (command.__doc__ or "").replace(r"\b", "\b")
    app.command(cls=HelpPage, help=page, short_help=words)(command)


_add(identify, "which standard spline lies on the bench")
_add(mate, "true mate, worn mate, or false fit")
_add(geometry, "limits, pins and figure of a spline, for the drawing")
_add(materials, "which steels are in the tables")
_add(new, "write a scenario, question by question")
_add(schema, "what a scenario file may hold (JSON Schema)")
_add(stack, "engagement, room to seal and plug, shims along the axis")
_add(assess, "the whole check: torque, blow, stress, mate, wear")
_add(influence, "which reading moves the weakest link most")
_add(ramp, "which torque ramp to set in the controller")
_add(compare, "steels side by side, before one is ordered")
_add(size, "how long, hard, thick or loose a joint must be")
_add(sweep, "many points at once, to CSV or Parquet")
_add(order, "drawing data of the new part, for the shop")
_add(life, "how long it lasts, and when to open it again")
_add(why, "one number taken apart, down to line and source")
_add(sheet, "the printout for the build record")
app.add_typer(record, name="record", short_help="is the build record as it was written; what changed in it")


@app.callback(help=HELP)
def top(
    version: bool = typer.Option(
        False, "--version", help="Print the version and stop.", callback=print_version, is_eager=True
    ),
) -> None:
    """Hold the options that stand before any command."""


def main() -> None:
    """Run the command line of this process and exit with its code."""
    # a command ends before the search for cycles would pay, and wants no plugins of the file checker
    gc.set_threshold(MANY_OBJECTS)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Run one command and return its exit code; no error leaves this function."""
    if hasattr(sys.stdout, "reconfigure"):
        # a joint may have a name that the terminal cannot show: print it escaped rather than not at all
        sys.stdout.reconfigure(errors="backslashreplace")
    try:
        with no_break_is_lost():
            result = app(list(arguments), standalone_mode=False, prog_name="torqcheck")
    except TorqcheckError as error:
        return _say(str(error), error.exit_code)
    except KeyboardInterrupt:
        return _say("interrupted", INTERRUPTED)
    except SystemExit as leaving:
        # the parser leaves so when it has answered the Tab key, or when standard output has gone
        return 0 if leaving.code in (None, 0) else 4
    except Exception as error:
        return _other(error)
    if result == INTERRUPTED:
        return _say("interrupted", INTERRUPTED)
    return result if isinstance(result, int) else 0


def _other(error: Exception) -> int:
    """Usage errors of the parser end with 2, aborts with 130; everything else is a defect of ours."""
    shown = getattr(error, "format_message", None)
    if type(error).__name__ == "NoArgsIsHelpError" and shown is not None:
        print(shown())
        return 0
    if shown is not None:
        return _say(_usage_words(shown(), getattr(error, "ctx", None)), 2)
    if type(error).__name__ == "Abort":
        return _say("interrupted", INTERRUPTED)
    if os.environ.get("TORQCHECK_DEBUG"):
        raise error
    return _say(
        f"torqcheck could not finish: {type(error).__name__}: {error}. This is a defect of torqcheck; "
        "set TORQCHECK_DEBUG=1 to see where.",
        4,
    )


def _usage_words(message: str, context: typer.Context | None) -> str:
    """Say what is wrong with the command line, and where it is told how to write it."""
    for foreign, own in FOREIGN_WORDS.items():
        message = message.replace(foreign, own)
    says = f"torqcheck: {message}"
    if context is None:
        return says
    return f"{context.get_usage()}\n{says} (`{context.command_path} --help` shows how to write it)"


def _say(text: str, code: int) -> int:
    """Print a message where messages go, if there is such a place, and hand the code on."""
    if sys.stderr is not None:
        print(text, file=sys.stderr)
    return code
