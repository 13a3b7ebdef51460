"""The arrows between rooms run one way."""

from importlinter.cli import EXIT_STATUS_SUCCESS, lint_imports


def test_every_import_follows_the_plan(monkeypatch, request):
    """web stands on labels, labels on stash; inside stash the arrows point down."""
    monkeypatch.chdir(request.config.rootpath)

    assert lint_imports(no_cache=True) == EXIT_STATUS_SUCCESS
