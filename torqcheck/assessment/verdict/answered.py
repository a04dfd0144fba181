"""What every result says first: which version answered, and for which file."""

from dataclasses import dataclass
from typing import Any

from torqcheck import __version__
from torqcheck.scenario import Scenario
from torqcheck.scenario.duty_record import FileHash

__all__ = ["Answered", "answered_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """Head of a result."""

    version: str
    title: str
    build: str
    file: str
    file_sha256: str
    duty_file: FileHash | None

    def head(self) -> dict[str, Any]:
        """Return it as plain data, the first keys of every JSON."""
        return {
            "format": 1,
            "torqcheck": self.version,
            "scenario": {
                "title": self.title,
                "build": self.build,
                "file": self.file,
                "file_sha256": self.file_sha256,
                "duty_file": None if self.duty_file is None else self.duty_file._asdict(),
            },
        }


def answered_for(scenario: Scenario) -> dict[str, Any]:
    """Fields of the head of a result for one scenario."""
    return {
        "version": __version__,
        "title": scenario.record.title,
        "build": scenario.record.build,
        "file": scenario.path.name,
        "file_sha256": scenario.file_sha256,
        "duty_file": scenario.duty_file_hash,
    }
