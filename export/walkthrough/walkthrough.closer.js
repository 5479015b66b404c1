/* 'Look closer': one mark cut open, with block, beam and bars, its strap from foot to nails, and the heel of its truss. */
"use strict";

const NAME_PX = 22;

Walkthrough.prototype.closer = -1;

/* The frame of a mark's cutaway, in feet. */
function frameOf(walk, i) {
  const { data } = walk;
  const { numbers: packed, which, top_ft, sets } = data.closer;
  walk.cut ??= { numbers: numbers(packed, Int16Array), which: numbers(which, Uint8Array) };
  const row = walk.cut.numbers.subarray(12 * i, 12 * i + 12);
  const [behind, before, cells, nails, along, words] = walk.cut.which.subarray(6 * i, 6 * i + 6);
  const at = [row[0] * data.step_ft + data.middle_ft[0], row[1] * data.step_ft + data.middle_ft[1], top_ft];
  const [far, near, across, normal] = [2, 4, 6, 8].map((k) => [row[k] / 16000, row[k + 1] / 16000, 0]);
  const long = Math.hypot(...across);
  const unit = across.map((v) => v / long);
  const shift = along ? unit : near;
  const start = at.map((v, k) => v + (shift[k] * row[10]) / 4000);
  const up = [0, 0, 1];
  const frames = [[sets[behind], far, across, up, at], [sets[before], near, across, up, at], [sets[cells], near, along ? unit : across, up, start]];
  return { at, normal, unit, frames, nails: [sets[nails], normal, unit, [0, 0, row[11] / 4000]], words: data.closer.words[words] };
}

/* Boxes of the house as planned that are a mark's straps or its truss, as rows of a part, centre, u, v, w. */
function boxesOf(walk, wanted, part) {
  const rows = [];
  for (const { boxes, items, roof } of walk.picture.layers) {
    if (!boxes || roof) continue;
    items.forEach((item, k) => {
      if (wanted(item)) rows.push([part, ...AXES.map((name) => [...boxes[name].subarray(3 * k, 3 * k + 3)])]);
    });
  }
  return rows;
}

/* A box of the truss cut off where it runs out of the picture, or nothing. */
function cutOff([part, centre, u, v, w], { at, unit }, reach) {
  const middle = dot(centre.map((c, k) => c - at[k]), unit);
  const along = dot(u, unit);
  let [low, high] = [-1, 1];
  if (Math.abs(along) < 1e-6) return Math.abs(middle) <= reach ? [part, centre, u, v, w] : null;
  const ends = [(-reach - middle) / along, (reach - middle) / along].sort((a, b) => a - b);
  [low, high] = [Math.max(low, ends[0]), Math.min(high, ends[1])];
  if (high - low < 1e-6) return null;
  return [part, centre.map((c, k) => c + (u[k] * (low + high)) / 2), u.map((c) => (c * (high - low)) / 2), v, w];
}

/* Everything that stands in a mark's cutaway: rows of part, centre, u, v, w, and the names in it. */
function cutaway(walk, i) {
  const { closer, members } = walk.data;
  const frame = frameOf(walk, i);
  const member = members.indexOf(walk.rows[i].cells[walk.headings.indexOf("Member")].textContent);
  /* The first of a mark's items is its straps, or the cross of one that no anchor holds; the other is its plate. */
  const own = walk.rows[i].classList.contains("unresolved") ? -1 : walk.itemBearing.indexOf(i);
  const straps = boxesOf(walk, (item) => item === own, closer.strap);
  const wood = boxesOf(walk, (item) => walk.itemMember[item] === member, closer.wood).map((row) => cutOff(row, frame, closer.eye[3])).filter(Boolean);
  const [rows, names] = [[...straps, ...wood], []];
  const front = [...straps].sort((a, b) => dot(b[1], frame.normal) - dot(a[1], frame.normal))[0];
  const foot = front && [front[1][0] + frame.normal[0] * 0.0026, front[1][1] + frame.normal[1] * 0.0026, frame.at[2]];
  for (const [[boxes, said], x, y, z, start] of front ? [...frame.frames, [...frame.nails, foot]] : frame.frames) {
    const place = (a, b, c) => start.map((s, k) => s + a * x[k] + b * y[k] + c * z[k]);
    for (const [part, a, b, c, p, q, r] of boxes) {
      rows.push([part, place(a, b, c), x.map((v) => v * p), y.map((v) => v * q), z.map((v) => v * r)]);
    }
    for (const [text, ...at] of said) names.push({ text, point: place(...at) });
  }
  if (front) names.push({ text: "strap", point: front[1].map((v, k) => v - (k === 2 ? 0.5 * front[4][2] : 0)) });
  names.push({ text: "truss", point: frame.at.map((v, k) => v - frame.unit[k] * 0.9 + (k === 2 ? 0.15 : 0)) });
  return { rows, names, frame };
}

