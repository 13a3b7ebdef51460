"""Which packages there are; everything else stands in pyproject.toml.

The guide is written in ``docs/guide``, where a reader of the repository looks for it, and is
installed inside the app, which serves it: that move is what pyproject.toml cannot say.
"""

from setuptools import find_packages, setup

setup(
    packages=[*find_packages(include=["stash*", "labels*", "web*"]), "web.guide_pages"],
    package_dir={"web.guide_pages": "docs/guide"},
)
