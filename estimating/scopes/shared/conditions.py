"""What an operation does to its room, by the row of its rate: dust or mist in the air, something wet, a machine used.

And whether it may be done while something is still wet. All of it is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from estimating.estimate.pricing.plan import InAir
from estimating.row_key import RowKey

SPRAYER = "sprayer"
MACHINES = {"airless": SPRAYER}
CARE = frozenset({"set_up_sprayer", "wash_sprayer", "change_color"})  # of a machine: nothing is put on a surface
DUSTY = frozenset(
    {
        "sand_wall",
        "sand_trim",
        "sand_deck",
        "loose_paint",
        "degloss",
        "dust_ceiling",
        "dust_down",
        "sand_ceiling",
        "scrape_sand_prime",
    }
)
DUSTY_BEGINS = ("scrape_ceiling",)
MISTY = frozenset({"roll_ceiling"})  # overhead, a roller throws a mist of its own
WET_BEGINS = (
    "patch",
    "crack",
    "skim_ceiling",
    "tape_failure",
    "wash_wall",
    "wash_ceiling",
    "wash_trim",
    "wash_mildew",
    "degrease",
)
WET_OUTSIDE = ("wash_exterior", "remove_finish", "brighten")
COATS_BEGIN = (
    "roll_",
    "brush_wall",
    "prime_wall",
    "paint_",
    "spray_",
    "stain_",
    "repaint_wall",
    "norm_",
    "spot_prime",
    "deck",
    "fence",
    "lattice",
    "siding",
    "shingle",
    "soffit",
    "fascia",
    "gutter",
    "shutter",
    "downspout",
)
DRY_BEGINS = (*COATS_BEGIN, "sand_", "degloss", "hang_")


@dataclass(frozen=True)
class Conditions:
    """What an operation does to its room, and what it asks of it."""

    in_air: InAir = InAir.NOTHING
    machine: str = ""
    wet: bool = False
    needs_dry: bool = False


@lru_cache(maxsize=1024)  # a few hundred rows, asked for again by every task of every method
def conditions_of(rate_key: str) -> Conditions:
    """Return what the operation of a row does to its room; nothing where a task has no row."""
    keys = RowKey.parse(rate_key).keys if rate_key else ()
    operation, method = [*keys, "", ""][:2]  # a task without a rate has neither
    if operation in CARE:
        return Conditions()
    machine = next((name for tool, name in MACHINES.items() if method.startswith(tool)), "")
    dusty = operation in DUSTY or operation.startswith(DUSTY_BEGINS)
    misty = bool(machine) or operation in MISTY
    return Conditions(
        in_air=InAir.MIST if misty else InAir.DUST if dusty else InAir.NOTHING,
        machine=machine,
        wet=operation.startswith((*WET_BEGINS, *WET_OUTSIDE, *COATS_BEGIN)),
        needs_dry=operation.startswith(DRY_BEGINS),
    )
