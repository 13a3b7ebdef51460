"""Who may ask: requests from other sites, strange host names, and what a page may load."""

from __future__ import annotations

from flask import Flask, abort, request
from werkzeug.wrappers import Response

from web.hosts import hostname, is_local
from web.request_stash import own_hosts

SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
POLICY = "; ".join((
    "default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'",
    "img-src 'self' blob: data:", "media-src 'self' blob:", "connect-src 'self'",
    "worker-src 'self'", "manifest-src 'self'", "form-action 'self'", "base-uri 'none'",
    "frame-ancestors 'none'",
))
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), microphone=(), geolocation=()",
}


def install(app: Flask) -> None:
    """Put the checks before every request and the headers on every answer."""
    app.before_request(refuse_strange_hosts)
    app.before_request(refuse_other_sites)
    app.after_request(_with_headers)


def refuse_other_sites() -> None:
    """Refuse a change asked for by another site's page.

    Browsers say so in Sec-Fetch-Site, except over plain http on a LAN name, where
    Chromium sends only Origin; a request with neither does not come from a page.
    """
    if request.method in SAFE:
        return
    if site := request.headers.get("Sec-Fetch-Site"):
        ours = site in ("same-origin", "none")
    else:
        origin = request.headers.get("Origin")
        ours = origin is None or origin == request.host_url.rstrip("/")
    if not ours:
        abort(403)


def refuse_strange_hosts() -> None:
    """Refuse a public-looking host name that nobody here chose.

    A page elsewhere could point its own name at this computer and then read the
    answers as its own. Names that only a local network can give (addresses, single
    words, ``.local``) cannot be taken that way. A label may have been printed under
    any address, so what a scan opens is answered under every name.
    """
    if request.path.lower().startswith("/c/") and request.method in SAFE:
        return
    name = hostname(request.host)
    if not is_local(name) and name not in own_hosts():
        abort(400, description="strange host")


def _with_headers(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    if response.mimetype in ("text/html", "application/json"):
        response.headers.setdefault("Cache-Control", "no-store")
    return response
