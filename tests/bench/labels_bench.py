"""How long a thousand labels take to become a PDF.

    python tests/bench/labels_bench.py
"""

from __future__ import annotations

import time
from random import Random

from labels.content import Label, LabelKind
from labels.pdf import Printing, sheet_pdf
from labels.sheets import sheet_named
from stash.model import Code

COUNT = 1000


def labels() -> list[Label]:
    """A thousand different labels with every line filled."""
    random = Random(1)
    return [
        Label(
            code=Code.draw(random).text, name=f"Washed linen number {n}",
            size=f"138 cm × {0.5 + n / 100:.2f} m", fibre="55 % linen, 45 % cotton",
            place=f"Shelf {n % 30}", kind=LabelKind.CUT,
        )
        for n in range(COUNT)
    ]


def main() -> None:
    """Print the time by the clock and of the processor."""
    made = labels()
    began, worked = time.perf_counter(), time.process_time()
    pdf = sheet_pdf(made, Printing(sheet=sheet_named("a4-24"), address="http://stash.local:5000"))
    print(
        f"{COUNT} labels, {len(pdf) / 1e6:.1f} MB: {time.perf_counter() - began:.1f} s, "
        f"of which {time.process_time() - worked:.1f} s processor"
    )


if __name__ == "__main__":
    main()
