"""The one page that waits for an answer, whatever was asked."""

from __future__ import annotations

import io
import threading

import pytest
from until import until

from stash.model import Person
from web.jobs import AT_ONCE, MOST_WAITING, Job, State


@pytest.fixture
def queue(web_client):
    """The app's queue, all its turns taken until the test ends."""
    jobs, ended = web_client.application.extensions["jobs"], threading.Event()
    running = [jobs.start(Job(title="running"), lambda job: ended.wait())
               for _ in range(AT_ONCE)]
    until(lambda: all(job.state is State.WORKING for job in running))
    yield jobs
    jobs.close()  # first, so that nothing which waits is begun
    ended.set()


def asked(client, web_stash, question: str):
    """The reply to one of the three questions that are answered in the background."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040, "waist": 820}))
    if question == "tracing":
        photo = (io.BytesIO(b"not a picture"), "photo.jpg")
        return client.post("/tracing/", data={"photo": photo})
    where = {"become": "/become/", "shopping": "/shopping/begin"}[question]
    return client.post(where, data={"garment": "trousers", "person": "Odile"})


@pytest.mark.parametrize("question", ["become", "shopping", "tracing"])
def test_every_question_waits_in_one_queue_and_can_leave_it(
    question, web_client, web_stash, queue
):
    """The page names its place; taken out, it says so and offers to ask again."""
    where = asked(web_client, web_stash, question).location
    key = where.rpartition("/")[2]
    waiting = web_client.get(where).text
    state = web_client.get(f"/waiting/{key}/state").json

    assert "number 1 in the queue" in waiting
    assert "Take it out of the queue" in waiting
    assert (state["state"], state["place"], state["over"]) == ("waiting", 1, False)

    left = web_client.post(f"/waiting/{key}/stop")

    assert left.location == where
    page = web_client.get(where).text
    assert "taken out of the queue" in page
    assert "again" in page or "another photograph" in page
    assert web_client.get(f"/waiting/{key}/state").json["over"]


def test_a_full_queue_refuses_with_a_sentence(web_client, web_stash, queue):
    """The form comes back with what was typed, and what waits goes on waiting."""
    for _ in range(MOST_WAITING):
        queue.start(Job(title="waits"), lambda job: None)

    refused = asked(web_client, web_stash, "become")

    assert refused.status_code == 409
    assert f"{MOST_WAITING} searches are waiting for their turn already" in refused.text


def test_a_tracing_that_has_not_ended_cannot_be_kept(web_client, web_stash, queue):
    """There is nothing to keep yet: one sentence."""
    where = asked(web_client, web_stash, "tracing").location

    kept = web_client.post(f"{where}/keep", data={"name": "Sail bag"})

    assert kept.status_code == 409
    assert "has not ended yet" in kept.text


def test_photographs_are_no_longer_traced_once_the_person_has_had_enough():
    """They are traced together, so none of them is done before the others."""
    from stash.errors import InvalidInput
    from stash.workroom.tracing import trace_over

    with pytest.raises(InvalidInput) as refused:
        trace_over((b"1", b"2", b"3"), stop=lambda: True)
    assert refused.value.fact.kind == "reading_stopped"
