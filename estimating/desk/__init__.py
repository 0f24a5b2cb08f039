"""The desk: the workbook's form and result panes in a notebook. It shows; it does not compute."""

from estimating.desk.desk import Desk, open_desk
from estimating.desk.reference import ReferencePage, open_reference

__all__ = ["Desk", "ReferencePage", "open_desk", "open_reference"]
