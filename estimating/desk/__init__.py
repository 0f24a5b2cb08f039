"""The desk: the workbook's form and result panes in a notebook. It shows; it does not compute."""

from estimating.desk.desk import Desk, open_desk
from estimating.desk.reference import ReferencePage, open_reference
from estimating.desk.review import Review, example_summary, open_review

__all__ = ["Desk", "ReferencePage", "Review", "example_summary", "open_desk", "open_reference", "open_review"]
