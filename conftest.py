"""A warning is an error in the notebooks too: pytest's own filter does not reach their kernels, this variable does."""

import os

from hypothesis import HealthCheck, settings

# The kernel warns of itself when it is shut down; as an error that would leave it hanging.
os.environ["PYTHONWARNINGS"] = "error,ignore::PendingDeprecationWarning:ipykernel.kernelbase"
# A notebook prints what it prices; the own values of whoever runs the tests must not be in it.
os.environ["ESTIMATING_RECORDS"] = "no_records_in_tests/records.sqlite"

# How long a machine takes is no matter for a test: a busy one must not turn a property red. Where the checks decide
# whether a change is taken, the examples are the same every time.
settings.register_profile(
    "steady",
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    derandomize=os.environ.get("CI") == "true",
)
settings.load_profile("steady")
