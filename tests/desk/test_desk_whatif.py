"""What-if at the desk, in-process: what a control does to the pane, and what stays when something is wrong."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from places import JOBS

from estimating.desk import Desk, open_desk
from estimating.desk.whatif import NOW, BreakEven, HowSure, MoreTests
from estimating.estimate.uncertainty.offers import By
from estimating.estimate.uncertainty.price_risk import risk_at_price
from estimating.reports.panes import whatif as whatif_panes

DEMO = JOBS / "alder_row_sitting_room.toml"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    path = tmp_path / "job.toml"
    shutil.copy(DEMO, path)
    found = open_desk(path, tmp_path / "records.sqlite")
    found.results.open("What if")
    return found


def turn(desk: Desk, tab: str) -> None:
    """Open one of the what-if tabs."""
    desk.whatif.widget.selected_index = list(desk.whatif.parts).index(tab)


def how_sure(desk: Desk) -> HowSure:
    part = desk.whatif.parts["how sure"]
    assert isinstance(part, HowSure)
    return part


def break_even(desk: Desk) -> BreakEven:
    turn(desk, "break-even")
    part = desk.whatif.parts["break-even"]
    assert isinstance(part, BreakEven)
    return part


def more_tests(desk: Desk) -> MoreTests:
    turn(desk, "is one more test worth it?")
    part = desk.whatif.parts["is one more test worth it?"]
    assert isinstance(part, MoreTests)
    return part


def typed(desk: Desk, field: str, value: str) -> None:
    """Type an answer into a field of the first piece of work, and let the hand rest."""
    desk.put(("work", 0, field), value)
    desk.finish()


def keep(desk: Desk, name: str) -> None:
    """Keep what is typed now under a name."""
    desk.whatif.scenarios.name.control.value = name
    desk.whatif.scenarios.keep.click()


def test_the_price_as_estimated_is_looked_at_until_one_is_typed(desk: Desk) -> None:
    """An empty box stands for the estimate's own price; a typed one takes its place, and follows the job."""
    assert desk.outcome is not None
    part = how_sure(desk)
    assert f"At ${desk.outcome.estimate.price:,.2f}" in part.shown.value
    part.price.control.value = "$2,400"
    assert "At $2,400.00" in part.shown.value
    before = part.shown.value
    typed(desk, "coats", "4")
    assert part.shown.value != before
    assert "At $2,400.00" in part.shown.value


def test_a_wanted_chance_gives_a_price(desk: Desk) -> None:
    """The price for it is said beside the chance of the price typed."""
    part = how_sure(desk)
    assert "To lose money with" not in part.shown.value
    part.chance.control.value = "10 %"
    assert "To lose money with a chance of 10%" in part.shown.value


def test_three_buttons_set_the_price_offered(desk: Desk) -> None:
    """By the mean and by a chance it rises by a markup of this job alone; as planned it is the usual one again."""
    part = how_sure(desk)
    assert desk.outcome is not None
    planned = desk.outcome.estimate
    part.offers[By.MEAN].click()
    desk.finish()
    assert desk.outcome.estimate.price > planned.price
    assert desk.outcome.estimate.cost.value == pytest.approx(planned.cost.value)
    assert desk.sure is not None
    assert float(desk.outcome.estimate.price) == pytest.approx(1.35 * desk.sure.cost_draws.mean(), abs=0.3)
    part.chance.control.value = "5 %"
    part.offers[By.CHANCE].click()
    desk.finish()
    risk = risk_at_price(desk.outcome.estimate, desk.sure.cost_draws, float(desk.outcome.estimate.price))
    assert 0.04 < risk.chance <= 0.05
    assert desk.job["own"]["business/markup"]["note"] == "price for a chance of loss"
    for words in ("price as planned", "price from the mean", "price for a chance of loss of 5%"):
        assert words in part.shown.value
    part.offers[By.PLAN].click()
    desk.finish()
    assert desk.outcome.estimate.price == planned.price
    assert not desk.job["own"]


