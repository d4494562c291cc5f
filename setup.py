"""Put resources/ into the installed package as greenroom/resources; all else is in pyproject.toml.

The folder stands beside the package in the checkout, and setuptools can only map a folder from a
list of all packages. Finding the others here saves keeping that list by hand.
"""

from setuptools import find_packages, setup

setup(
    packages=[*find_packages(include=["greenroom*"]), "greenroom.resources"],
    package_dir={"greenroom.resources": "resources"},
    package_data={"greenroom.resources": ["**/*"]},
)
