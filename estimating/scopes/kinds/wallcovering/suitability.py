"""What walls have for and against each method of hanging, the facts that hazards hang on, and what is said of it."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Finding, Suitability
from estimating.figures import Figure, leaf, work
from estimating.job.values import Answer
from estimating.origins import definition
from estimating.scopes.kinds.wallcovering.facts import BARE, Papering, net_walls
from estimating.scopes.kinds.wallcovering.layout import feet
from estimating.scopes.kinds.wallcovering.notes import (
    CeilingLine,
    Covering,
    FirstCoat,
    OldCovering,
    Place,
    Release,
    RollFormat,
    WallState,
)
from estimating.scopes.kinds.wallcovering.removal import GOES_BADLY, by_the_hour
from estimating.scopes.shared.exposure import Exposure
from estimating.trade.wallcovering import hanging as work_rules
from estimating.trade.wallcovering import rolls as rules

SHOWS_THROUGH = (OldCovering.EMBOSSED, OldCovering.GRASSCLOTH, OldCovering.FOIL)
HEAVY = (Covering.COMMERCIAL, Covering.GRASSCLOTH, Covering.MURAL)
REPEATS = ((6.0, "0_to_6"), (12.0, "7_to_12"), (18.0, "13_to_18"))  # inches; the printed classes of the table


def exposure(walls: Papering, method: str) -> Exposure:
    """Return the facts of one way of papering the walls that a hazard can hang on."""
    if method == "decline":
        return Exposure(worked=False, damp=walls.item.wall is WallState.DAMP)
    stripped = strips(walls, method)
    filled = stripped or walls.item.wall in (WallState.ROUGH, WallState.PATCHED)
    return Exposure(
        old_paint=walls.area if _disturbs_paint(walls, method) else None,
        suspects=("old plaster or joint compound",) if filled else (),
        suspect_area=walls.area if filled else None,
        compound="filler is sanded" if filled else "",
        scraped=stripped,
        stripped=stripped,
        strippers=stripped,
        top=walls.work_area.room.height,
        top_name="paper up to the ceiling",
        over_stairs=walls.item.place is Place.STAIRS,
        damp=walls.item.wall is WallState.DAMP,
    )


def _disturbs_paint(walls: Papering, method: str) -> bool:
    """Say whether paint under or on the covering is scraped, scuffed or dulled; a bare wall has none."""
    if method == "hang_over":
        return walls.item.existing.painted_over is Answer.YES
    return strips(walls, method) or walls.item.wall not in BARE


def findings(walls: Papering, method: str) -> tuple[Finding, ...]:
    """Return what the walls and the old covering have against a method of papering them."""
    if method == "decline":
        return ()
    rules_ = [_for_any]
    rules_ += [_for_over] if method == "hang_over" else [_for_removal] if strips(walls, method) else [_for_bare]
    return tuple(reason for each in rules_ for reason in each(walls, method))


def strips(walls: Papering, method: str) -> bool:
    """Say whether a method begins by taking the old covering off."""
    return method == "strip_hang" or (method == "line_hang" and walls.covered is not False)


def _for_any(walls: Papering, method: str) -> Iterator[Finding]:
    state = walls.item.wall
    if state is WallState.DAMP:
        yield Finding(Suitability.CLOSED, "the wall is damp: the water is found and stopped first, and the wall dries")
    if state is WallState.ROUGH and method == "hang_over":
        yield Finding(Suitability.CLOSED, "a rough wall shows through two coverings as it does through one")
    if walls.item.ceiling_line in (CeilingLine.UNEVEN, CeilingLine.SLOPED) and walls.paper.paper.to_cut.matched_repeat:
        yield Finding(
            Suitability.CONDITIONS, "the ceiling is out of level and the pattern will show it: agree where it begins"
        )


def _for_bare(walls: Papering, method: str) -> Iterator[Finding]:
    if walls.covered:
        yield Finding(Suitability.CLOSED, f"{walls.item.existing.covering} hangs on the wall: it comes off first")
    elif walls.covered is None:
        yield Finding(Suitability.CONDITIONS, "we have not checked whether old wallcovering is under the paint")
    if walls.item.wall in (WallState.BARE_BOARD, WallState.BARE_PLASTER) and walls.item.first_coat is FirstCoat.NONE:
        yield Finding(
            Suitability.CLOSED, f"{walls.item.wall}, neither primed nor sized: the paper never comes off again"
        )


def _for_removal(walls: Papering, method: str) -> Iterator[Finding]:
    if walls.covered is False:
        yield Finding(Suitability.CLOSED, "there is nothing to strip")
        return
    if walls.covered is None:
        yield Finding(Suitability.CONDITIONS, "we have not checked what is on the wall now")
    made, wanted = len(walls.removal.tests), int(walls.removal.tests_wanted.value)
    if made < wanted:
        yield Finding(
            Suitability.CONDITIONS, f"{made} of {wanted} test strips taken: take the others, or strip by the hour"
        )
    torn = walls.removal.among(*GOES_BADLY)
    if torn:
        places = ", ".join(test.where or "a place not noted" for test in torn)
        yield Finding(
            Suitability.CONDITIONS,
            f"at {places} the wall came off with the paper, or the paper would not come off: put in writing",
        )
    if walls.item.existing.wall_sized is Answer.NO:
        yield Finding(Suitability.CONDITIONS, "the wall was never sized: face paper comes off with the covering")


def _for_over(walls: Papering, method: str) -> Iterator[Finding]:
    old = walls.item.existing
    if not walls.covered:
        yield Finding(Suitability.CLOSED, "there is nothing known to hang over")
        return
    yield from _what_closes_it(walls)
    if old.covering is OldCovering.VINYL:
        yield Finding(
            Suitability.CONDITIONS, "paste does not hold on vinyl: we prime it and use a seam paste of its own"
        )
    if walls.item.goods.covering in HEAVY:
        yield Finding(Suitability.CONDITIONS, f"{walls.item.goods.covering} is heavy: the old covering carries it")
    yield Finding(Suitability.CONDITIONS, "new paper over old: if the old one lets go, both come off together")


def _what_closes_it(walls: Papering) -> Iterator[Finding]:
    old = walls.item.existing
    dry = walls.removal.among(Release.DRY)
    made, wanted = len(walls.removal.tests), int(walls.removal.tests_wanted.value)
    if old.tight is Answer.NO:
        yield Finding(Suitability.CLOSED, "the old covering is open or blistered")
    elif old.tight is None:
        yield Finding(Suitability.CLOSED, "nobody has found every seam and edge tight")
    if made < wanted:
        yield Finding(Suitability.CLOSED, f"{made} of {wanted} test strips taken: too few to say that it holds")
    if old.covering in SHOWS_THROUGH:
        yield Finding(Suitability.CLOSED, f"{old.covering}: its surface shows through or keeps paste from holding")
    if old.layers is not None and old.layers > 1:
        yield Finding(Suitability.CLOSED, f"{old.layers} layers already: another pulls on the weakest of them")
    if dry or old.covering is OldCovering.STRIPPABLE:
        place = f" at {dry[0].where}" if dry and dry[0].where else ""
        yield Finding(Suitability.CLOSED, f"the old covering peels dry{place}: wet paste would lift it too")


def client_requirements(walls: Papering) -> tuple[str, ...]:
    """Return what papering asks of the household beyond what its hazards ask."""
    occupied = walls.work_area.job.site.occupied is not Answer.NO
    wanted = [
        (True, "take pictures, shelves and hooks off the walls we paper"),
        (walls.clients_paper, "have every roll in the house, all of one batch, before the first day"),
        (occupied, "leave the heat at its usual setting and windows closed while the paper dries"),
    ]
    return tuple(text for holds, text in wanted if holds)


def notes(walls: Papering, method: str) -> tuple[str, ...]:
    """Return what should be said beside the price."""
    said = [*_paper_notes(walls)]
    if strips(walls, method):
        said += _removal_notes(walls)
    if method == "hang_over":
        said.append("old seams are cut out and filled, and new seams are kept off them")
    if method == "line_hang":
        said.append("lining takes up small faults and suction; its seams stand away from those of the paper")
    return tuple(said)


def _paper_notes(walls: Papering) -> Iterator[str]:
    paper = walls.paper
    layout = paper.layout
    yield (
        f"{layout.strips_taken} strips of {paper.paper.size}: {layout.full_strips} cut in full, {len(layout.parts)} "
        f"parts, out of {paper.cuts.rolls} rolls as taped"
    )
    yield _second_words(walls)
    if paper.rolls_at_worst is None:
        yield "a roll that begins where the pattern is wanted least gives no strip at all: open one before the order"
    elif paper.rolls_at_worst > paper.cuts.rolls:
        yield f"{paper.rolls_at_worst} rolls if every one begins where the pattern is wanted least"
    yield from _slivers(walls)
    yield "one batch: order all rolls at once, read the number on each, and stop at the first that differs in shade"
    if walls.clients_paper:
        yield "the client's goods: faults are claimed before the second strip is cut; agree who bears time lost"
    yield "the last strip meets the first without a match: agree in which corner"


def _slivers(walls: Papering) -> Iterator[str]:
    least = feet(walls.work_area.basis.figure("wallcovering", "least_piece", "length"))
    narrow = [strip for strip in walls.paper.layout.strips if strip.right - strip.left < least]
    for strip in narrow:
        inches = (strip.right - strip.left) * 12
        yield f"strip {strip.number} on {strip.wall} is {inches:.1f} in wide: begin elsewhere or shift a seam"


def second_opinion(walls: Papering) -> Figure:
    """Return the rolls, or the length of wide goods, by area: a check on the strips that knows nothing of them."""
    paper, basis = walls.paper.paper, walls.work_area.basis
    area = net_walls(walls.item, walls.work_area)
    if paper.by_length:
        waste = basis.figure("wallcovering", "wide_goods_waste", "share")
        return work(rules.running_length_by_area, "length by area", area=area, width=paper.width, waste=waste)
    usable = work(
        rules.usable_area,
        "usable area of a roll",
        width=paper.width,
        length=paper.length,
        single=basis.figure("wallcovering", "roll_metric_single", "area"),
        single_usable=basis.figure("wallcovering", "roll_metric_single", f"usable_repeat_{_repeat_class(walls)}"),
    )
    return work(rules.rolls_by_area, "rolls by usable area", area=area, usable_area=usable)


def _repeat_class(walls: Papering) -> str:
    inches = walls.paper.paper.to_cut.matched_repeat * 12
    return next((name for most, name in REPEATS if inches <= most), "19_to_23")


def _second_words(walls: Papering) -> str:
    by_area = second_opinion(walls).value
    if walls.item.goods.format is RollFormat.WIDE:
        return f"second opinion, by area: {by_area:.0f} ft of wide goods; by strips {walls.paper.running.value:.0f} ft"
    beyond = walls.paper.paper.to_cut.matched_repeat * 12 > 23
    table = "; the printed table ends at a repeat of 23 in" if beyond else ""
    return f"second opinion, by usable area: {by_area:.0f} rolls; by strips {walls.paper.cuts.rolls}{table}"


def waste(walls: Papering) -> Figure:
    """Return the share of the rolls as taped that does not end up on the wall."""
    paper = walls.paper
    return work(
        rules.paper_waste,
        "paper that does not end up on the wall",
        covered_area=leaf("papered, as laid out", paper.layout.covered_area, "ft**2", paper.full.origin),
        rolls=dict(paper.rolls.inputs)["as_taped"],
        roll_length=leaf("a roll", feet(paper.paper.length), "ft", definition("one roll as laid out")),
        width=paper.paper.width,
    )


def _removal_notes(walls: Papering) -> Iterator[str]:
    made = len(walls.removal.tests)
    cost = {name: figure.value for name, figure in by_the_hour(walls.removal, walls.work_area).items()}
    yield (
        f"removal by time and material instead: best {cost['best']:,.0f}, likely {cost['likely']:,.0f}, worst "
        f"{cost['worst']:,.0f} dollars; this fixed price carries {cost['average']:,.0f}, the mean of the three by "
        "their chances"
    )
    if made:
        chance = float(work_rules.chance_slower_than_tested(tests=float(made)))
        yield f"{made} test strips: the next place is slower than the slowest of them in {chance:.0%} of walls"
    else:
        yield "no test strip was taken: nothing but a table stands behind the removal"
    yield "what comes off with the paper beyond the worst priced here is a change order, agreed before work goes on"