def test_nonsense_is_marked_in_place_and_the_last_answer_stays(desk: Desk) -> None:
    """A price that is none and a chance that is none are each marked at their box, kept as typed."""
    part = how_sure(desk)
    part.price.control.value = "1950"
    before = part.shown.value
    part.price.control.value = "a lot"
    part.chance.control.value = "never"
    assert part.shown.value == before
    assert "a lot" in part.price.widget.children[1].value
    assert "never" in part.chance.widget.children[1].value
    assert part.price.control.value == "a lot"
    part.price.control.value, part.chance.control.value = "1950", ""
    assert part.shown.value == before
    assert len(part.price.widget.children) == len(part.chance.widget.children) == 1


def test_two_scenarios_and_only_their_differences(desk: Desk) -> None:
    """Kept before and after a third coat: side by side, and below only what the coat changes."""
    turn(desk, "scenarios")
    scenarios = desk.whatif.scenarios
    keep(desk, "as noted")
    typed(desk, "coats", "3")
    keep(desk, "three coats")
    assert list(scenarios.kept) == ["as noted", "three coats"]
    assert (scenarios.before.value, scenarios.after.value) == ("as noted", "three coats")
    for name in ("as noted", "three coats", NOW):
        assert f">{name}<" in scenarios.table.value
    assert "Roll the ceiling, coat 3" in scenarios.differences.value
    assert "Cover the floor" not in scenarios.differences.value


def test_a_scenario_is_the_job_with_a_few_changes(desk: Desk) -> None:
    """What is kept is what was changed since the job was opened, no more."""
    keep(desk, "as noted")
    typed(desk, "coats", "3")
    keep(desk, "three coats")
    changes = {name: dict(scenario.changes) for name, (scenario, _) in desk.whatif.scenarios.kept.items()}
    assert changes == {"as noted": {}, "three coats": {("work", 0, "coats"): 3}}


def test_back_to_a_scenario(desk: Desk) -> None:
    """Its answers and own figures stand in the form again, and the price is the one it was kept with."""
    assert desk.outcome is not None
    key = "production/roll_ceiling/roll/popcorn"
    desk.put(("own", key), {"likely": 60, "unit": "ft**2/hour"})
    keep(desk, "slow")
    price = desk.outcome.estimate.price
    typed(desk, "coats", "3")
    desk.put(("own",), {})
    assert desk.outcome.estimate.price != price
    label, back, _ = desk.whatif.scenarios.rows.children[0].children
    assert label.value == "slow"
    back.click()
    assert desk.outcome.estimate.price == price
    assert key in desk.job["own"]
    assert not desk.stale


def test_a_scenario_is_forgotten(desk: Desk) -> None:
    """It is gone from the table and from what can be compared; with none left there is nothing to compare."""
    turn(desk, "scenarios")
    scenarios = desk.whatif.scenarios
    keep(desk, "one")
    keep(desk, "two")
    scenarios.rows.children[0].children[2].click()
    assert list(scenarios.kept) == ["two"]
    assert ">one<" not in scenarios.table.value
    assert scenarios.before.value == "two"
    scenarios.rows.children[0].children[2].click()
    assert "Nothing is kept yet" in scenarios.differences.value
    assert scenarios.compared.layout.display == "none"


@pytest.mark.parametrize("name", ["", "  ", NOW, "taken"])
def test_a_scenario_needs_a_name_of_its_own(desk: Desk, name: str) -> None:
    """A blank name or one in use is refused at the box, and nothing is lost."""
    keep(desk, "taken")
    keep(desk, name)
    assert list(desk.whatif.scenarios.kept) == ["taken"]
    assert "in use" in desk.whatif.scenarios.name.widget.children[1].value
    keep(desk, "another")
    assert len(desk.whatif.scenarios.name.widget.children) == 1


