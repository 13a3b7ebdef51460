"""The tables of the sums, and how each row is added to its sums as it comes and taken off again.

Sums are of whole numbers (thousandths of a millimetre, of a gram, of a minor unit of money):
so what is added and taken off again leaves exactly what was there.
"""

from __future__ import annotations

FORM = "1"
"""Another word whenever a table, or what a row says, is changed: older files are made anew."""

FLOW = (
    "code", "event", "cloth", "day", "way", "fibre", "plan", "length_um", "money_milli",
    "sold_minor", "waste_um", "waste_mm2", "rag_mg", "lay", "utilisation",
)
SOURCE = ("code", "root", "width_mm", "day")
HERE = ("code", "cloth", "since", "length_um", "running_um", "fibre", "colour", "size", "acquired")
TRAITS = ("fibre", "colour", "size", "acquired")
SUMMED = ("length_um", "money_milli", "sold_minor", "waste_um", "waste_mm2", "rag_mg")


def _flow_sums(row: str, sign: str) -> str:
    """The statement that adds a row of ``flow`` to its sum, or takes it off."""
    values = ", ".join(f"{sign}ifnull({row}.{name}, 0)" for name in SUMMED)
    added = ", ".join(f"{name} = {name} + excluded.{name}" for name in ("flows", *SUMMED))
    return (
        f"INSERT INTO flowed (month, fibre, plan, way, flows, {', '.join(SUMMED)})"
        f" VALUES (substr({row}.day, 1, 7), {row}.fibre, {row}.plan, {row}.way, {sign}1, {values})"
        f" ON CONFLICT (month, fibre, plan, way) DO UPDATE SET {added};")


def _stock_sums(row: str, sign: str) -> str:
    """As for ``flow``: the cuts that are here, by each of their traits."""
    return "".join(
        f"INSERT INTO stock (trait, value, cuts, running_um)"
        f" VALUES ('{trait}', {row}.{trait}, {sign}1, {sign}{row}.running_um)"
        " ON CONFLICT (trait, value) DO UPDATE SET"
        " cuts = cuts + excluded.cuts, running_um = running_um + excluded.running_um;"
        for trait in TRAITS)


def _trigger(table: str, when: str, then: str) -> str:
    return f"CREATE TRIGGER {table}_{when.lower()} AFTER {when} ON {table} BEGIN {then} END"


TABLES = (
    "CREATE TABLE upto (form, event, checksum)",
    f"CREATE TABLE flow ({', '.join(FLOW)}, PRIMARY KEY (code, event)) WITHOUT ROWID",
    f"CREATE TABLE flowed (month, fibre, plan, way, flows, {', '.join(SUMMED)},"
    " PRIMARY KEY (month, fibre, plan, way)) WITHOUT ROWID",
    f"CREATE TABLE source ({', '.join(SOURCE)}, PRIMARY KEY (code)) WITHOUT ROWID",
    f"CREATE TABLE here ({', '.join(HERE)}, PRIMARY KEY (code)) WITHOUT ROWID",
    "CREATE TABLE stock (trait, value, cuts, running_um, PRIMARY KEY (trait, value)) WITHOUT ROWID",
)
"""The statements that make the tables."""
SUMMED_AT_ONCE = (
    f"INSERT INTO flowed SELECT substr(day, 1, 7), fibre, plan, way, count(*),"
    f" {', '.join(f'sum(ifnull({name}, 0))' for name in SUMMED)} FROM flow GROUP BY 1, 2, 3, 4",
    *(f"INSERT INTO stock SELECT '{trait}', {trait}, count(*), sum(running_um) FROM here"
      f" GROUP BY {trait}" for trait in TRAITS),
)
"""Every row summed; what triggers do row by row takes longer when all rows are new."""
KEPT_UP = (
    "CREATE INDEX flow_cloth ON flow (cloth)",
    "CREATE INDEX flow_lay ON flow (event) WHERE lay",
    "CREATE INDEX here_cloth ON here (cloth)",
    "CREATE INDEX here_since ON here (since, length_um DESC)",
    _trigger("flow", "INSERT", _flow_sums("NEW", "+")),
    _trigger("flow", "DELETE", _flow_sums("OLD", "-")),
    _trigger("here", "INSERT", _stock_sums("NEW", "+")),
    _trigger("here", "DELETE", _stock_sums("OLD", "-")),
)
"""What keeps the sums up as rows come and go from then on."""


def insertion(table: str, columns: tuple[str, ...]) -> str:
    """The statement that writes one row."""
    marks = ", ".join("?" * len(columns))
    return f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({marks})"
