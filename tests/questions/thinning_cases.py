"""Trees of every kind as thinning questions, drawn for tests of the shipped rules."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from service.domain.crop_load import SET_CLASSES, Branch, Load, TreeSize
from service.domain.cultivar import SEASONS
from service.questions.thinning import Habit, Moment, Place, ThinningQuestion, Variety, VarietyPlan
from service.questions.thinning.question import STAGES

CROPS = (
    "almond", "apple", "apricot", "asian_pear", "european_pear", "european_plum", "fig", "japanese_plum", "jujube",
    "loquat", "nectarine", "pawpaw", "peach", "persimmon", "plum_apricot_hybrid", "pomegranate", "quince",
    "sweet_cherry", "tart_cherry",
)  # fmt: skip
FLAG = st.none() | st.booleans()
BRANCHES = st.builds(
    Branch,
    length_in=st.floats(6, 90),
    diameter_in=st.none() | st.floats(0.15, 1.6),
    fruit=st.integers(0, 60),
    leaves=st.none() | st.integers(0, 400),
)
BRANCH_LOADS = st.builds(Load, branches=st.lists(BRANCHES, min_size=1, max_size=4).map(tuple))
LOADS = st.one_of(
    BRANCH_LOADS,
    st.builds(Load, fruit=st.none() | st.integers(0, 900), set=st.none() | st.sampled_from(SET_CLASSES)),
)
TREES = st.builds(
    TreeSize,
    age_years=st.none() | st.integers(1, 30),
    height_ft=st.none() | st.floats(2, 30),
    trunk_girth_in=st.none() | st.floats(1, 40),
)
HABITS = st.builds(
    Habit,
    vigour=st.sampled_from([None, "weak", "moderate", "strong"]),
    last_crop=st.sampled_from([None, "none", "light", "normal", "heavy"]),
    split_pits=FLAG,
)
MOMENTS = st.builds(
    Moment,
    days_after_full_bloom=st.none() | st.integers(-10, 120),
    stage=st.none() | st.sampled_from(STAGES),
    fruit_diameter_mm=st.none() | st.floats(2, 90),
    natural_drop=st.sampled_from([None, "before", "during", "over"]),
)
PLACES = st.builds(Place, frost_past=FLAG, codling_moth=FLAG, brown_rot=FLAG, large_fruit=FLAG)


def varieties(loads: st.SearchStrategy[Load]) -> st.SearchStrategy[Variety]:
    """A variety of any kind with one of these loads."""
    return st.builds(
        Variety,
        ripening=st.none() | st.sampled_from(SEASONS),
        fruit_size=st.sampled_from([None, "small", "medium", "large"]),
        hybrid_type=st.sampled_from([None, "plum_like", "apricot_like"]),
        bearing=st.sampled_from([None, "annual", "alternate"]),
        load=loads,
    )


def questions(loads: st.SearchStrategy[Load], *, most: int = 3) -> st.SearchStrategy[ThinningQuestion]:
    """A tree of any crop with up to `most` varieties."""
    return st.builds(
        ThinningQuestion,
        crop=st.sampled_from(CROPS),
        varieties=st.lists(varieties(loads), min_size=1, max_size=most).map(tuple),
        tree=TREES,
        habit=HABITS,
        moment=MOMENTS,
        place=PLACES,
    )


def followed(plan: VarietyPlan) -> Variety:
    """The variety with what its plan leaves on it."""
    load = plan.variety.load
    branches = tuple(replace(one.carried.branch, fruit=one.keep, places=None) for one in plan.branches)
    return replace(plan.variety, load=replace(load, branches=branches, fruit=load.fruit and plan.keep))
