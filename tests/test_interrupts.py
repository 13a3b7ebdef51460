"""Ctrl-C ends a command, also one that works in native code, and says so."""

import os
import signal
import subprocess
import sys

import pytest

STUCK = """
import sys
from stash.cli.interrupts import heard_at_once
import hashlib
with heard_at_once():
    print("begun", flush=True)
    {work}
"""


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGINT for one process alone")
@pytest.mark.parametrize("work", [
    "hashlib.pbkdf2_hmac('sha256', b'x', b'y', 2_000_000_000)",  # native code without the lock
    "import time; time.sleep(600)",
    "import threading; threading.Event().wait()",
])
def test_an_interrupt_is_heard_whatever_is_being_done(work):
    """The status is the one that shells know (128 + SIGINT), and the word is said."""
    run = subprocess.Popen(
        [sys.executable, "-c", STUCK.format(work=work)], stdout=subprocess.PIPE,
        stderr=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    run.stdout.readline()
    run.send_signal(signal.SIGINT)
    _, told = run.communicate()

    assert run.returncode == 130
    assert told.endswith("Stopped.\n")
