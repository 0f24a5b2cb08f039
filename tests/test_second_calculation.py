"""The demo job worked out a second time, from the tape to the price, with nothing of the package but its answer.

The readings are those of the site notes, the rows are read from the reference tables as plain data, and every formula
is written out again. What the two agree on is the money of every line, to the cent, and the price.
"""

from __future__ import annotations

import csv
import math
from decimal import ROUND_HALF_UP, Decimal
from itertools import product
from pathlib import Path

import pytest

from estimating.estimate.whatif.compare import Option
from estimating.workbook import Outcome, estimate_job, read_job

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "notebooks" / "jobs" / "alder_row_sitting_room.toml"
MIL = 231 / 144 * 1000  # a gallon is 231 cubic inches: so many square feet, a thousandth of an inch deep


def row(table: str, *keys: str, unit: str) -> float:
    """Return the likely value of a reference row, having seen that it is in the unit this calculation takes it for."""
    with (ROOT / "reference" / f"{table}.csv").open(newline="", encoding="utf-8") as lines:
        (found,) = [each for each in csv.DictReader(lines) if tuple(each.values())[: len(keys)] == keys]
    assert found["unit"] == unit, f"{table}/{'/'.join(keys)} is in {found['unit']}"
    return float(found["likely"])


def percent(table: str, *keys: str) -> float:
    return row(table, *keys, unit="percent") / 100


def share(table: str, *keys: str) -> float:
    return row(table, *keys, unit="dimensionless")


def rate(*keys: str) -> float:
    return row("production", *keys, unit="ft**2/hour")


def hours(*keys: str) -> float:
    return row("production", *keys, unit="hour")


def minutes(*keys: str) -> float:
    return row("fixtures", *keys, unit="minute/count")


def inches(table: str, *keys: str) -> float:
    """Return inches as feet."""
    return row(table, *keys, unit="inch") / 12


def cheapest(gallons: float, paint: str) -> float:
    """Return the least that cans holding so much cost, by trying every order of cans."""
    quart, gallon, five = (row("prices", paint, size, unit="dollar") for size in ("quart", "gallon", "five"))
    orders = product(range(4), range(8), range(5))  # quarts, gallons, fives
    return min(q * quart + g * gallon + f * five for q, g, f in orders if q / 4 + g + 5 * f >= gallons)


def round_up(need: float, each: float) -> int:
    return math.ceil(need / each - 1e-9)


# The room, read off the tape: an L of 19 ft 6 in by 14 ft 3½ in, less 6 ft 2 in by 4 ft 8 in; 8 ft 2 in high;
# a soffit along a wall, 9 ft 4 in long, 14 in wide, 11 in down, its ends seen. The tape is taken at its word.

TRUE = share("factors", "measured", "sure")
LENGTH, WIDTH = 19.5 * TRUE, (14 + 3.5 / 12) * TRUE
FLOOR = LENGTH * WIDTH - (6 + 2 / 12) * (4 + 8 / 12) * TRUE**2  # 278.69 − 28.78 = 249.91 ft²
ROUND = 2 * (LENGTH + WIDTH)  # 67.58 ft
HEIGHT = (8 + 2 / 12) * TRUE
CEILING = FLOOR + ((9 + 4 / 12) + 2 * 14 / 12) * (11 / 12) * TRUE**2  # 249.91 + 10.69 = 260.60 ft²
STAIN = 6.0  # ft² of smoke
PEOPLE, ONE_WAY = 2, 25 / 60  # hours on the road

# The ceiling: popcorn of medium depth, thought never to have been painted, so it drinks; two coats, trims to coat.

ROUGH = share("surfaces", "popcorn_medium", "area_factor")
FIRST, LATER = share("take_up", "very_porous", "first"), share("take_up", "very_porous", "later")
SOLIDS, DRY = (
    percent("coatings", "ceiling_flat", "volume_solids"),
    row("coatings", "ceiling_flat", "dry_film", unit="thou"),
)
HEAVY = row("coatings", "ceiling_flat", "density", unit="kg/liter")  # as heavy as water so many times
FURNISHED = share("factors", "furniture", "light")
PAID = row("business", "wage", unit="dollar/hour") * (1 + percent("business", "burden"))
OVERHEAD = row("business", "overhead", unit="dollar/hour")


