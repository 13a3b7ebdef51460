"""The workroom's own certificate: when it is made anew, and for whom it may speak."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.x509.oid import ExtendedKeyUsageOID
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError

from web.secure import certificate
from web.secure.certificate import PAPER_DAYS, RENEW_DAYS, certificate_for

HOSTS, NUMBERS = ["stash.local", "localhost"], ["192.168.7.7", "127.0.0.1"]


@pytest.fixture
def later(monkeypatch):
    """So many days from now, as the workroom reckons them."""
    def move(days):
        class Clock(datetime):
            @classmethod
            def now(cls, tz=None):
                """Then."""
                return datetime.now(tz) + timedelta(days=days)

        monkeypatch.setattr(certificate, "datetime", Clock)

    return move


def read(path):
    """The first certificate of a file."""
    return x509.load_pem_x509_certificate(path.read_bytes())


def verified(folder, paper, host):
    """As a telephone that trusts the authority checks it (RFC 5280, 6; RFC 6125)."""
    verifier = PolicyBuilder().store(Store([read(folder / "workroom.crt")])).time(
        datetime.now(UTC)).build_server_verifier(x509.DNSName(host))
    return verifier.verify(read(paper.certificate), [])


def test_it_is_verified_for_its_own_names_and_no_other(tmp_path):
    """By the checks of a general library, which share nothing with what made it."""
    paper = certificate_for(tmp_path, HOSTS, NUMBERS)

    assert verified(tmp_path, paper, "stash.local")
    with pytest.raises(VerificationError):
        verified(tmp_path, paper, "elsewhere.example")


def test_it_serves_pages_and_signs_nothing(tmp_path):
    """Key usage of an end entity (RFC 5280, 4.2.1.3, 4.2.1.9 and 4.2.1.12)."""
    extensions = read(certificate_for(tmp_path, HOSTS, NUMBERS).certificate).extensions

    assert not extensions.get_extension_for_class(x509.BasicConstraints).value.ca
    assert not extensions.get_extension_for_class(x509.KeyUsage).value.key_cert_sign
    usage = extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]


def test_its_key_belongs_to_it_and_is_read_by_its_owner_only(tmp_path):
    """The file that is shown and the file that is kept are a pair."""
    paper = certificate_for(tmp_path, HOSTS, NUMBERS)
    key = serialization.load_pem_private_key(paper.key.read_bytes(), None)

    assert key.public_key() == read(paper.certificate).public_key()
    assert paper.key.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize(("days", "renewed"), [
    (PAPER_DAYS - RENEW_DAYS - 1, False), (PAPER_DAYS - RENEW_DAYS + 1, True)])
def test_it_is_made_anew_a_month_before_it_runs_out_under_the_same_authority(
    tmp_path, later, days, renewed
):
    """A telephone that trusts the authority sees nothing of it."""
    first = certificate_for(tmp_path, HOSTS, NUMBERS)
    authority = (tmp_path / "workroom.crt").read_bytes()
    later(days)

    second = certificate_for(tmp_path, HOSTS, NUMBERS)

    assert (second.fingerprint != first.fingerprint) is renewed
    assert (tmp_path / "workroom.crt").read_bytes() == authority


def test_the_authority_outlives_every_certificate_under_it(tmp_path, later):
    """It is made anew while what it signs could still outlast it."""
    certificate_for(tmp_path, HOSTS, NUMBERS)
    before = read(tmp_path / "workroom.crt")
    later(certificate.AUTHORITY_DAYS - PAPER_DAYS + 1)

    paper = certificate_for(tmp_path, HOSTS, NUMBERS)

    after = read(tmp_path / "workroom.crt")
    assert after != before
    assert after.not_valid_after_utc > read(paper.certificate).not_valid_after_utc


def test_another_private_number_needs_no_other_authority(tmp_path):
    """Routers give numbers out anew (RFC 1918); only a public one has to be named."""
    certificate_for(tmp_path, HOSTS, NUMBERS)
    authority = (tmp_path / "workroom.crt").read_bytes()

    certificate_for(tmp_path, HOSTS, ["10.1.2.3"])
    assert (tmp_path / "workroom.crt").read_bytes() == authority

    certificate_for(tmp_path, HOSTS, ["198.51.100.7"])
    assert (tmp_path / "workroom.crt").read_bytes() != authority
