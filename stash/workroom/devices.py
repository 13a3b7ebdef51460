"""Devices that may use the pages over the network: paired once, named, and revocable."""

from __future__ import annotations

from stash.model.role import DeviceRole
from stash.store import Stash
from stash.store.devices import Device, Offer

__all__ = ["Device", "Offer", "DeviceRole"]


def offer(stash: Stash, name: str, role: DeviceRole) -> Offer:
    """Offer to pair one device within the next minutes."""
    return stash.devices.offer(name, role)


def pair(stash: Stash, secret: str) -> tuple[Device, str]:
    """The device that an offer was for, and the key it is known by from now on."""
    return stash.devices.pair(secret)


def known(stash: Stash, key: str) -> Device | None:
    """The device with this key, and note that it was used."""
    device = stash.devices.known(key)
    if device is not None:
        stash.devices.used(device)
    return device


def everyone(stash: Stash) -> list[Device]:
    """Every device that may ask."""
    return stash.devices.all()


def revoke(stash: Stash, name: str) -> Device:
    """Let a device in no more."""
    return stash.devices.revoke(name)

