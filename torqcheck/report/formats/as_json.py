"""The whole result as strict JSON."""

import json
from typing import Any

__all__ = ["as_json"]


def as_json(result: dict[str, Any]) -> str:
    """Render plain data as indented JSON; refuses NaN and infinity, which JSON does not know."""
    return json.dumps(result, indent=2, ensure_ascii=False, allow_nan=False) + "\n"
