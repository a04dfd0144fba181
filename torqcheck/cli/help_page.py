"""The page that `--help` prints for a command: arguments by their names, without types of the language."""

from typing import TYPE_CHECKING

from typer.core import TyperCommand

if TYPE_CHECKING:
    from typer._click import Context, HelpFormatter

__all__ = ["HelpPage"]


class HelpPage(TyperCommand):
    """A command whose page names its arguments and leaves the types of them to their descriptions."""

    def collect_usage_pieces(self, ctx: "Context") -> list[str]:
        """Write what must be given bare; brackets stay around what may be left out."""
        return [piece.replace("{", "").replace("}", "") for piece in super().collect_usage_pieces(ctx)]

    def format_options(self, ctx: "Context", formatter: "HelpFormatter") -> None:
        """Write arguments and options in two lists."""
        rows: dict[str, list[tuple[str, str]]] = {"Arguments": [], "Options": []}
        for parameter in self.get_params(ctx):
            row = parameter.get_help_record(ctx)
            if row is None:
                continue
            if parameter.param_type_name == "argument":
                rows["Arguments"].append((row[0].split(" <")[0], row[1]))
            else:
                rows["Options"].append(row)
        for heading, listed in rows.items():
            if listed:
                with formatter.section(heading):
                    formatter.write_dl(listed)
