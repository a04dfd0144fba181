"""The files that a scenario is read with: its torque record, the user's own tables."""

from torqcheck.errors import OutputError
from torqcheck.scenario.schema import Scenario

__all__ = ["companions_of"]


def companions_of(scenario: Scenario) -> dict[str, bytes]:
    """
    Return the content of every file that a scenario names, by the name that it uses.

    Raises
    ------
    OutputError
        If one of them cannot be read any more.
    """
    names = list(scenario.materials.tables)
    if scenario.duty_file is not None:
        names.append(scenario.duty_file.path)
    found = {}
    for name in names:
        try:
            found[name] = (scenario.path.parent / name).read_bytes()
        except OSError as error:
            raise OutputError(f"{name}: cannot be read again: {error.strerror or error}") from error
    return found
