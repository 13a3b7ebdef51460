"""Every page on a large stash: how long it takes, how much it sends, when it shows anything.

    python tests/bench/pages_bench.py [--cuts 10000 --bins 5000] [--rounds 9] [--browser]
                                      [--keep FOLDER] [--no-files]

Each address that answers a look is asked in this process, so the work is the page's alone;
p50 and p95 are by the clock and by processor time. Bytes are the page's own, unpacked and
packed, without photographs. The stash, its notions and places are looked at a second time with
something recorded before each look. A loop of the same sums each time tells how busy the
machine is. With --browser Chromium shows each page with a quarter of its
speed (CDP, Emulation.setCPUThrottlingRate) and tells when the first of it was seen; and once
more at full speed, to count what its main thread had to do until the page had loaded (CDP,
Performance, in ticks of that thread): no other work on the machine changes that.
"""

from __future__ import annotations

import argparse
import gzip
import os
import shutil
import statistics
import tempfile
import time
import urllib.parse
from collections.abc import Callable
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path
from typing import Any

from big_stash import make
from flask import Flask

from stash.store import open_stash
from stash.workroom.report import bring_up
from web import create_app
from web.http_server import answering

QUERIES = {
    "home.show": ("", "?q=tide+linen", "?fibre=wool&by=name", "?least=2+m", "?first=300"),
    "bins.index": ("", "?q=horn", "?kind=button"),
    "shopping.like": ("?colour=%237a1f2b", "?words=linen", "?colour=%231f3a7a&mass=180"),
    "history.show": ("", "?code={cut}"),
    "labels.show": ("", "?for={cut}"),
}
AFTER_A_CHANGE = ("home.show", "bins.index", "places.index", "history.show")
WITHOUT = {  # what no page is
    "static", "photos.show", "guide.show_picture", "settings.certificate",
}
WHOLE = {"safekeeping.backup", "report.table", "spreadsheet.out", "pocket.copy", "pocket.lines",
         "described.show"}
"""Whole files to be saved, and what a script asks for in the background: told apart."""


@dataclass(frozen=True)
class Figures:
    """Of one page: milliseconds by the clock and of work, bytes as they are and packed."""

    clock: list[float]
    work: list[float]
    size: int
    packed: int
    status: int


def addresses(app: Flask, cut: str, bin_: str, place: str) -> dict[str, list[str]]:
    """Addresses of each page, by its endpoint; pages that follow a search have none here."""
    known = {"code": cut, "name": "Person 07", "place": place, "form": "svg", "garment": "tote-bag",
             "what": "sheet", "kind": "csv", "row": 0, "number": 1}
    own = {"places.named": {"name": place}, "plans.show": {"name": "Plan 07"},
           "cutting.show": {"name": "Plan 07"}, "bins.edit": {"code": bin_},
           "plans.drawing": None, "drafts.show": {"name": "trousers"},
           "drafts.save": {"name": "trousers"}, "patterns.show": None, "patterns.save": None,
           "guide.show": {"name": "first-hour"}}
    found: dict[str, list[str]] = {}
    for rule in app.url_map.iter_rules():
        values = own.get(rule.endpoint, {})
        if "GET" not in (rule.methods or ()) or values is None or "key" in rule.arguments:
            continue
        if rule.endpoint in WITHOUT or rule.rule.startswith("/patterns/own"):
            continue
        values = {name: (values | {} if values else {}).get(name, known.get(name, "x"))
                  for name in rule.arguments}
        with app.test_request_context():
            path = app.url_map.bind("localhost").build(rule.endpoint, values)
        queries = QUERIES.get(rule.endpoint, ("",))
        found[rule.endpoint] = [
            path + q.format(cut=cut, place=urllib.parse.quote(place)) for q in queries]
    return found


def asked(
    app: Flask, path: str, rounds: int, first: Callable[[], object] = lambda: None
) -> Figures:
    """One address, asked so often by a browser that is at the computer itself.

    ``first`` is done before each look and not counted.
    """
    client = app.test_client()
    clock, work, body, status = [], [], b"", 0
    for _ in range(rounds + 1):
        first()
        began, ran = time.perf_counter(), time.thread_time()
        answer = client.get(path)
        body, status = answer.get_data(), answer.status_code
        clock.append(1000 * (time.perf_counter() - began))
        work.append(1000 * (time.thread_time() - ran))
        answer.close()
    return Figures(clock[1:], work[1:], len(body), len(gzip.compress(body, 6)), status)


def something_recorded(app: Flask, cut: str) -> Callable[[], object]:
    """What lays a cut elsewhere, and elsewhere again."""
    shelves = cycle(("Shelf 0001", "Shelf 0002"))

    def move() -> None:
        with open_stash(Path(app.config["DATA"]), keeping=False) as stash:
            stash.cuts.move(cut, next(shelves))

    return move


def loop_ms() -> float:
    """What a loop of two million additions takes by the clock: more on a busy machine."""
    began, total = time.perf_counter(), 0
    for n in range(2_000_000):
        total += n
    return 1000 * (time.perf_counter() - began)


def p95(values: list[float]) -> float:
    """The value that one in twenty exceeds."""
    return sorted(values)[min(len(values) - 1, round(0.95 * (len(values) - 1)))]


@dataclass(frozen=True)
class Seen:
    """Milliseconds to the first contentful paint, bytes without pictures, the browser's work."""

    painted_ms: float = 0.0
    came: int = 0
    work_ms: float = 0.0


