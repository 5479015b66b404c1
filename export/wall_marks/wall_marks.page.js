// What is seen and touched. The plan's figures come in as text; everything shown goes in as textContent, so no name can
// become markup.
const UNDATED = "NO DATE: this plan does not say its date. Ask which plan is in force before a strap is set.";
const at = id => document.getElementById(id);
let shown = 0;

function say(id, text) { at(id).textContent = text; at(id).hidden = text === ""; }

function issueWords() {
  return `Revision ${plan.revision || "-"}, ${plan.date || "NO DATE"}. Use with truss package revision ` +
    `${plan.truss_package || "______"}. Plan ${plan.fingerprint}.`;
}

function wallWords(wall) {
  return `${wall.description ? wall.description + ", " : ""}${wall.length} long. START is its ${wall.start_end}.`;
}

// A figure that no line break splits.
function whole(figure) { return figure.replace(/ /g, "\u00a0"); }

function tickNode(entry, tick) {
  const node = at("tick-template").content.cloneNode(true), box = node.querySelector(".tick");
  const part = name => box.querySelector(name);
  box.dataset.side = tick.side;
  box.dataset.strap = entry.key;
  part(".start").textContent = tick.corner ? "CORNER" : tick.start;
  part(".start").classList.toggle("long", tick.start.length > 11);
  part(".start-in").textContent = tick.corner ? `tape ${tick.start}` : tick.start_in;
  part(".second").textContent = tick.place;
  part(".second").hidden = tick.place === "";
  const face = tick.note ? ` (${tick.note})` : "";
  part(".rest").textContent = `strap on the ${SIDE_WORDS[tick.side]}${face}; from far end ${whole(tick.far)} = ${whole(tick.far_in)}`;
  if (entry.resolved) fillIn(entry, part, box);
  else { part(".state").remove(); part("details").remove(); }
  return node;
}

function markNode(wall, mark) {
  const node = at("mark-template").content.cloneNode(true), card = node.querySelector(".mark");
  const part = name => card.querySelector(name);
  card.dataset.mark = mark.mark;
  part(".name").textContent = mark.mark;
  part(".anchor").textContent = mark.resolved ? (mark.count > 1 ? `${mark.count} x ${mark.anchor}` : mark.anchor) : "NO ANCHOR";
  part(".member").textContent = `${mark.member}; truss centre ${whole(mark.centre)}`;
  if (!mark.resolved) {
    card.classList.add("open");
    part(".unresolved").hidden = false;
    part(".demand").textContent = `in the catalogue holds ${mark.demand}: ask the engineer before the pour.`;
  }
  part(".ticks").append(...mark.ticks.map(tick => tickNode(entries.find(e => e.key === `${mark.mark}/${tick.number}`), tick)));
  for (const used of card.querySelectorAll(".used")) used.textContent = mark.used;
  return node;
}

function fillIn(entry, part, box) {
  const which = entry.key.endsWith("/1") && !entries.some(e => e.key === `${entry.mark}/2`) ? entry.mark : `${entry.mark} strap ${entry.strap}`;
  part(".state").setAttribute("aria-label", which);
  const radios = [...box.querySelectorAll("input[type=radio]")], side = part(".side"), note = part(".note"), holes = part(".holes");
  side.append(...sidesOf(entry).map(name => new Option(SIDE_WORDS[name], name)));
  const refresh = () => {
    const row = rowOf(entry), state = stateOf(entry, row), told = judged(entry, row), verdict = verdictWords(told);
    box.dataset.state = state;
    for (const radio of radios) radio.checked = radio.value === row.state;
    const counted = state === "set" ? "is set" : `counts as ${state.toUpperCase()}`;
    part(".pick-set span").textContent = row.state === "set" ? `${which} ${counted}` : `SET ${which}`;
    part(".counted").hidden = state === row.state;
    part(".counted").textContent = `${told.state.toUpperCase()}: counted as ${state.toUpperCase()}, not as set.`;
    part(".verdict").textContent = `As built: ${verdict}`;
    part(".told").textContent = row.note ? `Note: ${row.note}` : "";
    part(".stamp").textContent = row.when ? `Last written ${row.when}${row.by ? ` by ${row.by}` : ""}.` : "";
    count();
  };
  const write = told => { change(entry, told); refresh(); };
  const row = rowOf(entry);
  side.value = row.side || entry.side; note.value = row.note; holes.value = decimal(row.holes);
  for (const radio of radios) {
    radio.name = entry.key;
    radio.addEventListener("change", () => write({ state: radio.value }));
  }
  part(".face-row").hidden = entry.face === null;
  if (entry.face !== null) part(".face").placeholder = `planned ${taped(entry.face)}`;
  side.addEventListener("change", () => write({ side: side.value }));
  note.addEventListener("input", () => write({ note: note.value }));
  holes.addEventListener("input", () => write({ holes: /^\d+$/.test(holes.value.trim()) ? Number(holes.value) : null }));
  for (const name of ["offset", "gap", "face"]) measured(part(`.${name}`), part(`.${name}-bad`), name, row, write);
  for (const [name, step] of [[".less", -1 / 8], [".more", 1 / 8]]) {
    part(name).addEventListener("click", () => {
      part(".offset").value = decimal((rowOf(entry).offset ?? 0) + step);
      part(".offset").dispatchEvent(new Event("input"));
    });
  }
  refresh();
}

// A strap may have come to stand on any face that its truss has there.
function sidesOf(entry) { return entry.away === 0 ? ["inside", "outside"] : ["start", "far"]; }

function measured(input, says, name, row, write) {
  input.value = decimal(row[name]);
  input.addEventListener("input", () => {
    const value = inches(input.value), most = name === "face" ? plan.gauge.wall_in : Infinity;
    const bad = value === undefined || (name !== "offset" && value !== null && (value < 0 || value > most));
    says.hidden = !bad;
    input.setAttribute("aria-invalid", String(bad));
    write({ [name]: bad ? null : value });
  });
}

function count() {
  const wall = plan.walls[shown];
  at("wall-count").textContent = `${wall.name}: ${countWords(entries.filter(e => e.wall === wall.name), saved.rows)}`;
  at("all-count").textContent = `All walls: ${countWords(entries, saved.rows)}.`;
}

function draw() {
  at("marks").replaceChildren(...plan.walls[shown].marks.map(mark => markNode(plan.walls[shown], mark)));
  count();
}

function show(index, focus) {
  shown = Math.max(0, Math.min(plan.walls.length - 1, index));
  const wall = plan.walls[shown], before = plan.walls[shown - 1], after = plan.walls[shown + 1];
  at("wall-name").textContent = wall.name;
  at("wall-says").textContent = wallWords(wall);
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
