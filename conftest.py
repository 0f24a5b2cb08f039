"""A warning is an error in the notebooks too: pytest's own filter does not reach their kernels, this variable does."""

import os

os.environ["PYTHONWARNINGS"] = "error"
