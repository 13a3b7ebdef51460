"""What the attacks share: a command as a process, pages that answer, requests and uploads."""

from __future__ import annotations

import http.client
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from web import create_app
from web.http_server import answering

ROOT = Path(__file__).parents[2]
COMMAND = (sys.executable, "-c", "from web.command import main; main()")
AROUND = {**os.environ, "PYTHONPATH": os.pathsep.join((str(ROOT), *sys.path))}
BOUNDARY = "attack"


def run(room: Path, *words: str, seconds: float = 60.0, **more) -> subprocess.CompletedProcess:
    """A command on the stash in the room, within so many seconds."""
    return subprocess.run(
        [*COMMAND, "--data", str(room / "loft"), *words], capture_output=True, timeout=seconds,
        env=AROUND, check=False, **more)


def refused(done: subprocess.CompletedProcess) -> list[str]:
    """What is wrong with a refusal: it is one sentence and status 1 or 2, never a traceback."""
    said = done.stderr.decode("utf-8", "replace")
    wrong = [] if done.returncode in (1, 2) else [f"status {done.returncode}"]
    return wrong + ([said[-200:]] if "Traceback" in said else [])


@contextmanager
def served(room: Path) -> Iterator[int]:
    """The pages of the loft in the room: their port."""
    with answering(create_app(room / "loft"), "127.0.0.1", 0) as pages:
        yield pages.port


def ask(port: int, path: str, body: bytes | str | None = None, **headers: str) -> tuple[int, str]:
    """(status, text) of one request."""
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=90)
    kind = {"Content-Type": "application/x-www-form-urlencoded"} if body is not None else {}
    line.request("POST" if body is not None else "GET", path, body,
                 kind | {name.replace("_", "-"): value for name, value in headers.items()})
    answer = line.getresponse()
    text = answer.read().decode("utf-8", "replace")
    line.close()
    return answer.status, text


def upload(port: int, path: str, name: str, content: bytes) -> tuple[int, str]:
    """A file sent as a browser does (RFC 7578), under every name a form may give it."""
    parts = b"".join(
        f"--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"{field}\"; "
        f"filename=\"{name}\"\r\n\r\n".encode() + content + b"\r\n"
        for field in ("file", "photo"))
    return ask(port, path, parts + f"--{BOUNDARY}--\r\n".encode(),
               Content_Type=f"multipart/form-data; boundary={BOUNDARY}")
