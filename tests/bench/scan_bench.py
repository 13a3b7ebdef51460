"""How many labels are read, by whom, and how long it takes: one run, one table.

    python tests/bench/scan_bench.py                 families, side by side
    python tests/bench/scan_bench.py --stills        24 labels in a 12-megapixel photograph
    python tests/bench/scan_bench.py --misreads N    N frames, counting wrong codes

The same seed gives the same frames. A read counts only when its text names the true code.
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections import Counter, defaultdict
from collections.abc import Callable

import cv2
import numpy as np
import scan_scenes
import scan_stills

from labels.payload import interpret
from labels.reading import Thoroughness, look
from labels.reading import decoders as ours

Reader = Callable[[np.ndarray], list[str]]
"""From a BGR picture to the codes it holds."""


def readers() -> dict[str, Reader]:
    """Each decoder as its library gives it, and ours at both efforts."""
    plain_cv2, aruco = cv2.QRCodeDetector(), cv2.QRCodeDetectorAruco()
    found = {
        "cv2": lambda image: _cv2(plain_cv2, image),
        "cv2 Aruco": lambda image: _cv2(aruco, image),
        "zxing-cpp": lambda image: _codes(t for t, _ in ours.zxing(_grey(image))),
        "ours, video": lambda image: [r.code for r in look(image, Thoroughness.FAST).readings],
        "ours, still": lambda image: [r.code for r in look(image, Thoroughness.FULL).readings],
    }
    zbar = ours.zbar()
    if zbar is None:
        return found
    return {"pyzbar": lambda image: _codes(t for t, _ in zbar(_grey(image)))} | found


def _grey(image: np.ndarray) -> np.ndarray:
    return cv2.cvtColor(image, cv2.COLOR_BGR2GRAY)


def _cv2(detector, image: np.ndarray) -> list[str]:
    try:
        _, texts, _, _ = detector.detectAndDecodeMulti(_grey(image))
    except cv2.error:
        return []
    return _codes(texts)


def _codes(texts) -> list[str]:
    return [payload.code.text for payload in map(interpret, texts) if payload]


def families(count: int, seed: int, only: str | None) -> None:
    """Read rate of every family, then all together with times."""
    names = readers()
    total, times = Counter(), defaultdict(list)
    print("| family | " + " | ".join(names) + " |\n|---|" + "---|" * len(names))
    chosen = {n: f for n, f in scan_scenes.FAMILIES.items() if only is None or only in n}
    for number, (family, scenes) in enumerate(chosen.items()):
        hits = Counter()
        for n in range(count):
            image, code = scan_scenes.frame(scenes[n % len(scenes)], seed + 100_000 * number + n)
            for name, reader in names.items():
                began = time.perf_counter()
                hits[name] += reader(image) == [code]
                times[name].append((time.perf_counter() - began) * 1000)
        total.update(hits)
        print(f"| {family} | " + " | ".join(f"{100 * hits[n] / count:.0f}" for n in names) + " |",
              flush=True)
    frames = count * len(chosen)
    print("| all | " + " | ".join(f"{100 * total[n] / frames:.1f}" for n in names) + " |")
    print("| mean / p95 ms | " + " | ".join(_spent(times[n]) for n in names) + " |")


def _spent(ms: list[float]) -> str:
    return f"{statistics.mean(ms):.1f} / {statistics.quantiles(ms, n=20)[-1]:.0f}"


def stills(count: int, seed: int) -> None:
    """Labels read in photographs of a full sheet, and the median time for one."""
    names = readers()
    print("| 12 MP, 24 labels | " + " | ".join(names) + " |\n|---|" + "---|" * len(names))
    hits, times, wanted = Counter(), defaultdict(list), 0
    for n in range(count):
        image, codes = scan_stills.photograph(seed + n)
        wanted += len(codes)
        for name, reader in names.items():
            began = time.perf_counter()
            hits[name] += len(set(reader(image)) & codes)
            times[name].append((time.perf_counter() - began) * 1000)
    print("| read % | " + " | ".join(f"{100 * hits[n] / wanted:.1f}" for n in names) + " |")
    print("| median ms | " + " | ".join(f"{statistics.median(times[n]):.0f}" for n in names) + " |")


def misreads(count: int, seed: int) -> None:
    """Wrong codes among ``count`` frames of every kind, a fifth of them without a label.

    Each scene is shown in eight variants.
    """
    scenes = [scene for family in scan_scenes.FAMILIES.values() for scene in family]
    shown = read = wrong = 0
    for n in range(-(-count // 8)):
        blank = n % 5 == 0
        scene = scan_scenes.BLANKS[n // 5 % len(scan_scenes.BLANKS)] if blank else scenes[
            n % len(scenes)
        ]
        image, code = scan_scenes.frame(scene, seed + n)
        cv2.setRNGSeed(seed + n)
        for picture in scan_scenes.variants(image, seed + n):
            found = [r.code for r in look(picture).readings]
            read += found == [code]
            wrong += any(other != code for other in found)
            shown += 1
        if shown % 2000 == 0:
            print(f"{shown} frames, {read} read, {wrong} wrong", flush=True)


def main() -> None:
    """Parse the command line and run one of the three."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--frames", type=int, default=200, help="frames a family, or photographs")
    parser.add_argument("--seed", type=int, default=20_000_000)
    parser.add_argument("--only", help="only families whose name holds this")
    parser.add_argument("--stills", action="store_true")
    parser.add_argument("--misreads", type=int, metavar="N")
    chosen = parser.parse_args()
    cv2.setNumThreads(1)
    if chosen.misreads:
        misreads(chosen.misreads, chosen.seed)
    elif chosen.stills:
        stills(chosen.frames, chosen.seed)
    else:
        families(chosen.frames, chosen.seed, chosen.only)


if __name__ == "__main__":
    main()
