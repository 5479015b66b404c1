/* What is written over the model: marks and wall names, a ring round the bearing chosen, crosses in another wind. */
"use strict";

/* Dark on a white edge, so that a line shows on every colour. */
const INKS = [[6, "#ffffff"], [3, "#14202b"]];
/* The room below for the buttons, and above for the name of a pane where there are two. */
const [BUTTONS_PX, TITLE_PX] = [58, 44];

/* What is written over each pane; the panes show the same house, so that a label of one has its twin in the other. */
function write(walk) {
  const { pen } = walk;
  pen.setTransform(walk.ratio, 0, 0, walk.ratio, 0, 0);
  pen.clearRect(0, 0, walk.width, walk.height);
  pen.font = "600 12px system-ui, sans-serif";
  pen.textBaseline = "middle";
  walk.drawn = [];
  walk.n_arrows = 0;
  if (walk.closer >= 0) return nameParts(walk);
  walk.panes.forEach((pane, k) => {
    pen.save();
    pen.beginPath();
    pen.rect(pane.left, pane.top, pane.width, pane.height);
    pen.clip();
    suck(walk, pane);
    cross(walk, pane, k);
    if (walk.chosen >= 0) ring(pen, walk.project(walk.point(walk.chosen), pane));
    letter(walk, pane, k);
    pen.restore();
  });
  return undefined;
}

/* Labels that do not touch one another: the chosen bearing first, then by the rank of the scene. */
function letter(walk, pane, k) {
  const { pen, chosen } = walk;
  const isChosen = (label) => chosen >= 0 && label.bearing === chosen;
  const seen = walk.sight.seen[k] || new Set();
  const wanted = byId("show-labels").checked && !walk.flight && !walk.lifting ? walk.labels.filter((label) => seen.has(label) && !isChosen(label)) : [];
  const [right, bottom] = [pane.left + pane.width, pane.top + pane.height];
  const low = bottom - (bottom > walk.height - 1 ? BUTTONS_PX : 0);
  for (const label of [...walk.labels.filter(isChosen), ...wanted]) {
    const { x, y } = walk.project(label.point, pane);
    const width = pen.measureText(label.text).width + 8;
    const left = label.bearing < 0 ? x - width / 2 : x + 9;
    const box = { text: label.text, left, top: y - 9, width, height: 18 };
    const outside = left < pane.left + 2 || box.top < pane.top + (walk.panes.length > 1 ? TITLE_PX : 2) || left + width > right - 2 || box.top + 18 > low;
    if ((outside && !isChosen(label)) || walk.drawn.some((other) => touching(box, other, 6))) continue;
    walk.drawn.push(box);
    const dark = isChosen(label) || (label.bearing < 0 && !label.zone);
    pen.fillStyle = dark ? "#14202b" : "rgba(255,255,255,.9)";
    pen.fillRect(left, box.top, width, box.height);
    pen.fillStyle = dark ? "#ffffff" : "#14202b";
    pen.fillText(label.text, left + 4, y + 1);
  }
}

function touching(a, b, gap) {
  return a.left < b.left + b.width + gap && b.left < a.left + a.width + gap && a.top < b.top + b.height + gap && b.top < a.top + a.height + gap;
}

/* A red cross, on white, where an anchor is past. */
const PAST_INKS = [[6, "#ffffff"], [3, "#a32a00"]];

/* A cross on every bearing in sight whose anchor would be past its allowable load in the wind chosen. */
function cross(walk, pane, k) {
  if (walk.mph === walk.data.design_mph) return;
  const good_to = walk.goodTo(pane.roof);
  const past = (label) => label.bearing >= 0 && good_to[label.bearing] !== null && good_to[label.bearing] < walk.mph;
  const places = [...(walk.sight.seen[k] || [])].filter(past).map((label) => walk.project(label.point, pane));
  const pixelsPerFoot = pane.height / (2 * Math.tan(FIELD_OF_VIEW / 2) * walk.camera.distance);
  const reach = Math.max(2, Math.min(7, 0.6 * pixelsPerFoot));
  for (const [width, colour] of PAST_INKS) {
    Object.assign(walk.pen, { lineWidth: (width * reach) / 6, strokeStyle: colour });
    walk.pen.beginPath();
    for (const { x, y } of places) {
      for (const way of [-1, 1]) {
        walk.pen.moveTo(x - reach, y - reach * way);
        walk.pen.lineTo(x + reach, y + reach * way);
      }
    }
    walk.pen.stroke();
  }
}

/* Whether an arrow's piece of roof is turned to the eye. */
function facing([x, y, z, a, b, c], eye) {
  return (eye[0] - x) * a + (eye[1] - y) * b + (eye[2] - z) * c > 0;
}

/* An arrow out of each few feet of roof that faces the eye, as long as the wind chosen pulls there. */
function suck(walk, pane) {
  const { pen, data } = walk;
  const eye = walk.camera.eye();
  if (!byId("show-arrows").checked || walk.stage < data.stages.length - 1) return;
  const grown = (walk.mph / data.design_mph) ** 2;
  for (const [width, colour] of INKS) {
    Object.assign(pen, { lineWidth: width / 2, strokeStyle: colour });
    pen.beginPath();
    for (const [i, [x, y, z, a, b, c, feet]] of walk.suction.entries()) {
      if (walk.sight.hidden[i] || !facing(walk.suction[i], eye)) continue;
      const long = feet * grown;
      const [foot, tip] = [walk.project([x, y, z], pane), walk.project([x + a * long, y + b * long, z + c * long], pane)];
      const [dx, dy] = [(tip.x - foot.x) * 0.25, (tip.y - foot.y) * 0.25];
      pen.moveTo(foot.x, foot.y);
      pen.lineTo(tip.x, tip.y);
      for (const way of [-0.5, 0.5]) {
        pen.moveTo(tip.x, tip.y);
        pen.lineTo(tip.x - dx + way * dy, tip.y - dy - way * dx);
      }
      walk.n_arrows += colour === INKS[0][1];
    }
    pen.stroke();
  }
}

function ring(pen, { x, y }) {
  for (const [width, colour] of INKS) {
    Object.assign(pen, { lineWidth: width, strokeStyle: colour });
    pen.beginPath();
    pen.arc(x, y, 11, 0, 2 * Math.PI);
    pen.stroke();
  }
}
