"""`ensemble.past`: what became of a site's batches moves the chance that the next one fails."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta

from sourloam.base.errors import OutOfRange
from sourloam.science.ferment.ensemble.failing import Failing, Kind
from sourloam.science.ferment.ensemble.past import Past, chance_after, learned

SHARES = st.floats(0.01, 0.99)
NOBODY = np.zeros(1, dtype=bool)


@given(share=SHARES, failed=st.integers(0, 40), sound=st.integers(0, 200), weighs=st.floats(10.0, 60.0))
def test_it_is_the_mean_of_the_beta_distribution_after_what_was_seen(share, failed, sound, weighs):
    after = beta(weighs * share + failed, weighs * (1.0 - share) + sound)
    assert chance_after(share, failed, failed + sound, weighs=weighs) == pytest.approx(after.mean())


@given(share=SHARES)
def test_where_nothing_was_seen_it_stays_as_the_model_has_it(share):
    assert chance_after(share, 0, 0, weighs=25.0) == pytest.approx(share)


@given(share=SHARES, batches=st.integers(1, 100))
def test_sound_batches_lower_it_and_failed_ones_raise_it(share, batches):
    sound, failed = (chance_after(share, each, batches, weighs=25.0) for each in (0, batches))
    assert sound < share < failed


def test_what_failed_most_often_comes_first():
    kinds = tuple(Failing(each, at, "low", "", NOBODY, 0.04) for at, each in enumerate(Kind, start=1))
    after = learned(kinds, Past(batches=60, drowned=12, mouldy=1), weighs=25.0)
    assert [each.kind for each in after[:2]] == [Kind.DROWNED, Kind.MOULDY]
    assert [each.rank for each in after] == [1, 2, 3, 4, 5]
    assert after[0].word == "raised"
    assert after[0].chance == pytest.approx(13.0 / 85.0)


def test_a_small_chance_is_named_from_fifty_batches_on():
    assert not Past(batches=49).tells
    assert Past(batches=50).tells


def test_a_share_beyond_the_whole_is_refused():
    with pytest.raises(OutOfRange, match=r"^share = 1\.2 is outside 0 to 1: it is a share"):
        chance_after(1.2, 0, 10, weighs=25.0)
