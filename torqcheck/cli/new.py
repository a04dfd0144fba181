"""`torqcheck new`: from nothing to a scenario, question by question."""

import contextlib
import os
import signal
import sys
import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.completing import example_names
from torqcheck.cli.options import INTERRUPTED
from torqcheck.errors import TorqcheckError, UsageError

if TYPE_CHECKING:
    from torqcheck.interview.dialogue import Dialogue
    from torqcheck.scenario import Scenario

__all__ = ["new"]

UNFINISHED = ".unfinished"
PROMPT = "   > "
NARROWEST, WIDTH = 40, 80
YES, NO = {"y", "yes"}, {"", "n", "no"}


def new(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="The scenario file to write (TOML).", show_default=False)
    ],
    example: Annotated[
        str | None,
        typer.Option(
            "--from",
            metavar="NAME",
            help="Copy a shipped example.",
            show_default=False,
            autocompletion=example_names,
        ),
    ] = None,
    template: Annotated[
        bool, typer.Option("--template", help="Write a typical job with invented numbers, to be replaced.")
    ] = False,
    resume: Annotated[bool, typer.Option("--resume", help="Go on with FILE.unfinished.")] = False,
) -> None:
    r"""Write a scenario file, question by question on a terminal.

    \b
    torqcheck new my.toml                       asks, question by question
    torqcheck new my.toml --resume              goes on where you broke off
    torqcheck new my.toml --template            a typical job, to be changed
    torqcheck new my.toml --from works_trolley  a copy of an example

    Enter or ? where you do not know: what stands for it is shown. Every answer is checked at once. back,
    help and stop are understood at every question; what is there when you stop is kept in
    FILE.unfinished. Without a terminal it writes the template, each line to change marked.

    Exit codes: 0 written or stopped, 2 bad input, 4 could not finish, 130 interrupted.
    """
    if sum((example is not None, template, resume)) > 1:
        raise UsageError("--from, --template and --resume exclude each other: give one")
    _refuse_place(file)
    on_terminal = all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))
    if resume and not on_terminal:
        raise UsageError("--resume asks questions and needs a terminal")
    if example is not None:
        _copy(file, example)
    elif template or not on_terminal:
        _template(file, wanted=template)
    else:
        _interview(file, resume)


def _refuse_place(file: Path) -> None:
    """Say before the first question what would go wrong after the last."""
    try:
        if file.is_dir():
            raise UsageError(f"{file}: is a folder; name a file in it, for example {file / 'my.toml'}")
        if not file.parent.is_dir():
            raise UsageError(
                f"{file}: the folder {file.parent} does not exist; make it first, or name another"
            )
        if file.exists() and not file.is_file():
            raise UsageError(f"{file}: is not a regular file; name another")
    except (OSError, ValueError) as error:
        raise UsageError(f"{str(file)[:120]}: the name cannot be used: {error}") from None


def _refuse_existing(*files: Path) -> None:
    """Nothing is written over without asking, and here nobody can be asked."""
    for file in files:
        if file.exists():
            raise UsageError(f"{file}: is there already; name another file, or move it away first")


def _copy(file: Path, name: str) -> None:
    """Copy an example, with the files that it reads."""
    from torqcheck.interview.examples import copied_example
    from torqcheck.report.formats.files import write_fresh

    text, companions = copied_example(name)
    beside = {file.parent / companion: content for companion, content in companions.items()}
    missing = {path: content for path, content in beside.items() if not _same(path, content)}
    _refuse_existing(file, *missing)
    for path, content in missing.items():
        write_fresh(path, content)
    write_fresh(file, text)
    print(f"{file}: copied from an example, an invented machine")
    _print_next(file)


def _same(path: Path, content: bytes) -> bool:
    """Whether a file is there and holds just that."""
    return path.is_file() and path.read_bytes() == content


def _template(file: Path, *, wanted: bool) -> None:
    """Write the template; say so where questions were wanted and nobody can be asked."""
    from torqcheck.interview.template import template
    from torqcheck.report.formats.files import write_fresh
    from torqcheck.report.new_scenario import template_text

    _refuse_existing(file)
    write_fresh(file, template_text(template()))
    if not wanted:
        print("No terminal to ask questions on: the template is written in place of the answers.")
    print(f"{file}: a typical job with invented numbers; replace each line that ends with # change")
    _print_next(file)


def _interview(file: Path, resume: bool) -> None:
    """Ask until the file is complete or the person stops."""
    from torqcheck.interview.dialogue import Dialogue

    with contextlib.suppress(ImportError):
        import readline  # noqa: F401  # arrow keys and history at the prompt
    for name in ("SIGTERM", "SIGHUP"):
        if hasattr(signal, name):
            # a closed window is an interruption too: what is there is kept
            signal.signal(getattr(signal, name), signal.default_int_handler)
    conversation = _Conversation(file, Dialogue())
    try:
        if conversation.begun(resume) and not conversation.held():
            conversation.keep()
    except KeyboardInterrupt:
        conversation.keep()
        raise typer.Exit(INTERRUPTED) from None
    except BaseException:
        # whatever stops it, the answers are not lost; the reason is told all the same
        with contextlib.suppress(TorqcheckError, OSError):
            conversation.keep()
        raise


