"use strict";
// The plan's figures come in as text; everything shown goes in as textContent, so no name can become markup.
const plan = JSON.parse(document.getElementById("plan").textContent);
const PREFIX = "strapline wall marks ";
const KEY = PREFIX + plan.fingerprint;
const GOOD_IN = 1 / 8, FILLER_IN = 1 / 2; // common practice, no source
const SIDE_WORDS = { start: "START side", far: "far side", both: "both sides" };
const at = id => document.getElementById(id);
const allMarks = plan.walls.flatMap(wall => wall.marks);
let shown = 0;
let saved = { project: plan.project, revision: plan.revision, wall: "", marks: {} };

function say(id, text) { at(id).textContent = text; at(id).hidden = text === ""; }

function load() {
  try {
    const others = [];
    for (let i = 0; i < localStorage.length; i++) {
      const key = localStorage.key(i);
      if (!key.startsWith(PREFIX)) continue;
      const kept = read(localStorage.getItem(key));
      if (kept === null) continue;
      if (key === KEY) saved = { ...saved, marks: kept.marks, wall: kept.wall };
      else if (kept.project === plan.project && Object.keys(kept.marks).length > 0) others.push([key, kept]);
    }
    say("other-plan", others.map(([key, kept]) => otherPlan(key.slice(PREFIX.length), kept)).join(" "));
  } catch { notKept(); }
}

// Only the shape that this page itself writes is taken back: other pages opened from files share the store.
function read(text) {
  let kept = null;
  try { kept = JSON.parse(text); } catch { return null; }
  if (kept === null || typeof kept !== "object" || kept.marks === null || typeof kept.marks !== "object") return null;
  const marks = {};
  for (const [mark, row] of Object.entries(kept.marks)) {
    if (row !== null && typeof row === "object") {
      marks[mark] = { set: row.set === true, offset: typeof row.offset === "number" ? row.offset : null,
        side: Object.hasOwn(SIDE_WORDS, row.side) ? row.side : "", note: String(row.note ?? "") };
    }
  }
  return { project: String(kept.project), revision: String(kept.revision), wall: String(kept.wall), marks };
}

function otherPlan(fingerprint, kept) {
  const n = Object.values(kept.marks).filter(row => row.set).length;
  return `THE PLAN HAS CHANGED. This phone holds ${n} ticks for plan ${fingerprint} (revision ${kept.revision || "-"}), ` +
    `not for this one, ${plan.fingerprint} (revision ${plan.revision || "-"}). Marks may have moved: those ticks are not shown here.`;
}

function notKept() {
  say("storage", "This browser does not keep ticks for this file. Give out the list before you close the page.");
}

function keep() {
  try { localStorage.setItem(KEY, JSON.stringify(saved)); } catch { notKept(); }
}

// `side` stays empty until somebody chooses one.
function rowOf(mark) { return saved.marks[mark.mark] ?? { set: false, offset: null, side: "", note: "" }; }

function change(mark, part) {
  saved.marks[mark.mark] = { ...rowOf(mark), ...part };
  keep();
  count();
}

