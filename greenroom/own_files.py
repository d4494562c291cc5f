"""Where the files that come with the program are."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

RESOURCES = "resources"


def resources_folder() -> Traversable:
    """Return the folder of files that come with the program.

    In an installed program it lies inside the package; in a checkout it lies beside it.

    Raises
    ------
    FileNotFoundError
        If neither place has it, which means that the program was not installed whole.
    """
    package = files("greenroom")
    places: tuple[Traversable, ...] = (package / RESOURCES, Path(str(package)).parent / RESOURCES)
    found = next((place for place in places if place.is_dir()), None)
    if found is None:
        raise FileNotFoundError(
            f"The program's own files are missing: there is no folder {RESOURCES} in {package} or beside it."
        )
    return found