/* The cutaway as a layer of the picture; made once for each mark that is asked for. */
function layerOf(walk, i) {
  walk.cuts ??= new Map();
  if (walk.cuts.has(i)) return walk.cuts.get(i);
  const { rows, names, frame } = cutaway(walk, i);
  const boxes = Object.fromEntries(AXES.map((name, k) => [name, Float32Array.from(rows.flatMap((row) => row[k + 1]))]));
  const layer = walk.picture.upload({ stage: 0, opacity: 1, boxes, items: rows.map(([part]) => FIRST_PART + part) });
  walk.cuts.set(i, { layer, names, frame });
  return walk.cuts.get(i);
}

/* Cuts a mark open and goes up to it; the house comes back by `leave`. */
Walkthrough.prototype.approach = function approach(i) {
  const { layer, frame } = layerOf(this, i);
  const [distance, tilt, aside] = this.data.closer.eye;
  const { camera } = this;
  if (this.panes.length > 1) {
    this.roofs.show(false);
    this.draw();
  }
  if (this.closer < 0) this.before = [camera.turn, camera.tilt, camera.distance, ...camera.target];
  this.closer = i;
  this.picture.only = [layer];
  if (this.chosen !== i) this.choose(i);
  else this.showPulls(i);
  const [x, y] = frame.normal.map((v, k) => v + aside * frame.unit[k]);
  const narrow = Math.max(1, 1.25 / (this.width / this.height));
  const tall = Math.max(0, frame.nails[3][2] - 0.8);
  this.move([Math.atan2(y, x), tilt, (distance + 2.4 * tall) * narrow, frame.at[0], frame.at[1], frame.at[2] - 0.6 + tall / 2]);
};

/* Back to the house, and to where it was looked at from. */
Walkthrough.prototype.leave = function leave(back = true) {
  if (this.closer < 0) return;
  this.closer = -1;
  this.picture.only = null;
  if (this.chosen >= 0) this.showPulls(this.chosen);
  if (back) this.move(this.before);
  else this.ask();
};

/* Two bars side by side under the card's words, and what has to be said of what is drawn. */
Walkthrough.prototype.showPulls = function showPulls(i) {
  const card = byId("card");
  const open = this.closer === i;
  card.querySelectorAll(".pulls, .drawn").forEach((old) => old.remove());
  const button = card.querySelector(".nearer");
  Object.assign(button, { textContent: open ? "Back to the house" : "Look closer", onclick: () => (open ? this.leave() : this.approach(i)) });
  const figure = Object.assign(document.createElement("figure"), { className: "pulls" });
  const cell = (heading) => this.rows[i].cells[this.headings.indexOf(heading)].textContent;
  const [pull, allowed] = ["Uplift, lb", "Allowable uplift, lb"].map(cell);
  const most = Math.max(...[pull, allowed].map((text) => Number(text.replaceAll(",", ""))), 1);
  for (const [word, kind, text, none] of [["pull", "pull", pull, "0 lb"], ["allowed", "allowed", allowed, "the engineer decides"]]) {
    const [name, bar, stripe, pounds] = ["span", "div", "i", "b"].map((tag) => document.createElement(tag));
    name.textContent = word;
    pounds.textContent = text ? `${text} lb` : none;
    stripe.className = kind;
    stripe.style.width = `calc((100% - 6rem) * ${Number(text.replaceAll(",", "")) / most})`;
    bar.append(...(text ? [stripe, pounds] : [pounds]));
    figure.append(name, bar);
  }
  button.before(figure);
  if (open) button.before(Object.assign(document.createElement("p"), { className: "drawn", textContent: layerOf(this, i).frame.words }));
};

