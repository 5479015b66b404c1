"use strict";
// What a strap as set comes to by the plan's own bands, and so how it is counted: one signed rule. Away from its wood a
// gap is good, takes a filler, is the engineer's or out of reach; into its wood the truss has to shift.
// Common practice, no source: the bands are the plan file's.
const plan = JSON.parse(document.getElementById("plan").textContent);
const STATES = ["to set", "set", "missing", "wrong", "ask"];
const SIDE_WORDS = { start: "START side", far: "far side", inside: "inside face", outside: "outside face" };
const HAIR_IN = 12e-6;
const NOTHING = { state: "to set", offset: null, side: "", gap: null, face: null, holes: null, note: "", by: "", when: "" };

// Every strap of the plan, in its order; a mark without an anchor is one too, for the engineer.
const entries = plan.walls.flatMap(wall => wall.marks.flatMap(mark => mark.ticks.map(tick => ({
  key: `${mark.mark}/${tick.number}`, mark: mark.mark, strap: tick.number, wall: wall.name, member: mark.member,
  anchor: mark.anchor, tape: tick.start, side: tick.side, away: tick.away, inward: tick.inward, face: tick.face, along: mark.along,
  wood_in: mark.wood_in, resolved: mark.resolved,
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

// Inches to the sixteenth, half up, as a tape is read: "3/8 in.", "1 1/2 in.", "0 in.".
function taped(value) {
  const n = Math.floor(Math.abs(value) * 16 + 0.5 + HAIR_IN), whole = Math.floor(n / 16);
  let top = n % 16, bottom = 16;
  while (top > 0 && top % 2 === 0) { top /= 2; bottom /= 2; }
  return `${[whole || (top ? "" : "0"), top ? `${top}/${bottom}` : ""].filter(Boolean).join(" ")} in.`;
}

// What a strap comes to by its entry and what was written down of it: the state and the words of `asbuilt`, and how it
// counts where it is not simply set.
function judged(entry, row) {
  if (row.side && row.side !== entry.side) return found("wrong side", `it stands on the ${row.side} side, the plan has ${entry.side}`);
  const face = row.face === null || entry.face === null ? null : row.face - entry.face;
  const off = offWood(entry, row, face);
  if (off !== null && off.state !== "good") return off;
  if (entry.along && row.offset !== null) {
    const far = Math.abs(row.offset) > plan.gauge.along_in + HAIR_IN;
    return found(far ? "ask" : "good", `${taped(row.offset)} off along its truss`);
  }
  if (!entry.along && face !== null && Math.abs(face) > plan.gauge.face_in + HAIR_IN) {
    return found("ask", `${taped(face)} ${face > 0 ? "farther in from" : "nearer to"} the outside face than planned`);
  }
  return off ?? found("set, not measured", "");
}

const COUNTED = { ask: "ask", "wrong side": "wrong", "out of reach": "wrong" };
function found(state, words, counts = COUNTED[state] ?? "") { return { state, words, counts }; }

function verdictWords({ state, words }) {
  if (state === "set, not measured") return "not measured";
  return `${state === "good" ? state : state.toUpperCase()}: ${words}`;
}

// Away from its wood a gap, into it a shift; null where nothing that was measured tells.
function offWood(entry, row, face) {
  if (row.gap !== null) return ofGap(row.gap);
  if ((row.offset === null || entry.away === 0) && face === null) return null;
  const away = entry.away * (row.offset ?? 0) + entry.inward * (face ?? 0);
  return away >= -HAIR_IN ? ofGap(Math.max(0, away)) : into(entry.wood_in, -away);
}

function into(wood, deep) {
  const { good_in, filler_in, ask_in } = plan.gauge, past = deep - wood;
  if (deep <= good_in + HAIR_IN) return found("good", `${taped(deep)} into its truss, within what is good`);
  if (past > ask_in + HAIR_IN) return found("out of reach", `past the other face by ${taped(past)}`);
  if (past >= -(good_in + HAIR_IN)) {
    return found("wrong side", `at the truss's other face${past > good_in + HAIR_IN ? ` with a gap of ${taped(past)}` : ""}`);
  }
  const shift = Math.min(deep, wood - deep), other = deep <= wood - deep ? "" : ", the strap then on its other face";
  const words = `${taped(deep)} into its wood: the truss would have to shift ${taped(shift)}${other}`;
  return found("shift", words, shift <= filler_in + HAIR_IN ? "" : "ask");
}

function ofGap(gap) {
  const { good_in, filler_in, ask_in } = plan.gauge, said = `gap ${taped(gap)}`;
  if (gap <= good_in + HAIR_IN) return found("good", said);
  if (gap <= filler_in + HAIR_IN) return found("filler", `${said}: a filler between strap and truss`);
  if (gap <= ask_in + HAIR_IN) return found("ask", `${said}: over a filler's ${taped(filler_in)}`);
  return found("out of reach", `${said}: over ${taped(ask_in)}`);
}

// How a strap counts: set only where nothing that was written down says otherwise.
function stateOf(entry, row) {
  if (!entry.resolved) return "ask";
  return row.state === "set" ? judged(entry, row).counts || "set" : row.state;
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
