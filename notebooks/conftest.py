"""A warning is an error in the notebooks too: pytest's own filter does not reach their kernels, this variable does."""

import os

# The kernel warns of itself when it is shut down; as an error that would leave it hanging.
os.environ["PYTHONWARNINGS"] = "error,ignore::PendingDeprecationWarning:ipykernel.kernelbase"
# A notebook prints what it prices; the own values of whoever runs the tests must not be in it.
os.environ["ESTIMATING_RECORDS"] = "no_records_in_tests/records.sqlite"
