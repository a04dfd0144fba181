"""The JSON Schema of the scenario file."""

from typing import Any

from torqcheck.scenario.schema import Scenario

__all__ = ["json_schema"]


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema that an editor needs to complete and check a scenario file."""
    schema: dict[str, Any] = _without_null(Scenario.model_json_schema())
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "torqcheck scenario"
    schema["not"] = {"required": ["duty", "duty_file"]}
    return schema


def _without_null(node: Any) -> Any:
    """Drop what stands for an absent key: TOML knows no null, and an editor must not offer it."""
    if isinstance(node, list):
        return [_without_null(item) for item in node]
    if not isinstance(node, dict):
        return node
    kept = {
        key: _without_null(value)
        for key, value in node.items()
        if not (key == "default" and (value is None or isinstance(value, dict)))
    }
    choices = [choice for choice in kept.get("anyOf", []) if choice != {"type": "null"}]
    if len(choices) == 1:
        del kept["anyOf"]
        # what the field says of itself goes before what its type says
        return choices[0] | kept
    if choices:
        kept["anyOf"] = choices
    return kept
