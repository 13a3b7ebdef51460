"""What is to be known of a draft: whose table filled it in and why, and how its fit was changed."""

from __future__ import annotations

from stash.draft.body import Body, term
from stash.draft.garment import Garment
from stash.draft.option import Options
from stash.draft.whose_table import Why
from stash.fact import Fact, Term, fact

OF_BODY = {"women": "women's", "men": "men's", "children": "children's"}


def said_of_body(body: Body) -> tuple[Fact, ...]:
    """Which table served and why, a question where that is not certain, what lies beyond it."""
    if not body.estimated:
        return ()
    whose, table = Term(OF_BODY[body.kind]), body.table
    kind = f"body_table_{table.why.value}"
    if table.why is Why.WAIST:
        facts = [fact(kind, body=whose, share_pct=round(100 * body["waist"] / body["hip"]))]
    else:
        facts = [fact(kind, body=whose)]
    if not table.certain:
        facts.append(fact("body_table_asked"))
    if body.beyond:
        facts.append(fact("estimates_beyond_table", measures=tuple(map(term, body.beyond))))
    return tuple(facts)


def said_of_fit(garment: Garment, options: Options) -> tuple[Fact, ...]:
    """Every change to the fit that the draft makes, by what it does."""
    about = {o.name: o.about for o in garment.options}
    return tuple(
        fact("fit_changed", adjustment=name, change=Term(about[name]), by_measure_mm=mm)
        for name, mm in options.adjusted().items()
    )