/* What else changes what is seen, and what it means while a mark is looked at closely. */
for (const name of ["step", "look"]) {
  const plain = Walkthrough.prototype[name];
  Walkthrough.prototype[name] = function leaving(...given) {
    this.leave(false);
    return plain.apply(this, given);
  };
}

const plainChoose = Walkthrough.prototype.choose;
Walkthrough.prototype.choose = function choose(i) {
  plainChoose.call(this, i);
  if (i < 0) return this.leave();
  this.showPulls(i);
  return this.closer >= 0 && this.closer !== i ? this.approach(i) : undefined;
};

const plainWalk = Walkthrough.prototype.walk;
Walkthrough.prototype.walk = function walkOn(by) {
  const n = this.marks.length;
  return this.closer >= 0 ? this.choose((this.closer + by + n) % n) : plainWalk.call(this, by);
};

const plainNearest = Sight.prototype.nearest;
Sight.prototype.nearest = function nearest(...given) {
  return this.walk.closer >= 0 ? this.walk.closer : plainNearest.apply(this, given);
};

/* The names of the parts in two columns at the sides, each with a line to its part; none touches another. */
function nameParts(walk) {
  const { pen, width, height } = walk;
  if (walk.flight) return;
  const { names } = layerOf(walk, walk.closer);
  const wideOf = (text) => pen.measureText(text).width + 8;
  const short = (text) => (wideOf(text) > 0.3 * width ? text.split(":")[0] : text);
  const seen = names.map(({ text, point }) => ({ text: short(text), to: walk.project(point), wide: wideOf(short(text)) }));
  for (const right of [false, true]) {
    const mine = seen.filter(({ to }) => to.x > width / 2 === right).sort((a, b) => a.to.y - b.to.y);
    let low = 8;
    mine.forEach(({ text, to, wide }, k) => {
      const left = right ? width - wide - 8 : 8;
      const top = Math.min(Math.max(low, to.y - 9), height - 60 - NAME_PX * (mine.length - k));
      low = top + NAME_PX;
      line(pen, right ? left : left + wide, top + 9, to);
      pen.fillStyle = "#14202b";
      pen.fillRect(left, top, wide, 18);
      pen.fillStyle = "#ffffff";
      pen.fillText(text, left + 4, top + 10);
      walk.drawn.push({ text, left, top, width: wide, height: 18 });
    });
  }
}

function line(pen, x, y, to) {
  for (const [width, colour] of [[4, "#ffffff"], [1.5, "#14202b"]]) {
    Object.assign(pen, { lineWidth: width, strokeStyle: colour });
    pen.beginPath();
    pen.moveTo(x, y);
    pen.lineTo(to.x, to.y);
    pen.stroke();
    pen.beginPath();
    pen.arc(to.x, to.y, width / 2 + 1.5, 0, 2 * Math.PI);
    pen.fillStyle = colour;
    pen.fill();
  }
}

/* For the tests: how many pixels of the picture are strap of a mark when it is looked at closely. */
function strapPixels(walk, mark) {
  let n = 0;
  walk.approach(walk.marks.indexOf(mark));
  walk.draw();
  walk.settle();
  const [wide, high] = walk.sight.grid;
  for (let y = 0; y < high; y++) for (let x = 0; x < wide; x++) n += walk.sight.itemAt(x, y) === FIRST_PART + walk.data.closer.strap;
  return n;
}