// "1/4", "-3/8", "1 1/2", "0.25" or "0,25": inches. "" is not measured; undefined is not inches.
function inches(text) {
  const plain = text.trim().replace(/\u2212/g, "-").replace(",", ".").replace(/\s*("|in\.?)$/, "");
  if (plain === "") return null;
  const parts = /^([+-]?)\s*(?:(\d{1,3}(?:\.\d{0,4})?|\.\d{1,4})|(?:(\d{1,3})[ -]+)?(\d{1,2})\/(\d{1,2}))$/.exec(plain);
  if (!parts || Number(parts[5]) === 0) return undefined;
  const size = parts[2] !== undefined ? Number(parts[2]) : Number(parts[3] ?? 0) + Number(parts[4]) / Number(parts[5]);
  return (parts[1] === "-" ? -size : size) || 0;
}

function decimal(number) { return number === null ? "" : String(Math.round(number * 10000) / 10000); }

function verdict(mark, row) {
  if ((row.side || mark.side) !== mark.side) return "WRONG SIDE: not acceptable without the engineer";
  if (row.offset === null) return "not measured";
  const off = Math.abs(row.offset);
  const word = off <= GOOD_IN ? "good" : off <= FILLER_IN ? "NEEDS A FILLER" : "TOO FAR: not acceptable without the engineer";
  return `${decimal(row.offset)} in., ${word}`;
}

// A figure that no line break splits.
function whole(figure) { return figure.replace(/ /g, "\u00a0"); }

function tickNode(tick) {
  const node = at("tick-template").content.cloneNode(true);
  const box = node.querySelector(".tick");
  box.dataset.side = tick.side;
  box.querySelector(".start").textContent = tick.start;
  box.querySelector(".start").classList.toggle("long", tick.start.length > 11);
  box.querySelector(".start-in").textContent = tick.start_in;
  const face = tick.note ? ` (${tick.note})` : "";
  box.querySelector(".rest").textContent =
    `strap on the ${SIDE_WORDS[tick.side]}${face}; from far end ${whole(tick.far)} = ${whole(tick.far_in)}`;
  return node;
}

function markNode(mark) {
  const node = at("mark-template").content.cloneNode(true);
  const part = name => card.querySelector(name);
  const card = node.querySelector(".mark");
  card.dataset.mark = mark.mark;
  part(".name").textContent = mark.mark;
  part(".anchor").textContent = mark.resolved ? (mark.count > 1 ? `${mark.count} x ${mark.anchor}` : mark.anchor) : "NO ANCHOR";
  part(".ticks").append(...mark.ticks.map(tickNode));
  part(".member").textContent = `${mark.member}; truss centre ${whole(mark.centre)}`;
  if (mark.resolved) fillIn(mark, part, card);
  else {
    card.classList.add("open");
    part(".unresolved").hidden = false;
    part(".demand").textContent = `in the catalogue holds ${mark.demand}: ask the engineer before the pour.`;
    part(".set").remove();
    part("details").remove();
  }
  return node;
}

function fillIn(mark, part, card) {
  const box = part(".set input"), offset = part(".offset"), side = part(".side"), note = part(".note");
  const label = part(".set span");
  const refresh = () => {
    const row = rowOf(mark);
    card.classList.toggle("done", row.set);
    label.textContent = row.set ? `${mark.mark} is set` : mark.count > 1 ? "Tick when both are set" : "Tick when it is set";
    part(".verdict").textContent = verdict(mark, row);
  };
  const row = rowOf(mark);
  box.checked = row.set; offset.value = decimal(row.offset); side.value = row.side || mark.side; note.value = row.note;
  box.addEventListener("change", () => { change(mark, { set: box.checked }); refresh(); });
  side.addEventListener("change", () => { change(mark, { side: side.value }); refresh(); });
  note.addEventListener("input", () => change(mark, { note: note.value }));
  const measured = () => {
    const value = inches(offset.value);
    part(".wrong").hidden = value !== undefined;
    offset.setAttribute("aria-invalid", String(value === undefined));
    change(mark, { offset: value ?? null });
    refresh();
  };
  offset.addEventListener("input", measured);
  for (const [name, step] of [[".less", -GOOD_IN], [".more", GOOD_IN]]) {
    part(name).addEventListener("click", () => { offset.value = decimal((rowOf(mark).offset ?? 0) + step); measured(); });
  }
  refresh();
}

function nSet(marks) { return marks.filter(mark => mark.resolved && rowOf(mark).set).length; }

function count() {
  const words = marks => {
    const open = marks.filter(mark => !mark.resolved).length;
    return `${nSet(marks)} of ${marks.length - open} set` + (open ? `, ${open} NO ANCHOR` : "");
  };
  const wall = plan.walls[shown];
  at("wall-count").textContent = `${wall.name}: ${words(wall.marks)}`;
  at("all-count").textContent = `All walls: ${words(allMarks)}.`;
}

function draw() {
  at("marks").replaceChildren(...plan.walls[shown].marks.map(markNode));
  count();
}

function show(index, focus) {
  shown = Math.max(0, Math.min(plan.walls.length - 1, index));
  const wall = plan.walls[shown], before = plan.walls[shown - 1], after = plan.walls[shown + 1];
  at("wall-name").textContent = wall.name;
  at("wall-says").textContent = `${wall.description ? wall.description + ", " : ""}${wall.length} long. START is its ${wall.start_end}.`;
  at("wall-straps").textContent = wall.straps;
  draw();
  at("which").value = String(shown);
  for (const [id, to, text] of [["before", before, "\u25c0 "], ["after", after, ""]]) {
    at(id).disabled = !to;
    at(id).textContent = to ? (text + to.name + (text ? "" : " \u25b6")) : "\u2013";
  }
  saved.wall = wall.name;
  keep();
  if (focus) { at("wall-name").focus({ preventScroll: true }); at("wall-name").scrollIntoView(); }
}

function csvCell(text) {
  const safe = /^[=+\-@\t\r]/.test(text) ? "'" + text : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}

// A row per mark of the plan, in its order; what was not entered stays empty.
function csv() {
  const rows = allMarks.map(mark => {
    const row = rowOf(mark);
    return [csvCell(mark.mark), row.set ? "yes" : "no", decimal(row.offset), row.side || (row.set ? mark.side : ""), csvCell(row.note),
      csvCell(plan.fingerprint), csvCell(plan.caution)].join(",");
  });
  return ["mark,set,offset_in,side,note,fingerprint,caution", ...rows, ""].join("\r\n");
}

function download() {
  const url = URL.createObjectURL(new Blob(["\ufeff" + csv()], { type: "text/csv;charset=utf-8" }));
  const link = document.createElement("a");
  link.href = url;
  link.download = `wall-marks-${plan.fingerprint}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}

async function copy() {
  at("csv").value = csv();
  at("csv-label").hidden = false;
  try { await navigator.clipboard.writeText(at("csv").value); at("copied").textContent = "Copied."; } catch {
    at("csv").select();
    at("copied").textContent = document.execCommand("copy") ? "Copied." : "Copy the text below by hand.";
  }
}

function swipes(area) {
  let from = null;
  area.addEventListener("touchstart", event => {
    from = event.touches.length === 1 && !event.target.closest("input, select") ? event.touches[0] : null;
  }, { passive: true });
  area.addEventListener("touchend", event => {
    if (from === null) return;
    const dx = event.changedTouches[0].clientX - from.clientX, dy = event.changedTouches[0].clientY - from.clientY;
    const to = shown + (dx < 0 ? 1 : -1);
    if (Math.abs(dx) > 70 && Math.abs(dx) > 2 * Math.abs(dy) && plan.walls[to]) show(to, true);
  }, { passive: true });
}

function start() {
  at("project").textContent = plan.project;
  at("issue").textContent = `Revision ${plan.revision || "-"}, ${plan.date || "no date"}. Use with truss package revision ` +
    `${plan.truss_package || "______"}. Plan ${plan.fingerprint}.`;
  say("sample", plan.sample);
  load();
  at("which").append(...plan.walls.map((wall, i) => new Option(wall.name, String(i))));
  at("which").addEventListener("change", () => show(Number(at("which").value), true));
  at("before").addEventListener("click", () => show(shown - 1, true));
  at("after").addEventListener("click", () => show(shown + 1, true));
  at("download").addEventListener("click", download);
  at("copy").addEventListener("click", copy);
  document.addEventListener("keydown", event => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.target.closest("input, select, textarea")) return;
    if (event.key === "ArrowLeft" && shown > 0) show(shown - 1, true);
    if (event.key === "ArrowRight" && shown < plan.walls.length - 1) show(shown + 1, true);
  });
  // What another tab writes is taken in and never written back, or two tabs would answer each other without end.
  window.addEventListener("storage", event => {
    if (event.key !== null && event.key.startsWith(PREFIX)) { load(); draw(); }
  });
  at("wall").hidden = false;
  swipes(at("wall"));
  show(Math.max(0, plan.walls.findIndex(wall => wall.name === saved.wall)), false);
}

start();
