"""The bodies that drafts are held against: rows of the published tables, and some about them."""

from random import Random

from stash.reference import table

Body = tuple[dict[str, float], str]


def every_row(girths: tuple[str, ...] = ("bust", "waist", "hip")) -> list[Body]:
    """Every row of the body tables: its girths in millimetres, and whose body it is."""
    rows = [*table("bodies_adult"), *table("bodies_children")]
    return [({g: float(r[f"{g}_cm"]) * 10 for g in girths}, r["body"]) for r in rows]


def varied(count: int, girths: tuple[str, ...] = ("bust", "waist", "hip")) -> list[Body]:
    """Every row, and ``count`` more whose girths vary by 5 % about a row's."""
    rows = every_row(girths)
    random = Random(18)
    more: list[Body] = []
    for _ in range(count):
        measured, kind = random.choice(rows)
        more.append(({g: mm * random.gauss(1, 0.05) for g, mm in measured.items()}, kind))
    return [*rows, *more]
