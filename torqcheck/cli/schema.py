"""`torqcheck schema`: the scenario file as JSON Schema, so that an editor can complete it."""

from torqcheck.cli.options import OutOption, emit

__all__ = ["schema"]


def schema(out: OutOption = None) -> None:
    r"""Print the JSON Schema of the scenario file.

    \b
    torqcheck schema --out scenario.schema.json
    """
    from torqcheck.report.formats.as_json import as_json
    from torqcheck.scenario.json_schema import json_schema

    emit(as_json(json_schema()), out)
