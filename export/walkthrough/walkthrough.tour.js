/* The tour: from the finished house, layer by layer, down to the strap that is pulled hardest; one sentence a step. */
"use strict";

const [STEP_MS, LIFT_MS, LIFT_FT] = [6000, 900, 14];
const GLASS_BEAM = 0.25;

Walkthrough.prototype.tour = -1;

/* Shows a step of the tour: what stands above it is lifted off, what is missing comes down. */
Walkthrough.prototype.tourTo = function tourTo(k) {
  const steps = this.data.tour;
  const at = Math.max(0, Math.min(steps.length - 1, k));
  const [sentence, stage, glass, mark] = steps[at];
  const was = this.stage;
  const closely = this.marks.indexOf(mark);
  this.endLift();
  if (this.panes.length > 1) this.roofs.show(false);
  if (closely < 0 && this.chosen >= 0) this.choose(-1);
  this.step(stage);
  this.tour = at;
  document.documentElement.classList.add("touring");
  this.glassBeam(glass);
  this.tell(sentence);
  if (closely >= 0) {
    this.approach(closely);
    /* Where the page scrolls under the model, the sentence stays in sight below it. */
    byId("story").style.scrollMarginTop = `${byId("stand").offsetHeight}px`;
    if (getComputedStyle(byId("stand")).position === "sticky") byId("story").scrollIntoView({ block: "start" });
    return undefined;
  }
  this.look("corner");
  return this.lift(was, stage);
};

Walkthrough.prototype.tell = function tell(sentence) {
  byId("step-count").textContent = `Tour: ${this.tour + 1} of ${this.data.tour.length}`;
  byId("stage-name").textContent = "What holds the roof";
  byId("stage-sentence").textContent = sentence;
  byId("back").disabled = this.tour === 0;
  byId("next").disabled = this.tour === this.data.tour.length - 1;
};

/* Moves the layers between two stages up and away, or down from there, unless the reader asked for less motion. */
Walkthrough.prototype.lift = function lift(from, to) {
  const moving = this.picture.layers.filter(({ stage }) => stage > Math.min(from, to) && stage <= Math.max(from, to));
  if (!moving.length || matchMedia("(prefers-reduced-motion: reduce)").matches) return;
  const solid = byId("see-through").checked ? (layer) => layer.glass : () => 1;
  const start = performance.now();
  this.stage = Math.max(from, to);
  const tick = (now) => {
    const t = Math.min(1, Math.max(0, (now - start) / LIFT_MS));
    const away = from > to ? t * t : (1 - t) ** 2;
    for (const layer of moving) Object.assign(layer, { lift: LIFT_FT * away, opacity: Math.min(0.98, solid(layer)) * (1 - away) });
    this.lifting = requestAnimationFrame(tick);
    if (t < 1) this.ask();
    else this.endLift();
  };
  this.landing = () => {
    for (const layer of moving) Object.assign(layer, { lift: 0, opacity: solid(layer) });
    this.stage = to;
  };
  this.lifting = requestAnimationFrame(tick);
};

/* Leaves every layer where it belongs, at once. */
Walkthrough.prototype.endLift = function endLift() {
  cancelAnimationFrame(this.lifting);
  this.lifting = 0;
  if (this.landing) this.landing();
  this.landing = null;
  this.ask();
};

Walkthrough.prototype.glassBeam = function glassBeam(on) {
  for (const layer of this.picture.layers) if (layer.stage === this.data.anchors_stage - 1) layer.opacity = on ? GLASS_BEAM : 1;
};

/* Step after step until the end, or until anything else is pressed. */
Walkthrough.prototype.play = function play(on) {
  clearInterval(this.playing);
  const last = this.data.tour.length - 1;
  this.playing = on ? setInterval(() => (this.tour < last ? this.tourTo(this.tour + 1) : this.play(false)), STEP_MS) : 0;
  byId("play").textContent = on ? "Stop" : "Play";
  byId("play").setAttribute("aria-pressed", on);
  if (on) this.tourTo(this.tour === last ? 0 : this.tour + 1);
};

/* A stage of the building, chosen by itself, ends the tour; Next goes on with it. */
const stepOfHouse = Walkthrough.prototype.step;
Walkthrough.prototype.step = function step(stage) {
  if (this.lifting) this.endLift();
  this.glassBeam(false);
  stepOfHouse.call(this, stage);
  document.documentElement.classList.remove("touring");
  byId("back").disabled = this.tour < 0;
  byId("next").disabled = false;
};

function tourButtons(walk) {
  byId("back").addEventListener("click", () => walk.tourTo(walk.tour - 1));
  byId("next").addEventListener("click", () => walk.tourTo(walk.tour + 1));
  byId("play").addEventListener("click", () => walk.play(!walk.playing));
  for (const kind of ["pointerdown", "keydown"]) {
    document.addEventListener(kind, (event) => walk.playing && event.target !== byId("play") && walk.play(false), true);
  }
}
