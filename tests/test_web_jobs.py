"""Work in the background: its states, its errors, and its stop."""

import threading
import time

from stash.errors import Conflict
from web.jobs import KEPT, Job, Jobs, State


def wait(job: Job) -> Job:
    """The job once it is over."""
    for _ in range(500):
        if job.over:
            return job
        time.sleep(0.01)
    raise AssertionError("the job did not end")


def test_the_result_of_the_work_is_kept():
    """A job ends with what its work returned, and says how far it came."""
    jobs = Jobs()

    def work(job):
        job.step(3, 4, "three of four")
        return "a lay"

    job = wait(jobs.start(Job(title="trousers"), work))

    assert (job.state, job.result, job.done, job.total) == (State.DONE, "a lay", 3, 4)
    assert jobs.get(job.key) is job


def test_our_own_errors_keep_their_sentence_and_others_get_one():
    """No traceback reaches the person; a bug is told as one sentence."""
    jobs = Jobs()

    def refuses(_job):
        raise Conflict("The plan holds this cloth.")

    def breaks(_job):
        raise ZeroDivisionError

    assert wait(jobs.start(Job(title="a"), refuses)).error.fact.values["says"] == (
        "The plan holds this cloth.")
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
    begun.wait(5)

    jobs.close()

    assert wait(job).result == "the best so far"


def test_only_so_many_finished_jobs_are_kept():
    """The oldest answers are forgotten first."""
    jobs = Jobs()
    first = wait(jobs.start(Job(title="first"), lambda job: None))

    for _ in range(KEPT + 1):
        last = wait(jobs.start(Job(title="next"), lambda job: None))

    assert jobs.get(first.key) is None
    assert jobs.get(last.key) is last
