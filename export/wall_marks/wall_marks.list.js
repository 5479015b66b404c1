// The list that the page gives out, a row per strap of the plan in its order, and the tables that it prints.
const HEADER = "mark,set,offset_in,side,note,strap,wall,anchor,tape,state,gap_in,holes_above,by,when,in_from_face_in,fingerprint,caution";

function csvCell(text) {
  const safe = /^[=+\-@\t\r]/.test(text) ? "'" + text : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}

// What was not entered stays empty; a number keeps its minus.
function csv(list, rows, fingerprint) {
  const lines = list.map(entry => {
    const row = rows[entry.key] ?? NOTHING, state = stateOf(entry, row);
    const side = row.side || (state === "set" ? entry.side : "");
    const texts = [side, row.note, String(entry.strap), entry.wall, entry.anchor, entry.tape, state].map(csvCell);
    return [csvCell(entry.mark), state === "set" ? "yes" : "no", decimal(row.offset), ...texts, decimal(row.gap), decimal(row.holes),
      csvCell(row.by), csvCell(row.when), decimal(row.face), csvCell(fingerprint), csvCell(plan.caution)].join(",");
  });
  return [HEADER, ...lines, ""].join("\r\n");
}

function download(list, rows, fingerprint) {
  const url = URL.createObjectURL(new Blob(["\ufeff" + csv(list, rows, fingerprint)], { type: "text/csv;charset=utf-8" }));
  const link = document.createElement("a");
  link.href = url;
  link.download = `wall-marks-${fingerprint}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}

async function copy() {
  at("csv").value = csv(entries, saved.rows, plan.fingerprint);
  at("csv-label").hidden = false;
  try { await navigator.clipboard.writeText(at("csv").value); at("copied").textContent = "Copied."; } catch {
    at("csv").select();
    at("copied").textContent = document.execCommand("copy") ? "Copied." : "Copy the text below by hand.";
  }
}

function element(tag, text, className) {
  const node = document.createElement(tag);
  if (text !== undefined) node.textContent = text;
  if (className) node.className = className;
  return node;
}

// A table of texts; `foot` stands under it on every printed page.
function table(head, rows, { caption, foot } = {}) {
  const node = element("table");
  if (caption) node.append(element("caption", caption));
  const line = (cells, tag) => { const tr = element("tr"); tr.append(...cells.map(cell => element(tag, cell))); return tr; };
  if (head) { const thead = element("thead"); thead.append(line(head, "th")); node.append(thead); }
  const body = element("tbody");
  body.append(...rows.map(cells => line(cells, "td")));
  node.append(body);
  if (foot) {
    const tfoot = element("tfoot"), tr = element("tr"), td = element("td", foot);
    td.colSpan = (head ?? rows[0]).length;
    tr.append(td); tfoot.append(tr); node.append(tfoot);
  }
  return node;
}

const PRINTED = ["mark", "member", "anchor", "from START", "from far end", "strap on", "note of the plan", "state", "as set", "by, when"];

function paperRow(entry, tick) {
  const row = rowOf(entry), state = stateOf(entry, row);
  const asSet = [verdictWords(judged(entry, row)), row.note].filter(text => text && text !== "not measured").join("; ");
  const note = [...tick.note.split("; ").filter(text => !text.startsWith("strap ")), tick.place].filter(Boolean).join("; ");
  return [tick.straps > 1 ? `${entry.mark}, strap ${entry.strap}` : entry.mark, entry.member, entry.anchor || "NO ANCHOR", whole(tick.start),
    whole(tick.far), SIDE_WORDS[row.side || entry.side], note, state === "to set" ? "\u2610 to set" : state, asSet,
    [row.by, row.when].filter(Boolean).join(", ")];
}

function drawPaper() {
  const ticks = Object.fromEntries(plan.walls.flatMap(w => w.marks.flatMap(m => m.ticks.map(t => [`${m.mark}/${t.number}`, { ...t, straps: m.ticks.length }]))));
  const paper = at("paper");
  paper.replaceChildren(element("h1", `Wall marks: ${plan.project}`), element("p", issueWords()));
  if (!plan.date) paper.append(element("p", UNDATED, "large"));
  if (plan.sample) paper.append(element("p", plan.sample, "large"));
  paper.append(element("p", plan.caution, "caution"), element("p", `Wind: ${plan.wind.map(pair => pair.join(" ")).join("; ")}.`),
    ...[...document.querySelectorAll("header p.open")].map(said => element("p", said.textContent)),
    element("p", `All walls: ${countWords(entries, saved.rows)}. Printed ${now()}.`));
  for (const wall of plan.walls) {
    const own = entries.filter(entry => entry.wall === wall.name);
    if (own.length === 0) continue;
    const caption = `${wall.name}, ${wallWords(wall)} ${wall.straps} ${countWords(own, saved.rows)}.`;
    paper.append(table(PRINTED, own.map(entry => paperRow(entry, ticks[entry.key])), { caption, foot: `Plan ${plan.fingerprint}. ${plan.caution}` }));
  }
  paper.append(deckOnPaper());
  paper.append(table(plan.anchor_head, plan.anchors, { caption: "Anchors" }), element("p", plan.anchor_note));
  const last = element("div", undefined, "together");
  last.append(...[...plan.placing, ...plan.wrong_strap].map(words => element("p", words)), element("p", plan.caution, "caution"));
  paper.append(last);
}
