/* What can be seen and pointed at: the item in front at each pixel, with the roof and without it. */
"use strict";

/* How far something may stand before a mark, as an eave does, and before an arrow's foot, and hide neither. */
const [EAVE_FT, CLEAR_FT] = [5, 1.5];
/* The places around a pixel, ring by ring. */
const RINGS = Array.from({ length: 33 }, (_, r) => {
  const side = Array.from({ length: 2 * r }, (_, k) => k - r);
  return r ? side.flatMap((k) => [[k, -r], [r, k], [-k, r], [-r, -k]]) : [[0, 0]];
});

class Sight {
  constructor(walk) {
    Object.assign(this, { walk, seen: [new Set()], hidden: [] });
  }

  /* Of each pane the labels that may be written, and which arrows something stands before. */
  look() {
    const { walk } = this;
    const { width, height, stage, data } = walk;
    this.grid = [Math.round(width), Math.round(height)];
    const looked = (roofed) => walk.picture.inFront(walk.camera, walk.matrix, stage, walk.panes, ...this.grid, roofed);
    this.front = looked(0);
    this.roofed = stage < data.trusses_stage ? this.front : looked(data.trusses_stage + 1);
    const zoned = walk.picture.deck === "zoned";
    const wanted = walk.labels.filter((label) => (zoned ? label.zone || label.bearing < 0 : !label.zone));
    this.seen = walk.panes.map((pane) => new Set(wanted.filter((label) => this.inSight(label, pane))));
    this.hidden = walk.suction.map((arrow) => this.isBehind(arrow, CLEAR_FT, walk.panes[0]));
  }

  /* Where a place of the picture stands in a buffer, or -1. */
  cell(x, y) {
    const [wide, high] = this.grid;
    const [i, j] = [Math.round(x), high - 1 - Math.round(y)];
    return i < 0 || j < 0 || i >= wide || j >= high ? -1 : 2 * (j * wide + i);
  }

  itemAt(x, y, buffer = this.front) {
    const at = this.cell(x, y);
    return at < 0 ? -1 : buffer[at] - 1;
  }

  /* Every item that is in front somewhere. */
  items() {
    return [...new Set(this.front.filter((_, k) => k % 2 === 0))].filter(Boolean).map((n) => n - 1);
  }

  bearingAt(x, y) {
    return this.walk.itemBearing[this.itemAt(x, y)] ?? -1;
  }

  /* A wall is named where its outside face is seen, never through the roof; a mark may stand under the glass of an eave. */
  inSight({ bearing, item, zone, point, outward }, pane) {
    const { walk } = this;
    const { x, y } = walk.project(point, pane);
    if (x < pane.left || y < pane.top || x > pane.left + pane.width || y > pane.top + pane.height) return false;
    if (zone) return RINGS[1].some(([dx, dy]) => this.itemAt(x + dx, y + dy) === item);
    if (bearing < 0) {
      const eye = walk.camera.eye();
      const faces = outward[0] * (eye[0] - point[0]) + outward[1] * (eye[1] - point[1]) > 0;
      return faces && RINGS[1].some(([dx, dy]) => this.itemAt(x + dx, y + dy, this.roofed) === item);
    }
    if (!RINGS[1].some(([dx, dy]) => this.bearingAt(x + dx, y + dy) === bearing)) return false;
    return walk.stage <= walk.data.trusses_stage || !this.isBehind(point, EAVE_FT, pane);
  }

  /* Whether something, the roof included, stands more than some feet before a point. */
  isBehind([x, y, z], clear_ft, pane) {
    const eye = this.walk.camera.eye();
    const part = clear_ft / Math.hypot(eye[0] - x, eye[1] - y, eye[2] - z);
    const near = this.walk.project([x + (eye[0] - x) * part, y + (eye[1] - y) * part, z + (eye[2] - z) * part], pane);
    const at = this.cell(near.x, near.y);
    return at >= 0 && this.roofed[at] > 0 && near.far > this.roofed[at + 1];
  }

  /* The bearing at a place on the picture, or the one in sight at most `reach` pixels away whose plate is nearest, or -1. */
  nearest(x, y, reach) {
    const { walk } = this;
    if (!walk.settled) walk.settle();
    const here = this.bearingAt(x, y);
    if (here >= 0) return here;
    const pane = walk.paneAt(x, y);
    const away = (i) => {
      const at = walk.project(walk.point(i), pane);
      return Math.hypot(at.x - x, at.y - y);
    };
    const near = new Set(RINGS.slice(1, reach + 1).flat().map(([dx, dy]) => this.bearingAt(x + dx, y + dy)));
    return [...near].filter((i) => i >= 0).sort((a, b) => away(a) - away(b))[0] ?? -1;
  }

  /* The member seen at a place on the picture, or ''. */
  memberAt(x, y) {
    const { walk } = this;
    const item = this.itemAt(x, y);
    return item >= 0 && walk.itemMember[item] >= 0 ? walk.data.members[walk.itemMember[item]] : "";
  }
}
