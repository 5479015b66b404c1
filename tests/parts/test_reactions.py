"""A load path that loses part of a load is refused in one sentence, however little it loses."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

import framing.loads.reactions
from framing.anchors.catalogue_file import shipped_catalogue
from framing.errors import LoadError
from framing.loads.load_path import LinearMap, Variant, build_map
from framing.loads.reactions import Stand, Way
from framing.run import make_run
from invariants.houses import plan_of

BOX = plan_of([(0, 0), (24, 0), (24, 20), (0, 20)])


def leaking(part: float) -> object:
    """The program's own map, every share smaller by that part."""

    def build(*given: object, **named: object) -> LinearMap:
        whole = build_map(*given, **named)
        return replace(whole, share=whole.share * (1.0 - part))

    return build


@pytest.mark.parametrize("part", [0.1, 1e-6])
def test_a_case_that_does_not_come_down_whole_is_refused(part: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """Invariant 3: 1e-9 of the load."""
    monkeypatch.setattr(framing.loads.reactions, "build_map", leaking(part))
    with pytest.raises(LoadError, match=r"^case 'dead for uplift': the reactions do not add up to the load; please "):
        make_run(BOX, shipped_catalogue())


@pytest.mark.parametrize("share", [0.5, 1.0 - 1e-6, 1.0 + 1e-6])
def test_a_piece_that_is_not_carried_whole_is_refused_though_no_case_loads_it(share: float) -> None:
    way = Way(variant=Variant.DECK, stand=Stand(lifted=False, rake=None))
    one = LinearMap(bearing=np.array([0]), piece=np.array([0]), share=np.array([share]), n_bearings=1, n_pieces=1)
    with pytest.raises(LoadError, match=r"^load path \(deck\): a piece of roof is not carried whole; please report"):
        framing.loads.reactions._check_balance((), {way: one}, [])


def test_a_map_without_pieces_and_a_bearing_without_load_receive_nothing() -> None:
    none = LinearMap(
        bearing=np.array([], dtype=np.int64),
        piece=np.array([], dtype=np.int64),
        share=np.zeros(0),
        n_bearings=2,
        n_pieces=1,
    )
    assert none.apply(np.ones((1, 3))).tolist() == [[0.0] * 3] * 2
    last = replace(none, bearing=np.array([1]), piece=np.array([0]), share=np.array([0.5]))
    assert last.apply(np.array([[2.0, 4.0]])).tolist() == [[0.0, 0.0], [1.0, 2.0]]
    assert last.column_sums().tolist() == [0.5]
