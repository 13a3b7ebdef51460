"""The nouns of the workroom, as frozen values: no SQL, no HTTP, no clock."""

from stash.model.cloth import Cloth, Construction, Cut, FibreShare, Repeat, ShrinkStatus
from stash.model.code import Code
from stash.model.laid import Laid
from stash.model.lay import Lay, Placement, Spread
from stash.model.need import Closure, ClothWants, Need
from stash.model.notions import Bin, Notion, NotionKind
from stash.model.outline import Outline, Point
from stash.model.pattern import (
    Joined,
    Mark,
    MarkKind,
    Part,
    Pattern,
    Piece,
    Recipe,
    Role,
    Seam,
    SewnEdge,
)
from stash.model.person import MeasureSet, Person
from stash.model.plan import Plan, PlannedGarment
from stash.model.underlay import Underlay

__all__ = [
    "Bin", "Closure", "Cloth", "ClothWants", "Code", "Construction", "Cut", "FibreShare",
    "Joined", "Laid", "Lay", "Mark", "MarkKind", "MeasureSet", "Need", "Notion", "NotionKind",
    "Outline",
    "Part", "Pattern", "Person", "Piece", "Placement", "Plan", "PlannedGarment", "Point",
    "Recipe", "Repeat", "Role", "Seam", "SewnEdge", "ShrinkStatus", "Spread",
    "Underlay",
]
