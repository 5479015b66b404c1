/* Joins the walkthrough to pointers, keys and buttons, and starts it; where there is no WebGL or no unpacking the plain page stays. */
"use strict";

function listen(walk) {
  const { canvas } = walk;
  const down = new Map();
  let moved = 0;
  const place = (event) => {
    const box = canvas.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const spread = () => {
    const [a, b] = [...down.values()];
    return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.max(1, Math.hypot(a.x - b.x, a.y - b.y)) };
  };
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    if (!down.size) moved = 0;
    down.set(event.pointerId, place(event));
  });
  canvas.addEventListener("pointermove", (event) => {
    const now = place(event);
    const before = down.get(event.pointerId);
    if (!before) return hover(walk, now, event.pointerType);
    const [dx, dy] = [now.x - before.x, now.y - before.y];
    moved += Math.abs(dx) + Math.abs(dy);
    if (down.size === 2) {
      const was = spread();
      down.set(event.pointerId, now);
      const is = spread();
      walk.zoom(was.apart / is.apart);
      return walk.shift(is.x - was.x, is.y - was.y);
    }
    down.set(event.pointerId, now);
    if (event.shiftKey || event.buttons === 2) return walk.shift(dx, dy);
    return walk.turn(dx * 0.008, dy * 0.008);
  });
  const lift = (event) => {
    if (down.delete(event.pointerId) && event.type === "pointerup" && !down.size && moved < 8) {
      const { x, y } = place(event);
      walk.choose(walk.sight.nearest(x, y, REACH_PX[event.pointerType] || 16));
    }
  };
  canvas.addEventListener("pointerup", lift);
  canvas.addEventListener("pointercancel", lift);
  canvas.addEventListener("pointerleave", () => hover(walk, null));
  canvas.addEventListener("contextmenu", (event) => event.preventDefault());
  canvas.addEventListener("wheel", (event) => {
    event.preventDefault();
    walk.zoom(Math.exp(Math.max(-80, Math.min(80, event.deltaY)) * 0.0022));
  }, { passive: false });
  canvas.addEventListener("keydown", (event) => keys(walk, event));
}

/* A word beside the bearing under the pointer; the card comes by a click or a tap. */
function hover(walk, at, pointerType) {
  const tip = byId("tip");
  const asked = at && pointerType !== "touch" && walk.settled && walk.closer < 0;
  const i = asked ? walk.sight.nearest(at.x, at.y, REACH_PX.mouse) : -1;
  const text = i >= 0 ? walk.rows[i].dataset.tip : asked ? walk.sight.memberAt(at.x, at.y) : "";
  walk.canvas.classList.toggle("over", i >= 0);
  tip.style.visibility = text ? "visible" : "hidden";
  if (!text) return;
  tip.textContent = text;
  tip.style.left = `${Math.max(4, Math.min(at.x + 14, walk.width - tip.offsetWidth - 4))}px`;
  tip.style.top = `${Math.max(4, at.y - 40)}px`;
}

function keys(walk, event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
  const others = {
    "+": () => walk.zoom(0.85), "=": () => walk.zoom(0.85), "-": () => walk.zoom(1 / 0.85),
    n: () => walk.walk(1), p: () => walk.walk(-1), Escape: () => walk.choose(-1),
    Enter: () => (walk.closer >= 0 ? walk.leave() : walk.chosen >= 0 && walk.approach(walk.chosen)),
    PageDown: () => walk.step(walk.stage + 1), PageUp: () => walk.step(walk.stage - 1),
    l: () => byId("show-labels").click(), c: () => walk.colour((walk.colouring + 1) % walk.colours.length),
    Home: () => walk.look("corner"), f: () => walk.look("front"), a: () => walk.look("above"),
  };
  if (arrows && event.shiftKey) walk.shift(-30 * arrows[0], -30 * arrows[1]);
  else if (arrows) walk.turn(0.09 * arrows[0], -0.09 * arrows[1]);
  else if (others[event.key]) others[event.key]();
  else return;
  event.preventDefault();
}