def test_only_what_is_right_can_be_kept(desk: Desk) -> None:
    """While a field is marked there is no scenario to keep."""
    typed(desk, "coats", "many")
    keep(desk, "wrong")
    assert not desk.whatif.scenarios.kept
    assert "put right" in desk.whatif.scenarios.name.widget.children[1].value


def test_another_job_starts_without_scenarios(desk: Desk) -> None:
    """Opening a file anew forgets what was kept: it belonged to the job before."""
    keep(desk, "one")
    desk.lay(desk.sitting)
    assert not desk.whatif.scenarios.kept
    assert desk.whatif.scenarios.rows.children == ()


def test_two_ways_along_what_the_choice_turns_on(desk: Desk) -> None:
    """The recommended way and its nearest rival stand against each other first."""
    part = break_even(desk)
    assert part.two.methods == ("seal_roll", "roll")
    assert part.moved.value == whatif_panes.PIVOT
    assert "They change places at" in part.shown.value


def test_any_assumption_can_be_moved(desk: Desk) -> None:
    """Another figure gives another drawing; one that the ways no longer rest on gives way to the pivot."""
    part = break_even(desk)
    part.moved.value = "business/wage"
    assert "wage, $/h" in part.shown.value
    part.two.other.value = "scrape"
    part.moved.value = "production/scrape_ceiling/hand/wet"
    assert "Seal with solvent-borne primer, then roll does not rest on it" in part.shown.value
    part.two.other.value = "roll"
    assert part.moved.value == whatif_panes.PIVOT


def test_a_way_cannot_be_held_against_itself(desk: Desk) -> None:
    """It is marked under the second way, the last drawing stays, and another choice takes the mark away."""
    part = break_even(desk)
    before = part.shown.value
    part.two.other.value = "seal_roll"
    assert part.shown.value == before
    assert "not the first one" in part.two.complaint.widget.children[1].value
    part.two.other.value = "roll"
    assert len(part.two.complaint.widget.children) == 1


def test_what_is_chosen_stays_chosen_while_the_job_changes(desk: Desk) -> None:
    """Typing elsewhere does not put the choices back."""
    part = break_even(desk)
    part.two.one.value, part.two.other.value = "seal_roll", "scrape"
    part.moved.value = "business/wage"
    typed(desk, "coats", "3")
    assert part.two.methods == ("seal_roll", "scrape")
    assert part.moved.value == "business/wage"


def test_one_more_test_follows_the_tests_made(desk: Desk) -> None:
    """Once the texture is known to be sealed, it is enough."""
    part = more_tests(desk)
    assert "One more roller patch leads to" in part.shown.value
    typed(desk, "history", "primed and painted twice")
    assert "Enough tested" in part.shown.value


def test_only_the_open_pane_is_worked_out(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """A change is worked out for the pane that is seen, and for no other."""
    seen: list[str] = []
    for name, part in desk.whatif.parts.items():
        monkeypatch.setattr(part, "paint", lambda name=name: seen.append(name))
    typed(desk, "coats", "3")
    assert set(seen) == {"how sure"}
    desk.results.open("Cautions")
    seen.clear()
    typed(desk, "coats", "2")
    assert seen == []


def test_a_fault_is_said_on_the_page(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault in a what-if handler goes through the desk's guard."""

    def broken(*_given: object) -> str:
        raise ZeroDivisionError("a fault")

    monkeypatch.setattr(whatif_panes, "break_even", broken)
    break_even(desk)
    assert "a fault" in desk.status.value


def test_units_shown_reach_the_panes(desk: Desk) -> None:
    """Switching to metric redraws the open pane."""
    part = break_even(desk)
    part.moved.value = "production/roll_ceiling/roll/popcorn"
    assert "ft²/h" in part.shown.value
    desk.bar.units.value = "metric"
    assert "m²/h" in part.shown.value