def spread(*keys: str, loss: float | None = None) -> float:
    """Return the flat square feet a gallon covers on this ceiling: as the table has it by hand, less when sprayed."""
    by_hand = row("coverage", "popcorn_medium", *keys, unit="ft**2/gallon")
    return by_hand if loss is None else by_hand * (1 - loss) / (1 - percent("losses", "roll", "interior"))


def sprayed(drinks: float) -> tuple[float, float]:
    """Return the hours at the gun for a coat, and the share of its paint that is lost, with the best tip at hand.

    Of those that lay an even film, the best leaves least mist, then needs fewest passes, then least time.
    """
    wet = DRY * ROUGH * (1 + drinks) / SOLIDS
    sags = row("spray", "film", "texture", unit="thou") * ROUGH * (1 + drinks)
    slowest = row("spray", "gun", "speed_least", unit="ft/second")
    found = []
    with (ROOT / "reference" / "tips.csv").open(newline="", encoding="utf-8") as lines:
        codes = [each["tip"] for each in csv.DictReader(lines)]
    for code, (setting, losses) in product(codes, [("usual", "airless"), ("reduced", "airless_reduced")]):
        pascal = row("spray", "pressure", setting, unit="psi") * 6894.757293168
        hole = math.pi / 4 * (int(code[1:]) / 1000 * 0.0254) ** 2  # m²
        liters = share("spray", "discharge", "coefficient") * hole * math.sqrt(2 * pascal / (HEAVY * 1000)) * 60_000
        flow = liters / 3.785411784  # gallons a minute
        fan = 2 * int(code[0]) * row("spray", "gun", "distance", unit="inch") / 12  # inches
        fresh = fan / 12 * (1 - percent("spray", "gun", "overlap"))  # ft between strokes
        loss = percent("losses", losses, "masked_interior")
        in_one = MIL * flow * (1 - loss) / (fresh * 60 * wet)  # ft a second to lay it all in one pass
        passes = max(2, round_up(wet, sags), round_up(slowest, in_one))
        speed = in_one * passes
        held = CEILING * passes / (fresh * speed * 60)  # minutes
        fine = (
            speed <= row("spray", "gun", "speed_most", unit="ft/second")
            and passes <= share("spray", "passes", "most")
            and flow * (1 + percent("spray", "tip", "wear")) <= row("spray", "pump", "capacity", unit="gallon/minute")
        )
        found.append((not fine, round(flow * held * loss, 6), passes, held, loss))
    *_, held, loss = min(found)
    return held / share("production", "spray_lap", "airless", "any") / 60, loss


GUN_1, LOSS_1 = sprayed(FIRST)
GUN_2, LOSS_2 = sprayed(LATER)

# Masking: film from behind the paper to a tail on the floor.

DROP = (
    HEIGHT
    - inches("masking_stock", "paper_run", "width")
    + inches("masking_stock", "overlap", "film_on_paper")
    + inches("masking_stock", "tail", "film")
)
DRAPE = ROUND * DROP
LAP = inches("masking_stock", "overlap", "film")
TIERS = round_up(DROP - LAP, inches("masking_stock", "wall_film", "width") - LAP)
STRIPS = round_up(ROUND, row("masking_stock", "wall_film", "run", unit="ft") - LAP)
SEAMS = STRIPS * DROP + (TIERS - 1) * ROUND
WASTE = 1 + share("masking_stock", "tape_waste", "any")

