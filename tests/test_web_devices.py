"""Over the network only a paired device gets in, and it may do what its role says."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta

import pytest

from stash.model import Cloth, Cut, Outline, Person
from stash.store import open_stash
from stash.store.ledger import Hand
from web.devices.how_often import Bucket

PHONE = {"REMOTE_ADDR": "192.168.1.77"}
SECURE = "https://stash.local:5001"
PLAIN = "http://stash.local:5000"


@pytest.fixture
def cut(web_stash):
    """A cut of 3 m, and a person with measurements."""
    web_stash.people.save(Person(name="Odile Farrant", measurements_mm={"hip": 980, "waist": 740}))
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code


@pytest.fixture
def phone(web_client):
    """A browser on another computer of the network, without cookies."""
    return web_client.application.test_client()


def paired(web_client, phone, role, name="Odile’s phone"):
    """The phone once it has scanned the code on the computer's screen."""
    page = web_client.post("/devices/", data={"name": name, "role": role}).text
    secret = re.search(r"pair\?s=([\w-]+)", page)[1]
    assert phone.get(f"/devices/pair?s={secret}", base_url=SECURE, environ_base=PHONE
                     ).status_code == 200
    answer = phone.post("/devices/pair", data={"secret": secret}, base_url=SECURE,
                        environ_base=PHONE)
    assert answer.status_code == 303
    return secret


STRANGE = ["/", "/people/", "/people/one?name=Odile Farrant", "/settings/", "/history/", "/bins/",
           "/record/", "/record/backup.zip", "/devices/", "/nowhere", "/scan/what?text=x"]


@pytest.mark.parametrize("path", STRANGE)
@pytest.mark.parametrize("base", [SECURE, PLAIN])
def test_a_stranger_sees_nothing(phone, cut, path, base):
    """No page, no name, no number."""
    answer = phone.get(path, base_url=base, environ_base=PHONE)

    assert answer.status_code == 403
    assert "not paired" in answer.text
    assert "Odile" not in answer.text and "Dune" not in answer.text


def test_a_stranger_changes_nothing(phone, web_stash, cut):
    """Not by any button that exists."""
    before = list(web_stash.ledger.events())
    rules = [r for r in phone.application.url_map.iter_rules() if "POST" in r.methods]
    for rule in rules:
        path = re.sub(r"<[^>]*>", cut, rule.rule)
        answer = phone.post(path, base_url=SECURE, environ_base=PHONE,
                            data={"event": "1", "address": "http://evil.example", "how": "gift"})
        assert answer.status_code in (403, 404, 429), path
    assert list(web_stash.ledger.events()) == before


def test_every_event_says_who_and_on_which_device(web_client, phone, web_stash, cut):
    """The name that the device was paired under."""
    paired(web_client, phone, "record")
    answer = phone.post(f"/cuts/{cut}/cut-off", data={"quick": "1 m"}, base_url=SECURE,
                        environ_base=PHONE)

    assert answer.status_code == 303
    newest = web_stash.ledger.latest()[0]
    assert (newest.who, newest.device) == ("Odile’s phone", "Odile’s phone")
    assert web_stash.devices.all()[0].last_used


@pytest.mark.parametrize(("role", "path", "method", "status"), [
    ("look", "/", "get", 200), ("look", "/people/", "get", 403), ("look", "/settings/", "get", 403),
    ("look", "/cuts/{}/cut-off", "post", 403), ("look", "/record/backup.zip", "get", 403),
    ("record", "/cuts/{}/cut-off", "post", 303), ("record", "/people/", "get", 403),
    ("record", "/settings/", "post", 403), ("record", "/devices/", "get", 403),
    ("all", "/people/", "get", 200), ("all", "/settings/", "get", 200),
    ("all", "/devices/", "post", 403), ("all", "/devices/revoke", "post", 403),
    ("all", "/record/mend", "post", 403),
])
def test_a_device_may_do_what_its_role_says(
    web_client, phone, cut, role, path, method, status
):
    """Measurements and settings only for the last; devices only at the computer itself."""
    paired(web_client, phone, role)
    send = getattr(phone, method)
    more = {"data": {"quick": "1 m", "name": "x", "role": "all"}} if method == "post" else {}

    answer = send(path.format(cut), base_url=SECURE, environ_base=PHONE, **more)

    assert answer.status_code == status


def test_only_the_computer_itself_changes_the_address(web_client, phone, web_stash, cut):
    """It decides which hosts are trusted."""
    paired(web_client, phone, "all")
    form = {"address": "http://evil.example", "units": "metric", "edge_mm": "0",
            "clearance_mm": "0", "off_grain_deg": "0", "widths": "140 cm",
            "increment_mm": "10 cm", "selvedge_mm": "1 cm"}
    answer = phone.post("/settings/", data=form, base_url=SECURE, environ_base=PHONE)

    assert answer.status_code == 403
    assert web_stash.settings.address is None


