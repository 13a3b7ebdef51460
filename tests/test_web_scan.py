"""The scan page: photographs, typed codes, and what the live camera asks for."""

import io

import pytest
import segno
from PIL import Image

from labels.again import FORGET_AFTER_S
from stash.model import Cloth, Cut, Outline


@pytest.fixture
def codes(web_stash):
    """Four cuts."""
    return [
        web_stash.cuts.receive(Cut(
            code="", cloth=Cloth(name=f"Cloth {n}"), outline=Outline.rectangle(1000, 1400))).code
        for n in range(4)
    ]


def photograph(*texts: str) -> io.BytesIO:
    """A picture of QR symbols beside one another, as a phone would send it."""
    picture = Image.new("L", (320 * max(len(texts), 1), 340), 235)
    for n, text in enumerate(texts):
        png = io.BytesIO()
        segno.make(text, micro=False, error="h").save(png, kind="png", scale=8, border=4)
        picture.paste(Image.open(png).resize((280, 280)), (20 + 320 * n, 30))
    out = io.BytesIO()
    picture.save(out, "JPEG")
    out.seek(0)
    return out


def send(client, content: io.BytesIO, name: str = "photo.jpg"):
    """The form of the scan page, with one photograph."""
    body = (
        f'--part\r\nContent-Disposition: form-data; name="photo"; filename="{name}"\r\n'
        "Content-Type: image/jpeg\r\n\r\n"
    ).encode() + content.getvalue() + b"\r\n--part--\r\n"
    return client.post(
        "/scan/photo", data=body, content_type="multipart/form-data; boundary=part")


def test_a_photograph_of_one_label_opens_it(web_client, codes):
    """The address in the square was printed in capitals."""
    answer = send(web_client, photograph(f"HTTP://STASH.LOCAL:5000/C/{codes[0]}"))

    assert answer.status_code == 303
    assert answer.location == f"/c/{codes[0]}"


def test_a_photograph_of_several_labels_lists_them(web_client, codes):
    """From left to right, by name."""
    page = send(web_client, photograph(*codes)).text

    assert "4 labels read" in page
    assert page.index("Cloth 0") < page.index("Cloth 3")


def test_a_photograph_without_a_label_says_what_to_do(web_client):
    """No label, no guess."""
    answer = send(web_client, photograph())

    assert answer.status_code == 422
    assert "Move closer" in answer.text


def test_a_text_file_called_jpg_is_refused(web_client):
    """What is no picture gets a sentence."""
    answer = send(web_client, io.BytesIO(b"not a picture at all"), "label.jpg")

    assert answer.status_code == 422
    assert "not a photograph" in answer.text


def test_a_forty_megabyte_photograph_is_taken_and_a_sixty_megabyte_one_is_not(web_client, codes):
    """A large photograph is no reason to fail; a huge one gets a sentence."""
    large = io.BytesIO(photograph(codes[0]).getvalue() + b"\0" * 40_000_000)
    assert send(web_client, large).status_code == 303

    answer = send(web_client, io.BytesIO(b"\0" * 60_000_000))

    assert answer.status_code == 413
    assert "too large" in answer.text


def test_a_typed_code_opens_whatever_its_case_and_spacing(web_client, codes):
    """People type small letters and spaces."""
    typed = codes[0].lower()

    answer = web_client.post("/scan/typed", data={"code": f" {typed[:3]} {typed[3:]} "})

    assert answer.location == f"/c/{codes[0]}"


def test_a_hand_scanner_types_the_whole_address(web_client, codes):
    """What the square holds opens the same label."""
    answer = web_client.post(
        "/scan/typed", data={"code": f"HTTP://OLD-NAME.LOCAL:5000/C/{codes[1]}"})

    assert answer.location == f"/c/{codes[1]}"


@pytest.mark.parametrize("typed", ["", "hello", "https://example.org/x", "0O1IL2", "é" * 300])
def test_what_is_no_code_is_refused_on_the_same_page(web_client, typed):
    """One sentence, and the field again."""
    answer = web_client.post("/scan/typed", data={"code": typed})

    assert answer.status_code in (404, 422)
    assert 'name="code"' in answer.text


def test_a_label_of_another_stash_is_called_foreign(web_client, web_stash):
    """Its host was never ours and its code is not here."""
    foreign = web_stash.labels.new_code()

    answer = web_client.get(
        "/scan/what", query_string={"text": f"HTTP://OTHER.LOCAL:5000/C/{foreign}"})

    assert answer.status_code == 404
    assert "another stash" in answer.json["error"]


def test_the_live_camera_learns_what_a_label_is_on(web_client, codes):
    """Name, size and where to go, as JSON."""
    label = web_client.get("/scan/what", query_string={"text": codes[2]}).json

    assert (label["what"], label["name"], label["url"]) == ("cut", "Cloth 2", f"/c/{codes[2]}")


def test_the_camera_of_a_page_forgets_as_the_camera_here_does(web_client):
    """One span after which a label read twice is told again, wherever it is read."""
    page = web_client.get("/scan/").text

    assert f'data-forget-after-ms="{FORGET_AFTER_S * 1000:.0f}"' in page