TASKS = {  # in the order they are done, person-hours
    "mobilize": hours("mobilize", "any", "any"),
    "move_furniture": hours("move_furniture", "hand", "light"),
    "protect_floor": FLOOR / rate("protect_floor", "hand", "any") * FURNISHED,
    "mask_edge": ROUND / row("production", "mask_edge", "paper", "any", unit="ft/hour") * FURNISHED,
    "hang_film": DRAPE / rate("hang_film", "film", "any") * FURNISHED,
    "mask_opening": 3 * row("production", "mask_opening", "film", "any", unit="minute/count") / 60 * FURNISHED,
    "mask_recessed_light": 4 * minutes("recessed_light", "mask") / 60,
    "mask_fan": 1 * minutes("fan", "mask") / 60,
    "mask_grille": 2 * minutes("grille", "mask") / 60,
    "mask_detector": 1 * minutes("detector", "mask") / 60,
    "dust_ceiling": CEILING / rate("dust_ceiling", "vacuum", "popcorn"),
    "set_up_sprayer": hours("set_up_sprayer", "airless", "any"),
    "seal_stains": STAIN / rate("stain_spot", "brush", "any"),
    "ceiling_1": GUN_1,
    "ceiling_2": GUN_2,
    "scuff_trims": 4 * row("production", "clean_scuff", "hand", "any", unit="minute/count") / 60,
    "coat_trims": 4
    * share("fixtures", "recessed_light", "passes")
    * row("production", "spot_coat", "airless", "any", unit="minute/count")
    / 60,
    "unmask": DRAPE / rate("unmask", "hand", "any"),
    "unmask_floor": FLOOR / rate("unmask", "hand", "any"),
    "uncover_recessed_light": 4 * minutes("recessed_light", "uncover") / 60,
    "uncover_fan": 1 * minutes("fan", "uncover") / 60,
    "uncover_grille": 2 * minutes("grille", "uncover") / 60,
    "uncover_detector": 1 * minutes("detector", "uncover") / 60,
    "wash_sprayer": hours("wash_sprayer", "airless", "any"),
    "final_walk": hours("final_walk", "any", "any"),
}


def settling() -> float:
    """Return the hours until so little mist hangs that the masking may come down.

    Stokes' law, the drag of Schiller and Naumann found by halving, and the slip of a small grain in air of 20 °C.
    """
    grain = row("spray", "droplet", "reduced_fine", unit="micrometer") * 1e-6 * SOLIDS ** (1 / 3)
    dried = (HEAVY - (1 - SOLIDS) * 0.998) / SOLIDS * 1000  # kg/m³
    thick, thin = 1.81e-5, 1.205  # Pa·s and kg/m³ of air
    creeping = (dried - thin) * 9.80665 * grain**2 / (18 * thick) * grain * thin / thick
    low, high = 0.0, creeping
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if middle * (1 + 0.15 * middle**0.687) < creeping else (low, middle)
    falls = (1 + 0.166e-6 / grain) * low * thick / thin / grain  # m/s
    an_hour = falls * 3600 / (HEIGHT * 0.3048) + row("spray", "settle", "air_changes", unit="count/hour")
    return math.log(1 / percent("spray", "settle", "left")) / an_hour


def dry() -> float:
    """Return the hours until the next coat at 70 °F and 50 %: longer than printed, twice as long for 10 °C less."""
    colder = (row("climate", "drying_reference_temperature", "any", unit="degF") - 70) / 1.8
    damper = (1 - percent("climate", "drying_reference_humidity", "any")) / (1 - 0.50)
    return row("coatings", "ceiling_flat", "recoat", unit="hour") * 2 ** (colder / 10) * damper


FLASH = (
    (share("fixtures", "recessed_light", "passes") - 1) * row("fixtures", "recessed_light", "flash", unit="minute") / 60
)
# What is done in the room, one after the other, and what has to be over first: so many hours after the end of the step
# so many places before. The alarm is bagged while dust or mist is in the air, and hangs free each evening. The sprayer
# is set up and washed each day it sprays: the first coat is not dry before the first day is over.
STEPS: list[tuple[str, tuple[int, float] | None]] = [
    *((each, None) for each in ("mobilize", "move_furniture", "protect_floor", "mask_edge", "hang_film")),
    *((each, None) for each in ("mask_opening", "mask_recessed_light", "mask_fan", "mask_grille", "mask_detector")),
    ("dust_ceiling", None),
    ("uncover_detector", None),
    ("seal_stains", None),
    ("set_up_sprayer", (1, row("coatings", "stain_primer_solvent", "recoat", unit="hour"))),
    ("mask_detector", None),
    ("ceiling_1", None),
    ("uncover_detector", (1, settling())),
    ("wash_sprayer", None),
    ("set_up_sprayer", (3, dry())),
    ("mask_detector", None),
    ("ceiling_2", None),
    ("uncover_detector", (1, settling())),
    ("scuff_trims", None),
    ("mask_detector", None),
    ("coat_trims", None),
    ("uncover_detector", None),
    ("wash_sprayer", None),
    ("unmask", (1, FLASH)),  # a room is ready so long after the whole step, the sprayer washed
    *((each, None) for each in ("unmask_floor", "uncover_recessed_light", "uncover_fan", "uncover_grille")),
    ("final_walk", None),
]
LABOR: dict[str, float] = {}
for _step, _ in STEPS:
    LABOR[_step] = LABOR.get(_step, 0.0) + TASKS[_step]


