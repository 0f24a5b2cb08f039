"""What says the same costs the same: the order of a file, its keys and the spelling of a length move no cent."""

import pytest
from shuffled import otherwise, outcome_of, random_job


@pytest.mark.parametrize("seed", range(6))
def test_another_way_of_writing_a_job_moves_no_cent(seed: int) -> None:
    """Random jobs of all kinds; `python tests/shuffled.py` asks 300 of them."""
    job = random_job(seed)
    assert outcome_of(otherwise(job, seed)) == outcome_of(job)
    assert outcome_of(job)[0] != "refused"
