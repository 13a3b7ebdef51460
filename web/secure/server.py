"""The app over TLS, one thread a connection; the handshake happens in that thread.

A client that connects and then says nothing can so hold up only itself.
"""

from __future__ import annotations

import ssl
import threading

from werkzeug.serving import ThreadedWSGIServer, WSGIRequestHandler

from web.secure.certificate import Paper

HANDSHAKE_S = 10


class SecureServer(ThreadedWSGIServer):
    """Werkzeug's threaded server with TLS begun in the thread of the connection."""

    daemon_threads = True

    def finish_request(self, request, client_address) -> None:
        """Shake hands, then answer; a client that cannot is let go in silence."""
        request.settimeout(HANDSHAKE_S)
        try:
            secured = self.ssl_context.wrap_socket(request, server_side=True)
        except (ssl.SSLError, OSError):
            return
        secured.settimeout(120)
        try:
            super().finish_request(secured, client_address)
        except OSError:
            return
        finally:
            secured.close()


class QuietHandler(WSGIRequestHandler):
    """Says nothing for each request."""

    def log(self, type: str, message: str, *args: object) -> None:
        """Errors of the app are logged by the app."""


def start(app, address: tuple[str, int], paper: Paper) -> SecureServer:
    """Answer in the background until ``shutdown()``."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.minimum_version = ssl.TLSVersion.TLSv1_2
    context.load_cert_chain(paper.certificate, paper.key)
    server = SecureServer(*address, app, QuietHandler)
    server.ssl_context = context
    threading.Thread(target=server.serve_forever, name="secure", daemon=True).start()
    return server
