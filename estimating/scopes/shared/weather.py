"""The season of work outdoors: the share of days fit for a coat, the days allowed, and the chance that it slips."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from estimating.estimate.pricing.plan import Finding, Phase, Plan, Suitability, Task
from estimating.figures import Figure, add_up, leaf, work
from estimating.job.season import Season
from estimating.origins import Kind, Origin, definition
from estimating.scopes.shared.questions import Asked
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import weather
from estimating.units import Reading

HARDLY, SELDOM = 0.1, 0.35  # share of fit days: below the first it is another season's work; judgment
MONTH = 30.4  # days


@dataclass(frozen=True)
class Window:
    """What an ordinary month leaves for coats outdoors."""

    season: Season
    share: Figure  # of days on which a coat can go on
    lost: Figure  # days allowed for weather
    slips: Figure  # the chance that they are not enough
    hours: Figure | None  # of an ordinary day in which a surface is warm and dry enough; None without a dew point

    @property
    def month(self) -> str:
        """The month in words."""
        return self.season.month or "month"


def window(work_area: WorkArea, coats: int) -> Window | None:
    """Return the window for so many coats, one a day; None where the season was not looked up."""
    season = work_area.job.site.season
    if season.rain_days is None or season.night_low is None or season.day_high is None or coats < 1:
        return None
    share = _share(work_area, season, season.night_low, season.day_high)
    if share.value < HARDLY:
        none = leaf(
            "days allowed for weather", 0.0, "day", definition("no number of days is allowed where hardly one is fit")
        )
        return Window(season, share, none, _slip(coats, share, none), None)
    number = leaf("coats, one a day", float(coats), "dimensionless", definition("no two coats on one day outdoors"))
    lost = work(weather.days_lost, "days allowed for weather", coats=number, share=share)
    hours = _hours(work_area, season, season.night_low, season.day_high)
    return Window(season, share, lost, _slip(coats, share, lost), hours)


def _slip(coats: int, share: Figure, allowed: Figure) -> Figure:
    number = leaf("coats, one a day", float(coats), "dimensionless", definition("no two coats on one day outdoors"))
    return work(weather.chance_of_slip, "weather takes longer", coats=number, share=share, allowed=allowed)


def _read(season: Season, name: str, value: float, unit: str) -> Figure:
    place = f"site · season · {name}"
    return leaf(
        name.replace("_", " "), value, unit, Origin(Kind.ENTERED, place=place, note=season.source or ""), key=place
    )


def _share(work_area: WorkArea, season: Season, low: Reading, high: Reading) -> Figure:
    """Return the share of days that are dry, stay dry, and are mild."""
    climate = work_area.basis
    month = leaf("days of a month", MONTH, "dimensionless", definition("a twelfth of a year"))
    rain = _read(season, "rain_days", min(float(season.rain_days or 0), MONTH), "dimensionless")
    dry = work(
        weather.dry_spell_share,
        "dry that day and after it",
        wet=work(weather.wet_share, "days with rain", rain_days=rain, days=month),
        persistence=climate.figure("climate", "rain_persistence", "any"),
        hours=climate.figure("climate", "rain_free_after", "any"),
    )
    mild = work(
        weather.mild_share,
        "mild enough",
        night_low=_read(season, "night_low", low.value, low.unit),
        day_high=_read(season, "day_high", high.value, high.unit),
        spread=climate.figure("climate", "daily_spread", "any"),
        night_least=climate.figure("climate", "air_least_before_dry", "any"),
        day_least=climate.figure("climate", "air_least", "waterborne"),
        day_most=climate.figure("climate", "air_most", "any"),
    )
    return work(weather.fit_share, "days fit for a coat", dry=dry, mild=mild)


def _hours(work_area: WorkArea, season: Season, low: Reading, high: Reading) -> Figure | None:
    if season.dew_point is None or low.value >= high.value:
        return None
    limit = work(
        weather.surface_limit,
        "surface warm and dry enough",
        least=work_area.basis.figure("climate", "surface_least", "waterborne"),
        dew_point=_read(season, "dew_point", season.dew_point.value, season.dew_point.unit),
        margin=work_area.basis.figure("climate", "dew_point_margin", "any"),
    )
    night, day = _read(season, "night_low", low.value, low.unit), _read(season, "day_high", high.value, high.unit)
    return work(weather.hours_above, "hours of a day fit for paint", night_low=night, day_high=day, limit=limit)


def in_season(plan: Plan, work_area: WorkArea, coats: int) -> Plan:
    """Return a plan with the days its season is likely to take: waited before the first coat, and told."""
    found = window(work_area, coats)
    if found is None:
        return plan
    figures = [found.share, found.lost, found.slips, *([found.hours] if found.hours else [])]
    return replace(
        plan,
        tasks=_waiting(plan.tasks, found),
        findings=(*plan.findings, *_findings(found)),
        notes=(*plan.notes, *_notes(found)),
        client_requirements=(*plan.client_requirements, *_asked_of_the_client(found)),
        figures=(*plan.figures, *figures),
    )


def _waiting(tasks: tuple[Task, ...], found: Window) -> tuple[Task, ...]:
    """Return the tasks with the days lost added to the last wait before any coat."""
    waited = [n for n, task in enumerate(tasks) if task.phase <= Phase.PREPARE and task.wait is not None]
    if not waited or not found.lost.value:
        return tasks
    place = waited[-1]
    task = tasks[place]
    assert task.wait is not None
    longer = work(add_up, f"{task.wait.name}, and weather", part_1=task.wait, part_2=found.lost)
    why = f"{task.wait_for}; {found.lost.value:.0f} days are allowed for the weather of {found.month}"
    return (*tasks[:place], replace(task, wait=longer, wait_for=why), *tasks[place + 1 :])


def _findings(found: Window) -> Iterator[Finding]:
    share = f"{found.share.value:.0%} of days in an ordinary {found.month} are fit for a coat"
    if found.share.value < HARDLY:
        yield Finding(Suitability.CLOSED, f"not in this season: {share}")
    elif found.share.value < SELDOM:
        yield Finding(Suitability.CONDITIONS, f"{share}: the dates are left open, or another month is agreed")
    if found.hours is not None and found.hours.value < 1:
        text = f"an ordinary day in {found.month} is never warm enough over its dew point for paint"
        yield Finding(Suitability.CLOSED, f"not in this season: {text}")


def _asked_of_the_client(found: Window) -> Iterator[str]:
    if found.lost.value:
        yield f"keep {found.lost.value:.0f} more days open for the weather that is usual in {found.month}"


def _notes(found: Window) -> Iterator[str]:
    source = f" ({found.season.source})" if found.season.source else ""
    yield (
        f"an ordinary {found.month}{source}: {found.share.value:.0%} of days are fit for a coat, dry that day and the "
        f"next and mild; {found.lost.value:.0f} days are allowed for weather, and with a chance of "
        f"{found.slips.value:.0%} it takes longer"
    )
    if found.hours is not None:
        hours = f"{found.hours.value:.0f} hours"
        yield f"on such a day the surface is warm enough, and over its dew point, for about {hours}"


def season_questions(work_area: WorkArea) -> Iterator[Asked]:
    """Yield what is asked of the season; without it no days are allowed for weather."""
    season = work_area.job.site.season
    taken = "No days are allowed for weather until this is known."
    asked = {
        "month": "In which month is the work outdoors?",
        "rain_days": "How many days of that month have rain?",
        "night_low": "What is the ordinary low of its nights?",
        "day_high": "What is the ordinary high of its days?",
    }
    for name, text in asked.items():
        yield f"site · season · {name}", getattr(season, name), f"{text} {taken}"
    dew = "What is its ordinary dew point? Hours of the day are not told until then."
    yield "site · season · dew_point", season.dew_point, dew
    wind = "What is its ordinary wind? Taken as below the limit for spraying."
    yield "site · season · wind_mph", season.wind_mph, wind