class _Conversation:
    """One interview on the terminal: reads lines, prints lines, keeps what is there."""

    def __init__(self, file: Path, dialogue: "Dialogue") -> None:
        self.file = file
        self.unfinished = file.with_name(file.name + UNFINISHED)
        self.dialogue = dialogue
        self.kept = dialogue
        self.over = False
        self.written = False

    def begun(self, resume: bool) -> bool:
        """Settle what is there already; False where the person would rather not."""
        if self.file.exists():
            if not _agreed(f"{self.file} is there already. Write over it at the end?"):
                print("Nothing is done. Name another file.")
                return False
            self.over = True
        if not resume and self.unfinished.exists():
            resume = _agreed(f"{self.unfinished} holds answers that were begun. Go on with them?", usual=True)
            if not resume and not _agreed("Begin anew? They are replaced when you stop."):
                print("Nothing is done. Name another file.")
                return False
        if resume:
            self._restore()
        from torqcheck.report.asking import opening_lines

        _print(opening_lines())
        return True

    def _restore(self) -> None:
        """Take up the answers that were kept."""
        from torqcheck.interview.saved import LARGEST_SAVED, restored
        from torqcheck.report.asking import resumed_lines

        try:
            with self.unfinished.open("rb") as kept:
                content = kept.read(LARGEST_SAVED + 1)
        except OSError as error:
            raise UsageError(
                f"{self.unfinished}: cannot be read: {error.strerror}; begin without --resume"
            ) from None
        self.dialogue, lost = restored(content, str(self.unfinished))
        self.kept = self.dialogue
        _print(resumed_lines(self.dialogue, _columns()))
        _print(lost)

    def held(self) -> bool:
        """Ask until the end; False where the person stopped before."""
        from torqcheck.report.asking import question_lines, reply_lines

        shown = None
        while self.dialogue.question is not None:
            if shown is not self.dialogue:
                _print(question_lines(self.dialogue, _columns()))
                shown = self.dialogue
            line = _line()
            if line is None:
                return False
            reply = self.dialogue.fed(line)
            if reply.kind == "stop":
                return False
            _print(reply_lines(reply, _columns()))
            self.dialogue = reply.dialogue
        self._finish()
        return True

    def _finish(self) -> None:
        """Write the file whole, once the rules have read it again, and say how to go on."""
        from torqcheck.report.formats.files import write_fresh, write_whole
        from torqcheck.report.new_scenario import scenario_text
        from torqcheck.scenario import load_scenario, scenario_from_text

        content = scenario_text(self.dialogue).encode()
        scenario_from_text(content, self.file)
        if self.over:
            write_whole(self.file, content, over_scenario=True)
        else:
            write_fresh(self.file, content)
        self.written = True
        with contextlib.suppress(OSError):
            self.unfinished.unlink(missing_ok=True)
        print(f"\n{self.file}: written, {len(self.dialogue.given)} answers.")
        _print(_missing(load_scenario(self.file)))
        _print_next(self.file)

    def keep(self) -> None:
        """Save what is there, if it is more than is saved already."""
        from torqcheck.interview.saved import saved_text
        from torqcheck.report.asking import answers_in_words
        from torqcheck.report.formats.files import write_whole

        if self.written:
            return
        if not self.dialogue.given and not self.dialogue.undone:
            print("Nothing was answered, nothing is kept.")
            return
        command = f"torqcheck new {_as_typed(self.file)} --resume"
        if self.dialogue is not self.kept:
            write_whole(self.unfinished, saved_text(self.dialogue, command))
            self.kept = self.dialogue
        kept = answers_in_words(len(self.dialogue.given))
        print(f"\n{kept} kept in {self.unfinished}. Go on with:\n  {command}")


def _missing(scenario: "Scenario") -> Iterable[str]:
    """The readings without which no pass is given."""
    from torqcheck.assessment import assess

    try:
        found = assess(scenario)
    except TorqcheckError as error:
        return (f"The check cannot be made yet: {error}",)
    if not found.undecided_by:
        return ("No reading is missing.",)
    lines = ["Readings that are missing for a pass:"]
    for entry in found.undecided_by:
        lines += textwrap.wrap(f"- {entry}", 80, subsequent_indent="  ")
    return lines


def _print_next(file: Path) -> None:
    print(f"Next: torqcheck assess {_as_typed(file)}")


def _as_typed(file: Path) -> str:
    """A path as it is typed into a shell, in quotes where it needs them."""
    if os.name == "nt":
        import subprocess

        return subprocess.list2cmdline([str(file)])
    import shlex

    return shlex.quote(str(file))


def _print(lines: Iterable[str]) -> None:
    for line in lines:
        print(line)


def _columns() -> int:
    """Width of the terminal, never beyond that of the questions."""
    import shutil

    return max(NARROWEST, min(shutil.get_terminal_size((WIDTH, 24)).columns, WIDTH))


def _line() -> str | None:
    """Read one line; None at the end of the input."""
    while True:
        try:
            return input(PROMPT)
        except (EOFError, OSError):
            # the end of the input, or the terminal has gone
            return None
        except UnicodeDecodeError:
            print("  !  that is no text; type it again")


def _agreed(question: str, *, usual: bool = False) -> bool:
    """Ask for a yes; Enter is what is usual, the end of the input a no."""
    while True:
        whole = f"{question} yes or no [{'yes' if usual else 'no'}]"
        _print(textwrap.wrap(whole, _columns(), break_long_words=False, break_on_hyphens=False))
        line = _line()
        word = "no" if line is None else line.strip().casefold()
        if word in YES | NO:
            return word in YES or (usual and not word)
