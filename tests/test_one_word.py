"""A word means one thing in the whole house."""

import ast
from collections import Counter, defaultdict

from stash.sentences.wording import TOPICS

FLOORS_OF_A_NOUN = (
    "stash/model", "stash/notions", "stash/ledger", "stash/store", "stash/workroom",
    "stash/workroom/questions", "stash/cli", "labels/cli", "web/cli", "web/pages",
)
"""Where one noun has a file on several floors, each called after it."""


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


def test_a_module_name_is_shared_only_by_the_floors_of_one_noun(request):
    """``cuts`` is a collection, a room and a page of the same cuts; any other name is one file's.

    The wording of a room is called after the room it speaks for."""
    homes = defaultdict(list)
    for folder in ("stash", "labels", "web"):
        for path in (request.config.rootpath / folder).rglob("*.py"):
            home = path.parent.relative_to(request.config.rootpath).as_posix()
            if path.stem != "__init__" and home != "stash/sentences/wording":
                homes[path.stem].append(home)

    elsewhere = {
        stem: at for stem, at in homes.items()
        if len(at) > 1 and not set(at) <= set(FLOORS_OF_A_NOUN)
    }
    assert len(homes) > 300
    assert elsewhere == {}


def test_a_name_for_a_type_is_no_class_and_means_the_same_wherever_it_is_given(request):
    """``Pockets`` may be written in two garments, as one and the same choice."""
    classes, meanings = set(), defaultdict(set)
    for folder in ("stash", "labels", "web"):
        for path in (request.config.rootpath / folder).rglob("*.py"):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            classes |= {node.name for node in ast.walk(tree) if isinstance(node, ast.ClassDef)}
            for name, meant in _named_types(tree):
                meanings[name].add(meant)

    assert len(meanings) > 50
    assert set(meanings) & classes == set()
    assert {name: meant for name, meant in meanings.items() if len(meant) > 1} == {}


def _named_types(tree: ast.Module):
    """The types that a module names, ``Name = list[int]``; of a choice its words, in order."""
    for node in tree.body:
        match node:
            case ast.Assign(targets=[ast.Name(id=name)], value=value) if _is_type_name(name):
                words = [word.value for word in ast.walk(value) if isinstance(word, ast.Constant)]
                yield name, repr(sorted(map(str, words))) if words else ast.unparse(value)


def _is_type_name(name: str) -> bool:
    return name[0].isupper() and not name.isupper()


def test_no_two_sentences_answer_to_the_same_kind():
    """A fact has one wording: no topic takes another's kind away."""
    kinds = [kind for topic in TOPICS for kind in topic.SENTENCES]

    assert len(kinds) > 500
    assert {kind for kind, times in Counter(kinds).items() if times > 1} == set()
