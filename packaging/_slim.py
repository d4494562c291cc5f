"""Leave out of an installed folder of libraries what the running program never opens.

The wheels bring tools for developers, Qt's second window system with all its modules, and their own tests;
together about a third of what would be installed. What is named here is never imported by greenroom or by a
library it uses; the packages are tried without it before they are kept.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path, PurePosixPath

QT_PARTS_UNUSED = ("Designer", "Help", "Labs", "Qml", "Quick", "Sql", "UiTools", "WaylandCompositor")
# Patterns below the folder of libraries, each as pathlib.Path.glob reads it.
UNUSED = (
    "bin",
    "share",
    "**/tests",
    "PySide6/*.pyi",  # others read theirs as they run
    "PySide6/Qt/libexec",
    "PySide6/Qt/metatypes",
    "PySide6/Qt/qml",
    # All but Qt's own texts (qtbase) in the languages greenroom speaks, and their neighbours in the alphabet.
    *(f"PySide6/Qt/translations/{name}" for name in ("[!q]*", "q[!t]*", "qt[!b]*", "qtbase_[!def]*")),
    "PySide6/Qt/plugins/designer",
    "PySide6/Qt/plugins/qmllint",
    "PySide6/Qt/plugins/qmltooling",
    "PySide6/Qt/plugins/sqldrivers",
    "PySide6/Qt/plugins/wayland-graphics-integration-server",
    "PySide6/Qt/plugins/platforminputcontexts/libqtvirtualkeyboardplugin.so",
    "PySide6/Qt/plugins/platforms/libqeglfs.so",
    "PySide6/Qt/plugins/egldeviceintegrations",
    "PySide6/Qt/lib/libQt6Egl*",
    "PySide6/Qt/lib/libQt6WaylandEglCompositor*",
    *(f"PySide6/Qt/lib/libQt6{part}*" for part in QT_PARTS_UNUSED),
    *(f"PySide6/Qt{part}*" for part in QT_PARTS_UNUSED),
    *(f"PySide6/{name}" for name in ("doc", "glue", "include", "lib", "scripts", "support", "typesystems")),
    *(f"PySide6/{name}" for name in ("assistant", "designer", "linguist", "lrelease", "lupdate", "svgtoqml")),
    "PySide6/qml*",
    "PySide6/libpyside6qml*",
    "pypdfium2_cli",
    "reportlab/fonts",  # some of them may not be passed on freely
    "pyqtgraph/examples",
)


def unused(libraries: Path) -> Iterator[Path]:
    """Yield what is never opened, each folder as one."""
    for pattern in UNUSED:
        yield from libraries.glob(pattern)


def is_unused(name: str) -> bool:
    """Say whether a file, named from the folder of libraries, is one that is never opened."""
    path = PurePosixPath(name.replace("\\", "/"))
    return any(
        folder.match(pattern.removeprefix("**/"))
        for folder in (path, *path.parents)
        for pattern in UNUSED
        if "/" in pattern  # a bare name such as bin means something else in another layout
    )


def slim(libraries: Path) -> None:
    """Remove what is never opened."""
    for path in list(unused(libraries)):
        if path.is_dir():
            shutil.rmtree(path)
        elif path.exists():  # it may have gone with its folder
            path.unlink()