def main_thread_ms(browser: Any, address: str) -> float:
    """What the page's main thread did until all was loaded, at full speed."""
    page = browser.new_page(viewport={"width": 360, "height": 740})
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable", {"timeDomain": "threadTicks"})
    page.goto(address, timeout=0)
    told = {one["name"]: one["value"]
            for one in session.send("Performance.getMetrics")["metrics"]}
    page.close()
    return 1000 * float(told["TaskDuration"])


def first_seen(port: int, paths: list[str], slower: float) -> dict[str, Seen]:
    """How each page comes."""
    from playwright.sync_api import sync_playwright

    names = ("chromium", "chromium-browser", "google-chrome")
    found: dict[str, Seen] = {}
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=next(filter(None, map(shutil.which, names))), args=["--no-sandbox"])
        for path in paths:
            page = browser.new_page(viewport={"width": 360, "height": 740})
            session = page.context.new_cdp_session(page)
            session.send("Network.enable")
            session.send("Emulation.setCPUThrottlingRate", {"rate": slower})
            kinds: dict[str, str] = {}
            sizes: dict[str, int] = {}
            session.on("Network.responseReceived",
                       lambda e, k=kinds: k.update({e["requestId"]: e["type"]}))
            session.on("Network.loadingFinished", lambda e, s=sizes: s.update(
                {e["requestId"]: int(e["encodedDataLength"])}))
            page.goto(f"http://127.0.0.1:{port}{path}", timeout=0)
            painted = page.evaluate(
                "() => new Promise(tell => new PerformanceObserver(list => {"
                " const seen = list.getEntriesByName('first-contentful-paint')[0];"
                " if (seen) tell(seen.startTime) }).observe({type: 'paint', buffered: true}))")
            came = sum(size for key, size in sizes.items() if kinds.get(key) != "Image")
            page.close()
            work = main_thread_ms(browser, f"http://127.0.0.1:{port}{path}")
            found[path] = Seen(float(painted), came, work)
        browser.close()
    return found


def _is_page(app: Flask, path: str) -> bool:
    """Whether a browser would paint anything there."""
    with app.test_client().get(path) as answer:
        return answer.status_code == 200 and answer.mimetype == "text/html"


def main() -> None:
    """Print the table: one line a page, its worst address."""
    wanted = argparse.ArgumentParser(description=__doc__)
    wanted.add_argument("--cuts", type=int, default=10_000)
    wanted.add_argument("--bins", type=int, default=5_000)
    wanted.add_argument("--rounds", type=int, default=9)
    wanted.add_argument("--browser", action="store_true")
    wanted.add_argument("--only", default="", help="Pages whose name begins so.")
    wanted.add_argument("--no-files", action="store_true", help="Leave whole files out.")
    wanted.add_argument("--keep", type=Path, help="Keep the stash here, or take it from here.")
    options = wanted.parse_args()
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as room:
        place = options.keep or Path(room)
        if not (place / "stash.db").exists():
            began = time.process_time()
            make(place, options.cuts, options.bins)
            print(f"{options.cuts} cuts and {options.bins} bins made in "
                  f"{time.process_time() - began:.0f} s of work")
        began = time.process_time()
        with open_stash(place, keeping=False) as stash:
            bring_up(stash)  # as the app does in the background when it starts
        print(f"summed up in {time.process_time() - began:.1f} s of work")
        _table(create_app(place), options)


def _table(app: Flask, options: argparse.Namespace) -> None:
    with open_stash(Path(app.config["DATA"]), keeping=False) as stash:
        rows = stash.ledger.db.execute("SELECT code, place FROM cut WHERE gone IS NULL LIMIT 1")
        (cut, shelf), = rows.fetchall()
        ((bin_,),) = stash.ledger.db.execute("SELECT code FROM bin LIMIT 1").fetchall()
    pages = {name: paths for name, paths in addresses(app, cut, bin_, shelf).items()
             if name.startswith(options.only) and not (options.no_files and name in WHOLE)}
    painted: dict[str, Seen] = {}
    if options.browser:
        with answering(app, "127.0.0.1", 0) as server:
            painted = first_seen(server.port, [
                path for name, paths in pages.items() for path in paths
                if name not in WHOLE and _is_page(app, path)], 4.0)
    print(f"{'page':<24}{'p50 ms':>8}{'p95 ms':>8}{'work p50':>10}{'work p95':>10}"
          f"{'kB':>8}{'packed':>8}{'painted':>9}{'all kB':>8}{'browser':>9}"
          f"   (the loop: {loop_ms():.0f} ms)")
    looks: dict[str, list[tuple[str, Callable[[], object]]]] = {
        name: [(path, lambda: None) for path in paths] for name, paths in pages.items()}
    looks |= {f"{name}, changed": [(path, something_recorded(app, cut)) for path in pages[name]]
              for name in AFTER_A_CHANGE if name in pages}
    for name, addressed in sorted(looks.items()):
        worst = max(((path, asked(app, path, options.rounds, first)) for path, first in addressed),
                    key=lambda pair: statistics.median(pair[1].work))
        path, one = worst
        seen = max((painted.get(p, Seen()) for p, _ in addressed), key=lambda s: s.painted_ms)
        print(f"{name:<24}{statistics.median(one.clock):>8.0f}{p95(one.clock):>8.0f}"
              f"{statistics.median(one.work):>10.0f}{p95(one.work):>10.0f}"
              f"{one.size / 1000:>8.0f}{one.packed / 1000:>8.0f}"
              f"{seen.painted_ms:>9.0f}{seen.came / 1000:>8.0f}{seen.work_ms:>9.0f}"
              f"  {'' if one.status == 200 else one.status} "
              f"{urllib.parse.unquote(path)}{' (a whole file)' if name in WHOLE else ''}",
              flush=True)


if __name__ == "__main__":
    main()
