"""The tables and the examples that travel with the package."""

from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

__all__ = ["shipped_folder"]


@cache
def shipped_folder(name: str) -> Traversable:
    """Return the folder of shipped files called `name`.

    In an installed wheel it lies inside the package; in a source tree or an editable install it
    lies beside the package, at the top of the repository.

    Raises
    ------
    FileNotFoundError
        If it is in neither place: the installation is damaged.
    """
    package = files("torqcheck")
    inside = package.joinpath(name)
    if inside.is_dir():
        return inside
    beside = package.joinpath("..", name)
    if beside.is_dir():
        return beside
    raise FileNotFoundError(f"the folder {name!r} is missing from this installation of torqcheck")
