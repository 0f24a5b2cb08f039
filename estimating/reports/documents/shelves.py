"""Where in the store a thing is found, so that a shopping list is walked once."""

from __future__ import annotations

PAINT_COUNTER = "Paint counter"
OTHER = "Ordered for this job"
SHELVES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Brushes, rollers and trays", ("roller_cover", "mini_roller_cover", "brush", "tray_liner", "strainer")),
    ("Tape, film and paper", ("paper_", "wall_film", "tape_", "detector_cover")),
    ("Floor covers", ("floor_", "drop_cloth", "cover_sheet", "plastic_sheeting")),
    (
        "Patching and drywall",
        (
            "joint_",
            "setting_",
            "mesh_patch",
            "wood_filler",
            "texture_",
            "drywall_board",
            "ceiling_board",
            "drywall_screws",
        ),
    ),
    ("Caulk and sanding", ("caulk", "sand", "tack_cloth", "deglosser")),
    (
        "Cleaners and solvents",
        (
            *("cleaner", "degreaser", "wood_stripper", "wood_brightener", "mineral_spirits", "denatured_alcohol"),
            *("rags", "waste_bag", "verification_cloth"),
        ),
    ),
    ("Safety", ("respirator", "dust_mask", "coverall", "gloves", "goggles")),
    ("Sprayer parts", ("spray_tip", "tip_guard", "gun_filter", "manifold_filter", "pump_fluid")),
    (
        "Paste and paperhanging tools",
        (
            "paste_",
            "wall_size",
            "stripper_",
            "seam_roller",
            "snap_blades",
            "razor_blades",
            "lining_paper",
        ),
    ),
    ("Laboratory and meters", ("asbestos_sample", "lead_sample", "moisture_meter")),
)


def shelf_of(item: str) -> str:
    """Return the shelf of an item of the price list."""
    return next((shelf for shelf, starts in SHELVES if item.startswith(starts)), OTHER)
