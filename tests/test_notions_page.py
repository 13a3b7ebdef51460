"""docs/notions.md says what the tables say: no rule missing, none left over."""

from __future__ import annotations

from pathlib import Path

from stash.fibres import fibres
from stash.notions.published_tables import rows
from stash.notions.rules import rules
from stash.notions.thread import Stitch, stitches

PAGE = Path(__file__).parents[1] / "docs" / "notions.md"


def rule_lines() -> list[str]:
    """Every rule as a table line."""
    return [
        f"| {r.rule} | {r.value:g} {r.unit} | {r.status} | {r.source} |" for r in rules().values()
    ]


def stitch_lines() -> list[str]:
    """Every stitch class as a table line."""
    return [
        f"| {s.stitch} | {s.name} | {formula(s)} | {number(s.ratio)} | "
        f"{number(s.needle_share_pct)} | {s.status} | {s.source} | {s.ratio_status} | "
        f"{s.ratio_source} | {s.share_status} | {s.share_source} |"
        for s in stitches().values()
    ]


def caution_lines() -> list[str]:
    """Every caution as a table line."""
    return [f"| {c['says']} | {c['status']} | {c['source']} |" for c in rows("cautions")]


def formula(stitch: Stitch) -> str:
    """The formula as it is written: C = base + (aT + bW + cD) / L."""
    terms = [
        f"{n:g}{letter}"
        for n, letter in (
            (stitch.per_thickness, "T"), (stitch.per_width, "W"), (stitch.per_diagonal, "D"),
        )
        if n
    ]
    inside = terms[0] if len(terms) == 1 else f"({' + '.join(terms)})"
    return f"{stitch.base:g} + {inside} / L"


def number(value: float | None) -> str:
    """A figure, or a dash where nobody published one."""
    return "-" if value is None else f"{value:g}"


def test_the_page_holds_every_rule_stitch_and_caution_and_nothing_else():
    """A rule that changes must change on the page too."""
    written = [
        line for line in PAGE.read_text(encoding="utf-8").splitlines()
        if line.startswith("| ") and not line.startswith("| **")
    ]

    assert written == [*rule_lines(), *stitch_lines(), *caution_lines()]


def test_every_rule_and_fibre_has_a_status():
    """Sourced, from memory, or common practice: the reader is told."""
    known = ("sourced", "from memory", "common practice", "computed", "name sourced")

    assert all(r.status.startswith(known) for r in rules().values())
    assert all(s.status.startswith(known) for s in stitches().values())
    assert all(f.status.startswith(known) for f in fibres())


def test_a_sourced_rule_names_its_source():
    """A dash is allowed only where there is no source."""
    assert all(r.source != "-" for r in rules().values() if r.status.startswith("sourced"))


def test_every_rule_is_used():
    """A rule nobody calls is not kept."""
    code = "".join(
        path.read_text(encoding="utf-8") for path in (PAGE.parents[1] / "stash").rglob("*.py")
    )

    assert [key for key in rules() if f'value("{key}")' not in code] == []
