"""The workroom's own certificate: an authority made once, and a short-lived paper under it.

The authority may speak only for local names, private numbers and its own (RFC 5280, name
constraints), so that a phone which trusts it risks nothing elsewhere.
"""

from __future__ import annotations

import ipaddress
import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

AUTHORITY_DAYS, PAPER_DAYS, RENEW_DAYS = 3650, 397, 30
PRIVATE = ("127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16")


@dataclass(frozen=True)
class Paper:
    """What a server shows: its certificate and key files, and the fingerprint to compare."""

    certificate: Path
    key: Path
    fingerprint: str


def certificate_for(folder: Path, hosts: Sequence[str], numbers: Sequence[str]) -> Paper:
    """A certificate for these names and numbers; made anew when they changed or it runs out."""
    folder.mkdir(parents=True, exist_ok=True)
    authority, authority_key = _authority(folder, hosts, numbers)
    files = folder / "server.crt", folder / "server.key"
    if not _serves(files[0], authority, hosts, numbers):
        key = ec.generate_private_key(ec.SECP256R1())
        paper = _signed(authority, authority_key, key, (hosts, numbers))
        _write(files[1], _pem(key), 0o600)
        _write(files[0], paper.public_bytes(serialization.Encoding.PEM)
               + authority.public_bytes(serialization.Encoding.PEM))
    shown = x509.load_pem_x509_certificate(files[0].read_bytes())
    digest = shown.fingerprint(hashes.SHA256()).hex(":").upper()
    return Paper(*files, digest)


def _authority(folder: Path, hosts: Sequence[str], numbers: Sequence[str]):
    """The authority made once; made anew only for a name or number it may not speak for."""
    paths = folder / "workroom.crt", folder / "workroom.key"
    if all(path.exists() for path in paths):
        known = x509.load_pem_x509_certificate(paths[0].read_bytes())
        if _may_speak_for(known, hosts, numbers):
            return known, serialization.load_pem_private_key(paths[1].read_bytes(), None)
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Lengthwise workroom")])
    odd = [n for n in numbers if not any(_within(n, network) for network in PRIVATE)]
    permitted = [
        *map(x509.DNSName, sorted({"local", "localhost", *hosts})),
        *(x509.IPAddress(ipaddress.ip_network(n)) for n in (*PRIVATE, *odd)),
    ]
    made = (
        _builder(name, name, key.public_key(), AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .sign(key, hashes.SHA256())
    )
    _write(paths[1], _pem(key), 0o600)
    _write(paths[0], made.public_bytes(serialization.Encoding.PEM))
    return made, key


def _may_speak_for(authority, hosts: Sequence[str], numbers: Sequence[str]) -> bool:
    kept = authority.extensions.get_extension_for_class(x509.NameConstraints).value
    names = [n.value for n in kept.permitted_subtrees if isinstance(n, x509.DNSName)]
    networks = [n.value for n in kept.permitted_subtrees if isinstance(n, x509.IPAddress)]
    lasting = authority.not_valid_after_utc > datetime.now(UTC) + timedelta(days=PAPER_DAYS)
    return lasting and all(
        any(host == name or host.endswith(f".{name}") for name in names) for host in hosts
    ) and all(any(_within(number, network) for network in networks) for number in numbers)


def _within(number: str, network) -> bool:
    return ipaddress.ip_address(number) in ipaddress.ip_network(network)


def _signed(authority, authority_key, key, names: tuple[Sequence[str], Sequence[str]]):
    hosts, numbers = names
    alternative = [*map(x509.DNSName, dict.fromkeys(hosts)),
                   *(x509.IPAddress(ipaddress.ip_address(n)) for n in dict.fromkeys(numbers))]
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, hosts[0])])
    return (
        _builder(subject, authority.subject, key.public_key(), PAPER_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(alternative), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(authority_key.public_key()),
            critical=False)
        .sign(authority_key, hashes.SHA256())
    )


def _builder(subject, issuer, public_key, days: int) -> x509.CertificateBuilder:
    now = datetime.now(UTC)
    return (
        x509.CertificateBuilder().subject_name(subject).issuer_name(issuer)
        .public_key(public_key).serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(hours=1)).not_valid_after(now + timedelta(days=days))
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(public_key), critical=False)
    )


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates, key_cert_sign=signs_certificates,
        crl_sign=signs_certificates, content_commitment=False, key_encipherment=False,
        data_encipherment=False, key_agreement=False, encipher_only=False, decipher_only=False,
    )


def _serves(path: Path, authority, hosts: Sequence[str], numbers: Sequence[str]) -> bool:
    if not path.exists():
        return False
    paper = x509.load_pem_x509_certificate(path.read_bytes())
    if paper.extensions.get_extension_for_class(
        x509.AuthorityKeyIdentifier
    ).value != x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.public_key()):
        return False
    if paper.not_valid_after_utc < datetime.now(UTC) + timedelta(days=RENEW_DAYS):
        return False
    names = paper.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    known = {*names.get_values_for_type(x509.DNSName),
             *map(str, names.get_values_for_type(x509.IPAddress))}
    return {*hosts, *numbers} <= known


def _pem(key) -> bytes:
    return key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8,
                             serialization.NoEncryption())


def _write(path: Path, content: bytes, mode: int = 0o644) -> None:
    path.unlink(missing_ok=True)
    with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
        file.write(content)
