"""Serving and the demo from the command line, and the workroom's own certificate."""

import json
import socket
import ssl
import urllib.request

import pytest
from click.testing import CliRunner
from cryptography import x509

from stash.store import open_stash
from web.command import main
from web.secure.certificate import certificate_for


def run(*words: str):
    """The command as it is typed."""
    return CliRunner().invoke(main, [str(word) for word in words])


def test_the_demo_fills_a_folder_and_says_what_it_made(tmp_path):
    """At least 40 cuts and 40 bins, by their codes; running it twice adds nothing."""
    first = json.loads(run("--data", tmp_path / "d", "demo", "--no-serve", "--json").stdout)
    again = json.loads(run("--data", tmp_path / "d", "demo", "--no-serve", "--json").stdout)

    assert len(first["cuts"]) >= 40
    assert len(first["bins"]) >= 40
    assert again == first
    with open_stash(tmp_path / "d") as stash:
        assert len(stash.cuts.all()) == len(first["cuts"])
        assert {p.name for p in stash.people.all()} == set(first["people"])


def test_the_demo_never_touches_a_stash_of_her_own(tmp_path):
    """A folder with somebody's record is refused and stays as it was."""
    with open_stash(tmp_path) as stash:
        stash.places.receive("My shelf")

    answer = run("--data", tmp_path, "demo", "--no-serve")

    assert answer.exit_code == 1
    assert "not the demo" in answer.stderr
    with open_stash(tmp_path) as stash:
        assert stash.cuts.all() == []


def test_the_demo_never_writes_among_other_files(tmp_path):
    """A folder that holds something else is not a place for a stash."""
    (tmp_path / "letters.txt").write_text("dear")

    answer = run("--data", tmp_path, "demo", "--no-serve")

    assert answer.exit_code == 1
    assert "other files" in answer.stderr


def test_a_port_in_use_is_one_sentence(tmp_path):
    """No traceback, and what to do instead."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()

        answer = run("--data", tmp_path, "serve", "--port", taken.getsockname()[1])

    assert answer.exit_code == 1
    assert "already in use" in answer.stderr
    assert "--port" in answer.stderr


def test_the_certificate_is_short_lived_and_speaks_only_for_local_names(tmp_path):
    """At most 398 days (CA/Browser Forum Baseline Requirements 6.3.2), under an authority
    whose name constraints (RFC 5280, 4.2.1.10) keep it to this network."""
    paper = certificate_for(tmp_path, ["stash.local", "localhost"], ["127.0.0.1"])

    leaf = x509.load_pem_x509_certificate(paper.certificate.read_bytes())
    authority = x509.load_pem_x509_certificate((tmp_path / "workroom.crt").read_bytes())
    lasts = leaf.not_valid_after_utc - leaf.not_valid_before_utc
    constraints = authority.extensions.get_extension_for_class(x509.NameConstraints)

    assert lasts.days <= 398
    assert constraints.critical
    leaf.verify_directly_issued_by(authority)
    assert (tmp_path / "workroom.key").stat().st_mode & 0o077 == 0


def test_the_certificate_is_kept_until_the_address_changes(tmp_path):
    """A phone that trusts it is not asked again without need."""
    first = certificate_for(tmp_path, ["localhost"], ["127.0.0.1"])
    same = certificate_for(tmp_path, ["localhost"], ["127.0.0.1"])
    moved = certificate_for(tmp_path, ["localhost"], ["127.0.0.1", "192.168.7.7"])

    assert same.fingerprint == first.fingerprint
    assert moved.fingerprint != first.fingerprint


@pytest.fixture
def secure_address(web_client, tmp_path):
    """The app over TLS on a free port, and the authority to trust.

    The network's number changed meanwhile to one outside the private ranges, so that the
    authority had to be made anew.
    """
    from web.http_server import answering

    certificate_for(tmp_path / "secure", ["localhost"], ["127.0.0.1"])
    paper = certificate_for(
        tmp_path / "secure", ["localhost", "loft.example"], ["127.0.0.1", "192.0.2.7"])
    with answering(web_client.application, "127.0.0.1", 0, paper) as pages:
        yield f"https://localhost:{pages.port}/more", tmp_path / "secure" / "workroom.crt"


def test_pages_come_over_a_secure_connection_that_is_verified(secure_address):
    """With the authority trusted, Python's own checks pass; a silent client blocks nobody."""
    address, authority = secure_address
    context = ssl.create_default_context(cafile=authority)
    port = int(address.rpartition(":")[2].partition("/")[0])

    with (
        socket.create_connection(("127.0.0.1", port)),
        urllib.request.urlopen(address, context=context) as answer,
    ):
        assert answer.status == 200