function buttons(walk) {
  every("#steps .step").forEach((button, i) => button.addEventListener("click", () => walk.step(i)));
  tourButtons(walk);
  every("#colourings input").forEach((input, i) => input.addEventListener("change", () => walk.colour(i)));
  every("#views [data-view]").forEach((button) => button.addEventListener("click", () => walk.look(button.dataset.view)));
  byId("nearer").addEventListener("click", () => walk.zoom(0.8));
  byId("farther").addEventListener("click", () => walk.zoom(1.25));
  byId("show-labels").addEventListener("change", () => walk.ask());
  byId("see-through").addEventListener("change", (event) => walk.seeThrough(event.target.checked));
  byId("show-arrows").addEventListener("change", (event) => walk.arrows(event.target.checked));
  byId("gale-mph").addEventListener("input", (event) => walk.blow(Number(event.target.value)));
  byId("print").addEventListener("click", () => window.print());
  const sizes = new ResizeObserver(() => {
    measure();
    walk.ask();
  });
  for (const one of [walk.canvas, byId("heading"), byId("stand"), byId("caution")]) sizes.observe(one);
  window.addEventListener("beforeprint", () => {
    walk.draw();
    byId("print-picture").src = snapshot(walk);
  });
}

/* The model with its marks as one picture, for the printer. */
function snapshot(walk) {
  const sheet = document.createElement("canvas");
  Object.assign(sheet, { width: walk.canvas.width, height: walk.canvas.height });
  const pen = sheet.getContext("2d");
  pen.fillStyle = "#ffffff";
  pen.fillRect(0, 0, sheet.width, sheet.height);
  pen.drawImage(walk.canvas, 0, 0);
  pen.drawImage(walk.pen.canvas, 0, 0);
  return sheet.toDataURL();
}

/* Leaves room for the title, the model and the caution, however high they are. */
function measure() {
  const { style } = document.documentElement;
  for (const name of ["heading", "stand", "caution"]) style.setProperty(`--${name}-height`, `${Math.ceil(byId(name).getBoundingClientRect().height)}px`);
}

/* The data of the page as values. */
async function unpackData(text) {
  const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"))).json();
}

async function start() {
  if (typeof DecompressionStream === "undefined") return;
  let walk;
  try {
    walk = new Walkthrough(await unpackData(byId("data").textContent));
  } catch (reason) {
    if (!/WebGL/.test(reason.message)) throw reason;
    return;
  }
  document.documentElement.classList.add("has-3d");
  measure();
  walk.canvas.addEventListener("webglcontextlost", () => document.documentElement.classList.remove("has-3d"));
  listen(walk);
  buttons(walk);
  walk.colour(0);
  walk.seeThrough(byId("see-through").checked);
  walk.step(walk.stage);
  walk.blow(walk.mph);
  walk.tourTo(0);
  walk.draw();
  /* What the tests ask; nothing on the page uses it. */
  window.walkthrough = {
    marks: walk.marks,
    state: () => ({
      stage: walk.stage, arrows: walk.n_arrows, colouring: walk.colouring, chosen: walk.marks[walk.chosen] || "", labels: walk.drawn, settled: walk.settled && !walk.flight && !walk.lifting, moving: Boolean(walk.flight || walk.lifting), first_rest_ms: walk.first_rest_ms, look_ms: walk.look_ms,
      turn: walk.camera.turn, tilt: walk.camera.tilt, distance: walk.camera.distance, target: walk.camera.target,
    }),
    project: (mark) => walk.project(walk.point(walk.marks.indexOf(mark))),
    facing: () => walk.suction.filter((arrow) => facing(arrow, walk.camera.eye())).length,
    closer: () => walk.marks[walk.closer] || "",
    strapPixels: (mark) => strapPixels(walk, mark),
    items: () => walk.sight.items(),
    seen: () => [...walk.sight.seen[0]].filter((label) => label.bearing >= 0).map((label) => label.text),
  };
}

start();
