"""roof.glb, opened by two other readers: named, closed, in place, in metres with y up, and the same every time."""

from __future__ import annotations

import dataclasses
import hashlib
import io
import json
import os
import struct
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh

from export.walkthrough.model_file import roof_glb
from framing.run import CAUTION, Run

METRES_PER_FT = 0.3048
GROUPS = {"site", "walls", "tie beam", "anchors", "trusses", "deck", "covering", "finish"}


@pytest.fixture(scope="module", params=["cottage", "hip_house", "garage_wing"])
def sample(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def run(sample: str, sample_run: Callable[[str], Run]) -> Run:
    return sample_run(sample)


@pytest.fixture(scope="module")
def data(run: Run) -> bytes:
    return roof_glb(run)


@pytest.fixture(scope="module")
def tree(data: bytes) -> dict[str, Any]:
    """The JSON of the file, read by hand: header, then the first chunk. Source: glTF 2.0 specification, sec. 4.4."""
    magic, version, length = struct.unpack_from("<4sII", data, 0)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    return dict(json.loads(data[20 : 20 + size]))


@pytest.fixture(scope="module")
def model(data: bytes) -> Any:
    return trimesh.load(io.BytesIO(data), file_type="glb", process=False)


def nodes(tree: dict[str, Any]) -> dict[str, dict[str, Any]]:
    found = {node["name"]: node for node in tree["nodes"]}
    assert len(found) == len(tree["nodes"])
    return found


def children(tree: dict[str, Any], name: str) -> list[str]:
    return [tree["nodes"][k]["name"] for k in nodes(tree)[name].get("children", [])]


def words(tree: dict[str, Any], name: str) -> dict[str, Any]:
    """What a node or its mesh says of itself."""
    node = nodes(tree)[name]
    return node.get("extras") or dict(tree["meshes"][node["mesh"]].get("extras", {}))


def points_of(tree: dict[str, Any], model: Any, name: str) -> np.ndarray:
    """Points of one named thing in the file's world, in plan feet with z up: of its own triangles in its mesh."""
    said = words(tree, name)
    matrix, geometry = model.graph[said["mesh"]]
    mesh = model.geometry[geometry]
    mine = mesh.faces[said["first_triangle"] :][: said["n_triangles"]]
    metres = trimesh.transform_points(mesh.vertices[np.unique(mine)], matrix)
    return metres[:, (0, 2, 1)] * (1.0, -1.0, 1.0) / METRES_PER_FT


def n_triangles(tree: dict[str, Any], name: str) -> int:
    (primitive,) = tree["meshes"][nodes(tree)[name]["mesh"]]["primitives"]
    return int(tree["accessors"][primitive["indices"]]["count"] // 3)


def test_the_tree_is_the_house_and_a_group_for_each_stage(tree: dict[str, Any], run: Run) -> None:
    roots = [tree["nodes"][k]["name"] for k in tree["scenes"][tree["scene"]]["nodes"]]
    assert roots == ["house"]
    assert set(children(tree, "house")) == GROUPS
    kinds = list(dict.fromkeys(f"{m.kind} trusses" for m in run.framing.members))
    assert children(tree, "trusses") == [*kinds, "trusses: wood"]


def test_every_member_is_a_node_with_its_figures(tree: dict[str, Any], run: Run) -> None:
    drawn = [name for kind in children(tree, "trusses") for name in children(tree, kind)]
    assert sum(words(tree, name)["n_triangles"] for name in drawn) == n_triangles(tree, "trusses: wood")
    assert sorted(drawn) == sorted(m.name for m in run.framing.members)
    for member in run.framing.members:
        said = words(tree, member.name)
        mine = [m for m in run.schedule.marks if m.bearing.member == member.name]
        assert (said["kind"], said["plies"], said["span_ft"]) == (member.kind, member.plies, member.span_ft)
        assert (said["marks"], said["uplift_lb"]) == ([m.mark for m in mine], [m.uplift_lb for m in mine])


def test_every_anchor_is_a_node_at_its_strap_point_with_its_figures(tree: dict[str, Any], model: Any, run: Run) -> None:
    assert children(tree, "anchors") == [*(f"anchor {m.mark}" for m in run.schedule.marks), "anchors: steel"]
    for mark in run.schedule.marks:
        said = words(tree, f"anchor {mark.mark}")
        assert mark.anchor is not None
        assert (said["mark"], said["uplift_lb"], said["anchor"]) == (mark.mark, mark.uplift_lb, mark.anchor.id)
        assert (said["strap_x_ft"], said["strap_y_ft"]) == mark.bearing.strap_ft
        points = points_of(tree, model, f"anchor {mark.mark}")
        assert len(points) == 8 * mark.count
        reach_ft = 1.5 / 12 * mark.bearing.plies
        assert np.linalg.norm(points[:, :2].mean(axis=0) - mark.bearing.strap_ft) < reach_ft


def test_every_solid_is_closed(model: Any) -> None:
    assert len(model.geometry) >= 8
    for name, mesh in model.geometry.items():
        assert mesh.is_watertight, name
        assert mesh.volume > 0, name


def test_metres_and_y_up_with_the_plan_where_it_was_drawn(tree: dict[str, Any], model: Any, run: Run) -> None:
    # Heights and eaves straight from the roof, not through the scene.
    points = np.concatenate([points_of(tree, model, f"covering {k + 1}") for k in range(len(run.roof.faces))])
    eave = np.array(run.roof.eave_ft)
    assert points[:, :2].min(axis=0) == pytest.approx(eave.min(axis=0), abs=1e-3)
    assert points[:, :2].max(axis=0) == pytest.approx(eave.max(axis=0), abs=1e-3)
    assert points[:, 2].max() == pytest.approx(run.roof.highest_ft, abs=0.2)
    assert model.bounds[1][1] == pytest.approx(run.roof.highest_ft * METRES_PER_FT, abs=0.06)


def test_an_independent_reader_finds_the_same_house(data: bytes, model: Any, tmp_path: Path) -> None:
    # VTK's own glTF reader, which shares no code with the writer.
    from vtkmodules.vtkIOGeometry import vtkGLTFReader

    path = tmp_path / "roof.glb"
    path.write_bytes(data)
    reader = vtkGLTFReader()
    reader.SetFileName(str(path))
    reader.ApplyDeformationsToGeometryOn()
    reader.Update()
    bounds = np.zeros(6)
    reader.GetOutput().GetBounds(bounds)
    lows_and_highs = bounds.reshape(3, 2).T
    assert lows_and_highs == pytest.approx(model.bounds, abs=1e-4)


def test_the_root_says_the_caution_the_fingerprint_and_the_units(tree: dict[str, Any], run: Run) -> None:
    said = words(tree, "house")
    assert (said["caution"], said["fingerprint"]) == (CAUTION, run.fingerprint)
    assert (said["project"], said["revision"]) == (run.plan.project.name, run.plan.project.revision)
    assert tree["asset"]["extras"]["caution"] == CAUTION
    assert tree["asset"]["generator"] == f"strapline {run.version}"


def test_what_a_house_has_nothing_of_is_no_empty_mesh(sample_run: Callable[[str], Run]) -> None:
    """Every array counts a point or a corner at least. Source: glTF 2.0 specification, accessor.count (from memory)."""
    data = roof_glb(sample_run("bay_and_corners"))
    size = struct.unpack_from("<I", data, 12)[0]
    tree = json.loads(data[20 : 20 + size])
    drawn = [primitive for mesh in tree["meshes"] for primitive in mesh["primitives"]]
    used = {k for primitive in drawn for k in (*primitive["attributes"].values(), primitive["indices"])}
    assert min(tree["accessors"][k]["count"] for k in used) >= 3
    assert min(accessor["count"] for accessor in tree["accessors"]) >= 1
    assert sum(view["byteLength"] for view in tree["bufferViews"]) == tree["buffers"][0]["byteLength"]
    ends = [node for node in tree["nodes"] if "mesh" not in node and "children" not in node]
    without = [node["name"] for node in ends if "n_triangles" not in node["extras"]]
    assert without, "the sample has no such item any more"


def test_an_unresolved_bearing_is_a_node_that_says_so(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("cottage")
    mark = run.schedule.marks[3]
    bare = dataclasses.replace(mark, anchor=None, count=0, allowable_uplift_lb=None, ratio=None, good_to_mph=None)
    marks = tuple(bare if m is mark else m for m in run.schedule.marks)
    data = roof_glb(dataclasses.replace(run, schedule=dataclasses.replace(run.schedule, marks=marks)))
    model: Any = trimesh.load(io.BytesIO(data), file_type="glb", process=False)
    size = struct.unpack_from("<I", data, 12)[0]
    tree = json.loads(data[20 : 20 + size])
    named = {node["name"]: node for node in tree["nodes"]}
    assert f"anchor {mark.mark}" not in named
    assert named[f"no anchor {mark.mark}"]["extras"]["mesh"] == "anchors: no anchor"
    assert len(model.geometry["anchors: no anchor"].faces) == named[f"no anchor {mark.mark}"]["extras"]["n_triangles"]


def test_another_process_writes_the_same_bytes(data: bytes, sample: str) -> None:
    code = (
        "import hashlib, sys; from drawings.marked_run import sample;"
        "from export.walkthrough.model_file import roof_glb;"
        "print(hashlib.sha256(roof_glb(sample(sys.argv[1]))).hexdigest())"
    )
    environment = {**os.environ, "PYTHONHASHSEED": "77", "PYTHONPATH": str(Path(__file__).parents[1])}
    command = [sys.executable, "-c", code, sample]
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=environment)
    assert done.stdout.strip() == hashlib.sha256(data).hexdigest()


def test_a_hostile_project_name_stays_text(sample_run: Callable[[str], Run]) -> None:
    name = '</script><img src=x>"\\u0000 Ö & $x^2$'
    run = sample_run("cottage")
    project = dataclasses.replace(run.plan.project, name=name)
    data = roof_glb(dataclasses.replace(run, plan=dataclasses.replace(run.plan, project=project)))
    size = struct.unpack_from("<I", data, 12)[0]
    assert (
        next(n for n in json.loads(data[20 : 20 + size])["nodes"] if n["name"] == "house")["extras"]["project"] == name
    )


def test_materials_are_what_things_are_and_few_meshes_draw_the_house(tree: dict[str, Any]) -> None:
    used = {
        tree["materials"][primitive["material"]]["name"] for mesh in tree["meshes"] for primitive in mesh["primitives"]
    }
    assert used >= {"wood", "concrete", "block", "steel", "covering"}
    assert len(used) == len(tree["materials"])
    assert sum(len(mesh["primitives"]) for mesh in tree["meshes"]) <= 12
    steel = next(m for m in tree["materials"] if m["name"] == "steel")["pbrMetallicRoughness"]
    assert steel["metallicFactor"] > 0.5


def test_the_animation_builds_the_house_stage_by_stage_and_ends_with_all_of_it(
    tree: dict[str, Any], data: bytes
) -> None:
    binary = data[28 + struct.unpack_from("<I", data, 12)[0] :]

    def numbers(accessor: int) -> np.ndarray:
        one = tree["accessors"][accessor]
        view = tree["bufferViews"][one["bufferView"]]
        n = one["count"] * {"SCALAR": 1, "VEC3": 3}[one["type"]]
        return np.frombuffer(binary, "<f4", n, view["byteOffset"]).reshape(one["count"], -1)

    (animation,) = tree["animations"]
    appears: dict[str, float] = {}
    moved = set()
    for channel in animation["channels"]:
        name = tree["nodes"][channel["target"]["node"]]["name"]
        sampler = animation["samplers"][channel["sampler"]]
        times, values = numbers(sampler["input"]).ravel(), numbers(sampler["output"])
        assert (np.diff(times) > 0).all()
        if channel["target"]["path"] == "scale":
            appears[name] = float(times[np.flatnonzero(values[:, 0] > 0)[0]])
            assert values[-1].tolist() == [1.0, 1.0, 1.0]
        else:
            moved.add(name)
            assert values[-1].tolist() == [0.0, 0.0, 0.0]
    assert moved == set(appears) == set(children(tree, "house"))
    order = ["walls", "tie beam", "anchors", "trusses", "deck", "covering", "finish"]
    assert sorted(order, key=lambda name: appears[name]) == order
    assert len({appears[name] for name in order}) == len(order)
