import copy
import tomllib
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import InputError, InputErrors
from estimating.job.file import dump_job, write_job
from estimating.job.room import CeilingForm, Confidence, Fixtures, Floor, Furniture, OpeningKind
from estimating.job.site import Household, Ignition, TestResult
from estimating.job.surfaces import StainKind, Substrate
from estimating.job.values import UNKNOWN, Answer
from estimating.scopes.kinds.textured_ceiling.notes import OUTCOMES, Depth, FieldTest, History, Texture
from estimating.workbook import build_job, parse_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
MODEL_WORDS = ("tag", "discriminator", "tuple", "dict", "model", "Input should", "Value error", "validation", "None")

LEAST: dict[str, Any] = {
    "title": "a ceiling",
    "rooms": [{"name": "attic", "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}}],
    "work": [{"kind": "textured_ceiling", "room": "attic", "texture": "popcorn"}],
}


def changed(plain: dict[str, Any], *steps: str | int, to: object) -> dict[str, Any]:
    """Return a copy of plain values with the one at the end of the steps set."""
    copied = copy.deepcopy(plain)
    here: Any = copied
    for step in steps[:-1]:
        here = here[step] if isinstance(step, int) else here.setdefault(step, {})
    here[steps[-1]] = to
    return copied


def complaints(plain: dict[str, Any]) -> list[str]:
    """Return the sentences with which a job is refused."""
    with pytest.raises(InputErrors) as refused:
        build_job(plain)
    return [str(each) for each in refused.value.problems]


# Generated jobs: every field may be answered, left out, or unknown; every list may be none.

words = st.text("abc äß½ \"'\\=#[]{}\n\t,;.", min_size=1, max_size=12).filter(lambda text: text.strip())
lengths = st.builds("{}' {} {}/4\"".format, st.integers(4, 18), st.integers(0, 11), st.integers(0, 3))
counts = st.integers(0, 30)


def maybe(answers: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return answers | st.just(UNKNOWN)


def listed(items: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.just("none") | st.lists(items, max_size=3)


def form(needed: dict[str, Any], open_: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(needed, optional={name: maybe(answers) for name, answers in open_.items()})


def one_of(words_: Any) -> st.SearchStrategy[str]:
    return st.sampled_from([str(each) for each in words_])


shapes = st.one_of(
    form({"kind": st.just("rectangle"), "length": lengths, "width": lengths}, {}),
    form(
        {
            "kind": st.just("l_shape"),
            "length": st.just("50 ft"),
            "width": st.just("16 m"),
            "notch_length": lengths,
            "notch_width": lengths,
        },
        {},
    ),
    st.just({"kind": "polygon", "corners": [["0", "0"], ["-4 m", "0"], ["-4 m", "12' 6½\""]]}),
)
rooms = form(
    {"shape": shapes, "ceiling": one_of(CeilingForm), "rise": lengths, "measured": one_of(Confidence)},
    {
        "height": lengths,
        "soffits": listed(
            st.fixed_dictionaries({"length": lengths, "width": lengths, "drop": lengths, "faces": st.integers(0, 2)})
        ),
        "openings": listed(
            st.fixed_dictionaries({"kind": one_of(OpeningKind), "width": lengths, "height": lengths, "count": counts})
        ),
        "fixtures": form({}, dict.fromkeys(Fixtures.model_fields, counts | st.just("none"))),
        "floor": one_of(Floor),
        "furniture": one_of(Furniture),
    },
)
tests = st.one_of(
    st.sampled_from([(str(kind), outcome) for kind, outcomes in OUTCOMES.items() for outcome in outcomes]).map(
        lambda pair: {"kind": pair[0], "outcome": pair[1]}
    ),
    st.floats(0, 100).map(lambda share: {"kind": str(FieldTest.TAPE_PULL), "removed": share, "where": "over the door"}),
)
ceilings = form(
    {"kind": st.just("textured_ceiling"), "texture": one_of(Texture)},
    {
        "substrate": one_of(Substrate),
        "depth": one_of(Depth),
        "history": one_of(History),
        "history_evidence": words,
        "sound": one_of(Answer),
        "bare_board_behind_fallen": one_of(Answer),
        "tests": listed(tests),
        "stains": listed(form({"kind": one_of(StainKind), "square_feet": counts}, {"cause_cured": one_of(Answer)})),
        "color_now": words,
        "coats": st.integers(1, 4),
        "trims_to_coat": counts,
        "walls_next": one_of(Answer),
        "tip": words,
        "method": words,
    },
)
sites = form(
    {},
    {
        "address": words,
        "year_built": st.integers(1600, 2026),
        "asbestos_test": one_of(TestResult),
        "occupied": one_of(Answer),
        "household": listed(one_of(Household)),
        "travel_minutes": counts | st.just("none"),
        "air": st.integers(-40, 120).map("{} degF".format) | st.integers(-40, 50).map("{} °C".format),
        "humidity": st.floats(0, 100) | st.integers(0, 100).map("{} %".format),
        "airflow": one_of(Answer),
        "ignition": form({}, {"pilot_flame": one_of(Ignition), "electric_motor": one_of(Ignition)}),
    },
)
own = st.dictionaries(
    st.sampled_from(["business/wage", "production/roll_ceiling/roll/popcorn"]),
    form({"likely": st.floats(-1e6, 1e6), "unit": words}, {"low": st.floats(-9, 9), "note": words}),
)


@st.composite
def jobs(draw: st.DrawFn) -> dict[str, Any]:
    names = draw(st.lists(words.filter(lambda word: word != UNKNOWN), min_size=1, max_size=3, unique=True))
    work = [(room, draw(ceilings)) for room in names[: draw(st.integers(1, len(names)))]]  # one for a ceiling
    return {
        "title": draw(words),
        "invented": draw(st.booleans()),
        "client": draw(form({}, {"name": words, "contact": words})),
        "site": draw(sites),
        "crew": {"people": draw(st.integers(1, 9))},
        "rooms": [{"name": name, **draw(rooms)} for name in names],
        "work": [{**item, "room": room} for room, item in work],
        "own": draw(own),
    }


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(jobs())
def test_any_job_comes_back_from_its_file_as_it_was(plain: dict[str, Any]) -> None:
    """Every reading as it was typed, every unknown unknown, every none none."""
    job = build_job(plain)
    text = dump_job(job)
    assert parse_job(text) == job
    assert dump_job(parse_job(text)) == text


@pytest.mark.parametrize("path", sorted(JOBS.glob("*.toml")), ids=lambda path: path.stem)
def test_a_job_of_ours_comes_back_from_its_file_as_it_was(path: Path, tmp_path: Path) -> None:
    """Read, written and read again; and what the file says is in what is written."""
    job = read_job(path)
    write_job(job, tmp_path / "again.toml")
    assert read_job(tmp_path / "again.toml") == job
    written = tomllib.loads((tmp_path / "again.toml").read_text(encoding="utf-8"))
    assert missing_from(written, tomllib.loads(path.read_text(encoding="utf-8"))) == []


def missing_from(written: Any, said: Any, where: str = "") -> list[str]:
    """Return where the written file does not say what the first one said."""
    if isinstance(said, dict):
        return [each for name in said for each in missing_from(written.get(name), said[name], f"{where}.{name}")]
    if isinstance(said, list):
        pairs = zip(written, said, strict=True)
        return [each for place, pair in enumerate(pairs) for each in missing_from(*pair, f"{where}[{place}]")]
    alike = written == said or (said == "none" and written in (0, []))
    return [] if alike else [f"{where}: {written!r} for {said!r}"]


def test_a_new_job_needs_very_little() -> None:
    """A title, a room with its plan and a ceiling: everything else may be unknown."""
    job = build_job(LEAST)
    assert job.rooms[0].height is None
    assert job.work[0].history is None
    assert job.site.year_built is None


def test_unknown_none_and_nought_are_three_answers() -> None:
    """Nobody counted the lights; there are none; there are no stains; nobody looked for stains."""
    lights = ("rooms", 0, "fixtures", "ceiling_light")
    counted = [
        build_job(changed(LEAST, *lights, to=each)).rooms[0].fixtures.ceiling_light for each in (UNKNOWN, "none", 0)
    ]
    assert counted == [None, 0, 0]
    stains = [build_job(changed(LEAST, "work", 0, "stains", to=each)).work[0].stains for each in (UNKNOWN, "none", [])]
    assert stains == [None, (), ()]
    text = dump_job(build_job(changed(LEAST, *lights, to=UNKNOWN)))
    assert 'ceiling_light = "unknown"' in text
    assert 'stains = "unknown"' in text
    assert "ceiling_light = 0" in dump_job(build_job(changed(LEAST, *lights, to="none")))
    assert "stains = []" in dump_job(build_job(changed(LEAST, "work", 0, "stains", to="none")))


@pytest.mark.parametrize(
    "steps",
    [
        ("site",),
        ("rooms", 0, "fixtures"),
        ("rooms", 0, "height"),
        ("work", 0, "history_evidence"),
        ("work", 0, "tests"),
    ],
)
def test_unknown_is_the_same_as_leaving_a_field_out(steps: tuple[str | int, ...]) -> None:
    """For an answer, a note, a list or a whole part of the file; an empty text is no answer either."""
    assert build_job(changed(LEAST, *steps, to=UNKNOWN)) == build_job(LEAST)
    assert build_job(changed(LEAST, *steps, to="")) == build_job(LEAST)


@pytest.mark.parametrize("steps", [("crew", "people"), ("rooms", 0, "openings", 0, "count")])
def test_a_count_that_stands_for_one_is_not_given_to_an_unknown(steps: tuple[str | int, ...]) -> None:
    """Two doors that nobody counted are not one door."""
    door = {"kind": "door", "width": "32 in", "height": "80 in"}
    plain = changed(LEAST, "rooms", 0, "openings", to=[door])
    assert build_job(plain).rooms[0].openings[0].count == 1
    assert "'unknown', needs a whole number" in complaints(changed(plain, *steps, to=UNKNOWN))[0]


def test_no_coats_at_all_are_refused() -> None:
    """Nought is not unknown: it must not become the usual two."""
    assert "coats: got 0, needs 1 coat or more" in complaints(changed(LEAST, "work", 0, "coats", to=0))[0]
    assert build_job(changed(LEAST, "work", 0, "coats", to=UNKNOWN)).work[0].coats is None


def test_every_wrong_field_is_listed_at_once_with_its_path() -> None:
    """By section, by place in its list, and by the name of the room, so that each can be found in the file."""
    plain = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    for *steps, value in (
        ("site", "year_built", "old"),
        ("site", "humidity", 140),
        ("rooms", 0, "height", "8 lb"),
        ("rooms", 0, "openings", 1, "width", "wide"),
        ("work", 0, "history", "dunno"),
        ("work", 0, "tests", 3, "removed", -1),
        ("work", 0, "walls_next", "maybe"),
    ):
        plain = changed(plain, *steps, to=value)
    found = complaints(plain)
    assert {each.split(": got")[0] for each in found} == {
        "site · year_built",
        "site · humidity",
        'rooms[0] "sitting room" · height',
        'rooms[0] "sitting room" · openings[1] · width',
        'work[0] "sitting room" · history',
        'work[0] "sitting room" · walls_next',
        'work[0] "sitting room" · tests[3] · removed',
    }
    assert len(found) == 7
    assert "'dunno', needs one of 'never painted', 'looks unpainted'" in "\n".join(found)


@pytest.mark.parametrize(
    ("steps", "value"),
    [
        (("site", "yearbuilt"), 1974),
        (("site", "yearbuilt"), UNKNOWN),
        (("site", "yearbuilt"), ""),
        (("color",), "white"),
        (("rooms", 0, "shape", "lenght"), "12 ft"),
        (("work", 0, "walls_nxt"), "yes"),
        (("own",), {"business/wage": {"likely": 30, "unit": "dollar/hour", "hi": 40}}),
    ],
)
def test_a_misspelt_field_is_found(steps: tuple[str | int, ...], value: object) -> None:
    """Whatever it holds: passed over, it would be an answer lost."""
    found = complaints(changed(LEAST, *steps, to=value))
    assert len(found) == 1
    assert "is the name misspelt?" in found[0]


WRONG = [
    (("title",), 3, "title", "words, in quotes"),
    (("site",), "far", "site", "fields and their values"),
    (("rooms",), "big", "rooms", "a list in square brackets"),
    (("rooms", 0, "shape"), "12 x 10", 'rooms[0] "attic" · shape', "fields and their values, its kind among them"),
    (("rooms", 0, "shape", "kind"), "circle", 'rooms[0] "attic" · shape · kind', "one of 'rectangle', 'l_shape'"),
    (("rooms", 0, "shape", "length"), "12 lb", 'rooms[0] "attic" · shape · length', "a length as a tape reads it"),
    (("rooms", 0, "shape"), {"length": "12 ft"}, 'rooms[0] "attic" · shape · kind', "it cannot be left out"),
    (("rooms", 0, "shape"), {"kind": "polygon", "corners": []}, 'rooms[0] "attic" · shape · corners', "3 or more"),
    (("work", 0, "kind"), "drain", 'work[0] "attic" · kind', "'textured_ceiling'"),
    (("work", 0, "texture"), "smooth", 'work[0] "attic" · texture', "'popcorn'"),
    (("work", 0, "tip"), 213, 'work[0] "attic" · tip', "words, in quotes"),
    (("work", 0, "stains"), "some", 'work[0] "attic" · stains', "a list in square brackets"),
    (("site", "household"), ["cats"], "site · household[0]", "'children'"),
    (("site", "air"), "68 (f", "site · air", "degF"),
    (("site", "travel_minutes"), 22.5, "site · travel_minutes", "a whole number"),
    (("site", "travel_minutes"), True, "site · travel_minutes", "a whole number"),
    (("invented",), "perhaps", "invented", "true or false"),
    (
        ("own",),
        {"business/wage": {"likely": "much", "unit": "dollar/hour"}},
        "own · business/wage · likely",
        "a number",
    ),
    (
        ("own",),
        {"business/wage": {"likely": float("inf"), "unit": "dollar/hour"}},
        "own · business/wage · likely",
        "a n",
    ),
    (("own",), {"business/wage": {"likely": 3}}, "own · business/wage · unit", "it cannot be left out"),
]


@pytest.mark.parametrize(("steps", "value", "path", "needed"), WRONG)
def test_what_is_wrong_is_said_in_the_words_of_the_file(
    steps: tuple[str | int, ...], value: object, path: str, needed: str
) -> None:
    """Where it stands, and what would be right; nothing of how the model is built."""
    found = complaints(changed(LEAST, *steps, to=value))
    assert found[0].startswith(f"{path}: got ")
    assert needed in found[0]
    said = " ".join(found)
    assert not [word for word in MODEL_WORDS if word in said]
    assert "· textured_ceiling" not in said
    assert "· rectangle" not in said


def test_what_is_left_out_is_asked_for() -> None:
    """A file of one line lacks its title, rooms and work, and says all three."""
    with pytest.raises(InputErrors) as refused:
        parse_job("invented = true")
    assert [each.field for each in refused.value.problems] == ["title", "rooms", "work"]
    assert "cannot be left out" in str(refused.value)


@pytest.mark.parametrize(
    ("steps", "value", "sentence"),
    [
        (("rooms",), [], "rooms: got 'none', needs at least one room"),
        (("work",), [], "work: got 'none', needs at least one room and one item of work"),
        (("work", 0, "room"), "cellar", "work[0] · room: got 'cellar', needs one of the rooms: attic"),
        (("rooms",), LEAST["rooms"] * 2, "a different name for each room"),
    ],
)
def test_work_stands_in_a_room_of_its_own_name(steps: tuple[str | int, ...], value: object, sentence: str) -> None:
    """A misspelt room is shown with the rooms there are; two rooms of one name are refused."""
    assert sentence in complaints(changed(LEAST, *steps, to=value))[0]


def test_a_field_can_be_found_again_by_its_steps() -> None:
    """A form marks the wrong box by the steps to it, in which no word for a kind stands."""
    with pytest.raises(InputErrors) as refused:
        build_job(changed(LEAST, "rooms", 0, "shape", "length", to="12 lb"))
    assert refused.value.problems[0].location == ("rooms", 0, "shape", "length")


def test_a_file_that_cannot_be_read_is_refused_in_one_sentence(tmp_path: Path) -> None:
    """Not there, not text, not TOML."""
    with pytest.raises(InputError, match="No such file"):
        read_job(tmp_path / "nowhere.toml")
    (tmp_path / "picture.toml").write_bytes(b"\x89PNG\xff")
    with pytest.raises(InputError, match="text in UTF-8"):
        read_job(tmp_path / "picture.toml")
    (tmp_path / "list.toml").write_text("- title: a ceiling", encoding="utf-8")
    with pytest.raises(InputError, match=r"valid TOML .*line 1"):
        read_job(tmp_path / "list.toml")


def test_a_job_cannot_be_changed_under_an_estimate() -> None:
    """A new answer makes a new job."""
    job = build_job(LEAST)
    with pytest.raises(ValueError, match="frozen"):
        job.title = "another"


def test_text_of_any_kind_survives_the_file(tmp_path: Path) -> None:
    """Quotes, backslashes, line ends and signs of other alphabets."""
    title = "A \"ceiling\" at 'No. 3' \\ ½ naïve\nlast line\t– ☂"
    write_job(build_job(changed(LEAST, "title", to=title)), tmp_path / "job.toml")
    assert read_job(tmp_path / "job.toml").title == title
    assert parse_job(tomli_w.dumps(LEAST)) == build_job(LEAST)


@pytest.mark.parametrize(
    ("text", "needed"),
    [
        (f"title = {'[' * 5000}{']' * 5000}", "a few deep"),
        (f"title = {'{a=' * 5000}1{'}' * 5000}", "a few deep"),
        (f"title = 'x'\n[crew]\npeople = {'9' * 5000}", "a few digits"),
    ],
)
def test_a_text_made_to_break_the_reader_is_refused_in_words(text: str, needed: str) -> None:
    """Lists inside lists by the thousand, and a number of thousands of digits."""
    with pytest.raises(InputError, match=needed):
        parse_job(text)


@pytest.mark.parametrize("place", ["title", "name"])
def test_half_of_a_pair_of_letters_is_refused_where_it_stands(place: str) -> None:
    """It could not be saved; the file it came from is a form, since no file can hold it."""
    plain = copy.deepcopy({**LEAST, "client": {"name": "somebody"}})
    part = plain if place == "title" else plain["client"]
    part[place] = "Alder \ud800 Row"
    with pytest.raises(InputErrors, match=f"{place}: got .*needs letters that can be written"):
        build_job(plain)
