"""A surface that is coated: how large it is, what it is like, how many coats it gets, and what slows the work on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Phase
from estimating.figures import Figure
from estimating.job.surfaces import Sheen, WallTexture
from estimating.scopes.shared.color import Coats
from estimating.scopes.shared.trim import Member

SMOOTH = "smooth_drywall"
TEXTURES: Mapping[WallTexture | None, str] = {
    None: SMOOTH,
    WallTexture.SMOOTH: SMOOTH,
    WallTexture.ORANGE_PEEL: "orange_peel",
    WallTexture.SKIP_TROWEL: "skip_trowel",
    WallTexture.KNOCKDOWN: "knockdown",
}
GLOSSY = (Sheen.SEMI_GLOSS, Sheen.GLOSS)
ABSORBENT = (None, Sheen.FLAT)  # old flat paint takes a little of the first coat in; what shines does not


@dataclass(frozen=True)
class Pace:
    """Factors on the hours of one surface, each only on the part of the work it is about; None where nothing slows it.

    What slows everything in the room (crew, furniture, people) is on the work area already.
    """

    area: Figure | None = None
    line: Figure | None = None  # cutting in
    first_line: Figure | None = None  # the first time, across mended places
    later: Figure | None = None  # a coat over a coat


@dataclass(frozen=True, eq=False)  # told apart as itself: two walls of one size are two walls
class Surface:
    """A surface that gets coats of one paint in one color."""

    key: str
    name: str
    product: str
    area: Figure  # ft²
    line: Figure  # the line to cut in, ft
    coats: Coats
    texture: str = SMOOTH  # its class in the table of surfaces
    porosity: str = "sealed"
    color: str = ""
    phase: Phase = Phase.WALLS
    overhead: bool = False
    fragile: bool = False  # water and a roller may bring its texture down
    pace: Pace = Pace()
    members: tuple[Member, ...] = ()  # where it is painted piece by piece and not by its area
    verb: str = "Paint"  # what is done to its members
    outside: bool = False

    @property
    def grade(self) -> str:
        """Its class in the production rates."""
        if self.texture.startswith("popcorn"):
            return "popcorn"
        return "smooth" if self.texture.startswith("smooth") else "light_texture"

    @property
    def nap_class(self) -> str:
        """Its class in the table of roller naps."""
        return {"popcorn_heavy": "heavy_popcorn"}.get(self.texture, "wall" if self.grade == "smooth" else self.grade)


def porosity_under(sheen: Sheen | None) -> str:
    """Return how much of the first coat an old paint takes in, by its sheen."""
    return "slight" if sheen in ABSORBENT else "sealed"
