"""The questions every kind of work asks of the room and the site, each written once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.estimate.pricing.plan import Question
from estimating.job.values import Answer
from estimating.scopes.shared import asbestos, lead
from estimating.scopes.shared.work_area import WorkArea

NICOTINE = "Nicotine has gone into the whole room: are all its surfaces sealed? Taken as yes, whatever the patch."

Asked = tuple[str, object, str]  # the field of the notes, its answer, and the question with what is taken until then


def unanswered(asked: Iterable[Asked]) -> tuple[Question, ...]:
    """Return the questions without an answer; none of them blocks the price, each says what is taken."""
    return tuple(Question(field, text, blocks=False) for field, answer, text in asked if answer is None)


def room_questions(work_area: WorkArea, *, fixtures: bool = True) -> Iterator[Asked]:
    """Yield what is asked of the room; `fixtures` only where they are covered or worked round."""
    room = work_area.room.room
    where = f'rooms "{room.name}"'
    yield f"{where} · furniture", room.furniture, "What stands in the room? Taken as light furniture."
    if not fixtures:
        return
    for kind in type(room.fixtures).model_fields:
        text = f"How many? None are planned for: {kind.replace('_', ' ')}."
        yield f"{where} · fixtures · {kind}", getattr(room.fixtures, kind), text


def opening_question(work_area: WorkArea, taken: str) -> Asked:
    """Return the question after doors and windows, with what is taken until it is answered."""
    room = work_area.room.room
    return f'rooms "{room.name}" · openings', room.openings, f"Doors and windows? {taken}"


def site_questions(work_area: WorkArea) -> Iterator[Asked]:
    """Yield what is asked of the building, whatever is done in it."""
    site, basis = work_area.job.site, work_area.basis
    yield "site · year_built", site.year_built, "When was it built? Asbestos and lead are taken as if it were old."
    yield "site · occupied", site.occupied, "Do people live there during the work? Taken as yes."
    yield "site · travel_minutes", site.travel_minutes, "How far is the drive? No driving is in this price."
    if lead.lead_open(site, basis):
        yield "site · lead_test", site.lead_test, "Was the old paint tested for lead? Taken as if it may hold some."


def asbestos_question(work_area: WorkArea) -> Iterator[Asked]:
    """Yield the question after a laboratory test, where suspect material is touched."""
    site = work_area.job.site
    if asbestos.asbestos_open(site, work_area.basis):
        text = "Were texture, compound or plaster tested by a laboratory? Taken as if they may hold asbestos."
        yield "site · asbestos_test", site.asbestos_test, text


def solvent_questions(work_area: WorkArea) -> Iterator[Asked]:
    """Yield what has to be known before a solvent-borne product is used; until then a water-borne one is."""
    site = work_area.job.site
    taken = "No solvent-borne product until this is known."
    yield "site · airflow", site.airflow, f"Can the room be aired to the outside? {taken}"
    if site.occupied is not Answer.NO:
        yield "site · household", site.household, f"Who lives there, and is anybody pregnant? {taken}"
    for name in type(site.ignition).model_fields:
        text = f"Is there one, and can it be shut off: {name.replace('_', ' ')}? {taken}"
        yield f"site · ignition · {name}", getattr(site.ignition, name), text
