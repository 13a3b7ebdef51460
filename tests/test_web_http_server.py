"""The pages over HTTP: answered in the background, and stopped while browsers look on."""

import socket
import threading
import urllib.request

import pytest

from web.http_server import answering


def test_it_stops_with_connections_open_and_leaves_no_thread(web_client):
    """Browsers keep their connections; fifty stops among them end in no traceback.

    A thread that dies of an error fails the test by itself (pytest's ``error`` filter).
    """
    for _ in range(50):
        with answering(web_client.application, "127.0.0.1", 0) as pages:
            kept = [socket.create_connection(("127.0.0.1", pages.port)) for _ in range(6)]
            for connection in kept:
                connection.sendall(b"GET /more HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
            assert kept[0].recv(12) == b"HTTP/1.1 200"
        pages.thread.join()
        for connection in kept:
            connection.close()


def test_its_port_is_free_again_afterwards(web_client):
    """The app can be started anew at once."""
    with answering(web_client.application, "127.0.0.1", 0) as pages:
        port = pages.port
    with answering(web_client.application, "127.0.0.1", port) as again:
        answer = urllib.request.urlopen(f"http://127.0.0.1:{again.port}/more")

        assert answer.status == 200
        answer.close()
    with pytest.raises(OSError, match="refused"):
        urllib.request.urlopen(f"http://127.0.0.1:{port}/more")


def test_connections_that_say_nothing_shut_nobody_out(web_client):
    """130 clients that connect and fall silent, some in the middle of a header or a body."""
    said = [b"", b"GET /more HTTP/1.1\r\nHost: 127.0.0.1\r\nX-",
            b"POST /more HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 9999\r\n\r\nab"]
    with answering(web_client.application, "127.0.0.1", 0) as pages:
        silent = [socket.create_connection(("127.0.0.1", pages.port)) for _ in range(130)]
        for n, connection in enumerate(silent):
            connection.sendall(said[n % len(said)])

        answer = urllib.request.urlopen(f"http://127.0.0.1:{pages.port}/more")

        assert answer.status == 200
        answer.close()
        for connection in silent:
            connection.close()


@pytest.mark.parametrize(
    "host", ["127.0.0.1:nowhere", "[::1]:5000", "a" * 3000, "", "a b"],
    ids=["no port", "IPv6", "long", "empty", "with a space"])
def test_a_strange_host_gets_an_answer(web_client, host):
    """One status line, not a connection that hangs or a thread that dies."""
    with (
        answering(web_client.application, "127.0.0.1", 0) as pages,
        socket.create_connection(("127.0.0.1", pages.port)) as connection,
    ):
        connection.sendall(
            f"GET /more HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n".encode())

        assert connection.recv(9) == b"HTTP/1.1 "


def test_a_head_has_no_body_and_a_whole_length(web_client):
    """RFC 9110, 9.3.2: the header fields of a GET, and nothing after them."""
    with answering(web_client.application, "127.0.0.1", 0) as pages:
        asked = urllib.request.Request(f"http://127.0.0.1:{pages.port}/more", method="HEAD")
        with urllib.request.urlopen(asked) as answer:
            assert answer.status == 200
            assert answer.read() == b""


def test_a_body_beyond_every_limit_is_refused_before_it_is_read(web_client):
    """Somewhat too large is told as a sentence; far too large is not even taken in."""
    with answering(web_client.application, "127.0.0.1", 0) as pages:
        with pytest.raises(urllib.error.HTTPError) as told:
            urllib.request.urlopen(
                f"http://127.0.0.1:{pages.port}/cuts/new", data=b"x" * 3_000_000)
        assert told.value.code == 413
        assert "too large" in told.value.read().decode()
        with socket.create_connection(("127.0.0.1", pages.port)) as connection:
            connection.sendall(b"POST /more HTTP/1.1\r\nHost: 127.0.0.1\r\n"
                               b"Content-Length: 999999999999\r\n\r\n")

            assert connection.recv(12) == b"HTTP/1.1 400"


def test_a_server_that_stops_leaves_no_answer_open():
    """A file half answered when the app is stopped is read and closed by its own thread."""
    begun, go, closed = threading.Event(), threading.Event(), threading.Event()

    class Parts:
        def __iter__(self):
            yield b"slow"

        def close(self):
            closed.set()

    def app(_environ, start):
        begun.set()
        go.wait()
        start("200 OK", [])
        return Parts()

    with answering(app, "127.0.0.1", 0) as pages:
        asking = socket.create_connection(("127.0.0.1", pages.port))
        asking.sendall(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
        begun.wait()
    go.set()

    closed.wait()
    asking.close()
