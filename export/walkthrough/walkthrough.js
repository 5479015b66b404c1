/* The page around the model: stages, colours, marks, the card of a bearing, keys and fingers. */
"use strict";

const REACH_PX = { mouse: 8, pen: 14, touch: 24 };
const SETTLE_MS = 140;
/* A picture so many times as wide as high has its two panes side by side. */
const PANES_BESIDE = 1.35;
/* Where finding what is in sight takes longer than this, frames do too; then so many pixels to one of CSS while it moves. */
const [SLOW_MS, COARSE_RATIO] = [25, 0.5];
const VIEWS = { corner: [-0.95, 0.42], front: [-Math.PI / 2, 0.14], above: [-Math.PI / 2, 1.55] };
/* How many of each figure of an arrow make a whole: its place in feet, the roof's normal, its length in feet. */
const SUCTION = [10, 10, 10, 100, 100, 100, 10];
const byId = (id) => document.getElementById(id);
const every = (selector) => [...document.querySelectorAll(selector)];

/* A base64 text as numbers: whole steps, turned into feet where a scale is given. */
function numbers(text, Kind, step = 1, low = [0, 0, 0]) {
  const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  const whole = new Kind(bytes.buffer);
  return step === 1 ? whole : Float32Array.from(whole, (n, i) => n * step + low[i % 3]);
}

/* Where the k-th of some panes stands on a picture: side by side, or one above the other where that is less narrow. */
function place(k, count, width, height) {
  if (count === 1) return { left: 0, top: 0, width, height };
  if (width > height * PANES_BESIDE) return { left: (k * width) / 2, top: 0, width: width / 2, height };
  const half = (height - BUTTONS_PX) / 2;
  return { left: 0, top: k * half, width, height: half };
}

class Walkthrough {
  constructor(data) {
    this.data = data;
    this.canvas = byId("picture");
    this.pen = byId("labels").getContext("2d");
    this.rows = every("#figures tbody tr");
    this.marks = this.rows.map((row) => row.id);
    this.headings = every("#figures thead th").map((cell) => cell.textContent);
    this.points = numbers(data.bearings.points, Int16Array, data.step_ft, data.middle_ft);
    this.outward = numbers(data.bearings.outward, Int16Array, data.step_ft);
    this.itemBearing = numbers(data.items.bearing, Int16Array);
    this.itemMember = numbers(data.items.member, Int16Array);
    this.labels = data.labels.map(([text, bearing, item, x, y, z, zone, ...outward]) => ({ text, bearing, item, zone, point: [x, y, z], outward }));
    const places = numbers(data.suction, Int16Array);
    this.suction = Array.from({ length: places.length / SUCTION.length }, (_, i) => SUCTION.map((scale, k) => places[i * SUCTION.length + k] / scale));
    this.colours = data.colourings.map((text) => numbers(text, Uint8Array));
    /* Straps are a roof's own where there are two; all else is of both. */
    const own = (layer) => (data.stronger && layer.stage === data.anchors_stage ? { roof: 0 } : {});
    this.picture = new Picture(this.canvas, data.shaders, data.layers.map((layer) => ({ ...this.unpack(layer), ...own(layer) })));
    this.picture.parts = data.closer.rgb.flat();
    this.camera = new Camera(data.low_ft, data.high_ft);
    this.sight = new Sight(this);
    this.panes = [{ roof: 0 }];
    this.roofs = new Roofs(this);
    Object.assign(this, { stage: data.first_stage, colouring: 0, chosen: -1, mph: data.design_mph, drawn: [], settled: false, figures: false });
  }

  unpack(layer) {
    const { step_ft: step, middle_ft: middle } = this.data;
    const made = { stage: layer.stage, deck: layer.deck, opacity: layer.opacity, glass: layer.opacity, items: numbers(layer.items, Uint16Array) };
    if (layer.boxes) {
      const [centre, u, v, w] = layer.boxes.map((text, k) => numbers(text, Int16Array, step, k ? undefined : middle));
      return { ...made, boxes: { centre, u, v, w } };
    }
    const [triangles, edges] = [layer.triangles, layer.edges].map((text) => numbers(text, Uint16Array));
    return { ...made, places: numbers(layer.places, Int16Array, step, middle), triangles, edges };
  }

