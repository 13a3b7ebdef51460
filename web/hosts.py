"""Host names: read from a Host header, and told apart from names of the wide world."""

from __future__ import annotations

import ipaddress

LOCAL_ENDINGS = (".local", ".lan", ".home", ".home.arpa", ".internal", ".localhost")


def hostname(host: str) -> str:
    """The name without its port; an IPv6 address without its brackets."""
    if host.startswith("["):
        return host[1:].partition("]")[0].lower()
    return host.partition(":")[0].lower()


def is_local(name: str) -> bool:
    """True for names that only this computer or its own network can give."""
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return "." not in name or name.endswith(LOCAL_ENDINGS)
    return True
