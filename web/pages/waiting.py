"""What every page that waits for an answer asks: how far is it, and please stop."""

from __future__ import annotations

from flask import Blueprint, redirect, url_for

from web.jobs import jobs, kept

pages = Blueprint("waiting", __name__, url_prefix="/waiting")


@pages.get("/<key>/state")
def state(key: str):
    """For the page's script: whether there is anything new, and how long it takes."""
    job = kept(key)
    place = jobs().place(job)
    return {
        "state": job.state.value, "over": job.over, "done": job.done, "total": job.total,
        "place": place, "seconds": job.seconds,
        "version": f"{job.state.value}-{place}-{job.done}-{id(job.found)}-{job.awaited}",
    }


@pages.post("/<key>/stop")
def stop(key: str):
    """End the work with the best it has, or take it out of the queue."""
    job = kept(key)
    jobs().stop(job)
    return redirect(url_for(job.answered_at, key=key), 303)
