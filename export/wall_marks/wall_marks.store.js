// What this browser keeps: the ticks of this plan with the list of its straps, and those of other plans of the same
// house, from which what has not changed is carried over.
const PREFIX = "strapline wall marks ";
const KEY = PREFIX + plan.fingerprint;
const COMPARED = ["wall", "tape", "anchor", "side"];
let saved = { project: plan.project, revision: plan.revision, date: plan.date, written: "", wall: "", by: "", rows: {}, deck: {}, entries };
let others = [];

function now() {
  const d = new Date(), two = n => String(n).padStart(2, "0");
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())} ${two(d.getHours())}:${two(d.getMinutes())}`;
}

function rowOf(entry) { return saved.rows[entry.key] ?? NOTHING; }

function load() {
  try {
    others = [];
    for (let i = 0; i < localStorage.length; i++) {
      const key = localStorage.key(i);
      if (!key.startsWith(PREFIX)) continue;
      const kept = read(localStorage.getItem(key));
      if (kept === null) continue;
      if (key === KEY) saved = { ...saved, rows: kept.rows, deck: kept.deck, wall: kept.wall, by: kept.by };
      else if (kept.project === plan.project && Object.keys(kept.rows).length > 0) {
        others.push({ ...kept, fingerprint: key.slice(PREFIX.length) });
      }
    }
    others.sort((a, b) => (a.written < b.written ? 1 : -1));
    carry();
  } catch { notKept(); }
}

// Only the shape that this page itself writes is taken back: other pages opened from files share the store.
function read(text) {
  let kept = null;
  try { kept = JSON.parse(text); } catch { return null; }
  if (kept === null || typeof kept !== "object" || typeof kept.rows !== "object" || kept.rows === null) return null;
  const words = value => String(value ?? ""), number = value => (Number.isFinite(value) ? value : null);
  const rows = {};
  for (const [key, row] of Object.entries(kept.rows)) {
    if (row === null || typeof row !== "object") continue;
    rows[key] = { state: STATES.includes(row.state) ? row.state : "to set", offset: number(row.offset), gap: number(row.gap),
      face: number(row.face),
      holes: number(row.holes), side: Object.hasOwn(SIDE_WORDS, row.side) ? row.side : "", note: words(row.note),
      by: words(row.by), when: words(row.when) };
  }
  const deck = {};
  for (const [zone, row] of Object.entries(kept.deck ?? {})) {
    if (row === null || typeof row !== "object") continue;
    deck[zone] = { asked: words(row.asked), done: row.done === true, by: words(row.by), when: words(row.when) };
  }
  const list = (Array.isArray(kept.entries) ? kept.entries : []).filter(e => e !== null && typeof e === "object").map(e => ({
    key: words(e.key), mark: words(e.mark), strap: words(e.strap), wall: words(e.wall), member: words(e.member),
    anchor: words(e.anchor), tape: words(e.tape), side: words(e.side), away: number(e.away) ?? 0,
    wood_in: number(e.wood_in) ?? 0, resolved: e.resolved === true }));
  return { project: words(kept.project), revision: words(kept.revision), date: words(kept.date), written: words(kept.written),
    wall: words(kept.wall), by: words(kept.by), rows, deck, entries: list };
}

function notKept() {
  say("storage", "This browser does not keep ticks for this file. Give out the list before you close the page.");
}

function keep() {
  saved.written = new Date().toISOString();
  try { localStorage.setItem(KEY, JSON.stringify(saved)); } catch { notKept(); }
}

function change(entry, part) {
  saved.rows[entry.key] = { ...rowOf(entry), ...part, by: saved.by, when: now() };
  keep();
}

// 1 where this plan is the newer one, -1 where the other is, 0 where neither date nor revision tells.
function newerThan(other) {
  if (plan.date && other.date && plan.date !== other.date) return plan.date > other.date ? 1 : -1;
  if (!plan.revision || !other.revision) return 0;
  return Math.sign(plan.revision.localeCompare(other.revision, "en", { numeric: true, sensitivity: "base" }));
}

function same(a, b) { return COMPARED.every(name => a[name] === b[name]); }

// Ticks of the plan last worked from whose strap has not changed, unless this page is the older one.
function carry() {
  const from = others[0];
  if (from === undefined || newerThan(from) < 0) return;
  const before = Object.fromEntries(from.entries.map(e => [e.key, e]));
  let n = 0;
  for (const entry of entries) {
    const row = from.rows[entry.key], was = before[entry.key];
    if (row === undefined || was === undefined || saved.rows[entry.key] !== undefined || !same(entry, was)) continue;
    saved.rows[entry.key] = row;
    n += 1;
  }
  saved.deck = { ...from.deck, ...saved.deck };
  saved.by = saved.by || from.by;
  if (n > 0) keep();
}

// [strap, what changed] of every strap that is new, gone or not what it was.
function changesSince(other) {
  const before = Object.fromEntries(other.entries.map(e => [e.key, e]));
  const after = Object.fromEntries(entries.map(e => [e.key, e]));
  const names = { wall: "wall", tape: "tape", anchor: "anchor", side: "strap on" };
  const told = (e, name) => (name === "side" ? SIDE_WORDS[e.side] ?? e.side : e[name] || "none");
  const changed = entries.flatMap(e => {
    const was = before[e.key];
    if (was === undefined) return [[e, `NEW: ${e.tape}, ${e.anchor || "NO ANCHOR"}`]];
    const parts = COMPARED.filter(name => e[name] !== was[name]).map(name => `${names[name]} ${told(was, name)} is now ${told(e, name)}`);
    return parts.length ? [[e, parts.join("; ")]] : [];
  });
  const gone = other.entries.filter(e => after[e.key] === undefined).map(e => [e, `GONE: was at ${e.tape}, ${e.anchor || "NO ANCHOR"}`]);
  return [...changed, ...gone];
}
