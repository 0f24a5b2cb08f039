"""The one way a rule refuses a value it cannot use."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.units import Number


def require(holds: bool | np.bool_ | npt.NDArray[np.bool_], field: str, value: Number, needed: str) -> None:
    """Raise InputError unless the condition holds for every number; the first that breaks it is shown.

    Not-a-number breaks every comparison and so is refused as well.
    """
    if holds is True or (np.all(holds) if isinstance(holds, np.ndarray) else holds):
        return
    broken = np.broadcast_to(np.asarray(value, dtype=float), np.shape(holds))[~np.asarray(holds)]
    raise InputError(field, float(np.ravel(broken)[0]), needed)
