"""Tasks and coats as a client or a crew reads them: several titles of one verb become one phrase, coats are counted."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from estimating.estimate.pricing.plan import Material, Phase, Plan, Task
from estimating.reports.documents.content import counted, listed_words

NTH_COAT = re.compile(r",? ?\bcoat (\d+)( of the [^;]*)?")


def on_the_house(tasks: Iterable[Task]) -> list[Task]:
    """Return the tasks that are work on the house: care of the tools is none."""
    return [task for task in tasks if not task.for_tools]


def in_phases(tasks: Iterable[Task], *phases: Phase) -> list[str]:
    """Return the titles of tasks in some phases, each once; coats are told elsewhere."""
    found = (task.title for task in on_the_house(tasks) if task.phase in phases)
    return [title for title in dict.fromkeys(found) if not NTH_COAT.search(title)]


def phrases(titles: Iterable[str]) -> list[str]:
    """Return titles with those that begin alike put together: Patch nail pops and small patches."""
    groups: dict[str, list[list[str]]] = {}
    for title in dict.fromkeys(titles):
        groups.setdefault(title.split(" ", 1)[0], []).append(title.split(" "))
    return [_together(group) for group in groups.values()]


def _together(group: Sequence[list[str]]) -> str:
    if len(group) == 1:
        return " ".join(group[0])
    shared = 0
    while all(len(words) > shared + 1 and words[shared] == group[0][shared] for words in group):
        shared += 1
    rest = [" ".join(words[shared:]) for words in group]
    return f"{' '.join(group[0][:shared])} {listed_words(rest)}"


def one_sentence(titles: Iterable[str]) -> str:
    """Return titles as one sentence, its parts apart by semicolons."""
    parts = phrases(titles)
    lowered = [parts[0], *(f"{part[:1].lower()}{part[1:]}" for part in parts[1:])] if parts else []
    return f"{'; '.join(lowered)}." if lowered else ""


def coats(materials: Iterable[Material]) -> list[tuple[str, str]]:
    """Return each product on a surface and its coats: ("Wall paint, water-borne, soft white", "2 coats").

    Paint that stays in the tools coats nothing.
    """
    used = Counter(
        f"{material.title}{f', {material.color}' if material.color else ''}"
        for material in materials
        if not material.stays_in_tools
    )
    return [(product, counted(count, "coat")) for product, count in used.items()]


def surfaces_of(plan: Plan) -> list[str]:
    """Return the surfaces of a plan, in the order in which they are finished."""
    coated = [each.surface for each in plan.materials if each.surface]
    worked = [each.surface for each in plan.tasks if each.surface]
    last = {each.surface: number for number, each in enumerate(plan.tasks)}
    return sorted(dict.fromkeys([*coated, *worked]), key=lambda name: last.get(name, len(plan.tasks)))
