"""The desk: the workbook's form and result panes in a notebook. It shows; it does not compute."""

from estimating.desk.desk import Desk, open_desk

__all__ = ["Desk", "open_desk"]
