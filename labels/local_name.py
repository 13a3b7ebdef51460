"""The address that labels carry, and the ``.local`` name that keeps it true.

A name outlives the number a router gives out, so labels are printed with one where the
network can carry it (multicast DNS, RFC 6762). Old addresses never matter for reading.
"""

from __future__ import annotations

import socket
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from zeroconf import IPVersion, NonUniqueNameException, ServiceInfo, Zeroconf

from stash.model.address import DEFAULT_NAME, DEFAULT_PORT, default_address, tidy

__all__ = ["announced", "default_address", "lan_address", "tidy"]


def lan_address() -> str | None:
    """This computer's number on the local network, or None when it is on none.

    No packet is sent: the system is only asked which of its addresses it would use.
    """
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.connect(("192.0.2.1", 9))
        number = probe.getsockname()[0]
        return None if number.startswith("127.") else number
    return None


@contextmanager
def announced(name: str = DEFAULT_NAME, port: int = DEFAULT_PORT) -> Iterator[str | None]:
    """Answer to ``NAME.local`` on the local network while inside; yields the name won.

    When another instance already has the name, ``NAME-2`` and so on are tried. Yields None
    where the network cannot carry it, which is not an error: the number address serves.
    """
    number = lan_address()
    if number is None:
        yield None
        return
    try:
        zeroconf = Zeroconf(interfaces=[number], ip_version=IPVersion.V4Only)
    except OSError:
        yield None
        return
    try:
        yield _register(zeroconf, name, port, number)
    finally:
        zeroconf.close()


def _register(zeroconf: Zeroconf, name: str, port: int, number: str) -> str | None:
    for attempt in (name, *(f"{name}-{n}" for n in range(2, 10))):
        info = ServiceInfo(
            "_http._tcp.local.",
            f"{attempt}._http._tcp.local.",
            addresses=[socket.inet_aton(number)],
            port=port,
            server=f"{attempt}.local.",
        )
        try:
            zeroconf.register_service(info)
        except NonUniqueNameException:
            continue
        except OSError:
            return None
        return f"{attempt}.local"
    return None
