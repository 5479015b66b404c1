"use strict";
// What a strap as set comes to by the plan's own bands, and so how it is counted: one signed rule. Away from its wood a
// gap is good, takes a filler, is the engineer's or out of reach; into its wood the truss has to shift.
// Common practice, no source: the bands are the plan file's.
const plan = JSON.parse(document.getElementById("plan").textContent);
const STATES = ["to set", "set", "missing", "wrong", "ask"];
const SIDE_WORDS = { start: "START side", far: "far side", inside: "inside face", outside: "outside face" };
const HAIR_IN = 1e-6;
const NOTHING = { state: "to set", offset: null, side: "", gap: null, holes: null, note: "", by: "", when: "" };

// Every strap of the plan, in its order; a mark without an anchor is one too, for the engineer.
const entries = plan.walls.flatMap(wall => wall.marks.flatMap(mark => mark.ticks.map(tick => ({
  key: `${mark.mark}/${tick.number}`, mark: mark.mark, strap: tick.number, wall: wall.name, member: mark.member,
  anchor: mark.anchor, tape: tick.start, side: tick.side, away: tick.away, wood_in: mark.wood_in, resolved: mark.resolved,
}))));

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

// [what is said, the state that it asks for or ""] of a strap by its entry and what was written down of it.
function judged(entry, row) {
  if (row.side && row.side !== entry.side) return ["WRONG SIDE", "wrong"];
  if (row.gap !== null) return ofGap(row.gap, "gap");
  if (row.offset === null) return ["not measured", ""];
  const off = `${decimal(row.offset)} in. off`;
  const away = row.offset * entry.away;
  if (entry.away === 0) return [`${off} along its truss`, ""];
  if (away >= -HAIR_IN) {
    const [word, state] = ofGap(away, "gap");
    return [`${off}: ${word}`, state];
  }
  const into = -away;
  if (into <= plan.gauge.good_in + HAIR_IN) return [`${off}: good`, ""];
  if (into >= entry.wood_in - plan.gauge.good_in - HAIR_IN) return [`${off}: ON THE OTHER FACE`, "wrong"];
  return [`${off}: into its truss, which must shift ${decimal(into)} in.`, into <= plan.gauge.filler_in + HAIR_IN ? "" : "ask"];
}

function ofGap(gap, what) {
  const { good_in, filler_in, ask_in } = plan.gauge, size = `${what} ${decimal(gap)} in.`;
  if (gap <= good_in + HAIR_IN) return [`${size}, good`, ""];
  if (gap <= filler_in + HAIR_IN) return [`${size}, NEEDS A FILLER`, ""];
  return gap <= ask_in + HAIR_IN ? [`${size}, ASK THE ENGINEER`, "ask"] : [`${size}, OUT OF REACH`, "wrong"];
}

// How a strap counts: set only where nothing that was written down says otherwise.
function stateOf(entry, row) {
  if (!entry.resolved) return "ask";
  return row.state === "set" ? judged(entry, row)[1] || "set" : row.state;
}

function tally(list, rows) {
  const n = Object.fromEntries(STATES.map(state => [state, 0]));
  for (const entry of list) n[stateOf(entry, rows[entry.key] ?? NOTHING)] += 1;
  return n;
}

function countWords(list, rows) {
  const n = tally(list, rows), open = list.filter(entry => !entry.resolved).length;
  const rest = STATES.filter(state => state !== "set").map(state => `${n[state]} ${state}`).join(", ");
  return `${n.set} of ${list.length - open} set; ${rest}` + (open ? ` (${open} NO ANCHOR)` : "");
}