def test_over_a_plain_connection_nothing_is_recorded(web_client, phone, web_stash, cut):
    """Its key is not even sent there by a browser; sent all the same, it serves for looking."""
    paired(web_client, phone, "record")
    key = phone.get_cookie("lengthwise-device", domain="stash.local")
    assert key.secure and key.http_only
    other = web_client.application.test_client()
    other.set_cookie("lengthwise-device", key.value, domain="stash.local")

    assert other.get("/", base_url=PLAIN, environ_base=PHONE).status_code == 200
    answer = other.post(f"/cuts/{cut}/cut-off", data={"quick": "1 m"}, base_url=PLAIN,
                        environ_base=PHONE)
    assert answer.status_code == 403
    assert "secure" in answer.text
    assert web_stash.cuts.get(cut).length_mm == 3000


def test_a_plain_address_leads_to_the_secure_one(web_client, phone, cut):
    """A label that was printed with http opens on a phone all the same."""
    web_client.application.config["SECURE_PORT"] = 5001
    answer = phone.get(f"/c/{cut}", base_url=PLAIN, environ_base=PHONE)

    assert (answer.status_code, answer.location) == (307, f"https://stash.local:5001/c/{cut}")


def test_a_code_serves_once_and_not_for_ever(web_client, phone, web_data, cut):
    """Nor does a guess."""
    secret = paired(web_client, phone, "look")
    late = web_client.application.test_client()
    for tried in (secret, "", "x" * 22):
        answer = late.post("/devices/pair", data={"secret": tried}, base_url=SECURE,
                           environ_base=PHONE)
        assert answer.status_code == 404
    with open_stash(web_data) as stash:
        made = stash.devices.offer("Later", "look" and stash.devices.all()[0].role)
    hour = Hand(clock=lambda: datetime.now(UTC) + timedelta(hours=1))
    with open_stash(web_data, hand=hour) as stash, pytest.raises(Exception, match="offer_over"):
        stash.devices.pair(made.secret)


def test_a_revoked_device_is_a_stranger(web_client, phone, cut):
    """At once."""
    paired(web_client, phone, "all")
    web_client.post("/devices/revoke", data={"name": "odile’s PHONE"})

    assert phone.get("/", base_url=SECURE, environ_base=PHONE).status_code == 403


def test_guessing_is_slowed_down(phone, cut):
    """After ten wrong codes nobody is listened to for a while; the computer itself always is."""
    phone.application.extensions["failures"].clock = lambda: 0.0  # all in one moment
    told = [phone.post("/devices/pair", data={"secret": f"guess{n}"}, base_url=SECURE,
                       environ_base=PHONE).status_code for n in range(14)]

    assert told.count(429) >= 3
    assert phone.get("/").status_code == 200


def test_a_proxy_on_this_computer_makes_nobody_at_home(phone, cut):
    """What it passes on comes from somewhere else."""
    assert phone.get("/", headers={"X-Forwarded-For": "192.168.1.77"}).status_code == 403


def test_keys_lie_in_the_record_only_as_digests(web_client, phone, web_data, cut):
    """Whoever reads the file cannot ask with what stands there."""
    paired(web_client, phone, "all")
    key = phone.get_cookie("lengthwise-device", domain="stash.local").value
    with open_stash(web_data) as stash:
        stash.settle()
    assert key.encode() not in (web_data / "stash.db").read_bytes()


def test_a_bucket_refills():
    """Three drops, and one a second."""
    now = [0.0]
    bucket = Bucket(most=3, a_second=1, clock=lambda: now[0])
    assert [bucket.take("a") for _ in range(4)] == [True, True, True, False]
    assert bucket.take("b")
    now[0] = 2.0
    assert [bucket.take("a") for _ in range(3)] == [True, True, False]


@pytest.mark.parametrize(("role", "kept"), [("look", False), ("record", False), ("all", True)])
def test_only_a_device_that_may_see_measurements_keeps_them(web_client, phone, cut, role, kept):
    """The list of what a phone may keep names people's pages for one role alone."""
    paired(web_client, phone, role)
    answer = phone.get("/pocket/copy.json", base_url=SECURE, environ_base=PHONE)
    assert ("/people/" in answer.json["pages"]) is kept
    lines = phone.get("/pocket/stash.json", base_url=SECURE, environ_base=PHONE)
    assert "Odile" not in lines.text


def test_a_device_that_is_known_no_longer_is_told_to_forget(phone, cut):
    """By a header that the copy's own script reads."""
    answer = phone.get("/", base_url=SECURE, environ_base=PHONE)
    assert answer.headers["Lengthwise-Device"] == "unknown"
