"""The kernels: compiled ahead as they are called, and kept where nobody else can put code."""

from __future__ import annotations

import importlib
import os
import subprocess
import sys
import threading

import numba
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from until import until

from stash.fact import fact
from stash.lay.compile_ahead import ELSEWHERE, FOR_A_FIRST_LAY, FOR_A_SEARCH
from stash.lay.compiled import alone, inner, kernel
from stash.lay.kept import own_folder
from stash.lay.parts import PartCompiler
from stash.lay.search.ascending import ascending
from stash.lay.warm import _Warming

posix = pytest.mark.skipif(os.name != "posix", reason="accounts and modes are of POSIX systems")


@inner
def twice(x):
    """A part."""
    return 2 * x


@kernel
def twice_and_one(x):
    """What it is part of."""
    return twice(x) + 1


def test_a_part_is_compiled_into_its_caller_and_cannot_be_called_from_outside():
    """An error says so; the process lives."""
    assert twice_and_one(3) == 7
    assert alone(twice)(3) == 6
    if PartCompiler is not None:
        with pytest.raises(SystemError):
            twice(3)


@inner
def one_more(x):
    """Another part."""
    return x + 1


@numba.njit
def counted(x):
    """Begins with a written 0 and goes on with what the part said."""
    count = 0
    for _ in range(x):
        count = one_more(count)
    return count


def test_a_part_is_compiled_once_for_whole_numbers_also_where_one_is_written_down():
    """Else it would be compiled for that very number first, and that thrown away."""
    assert counted(3) == 3
    assert len(one_more.signatures) == 1


@kernel
def placed(values):
    """``ascending`` for callers that are no kernels."""
    return ascending(values, len(values))


@given(st.lists(st.sampled_from([0.0, 0.5, 1.0, -3.0, 1e300]) | st.floats(-9.0, 9.0), max_size=70))
def test_numbers_are_put_in_order_and_equals_stay_as_they_came(values):
    """As numpy's stable sort does."""
    given_values = np.array(values, float)
    assert list(placed(given_values)) == list(np.argsort(given_values, kind="stable"))


COUNTED = """
from stash.lay import Budget, LayTask, shortest
from stash.lay.compile_ahead import ELSEWHERE, FOR_A_FIRST_LAY, FOR_A_SEARCH
from stash.lay.warm import warm
from stash.model import Piece
warm()
triangle = Piece(name="triangle", outline_mm=((0, 0), (90, 0), (0, 60)), quantity=4)
shortest(LayTask(pieces=(triangle,), width_mm=100.0), Budget(iterations=40))
for called, _ in (*ELSEWHERE, *FOR_A_FIRST_LAY, *FOR_A_SEARCH):
    print(called.__name__, len(called.signatures))
"""


def test_what_is_compiled_ahead_is_what_a_search_calls(kernels):
    """One signature each: nothing is compiled a second time while somebody waits.

    In a process of its own, where no test before has called a kernel in another way.
    """
    done = subprocess.run(
        [sys.executable, "-c", COUNTED], capture_output=True, text=True, check=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    counts = [line.split() for line in done.stdout.splitlines()]
    assert len(counts) == len((*ELSEWHERE, *FOR_A_FIRST_LAY, *FOR_A_SEARCH))
    assert [name for name, count in counts if count != "1"] == []


def test_whoever_waits_while_another_compiles_is_told_what_for(monkeypatch):
    """The app begins to compile when it starts; a question asked meanwhile says why it waits."""
    warming, at_it, told = _Warming(), threading.Event(), []
    here = importlib.import_module("stash.lay.warm")
    monkeypatch.setattr(here.kept, "complete", lambda: False)
    monkeypatch.setattr(here.kept, "completed", lambda: None)
    monkeypatch.setattr(here, "_helper", lambda: None)
    monkeypatch.setattr(here, "_drained", lambda called: at_it.wait())
    first = threading.Thread(target=warming.for_a_search, args=(lambda what: None,))
    second = threading.Thread(target=warming.for_a_search, args=(told.append,))
    first.start()
    second.start()
    until(lambda: told)
    said = list(told)
    at_it.set()
    first.join()
    second.join()
    assert said == [fact("getting_ready_to_lay")]


def test_the_folder_of_machine_code_is_its_owners_alone(tmp_path):
    """Made with mode 700, in a folder that no other can write to."""
    folder = own_folder(tmp_path / "cache", "lays")
    assert folder == tmp_path / "cache" / "lays"
    if os.name == "posix":
        assert folder.stat().st_mode & 0o777 == 0o700
    assert own_folder(tmp_path / "cache", "lays") == folder


@posix
@pytest.mark.parametrize(("which", "mode"), [("lays", 0o770), ("lays", 0o755), (".", 0o777)])
def test_a_folder_that_others_may_look_or_write_into_is_not_used(tmp_path, which, mode):
    """Whoever may write there could have put code in."""
    base = tmp_path / "cache"
    (base / "lays").mkdir(parents=True)
    base.chmod(0o700)
    (base / "lays").chmod(0o700)
    (base / which).chmod(mode)
    assert own_folder(base, "lays") is None


@posix
def test_a_folder_of_another_account_is_not_used(tmp_path, monkeypatch):
    """Even one that nobody else can write to."""
    own_folder(tmp_path / "cache", "lays")
    monkeypatch.setattr(os, "geteuid", lambda: (tmp_path.stat().st_uid or 0) + 1)
    assert own_folder(tmp_path / "cache", "lays") is None


@posix
def test_a_link_to_a_folder_is_not_used(tmp_path):
    """Whoever made the link says where the code comes from."""
    (tmp_path / "cache").mkdir(mode=0o700)
    (tmp_path / "elsewhere").mkdir(mode=0o700)
    (tmp_path / "cache" / "lays").symlink_to(tmp_path / "elsewhere")
    assert own_folder(tmp_path / "cache", "lays") is None


@posix
def test_where_no_folder_is_safe_everything_is_compiled_in_memory(tmp_path):
    """A kernel of its own process works, and nothing is written."""
    (tmp_path / "lengthwise").mkdir()
    (tmp_path / "lengthwise").chmod(0o777)
    asked = (
        "from stash.lay import compiled\n"
        "assert compiled.KEPT is None\n"
        "print(compiled.kernel(lambda x: x + 1)(2))"
    )
    given = {k: v for k, v in os.environ.items() if k != "NUMBA_CACHE_DIR"}
    done = subprocess.run(
        [sys.executable, "-c", asked], env=given | {"XDG_CACHE_HOME": str(tmp_path)},
        capture_output=True, text=True, check=False,
    )
    assert done.stdout.strip() == "3", done.stderr
    assert list((tmp_path / "lengthwise").iterdir()) == []
