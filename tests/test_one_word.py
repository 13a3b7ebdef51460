"""A word means one thing in the whole house."""

import ast
from collections import defaultdict


def test_no_two_classes_share_a_name(request):
    """Whoever reads a class's name anywhere knows which it is; private ones stay at home."""
    homes = defaultdict(list)
    for folder in ("stash", "labels", "web"):
        for path in sorted((request.config.rootpath / folder).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                    homes[node.name].append(f"{path}:{node.lineno}")

    assert len(homes) > 300
    assert {name: at for name, at in homes.items() if len(at) > 1} == {}
