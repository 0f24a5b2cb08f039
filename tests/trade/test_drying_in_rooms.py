import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.trade import drying

AT = {"day_length": 8.0, "crew": 1.0}
hours = st.floats(0, 12)
waits = st.floats(0, 30)
plans = st.lists(st.tuples(hours, waits, st.sampled_from(["hall", "den", "study", ""])), max_size=6)

schedule_days, schedule_elapsed = drying.days_in_rooms(()), drying.elapsed_in_rooms(())  # all in one room


def named(steps):
    return {f"{what}_{place}": each for place, step in enumerate(steps) for what, each in zip("hw", step, strict=True)}


def test_one_room_dries_while_another_is_worked_in():
    """Two rooms, two coats of an hour, three hours between: done at hour 6, and not next morning.

    Side by side: hall 0-1, den 1-2, hall dry at 4 so 4-5, den dry at 5 so 5-6. One after the other: hall 0-1 and 4-5,
    den 5-6, dry at 9 when the day of 8 hours is over, so 0-1 of the second day, 25 hours after the start.
    """
    steps = [(1.0, 3.0), (1.0, 3.0), (1.0, 0.0), (1.0, 0.0)]
    both = drying.elapsed_in_rooms(("hall", "den", "hall", "den"))
    assert both(**AT, **named(steps)) == 6
    one_by_one = [(1.0, 3.0), (1.0, 0.0), (1.0, 3.0), (1.0, 0.0)]
    assert schedule_elapsed(**AT, **named(one_by_one)) == 25


def test_a_step_of_no_room_waits_for_every_room():
    """The final walk of half an hour comes when the slower room is dry: 1 + 6 hours in, whatever the other did."""
    times = drying.step_times([(1.0, 6.0), (1.0, 0.0), (0.5, 0.0)], **AT, rooms=["hall", "den", ""])
    assert (times[1].start_hour, times[2].start_hour) == (1, 7)


@given(plans)
def test_rooms_never_make_it_longer(plan):
    """A crew with a second room to go to is done no later, and comes on no more days, than one that waits."""
    steps, rooms = [each[:2] for each in plan], tuple(each[2] for each in plan)
    assert drying.elapsed_in_rooms(rooms)(**AT, **named(steps)) <= schedule_elapsed(**AT, **named(steps)) + 1e-9


@given(plans)
def test_one_room_by_name_is_one_room_without(plan):
    """Where all is done in one room its name changes nothing."""
    steps, rooms = [each[:2] for each in plan], ("hall",) * len(plan)
    assert drying.days_in_rooms(rooms)(**AT, **named(steps)) == schedule_days(**AT, **named(steps))
    assert drying.elapsed_in_rooms(rooms)(**AT, **named(steps)) == schedule_elapsed(**AT, **named(steps))


def test_every_step_has_its_room():
    """A room too few is a slip of the program, and said at once."""
    with pytest.raises(ValueError, match="shorter"):
        drying.step_times([(1.0, 0.0), (1.0, 0.0)], **AT, rooms=["hall"])
