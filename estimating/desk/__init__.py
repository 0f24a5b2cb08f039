"""The desk: the workbook's form and result panes in a notebook. It shows; it does not compute."""

from estimating.desk.desk import Desk, open_desk
from estimating.desk.reference import ReferencePage, open_reference
from estimating.desk.review import Review, example_summary, open_review
from estimating.desk.workbook_page import WorkbookPage, open_page

__all__ = [
    "Desk",
    "ReferencePage",
    "Review",
    "WorkbookPage",
    "example_summary",
    "open_desk",
    "open_page",
    "open_reference",
    "open_review",
]
