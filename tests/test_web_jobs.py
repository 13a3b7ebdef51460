"""Work in the background: its states, its errors, and its stop."""

import threading
import time

import pytest
from until import until

from stash.errors import Conflict
from web.jobs import AT_ONCE, KEPT, MOST_WAITING, Job, Jobs, State, kept
from web.jobs import jobs as jobs_of_app


def wait(job: Job) -> Job:
    """The job once it is over."""
    until(lambda: job.over)
    return job


def test_the_result_of_the_work_is_kept():
    """A job ends with what its work returned, and says how far it came."""
    jobs = Jobs()

    def work(job):
        job.step(3, 4)
        return "a lay"

    job = wait(jobs.start(Job(title="trousers"), work))

    assert (job.state, job.result, job.done, job.total) == (State.DONE, "a lay", 3, 4)
    assert jobs.get(job.key) is job


def test_our_own_errors_keep_their_sentence_and_others_get_one():
    """No traceback reaches the person; a bug is told as one sentence."""
    jobs = Jobs()

    def refuses(_job):
        raise Conflict("plan_without_garments", plan="Spring")

    def breaks(_job):
        raise ZeroDivisionError

    assert wait(jobs.start(Job(title="a"), refuses)).error.fact.kind == "plan_without_garments"
    broken = wait(jobs.start(Job(title="b"), breaks))
    assert broken.state is State.FAILED
    assert broken.error.fact.kind == "computation_failed"


def test_closing_asks_everything_to_stop():
    """The app can end while a search is under way, and what waits is not begun."""
    jobs, begun = Jobs(), threading.Event()

    def searches(job):
        begun.set()
        while not job.should_stop():
            time.sleep(0.01)
        return "the best so far"

    job = jobs.start(Job(title="long"), searches)
    begun.wait()

    jobs.close()

    assert wait(job).result == "the best so far"


def test_whoever_ends_them_may_wait_until_none_is_at_work():
    """Asked to, closing comes back when the last has stopped; what waited is never begun."""
    jobs, stopped, begun = Jobs(), [], []

    def searches(job):
        until(job.should_stop)
        stopped.append(job)

    running = [jobs.start(Job(title="long"), searches) for _ in range(AT_ONCE)]
    until(lambda: all(job.state is State.WORKING for job in running))
    jobs.start(Job(title="waits"), begun.append)

    jobs.close(wait=True)

    assert len(stopped) == AT_ONCE
    assert begun == []


def test_only_so_many_finished_jobs_are_kept():
    """The oldest answers are forgotten first."""
    jobs = Jobs()
    first = wait(jobs.start(Job(title="first"), lambda job: None))

    for _ in range(KEPT + 1):
        last = wait(jobs.start(Job(title="next"), lambda job: None))

    assert jobs.get(first.key) is None
    assert jobs.get(last.key) is last


@pytest.fixture
def busy():
    """Jobs of which as many run as may, until the fixture's event is set."""
    jobs, ended = Jobs(), threading.Event()
    running = [jobs.start(Job(title="running"), lambda job: ended.wait())
               for _ in range(AT_ONCE)]
    until(lambda: all(job.state is State.WORKING for job in running))
    yield jobs, ended
    ended.set()
    jobs.close()


def test_what_waits_knows_its_place_and_moves_up(busy):
    """The next one is number 1; what runs has no place, and leaving the queue moves others up."""
    jobs, ended = busy
    first, second = (jobs.start(Job(title=t), lambda job: "found") for t in ("first", "second"))

    assert [jobs.place(job) for job in (first, second)] == [1, 2]
    jobs.stop(first)

    assert (first.state, first.over, first.result) == (State.CANCELLED, True, None)
    assert jobs.place(second) == 1
    ended.set()
    assert wait(second).result == "found"
    assert jobs.place(second) == 0


def test_only_so_many_wait(busy):
    """One more is refused with a sentence, and nothing of those that wait is lost."""
    jobs, _ = busy
    queue = [jobs.start(Job(title="waits"), lambda job: None) for _ in range(MOST_WAITING)]

    with pytest.raises(Conflict) as refused:
        jobs.start(Job(title="one too many"), lambda job: None)

    assert refused.value.fact.kind == "too_many_waiting"
    assert [jobs.place(job) for job in queue] == list(range(1, MOST_WAITING + 1))


def test_how_long_counts_from_the_turn(busy):
    """While it waits it says how long it has waited; once begun, how long it has worked."""
    jobs, ended = busy
    day = 24 * 3600
    job = jobs.start(Job(title="waits", since_s=time.monotonic() - day), lambda job: None)

    assert job.seconds >= day
    ended.set()
    assert wait(job).seconds < day


def test_a_page_shows_the_work_as_it_stood_when_the_page_was_asked_for(web_client):
    """Work that ends while a page is drawn is not called over beside a part of its answer."""
    app, go_on = web_client.application, threading.Event()

    def searches(job):
        job.found = "the first fit"
        go_on.wait()
        return "the whole answer"

    with app.app_context():
        running = jobs_of_app().start(Job(title="shorts"), searches)
        try:
            until(lambda: running.found)
            shown = kept(running.key)
        finally:
            go_on.set()
        wait(running)

        assert (shown.over, shown.found, shown.result) == (False, "the first fit", None)
        assert (kept(running.key).over, kept(running.key).result) == (True, "the whole answer")
