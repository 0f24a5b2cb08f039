"""The sides of a house as the tape finds them, and what runs along their edges."""

from __future__ import annotations

from enum import StrEnum

from estimating.job.values import Length, Notes


class Side(Notes):
    """One side of a house: its width, its height to the eaves, and how far a gable rises over them."""

    name: str
    width: Length
    height: Length
    gable: Length | None = None


class EdgeKind(StrEnum):
    """What runs along the edges of a house."""

    FASCIA = "fascia"
    FRIEZE = "frieze board"
    CORNER = "corner board"
    GUTTER = "gutter"
    DOWNSPOUT = "downspout"


class Edge(Notes):
    """One kind of edge and its length; fascia and gutters that nobody measured run along the eaves."""

    kind: EdgeKind
    length: Length | None = None
