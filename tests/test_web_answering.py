"""The pages over plain HTTP: answered in the background, and stopped while browsers look on."""

import socket
import urllib.request

import pytest

from web.answering import answering


def test_it_stops_with_connections_open_and_leaves_no_thread(web_client):
    """Browsers keep their connections; fifty stops among them end in no traceback.

    A thread that dies of an error fails the test by itself (pytest's ``error`` filter).
    """
    for _ in range(50):
        with answering(web_client.application, "127.0.0.1", 0, threads=2) as pages:
            kept = [socket.create_connection(("127.0.0.1", pages.port)) for _ in range(6)]
            for connection in kept:
                connection.sendall(b"GET /more HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
            assert kept[0].recv(12) == b"HTTP/1.1 200"
        assert not pages.thread.is_alive()
        for connection in kept:
            connection.close()


def test_its_port_is_free_again_afterwards(web_client):
    """The app can be started anew at once."""
    with answering(web_client.application, "127.0.0.1", 0) as pages:
        port = pages.port
    with answering(web_client.application, "127.0.0.1", port) as again:
        answer = urllib.request.urlopen(f"http://127.0.0.1:{again.port}/more", timeout=20)

        assert answer.status == 200
        answer.close()
    with pytest.raises(OSError, match="refused"):
        urllib.request.urlopen(f"http://127.0.0.1:{port}/more", timeout=20)
