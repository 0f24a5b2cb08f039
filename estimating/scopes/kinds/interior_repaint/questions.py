"""What the notes of a repaint leave open, and what is taken for each until somebody answers."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Question
from estimating.job.surfaces import Coloring, Condition, SurfaceNotes
from estimating.scopes.kinds.interior_repaint.facts import in_the_price, walls_painted
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.shared import prime
from estimating.scopes.shared.claimed import covered_walls
from estimating.scopes.shared.color import from_deep_base
from estimating.scopes.shared.questions import (
    NICOTINE,
    Asked,
    asbestos_question,
    opening_question,
    room_questions,
    site_questions,
    solvent_questions,
    unanswered,
)
from estimating.scopes.shared.work_area import WorkArea


def open_questions(item: InteriorRepaint, work_area: WorkArea) -> tuple[Question, ...]:
    """Return every question without an answer; none of them blocks the price, each says what is taken."""
    sealed = solvent_questions(work_area) if item.stains else ()
    return unanswered((*_scope(item), *_surfaces(item, work_area), *_repairs(item), *_place(work_area), *sealed))


def _scope(item: InteriorRepaint) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    yield f"{where} · walls · painted", item.walls.painted, "Are the walls in the price? Taken as yes."
    yield f"{where} · ceiling · painted", item.ceiling.painted, "Is the ceiling in the price? Taken as no."
    yield f"{where} · trim · painted", item.trim.painted, "Is the trim in the price? Taken as no."
    yield f"{where} · closets", item.closets, "Are closets painted inside? Taken as no."
    if in_the_price(item.trim):
        taken = "None are in this price."
        yield f"{where} · trim · runs", item.trim.runs, f"Which trim by length? {taken}"
        yield f"{where} · trim · doors", item.trim.doors, f"Which doors, and how many sides? {taken}"
        yield f"{where} · trim · door_frames", item.trim.door_frames, f"How many door frames? {taken}"
        yield f"{where} · trim · windows", item.trim.windows, f"Which windows? {taken}"
        for place, door in enumerate(item.trim.doors or ()):
            field = f"{where} · trim · doors[{place}] · sides"
            yield field, door.sides, "One side or both? Taken as one."


def _surfaces(item: InteriorRepaint, work_area: WorkArea) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    found: list[tuple[str, SurfaceNotes]] = [("walls", item.walls)] if walls_painted(item) else []
    found += [(name, each) for name, each in (("ceiling", item.ceiling), ("trim", item.trim)) if in_the_price(each)]
    for name, surface in found:
        yield from _color(f"{where} · {name}", surface)
        yield (
            f"{where} · {name} · sheen_now",
            surface.sheen_now,
            "How does it shine now? Taken as flat, a little thirsty.",
        )
        yield f"{where} · {name} · condition", surface.condition, "How does the old paint hold? Taken as sound."
        if surface.condition is Condition.FAILING:
            taken = work_area.basis.figure("factors", "prep", "failing_share").value
            asked = f"How much of the old paint is loose, in percent? Taken as {100 * taken:.0f} %."
            yield f"{where} · {name} · failing_percent", surface.failing_percent, asked
        yield f"{where} · {name} · washing", surface.washing, "How dirty is it? No washing is in this price."
    for place, accent in enumerate(item.walls.accents if walls_painted(item) else ()):
        yield from _color(f"{where} · walls · accents[{place}]", accent)
    if walls_painted(item):
        yield f"{where} · walls · texture", item.walls.texture, "What do the walls feel like? Taken as smooth."
        if covered_walls(work_area):
            asked = "Are the walls that get another covering painted too? They are left out of the painting."
            yield f"{where} · walls · covered_walls_too", item.walls.covered_walls_too, asked
        yield f"{where} · over_stairs_feet", item.over_stairs_feet, "How much wall is over a stair? Taken as none."
    if in_the_price(item.ceiling):
        yield f"{where} · ceiling · texture", item.ceiling.texture, "What does the ceiling feel like? Taken as smooth."


def _color(where: str, notes: Coloring) -> Iterator[Asked]:
    yield (
        f"{where} · color_wanted",
        notes.color_wanted,
        "Which color? Paint without a color is ordered as one batch.",
    )
    yield (
        f"{where} · change",
        notes.change,
        "How far from the old color? Taken as near, or the same where named alike.",
    )
    taken = "yes: reds hide poorly" if from_deep_base(notes) else "no"
    yield f"{where} · deep_base", notes.deep_base, f"Is it a strong color from a clear or deep base? Taken as {taken}."


def _repairs(item: InteriorRepaint) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    for part in ("repairs", "removals"):
        notes = getattr(item, part)
        for field in type(notes).model_fields:
            word = field.removesuffix("_feet").replace("_", " ")
            text = f"How many, or how long: {word}? None are in this price."
            yield f"{where} · {part} · {field}", getattr(notes, field), text
    yield f"{where} · caulk_feet", item.caulk_feet, "How many feet of joints to caulk? None are in this price."
    yield f"{where} · stains", item.stains, "Are there stains, and is their cause cured? None are in this price."
    if prime.in_all_of_it(item.stains or ()):
        yield f"{where} · stains", None, NICOTINE


def _place(work_area: WorkArea) -> Iterator[Asked]:
    yield opening_question(work_area, "None are taken off or cut in round in this price.")
    yield from room_questions(work_area)
    yield from site_questions(work_area)
    yield from asbestos_question(work_area)
