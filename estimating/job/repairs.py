"""What has to be mended before a coat, and what is taken down and put back."""

from __future__ import annotations

from estimating.job.values import Notes, Whole


class Repairs(Notes):
    """What has to be mended first: counts by size, cracks in feet."""

    nail_pops: Whole | None = None
    small_patches: Whole | None = None  # to 2 in
    medium_patches: Whole | None = None  # 2 to 6 in
    large_patches: Whole | None = None  # 6 to 12 in
    hairline_crack_feet: Whole | None = None
    taped_crack_feet: Whole | None = None


class Removals(Notes):
    """What is taken down before and put back after."""

    plates: Whole | None = None
    blinds: Whole | None = None
    pictures: Whole | None = None