def walked() -> tuple[int, float]:
    """Return the days on which somebody works, and the person-hours waited there on pay, by a clock of our own.

    The clock stops for the night and the paint dries on. Whoever would wait longer than coming back costs goes home.
    """
    opening = hours("daily_start", "any", "any")
    work_day = row("business", "day_length", unit="hour") - opening / PEOPLE
    patience = max(row("business", "longest_wait", unit="hour"), opening / PEOPLE + 2 * ONE_WAY)
    clock, waited, ends, seen = 0.0, 0.0, [], set()  # hours since the first morning
    for place, (name, after) in enumerate(STEPS):
        ready = ends[place - after[0]] + after[1] if after else 0.0
        if ready > clock:
            same_day = ready // 24 == clock // 24 and ready % 24 < work_day
            if same_day and ready - clock <= patience:
                waited += ready - clock
                clock = ready
            else:
                clock = (ready // 24 + 1) * 24.0
        clock += TASKS[name] / PEOPLE
        assert clock % 24 <= work_day, "no step of this job runs over its day"
        seen.add(clock // 24)
        ends.append(clock)
    return len(seen), waited * PEOPLE


def release() -> tuple[float, float]:
    """Return the chance that texture comes down when sprayed, and what mending it costs on average."""
    odds = share("release", "prior", "looks_unpainted", "probability")
    odds = odds / (1 - odds)
    alike = share("release", "tests", "clustered", "correlation")
    rub_bad = share("release", "evidence", "rub_chalky", "odds")
    rub_clean = share("release", "evidence", "rub_clean", "odds")
    sound = (rub_bad - 1) / (rub_bad - rub_clean)  # how often a rub comes out clean on a sound surface, and a weak one
    weak = rub_clean * sound
    odds *= (
        rub_clean * (weak * (1 - alike) + alike) / (sound * (1 - alike) + alike)
    )  # two of them, the second told less
    odds *= share("release", "evidence", "mist_darkens", "odds") * share("release", "evidence", "tape_under_5", "odds")
    though_sound = share("release", "sound", "coated", "probability")
    chance_of_weak = odds / (1 + odds)
    sprayed = chance_of_weak * share("release", "method", "spray", "share") + (1 - chance_of_weak) * though_sound
    again = (  # the floor and the edges covered once more, and the whole ceiling coated by roller
        FLOOR / rate("protect_floor", "hand", "any")
        + ROUND / row("production", "mask_edge", "paper", "any", unit="ft/hour")
        + CEILING / rate("roll_ceiling", "roll", "popcorn")
    )
    paint = cheapest(CEILING / spread("sealed", "any", "any"), "ceiling_flat")
    mending, chances = 0.0, 0.0
    for extent in ("spots", "patches", "sheets"):
        area = CEILING * percent("release", "extent", extent, "area")
        labor = area / rate("repair_release", extent, "any") + row("business", "repair_visit", unit="hour") + again
        chance = share("release", "extent", extent, "probability")
        mending += chance * (labor * (PAID + OVERHEAD) + paint)
        chances += chance
    return sprayed, mending / chances


def second_calculation() -> dict[str, float]:
    """Return the dollars of every line, by its key, and the price."""
    days, waited = walked()
    labor = {
        **LABOR,
        "waiting": waited,
        "daily_start": days * hours("daily_start", "any", "any"),
        "travel": days * 2 * ONE_WAY * PEOPLE,
    }
    first, later = (
        spread("very_porous", coat, "any", loss=loss) for coat, loss in (("first", LOSS_1), ("later", LOSS_2))
    )
    coats = CEILING / first + CEILING / later
    sealer = spread("very_porous", "first", "any")
    outer, inner = (inches("fixtures", "recessed_light", f"{side}_diameter") for side in ("outer", "inner"))
    rings = 4 * math.pi / 4 * (outer**2 - inner**2) * share("fixtures", "recessed_light", "passes")
    enamel = rings * row("fixtures", "recessed_light", "wet_film", unit="thou") / MIL
    bought = {
        "stain_primer_solvent": cheapest(STAIN / sealer, "stain_primer_solvent"),
        "ceiling_flat": cheapest(coats + row("losses", "equipment", "sprayer", unit="gallon"), "ceiling_flat"),
        "trim_enamel": cheapest(enamel / (1 - percent("losses", "airless", "open_parts")), "trim_enamel"),
    }
    rolls = {
        "paper_run": ROUND * WASTE,
        "wall_film": (ROUND + STRIPS * LAP) * TIERS,
        "tape_edge": (3 * ROUND + SEAMS) * WASTE,  # paper to ceiling, film to paper, film to floor, and the seams
        "floor_paper": FLOOR
        / (inches("masking_stock", "floor_paper", "width") - inches("masking_stock", "overlap", "floor")),
    }
    for item, need in rolls.items():
        count = round_up(need, row("masking_stock", item, "length", unit="ft"))
        bought[item] = count * row("prices", item, "roll", unit="dollar")
    bought["rags"] = row("prices", "rags", "box", unit="dollar")
    bought["spray_tip"] = row("prices", "spray_tip", "each", unit="dollar")
    bought["respirator_cartridges"] = PEOPLE * row("prices", "respirator_cartridges", "each", unit="dollar")
    bought["dust_mask"] = PEOPLE * row("prices", "dust_mask", "each", unit="dollar")
    chance, mending = release()
    lines = {
        **{key: each * PAID for key, each in labor.items()},
        **bought,
        "equipment_sprayer": days * row("business", "equipment_sprayer", unit="dollar"),
        "texture_release": chance * mending,
        "purchase_tax": sum(bought.values()) * percent("business", "purchase_tax"),
        "overhead": sum(labor.values()) * OVERHEAD,
    }
    cost = sum(lines.values())
    lines["markup"] = cost * percent("business", "markup")
    lines["minimum_charge"] = max(0.0, row("business", "minimum_charge", unit="dollar") - cost - lines["markup"])
    lines["sales_tax"] = (cost + lines["markup"] + lines["minimum_charge"]) * percent("business", "sales_tax")
    return lines


def cents(amount: float) -> Decimal:
    return Decimal(str(round(amount, 9))).quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    """The demo sprayed, whatever is recommended: the method with the most to work out."""
    job = read_job(DEMO)
    return estimate_job(job.model_copy(update={"work": (job.work[0].model_copy(update={"method": "spray"}),)}))


@pytest.fixture(scope="module")
def taken(outcome: Outcome) -> Option:
    return outcome.comparisons[0].taken


def test_it_is_the_sprayed_ceiling_that_is_worked_out_again(taken: Option) -> None:
    """Sprayed, water-borne, and never seen as another method."""
    assert taken.plan.method == "spray"


def test_every_line_agrees_to_the_cent(taken: Option) -> None:
    """The same lines, in both calculations, and the same money in each; what is done more than once is added up."""
    ours: dict[str, float] = {}
    for line in taken.estimate.lines:
        ours[line.key] = ours.get(line.key, 0.0) + line.amount.value
    theirs = second_calculation()
    assert {key: cents(amount) for key, amount in ours.items()} == {key: cents(each) for key, each in theirs.items()}


def test_the_price_agrees_to_the_cent(outcome: Outcome) -> None:
    """The sum of the second calculation's lines, each line of the estimate rounded by itself."""
    second = second_calculation()
    again = {name: sum(step == name for step, _ in STEPS) for name in LABOR}
    each = (cents(second[name] / count) * count for name, count in again.items())
    rest = (cents(amount) for name, amount in second.items() if name not in again)
    assert sum(each, Decimal(0)) + sum(rest, Decimal(0)) == outcome.estimate.price


def test_what_is_measured_agrees(outcome: Outcome) -> None:
    """Days, hours and gallons."""
    estimate = outcome.estimate
    days, waited = walked()
    assert estimate.schedule.days.value == days
    assert estimate.schedule.idle.value == pytest.approx(waited, rel=1e-9)
    worked = sum(LABOR.values()) + waited + days * (hours("daily_start", "any", "any") + 2 * ONE_WAY * PEOPLE)
    assert estimate.hours.value == pytest.approx(worked, rel=1e-9)
    chance, _ = release()
    assert outcome.comparisons[0].taken.chance is not None
    assert outcome.comparisons[0].taken.chance.value == pytest.approx(chance, rel=1e-9)
