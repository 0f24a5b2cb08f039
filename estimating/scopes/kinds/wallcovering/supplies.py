"""What papering takes to buy: paper of one batch, lining, paste, and what is used up."""

from __future__ import annotations

from dataclasses import replace

from estimating.estimate.pricing.plan import Supply
from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin, definition
from estimating.scopes.kinds.wallcovering.facts import Papering, one, spare
from estimating.scopes.kinds.wallcovering.notes import OldCovering
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import masking
from estimating.trade.wallcovering import hanging
from estimating.trade.wallcovering import rolls as rules


def paper_supply(walls: Papering) -> Supply:
    """Return the new paper: whole rolls of one batch with the spare, or a length of wide goods in whole steps."""
    return _by_length(walls) if walls.paper.paper.by_length else _by_roll(walls)


def paper_order(walls: Papering) -> Figure:
    """Return the rolls to order, all of one batch."""
    sold = walls.item.goods.sold_by
    key = f"{walls.where} · goods · sold_by"
    pack = (
        leaf("rolls sold together", sold, "dimensionless", Origin(Kind.ENTERED, place=key), key=key)
        if sold
        else one("rolls sold together", "dimensionless", "sold one by one unless the label says otherwise")
    )
    title = walls.paper.paper.title
    return work(
        rules.rolls_to_order, f"{title}: rolls to order", rolls=walls.paper.rolls, spare=spare(walls), pack=pack
    )


def _by_roll(walls: Papering) -> Supply:
    return Supply(
        _item(walls), f"{_title_of(walls)}, rolls of one batch", paper_order(walls), None, _price(walls), chosen=True
    )


def _by_length(walls: Papering) -> Supply:
    paper, goods = walls.paper, walls.item.goods
    key = f"{walls.where} · goods · step"
    step = (
        leaf("sold by", goods.step.value, "ft", Origin(Kind.ENTERED, place=f"{key}, {goods.step.text}"), key=key)
        if goods.step
        else leaf("sold by", 3.0, "ft", Origin(Kind.COMMON_PRACTICE, note="wide goods are sold by the yard"), key=key)
    )
    tallest = max(wall.height for wall in paper.layout.walls)
    cut = leaf("one strip", paper.paper.to_cut.full_cut(tallest), "ft", paper.full.origin)
    over = work(rules.running_length, "spare length", strips=spare(walls), cut_length=cut)
    need = work(
        rules.length_to_order, f"{paper.paper.title}: length to order", length=paper.running, spare=over, step=step
    )
    return Supply(_item(walls), f"{_title_of(walls)}, off one bolt", need, step, _price(walls), chosen=True)


def _item(walls: Papering) -> str:
    return f"wallcovering, {walls.item.goods.pattern or walls.item.room}, {_price(walls).value:.2f}"


def _title_of(walls: Papering) -> str:
    title = walls.paper.paper.title
    return f"{title[:1].upper()}{title[1:]}{' (the client buys it)' if walls.clients_paper else ''}"


def _price(walls: Papering) -> Figure:
    goods = walls.item.goods
    key = f"{walls.where} · goods · price"
    if walls.clients_paper or goods.price is None:
        return leaf("price of the paper", 0.0, "dollar", definition("the client buys it: no cost here"))
    return leaf("price of the paper", goods.price, "dollar", Origin(Kind.ENTERED, place=key), key=key)


def by_gallon(walls: Papering, item: str, title: str) -> Supply:
    """Return what goes over the walls by the gallon, with something for trims and bucket."""
    basis = walls.work_area.basis
    need = work(
        hanging.paste_needed,
        title.lower(),
        area=walls.area,
        spread=basis.figure("wallcovering", item, "spread"),
        waste=basis.figure("wallcovering", "paste_waste", "share"),
    )
    return walls.work_area.supply(item, title, need, one("a gallon", "gallon", "sold by the gallon"), "gallon")


def paste(walls: Papering, *, lined: bool, over_vinyl: bool = False) -> list[Supply]:
    """Return paste for the paper, for the lining, and for seams over old vinyl; lining paper in whole rolls."""
    item = walls.paper.paper.paste
    found = [by_gallon(walls, item, _paste_title(item))]
    if over_vinyl:
        why = "one quart for the seams over old vinyl"
        found.append(walls.work_area.bought("paste_vinyl_over_vinyl", "quart", "Paste for vinyl over vinyl", 1.0, why))
    if lined:
        found.append(by_gallon(walls, walls.lining.paper.paste, _paste_title(walls.lining.paper.paste)))
        found.append(walls.work_area.supply("lining_paper", "Lining paper", walls.lining.rolls, None, "roll"))
    return found


def _paste_title(item: str) -> str:
    return "Clay paste" if item == "paste_clay" else "Clear paste"


def sundries(walls: Papering, *, stripped: bool) -> list[Supply]:
    """Return blades, rollers, rags and floor covering; for stripping, plastic, bags and stripper too."""
    work_area = walls.work_area
    wanted = [
        ("snap_blades", "pack", "Snap-off blades, a pack", "a fresh edge for every strip"),
        ("seam_roller", "each", "Seam roller", "one a job"),
        ("rags", "box", "Rags, a box", "one box a room"),
    ]
    if stripped:
        wanted += [
            ("stripper_concentrate", "quart", "Stripper concentrate", "one quart a room"),
            ("razor_blades", "pack", "Scraper blades, a pack", "one pack a room"),
            ("waste_bag", "pack", "Waste bags, a pack", "one pack a room"),
        ]
    bought = [work_area.bought(item, container, title, 1.0, why) for item, container, title, why in wanted]
    return [*bought, room_cover.floor_paper(work_area), *([_floor_plastic(work_area)] if stripped else [])]


def _floor_plastic(work_area: WorkArea) -> Supply:
    stock = work_area.basis
    length = work(
        masking.floor_paper_by_area,
        "floor plastic to unroll",
        floor_area=work_area.room.floor,
        stock_width=stock.figure("masking_stock", "floor_plastic", "width"),
        overlap=stock.figure("masking_stock", "overlap", "floor"),
    )
    roll = stock.figure("masking_stock", "floor_plastic", "length")
    bought = work_area.supply("floor_plastic", "Floor plastic", length, roll, "roll")
    return replace(bought, share_key=f"floor plastic, {work_area.room.room.name}")


def over_vinyl(walls: Papering) -> bool:
    """Say whether the paper would hang on old vinyl."""
    return walls.item.existing.covering is OldCovering.VINYL
