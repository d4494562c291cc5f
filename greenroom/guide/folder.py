"""Where the files that come with the program are, for those who ask the guide for it."""

from greenroom.own_files import resources_folder

__all__ = ["resources_folder"]
