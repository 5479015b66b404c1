// The page put together: what is said of other plans, the buttons, the keys, the bar, and paper.
function tellOthers() {
  const box = at("other-plan");
  box.replaceChildren();
  box.hidden = others.length === 0;
  for (const other of others) {
    const newer = newerThan(other), named = `plan ${other.fingerprint}, revision ${other.revision || "-"} of ${other.date || "no date"}`;
    const heads = { 1: "THE PLAN HAS CHANGED", "-1": "THIS PAGE IS THE OLDER PLAN: do not set from it", 0: "TWO PLANS, and neither date nor revision tells which is newer: ask before you set" };
    const own = `this is plan ${plan.fingerprint}, revision ${plan.revision || "-"} of ${plan.date || "no date"}`;
    box.append(element("p", `${heads[newer]}.`, "large"));
    box.append(element("p", `This phone also holds ${named}: ${countWords(other.entries, other.rows)}. And ${own}.`));
    const changed = changesSince(other);
    const n = changed.length, ticked = Object.keys(other.rows).length;
    const carried = newer < 0 ? "No tick was carried over." : "Ticks were carried over where mark, wall, tape, anchor and side are the same; the others start again.";
    box.append(element("p", `${n} of its and this plan's straps changed. ${carried}`));
    if (n > 0) box.append(table(["strap", "what changed", "was"], changed.map(([e, words]) => [
      `${e.mark}${e.strap === "1" || e.strap === 1 ? "" : `, strap ${e.strap}`}`, words, stateOf(e, other.rows[e.key] ?? NOTHING)])));
    const button = element("button", `Download the old list (${ticked} written)`, "old-list");
    button.type = "button";
    button.addEventListener("click", () => download(other.entries, other.rows, other.fingerprint));
    box.append(button);
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

// The bar covers nothing that has the focus: what is scrolled to stops above it, and while something is typed, when a
// keyboard takes half the screen, it stands at the page's end.
function bar() {
  const nav = document.querySelector("nav"), typing = node => node.matches?.("input[type=text], textarea");
  const measure = () => document.documentElement.style.setProperty("--bar", `${nav.offsetHeight}px`);
  new ResizeObserver(measure).observe(nav);
  const follow = () => document.body.classList.toggle("typing", Boolean(typing(document.activeElement)));
  document.addEventListener("focusin", event => { if (typing(event.target)) follow(); });
  document.addEventListener("focusout", () => setTimeout(follow, 400)); // not under the finger that is just touching it
}

function keys(event) {
  if (event.altKey || event.ctrlKey || event.metaKey || event.target.closest("input, select, textarea")) return;
  if (event.key === "ArrowLeft" && shown > 0) show(shown - 1, true);
  if (event.key === "ArrowRight" && shown < plan.walls.length - 1) show(shown + 1, true);
}

function lists() {
  const items = words => words.map(text => element("li", text));
  at("wrong-strap").append(...items(plan.wrong_strap));
  at("placing").append(...items(plan.placing));
  at("wind").append(table(null, plan.wind));
  for (const row of plan.anchors) {
    at("anchors").append(table(null, plan.anchor_head.map((head, k) => [head, row[k]]).slice(1), { caption: row[0] }));
  }
  at("anchors").append(element("p", plan.anchor_note));
}

function start() {
  at("project").textContent = plan.project;
  at("issue").textContent = issueWords();
  say("undated", plan.date ? "" : UNDATED);
  say("sample", plan.sample);
  load();
  tellOthers();
  lists();
  listenDeck();
  at("by").value = saved.by;
  at("by").addEventListener("input", () => { saved.by = at("by").value; keep(); });
  at("which").append(...plan.walls.map((wall, i) => new Option(wall.name, String(i))));
  at("which").addEventListener("change", () => show(Number(at("which").value), true));
  at("before").addEventListener("click", () => show(shown - 1, true));
  at("after").addEventListener("click", () => show(shown + 1, true));
  at("download").addEventListener("click", () => download(entries, saved.rows, plan.fingerprint));
  at("copy").addEventListener("click", copy);
  at("print").addEventListener("click", () => { drawPaper(); window.print(); });
  window.addEventListener("beforeprint", drawPaper);
  document.addEventListener("keydown", keys);
  // What another tab writes is taken in and never written back, or two tabs would answer each other without end.
  window.addEventListener("storage", event => {
    if (event.key !== null && event.key.startsWith(PREFIX)) { load(); tellOthers(); draw(); drawDeck(); }
  });
  at("wall").hidden = false;
  bar();
  swipes(at("wall"));
  show(Math.max(0, plan.walls.findIndex(wall => wall.name === saved.wall)), false);
}

start();