  /* One drawing at the next frame, and what stands in front once the picture has come to rest. */
  ask() {
    this.settled = false;
    clearTimeout(this.rest);
    this.rest = setTimeout(() => this.settle(), SETTLE_MS);
    if (this.frame) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.draw(false);
    });
  }

  /* The picture; coarser and without edges while it moves, where a frame takes long. */
  draw(atRest = true) {
    const box = this.canvas.getBoundingClientRect();
    this.ratio = Math.min(window.devicePixelRatio || 1, 2);
    [this.width, this.height] = [Math.max(1, box.width), Math.max(1, box.height)];
    this.panes.forEach((pane, k) => Object.assign(pane, place(k, this.panes.length, this.width, this.height)));
    const matrix = this.camera.matrix(this.panes[0].width / this.panes[0].height);
    this.coarse = !atRest && this.look_ms > SLOW_MS && (this.coarse || matrix.some((v, k) => v !== this.matrix[k]));
    this.matrix = matrix;
    for (const [one, ratio] of [[this.canvas, this.coarse ? COARSE_RATIO : this.ratio], [this.pen.canvas, this.ratio]]) {
      const [wide, high] = [this.width, this.height].map((n) => Math.round(n * ratio));
      if (one.width !== wide || one.height !== high) Object.assign(one, { width: wide, height: high });
    }
    this.picture.draw(this.camera, this.matrix, this.stage, this.panes, this.height, !this.coarse);
    this.roofs.name();
    write(this);
  }

  /* Finds what can be seen, so that nothing is written before something that is hidden. */
  settle() {
    const began = performance.now();
    this.sight.look();
    this.look_ms = performance.now() - began;
    if (this.coarse) this.draw();
    else write(this);
    this.settled = true;
    this.first_rest_ms ??= performance.now();
  }

  /* Where a point of the model is on a pane of the picture, in CSS pixels from its top left corner, and its depth. */
  project(p, pane = this.panes[0]) {
    const m = this.matrix;
    const [x, y, z, w] = [0, 1, 2, 3].map((k) => m[k] * p[0] + m[k + 4] * p[1] + m[k + 8] * p[2] + m[k + 12]);
    return { x: pane.left + ((x / w + 1) * pane.width) / 2, y: pane.top + ((1 - y / w) * pane.height) / 2, far: ((z / w + 1) / 2) * 65535 };
  }

  paneAt(x, y) {
    return this.panes.find((pane) => x < pane.left + pane.width && y < pane.top + pane.height) || this.panes[0];
  }

  point(i) {
    return this.points.subarray(3 * i, 3 * i + 3);
  }

  blow(mph) {
    this.mph = mph;
    const { n, of } = this.past(0);
    const told = this.panes.length > 1 ? `As planned ${n} of ${of} anchors, one size up ${this.past(1).n} of ${this.past(1).of}` : `${n} of ${of} anchors`;
    byId("gale-shown").textContent = `${mph} mph${mph === this.data.design_mph ? " (design)" : ""}`;
    byId("gale-count").textContent = `${told} would be past what they are allowed. ${this.data.apart}`.trim();
    if (mph !== this.data.design_mph && this.stage < this.data.anchors_stage) this.step(this.data.anchors_stage);
    this.ask();
  }

  /* How many of a roof's anchors the wind chosen takes past what they are allowed. */
  past(roof) {
    const anchored = this.goodTo(roof).filter((good) => good !== null);
    return { n: anchored.filter((good) => good < this.mph).length, of: anchored.length };
  }

  /* Of each bearing of a roof the wind that its anchor is good to, null where it has none. */
  goodTo(roof) {
    return roof ? this.data.stronger.good_to_mph : this.data.good_to_mph;
  }

  /* The deck and the covering as glass, or solid as they will be. */
  seeThrough(on) {
    for (const layer of this.picture.layers) layer.opacity = on ? layer.glass : 1;
    this.ask();
  }

  /* Arrows stand on the finished roof only. */
  arrows(on) {
    if (on) this.step(this.data.stages.length - 1);
    this.ask();
  }

  choose(i) {
    this.chosen = i;
    const card = byId("card");
    card.replaceChildren();
    card.className = "";
    if (i >= 0) this.fill(card, this.rows[i]);
    this.ask();
  }

  /* The card shows the cells of the bearing's row in the table, so the two cannot differ. */
  fill(card, row) {
    const list = document.createElement("dl");
    [...row.cells].forEach((cell, k) => {
      if (!k || !cell.textContent) return;
      const [name, value] = [document.createElement("dt"), document.createElement("dd")];
      name.textContent = this.headings[k];
      value.textContent = cell.textContent;
      list.append(name, value);
    });
    const title = document.createElement("h2");
    title.textContent = `Bearing ${row.cells[0].textContent}`;
    const close = document.createElement("button");
    Object.assign(close, { type: "button", className: "close", textContent: "×", onclick: () => this.choose(-1) });
    close.setAttribute("aria-label", "Close the card");
    const nearer = document.createElement("button");
    Object.assign(nearer, { type: "button", className: "nearer", textContent: "Look closer", onclick: () => this.approach(this.chosen) });
    const plain = document.createElement("p");
    plain.textContent = `${row.dataset.plain} ${this.roofs.said(this.chosen)}`.trim();
    const figures = document.createElement("details");
    const summary = document.createElement("summary");
    summary.textContent = "Figures";
    figures.open = this.figures;
    figures.addEventListener("toggle", () => (this.figures = figures.open));
    figures.append(summary, list);
    if (row.classList.contains("unresolved")) card.className = "unresolved";
    card.append(title, close, plain, nearer, figures);
    card.scrollIntoView({ block: "nearest" });
  }

  step(stage) {
    const { stages } = this.data;
    this.stage = Math.max(0, Math.min(stages.length - 1, stage));
    byId("step-count").textContent = `Stage ${this.stage + 1} of ${stages.length}`;
    byId("stage-name").textContent = stages[this.stage].title;
    byId("stage-sentence").textContent = stages[this.stage].sentence;
    every("#steps .step").forEach((button, i) => (i === this.stage ? button.setAttribute("aria-current", "step") : button.removeAttribute("aria-current")));
    byId("back").disabled = this.stage === 0;
    byId("next").disabled = this.stage === stages.length - 1;
    if (this.chosen >= 0 && this.stage < this.data.anchors_stage) this.choose(-1);
    this.cutDeck();
    this.ask();
  }

  colour(i) {
    this.colouring = i;
    every("#colourings input").forEach((input, k) => (input.checked = k === i));
    every("#panel .legend").forEach((legend, k) => (legend.hidden = k !== i));
    this.picture.paint(this.colours[i]);
    this.roofs.paint(i);
    if (i === this.data.deck_colouring) this.step(this.data.deck_stage);
    this.cutDeck();
    this.ask();
  }

  /* The deck is cut by its zones in its own colours, as long as nothing lies over it. */
  cutDeck() {
    const { deck_colouring, deck_stage } = this.data;
    this.picture.deck = this.colouring === deck_colouring && this.stage === deck_stage ? "zoned" : "whole";
  }

  /* Walks round the house from mark to mark, keeping the one chosen in sight. */
  walk(by) {
    const n = this.marks.length;
    if (!n) return;
    if (this.stage < this.data.anchors_stage) this.step(this.data.anchors_stage);
    const i = this.chosen < 0 ? (by > 0 ? 0 : n - 1) : (this.chosen + by + n) % n;
    this.choose(i);
    const [x, y] = this.outward.subarray(3 * i);
    const { camera } = this;
    if (Math.cos(camera.turn) * x + Math.sin(camera.turn) * y < 0.3 * Math.hypot(x, y)) camera.turn = Math.atan2(y, x) + 0.5;
    const [pane] = this.panes;
    this.matrix = camera.matrix(pane.width / pane.height);
    const at = this.project(this.point(i));
    if (!(at.x > pane.left && at.y > pane.top && at.x < pane.left + pane.width && at.y < pane.top + pane.height - 60)) camera.target = [...this.point(i)];
  }

  look(name) {
    const whole = new Camera(this.camera.low, this.camera.high);
    [whole.turn, whole.tilt] = [VIEWS[name][0] + this.data.w1_turn, VIEWS[name][1]];
    const pane = place(0, this.panes.length, this.canvas.clientWidth, Math.max(1, this.canvas.clientHeight));
    whole.fit(pane.width / pane.height);
    this.move([whole.turn, whole.tilt, whole.distance, ...whole.target]);
  }

  /* Moves the camera to a turn, tilt, distance and target, in a third of a second unless the reader asked for less motion. */
  move(to) {
    const { camera } = this;
    const from = [camera.turn, camera.tilt, camera.distance, ...camera.target];
    from[0] -= 2 * Math.PI * Math.round((from[0] - to[0]) / (2 * Math.PI));
    const set = (t) => {
      [camera.turn, camera.tilt, camera.distance, ...camera.target] = to.map((end, k) => from[k] + (end - from[k]) * t);
      this.ask();
    };
    if (!this.matrix || matchMedia("(prefers-reduced-motion: reduce)").matches) return set(1);
    const start = performance.now();
    const tick = (now) => {
      const t = Math.min(1, Math.max(0, (now - start) / 330));
      set(t * t * (3 - 2 * t));
      this.flight = t < 1 ? requestAnimationFrame(tick) : 0;
    };
    cancelAnimationFrame(this.flight);
    this.flight = requestAnimationFrame(tick);
    return undefined;
  }

  turn(dx, dy) {
    this.camera.turn -= dx;
    this.camera.tilt = Math.max(-0.1, Math.min(1.55, this.camera.tilt + dy));
    this.ask();
  }

  zoom(factor) {
    const { low, high } = this.camera;
    const size = Math.hypot(...high.map((h, k) => h - low[k]));
    this.camera.distance = Math.max(4, Math.min(6 * size, this.camera.distance * factor));
    this.ask();
  }

  /* Moves the point looked at by pixels of the picture. */
  shift(dx, dy) {
    const { camera } = this;
    const { right, up } = camera.axes();
    const feet = (2 * Math.tan(FIELD_OF_VIEW / 2) * camera.distance) / this.panes[0].height;
    camera.target = camera.target.map((t, k) => t - (right[k] * dx - up[k] * dy) * feet);
    this.ask();
  }
}
