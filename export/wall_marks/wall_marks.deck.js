// The deck's zones: which are nailed, kept like the straps. A tick counts only for the suction and nails it was made for.
function deckBoxes() { return [...document.querySelectorAll("#deck input[data-zone]")]; }

function deckDone(box) {
  const kept = saved.deck[box.dataset.zone];
  return kept !== undefined && kept.done && kept.asked === box.dataset.asked ? kept : null;
}

function drawDeck() {
  const boxes = deckBoxes();
  for (const box of boxes) {
    const done = deckDone(box);
    box.checked = done !== null;
    box.closest(".zone").querySelector(".stamp").textContent = done ? `Ticked ${done.when}${done.by ? ` by ${done.by}` : ""}.` : "";
  }
  say("deck-count", boxes.length ? `${boxes.filter(box => box.checked).length} of ${boxes.length} zones nailed.` : "");
}

function listenDeck() {
  document.querySelector(".jump").addEventListener("click", () => { at("deck-name").focus({ preventScroll: true }); at("deck-name").scrollIntoView(); });
  for (const box of deckBoxes()) box.addEventListener("change", () => {
    saved.deck[box.dataset.zone] = { asked: box.dataset.asked, done: box.checked, by: saved.by, when: now() };
    keep();
    drawDeck();
  });
  drawDeck();
}

// Tables, because a table's foot brings the caution onto every sheet of paper.
function deckOnPaper() {
  const foot = `Plan ${plan.fingerprint}. ${plan.caution}`, words = node => node?.textContent ?? "";
  const rows = [...document.querySelectorAll("#deck .zone")].map(card => [words(card.querySelector("h3")), words(card.querySelector(".top p")),
    [...card.querySelectorAll(".nails")].map(words).join("; "),
    card.querySelector("input") ? (card.querySelector("input").checked ? words(card.querySelector(".stamp")) : "\u2610 to nail") : ""]);
  const said = [...document.querySelectorAll("#deck-inside > ul:not(.zones) > li, #deck-inside > p")].map(node => [words(node)]);
  const both = element("section", undefined, "deck");
  if (rows.length === 0) {
    both.append(table(["Deck"], said, { foot }));
    return both;
  }
  const zones = table(["zone", "suction, area", "nails", "nailed"], rows, { caption: "Deck: nails by zone", foot });
  zones.querySelectorAll("tbody tr").forEach((tr, k) => tr.firstChild.prepend(document.querySelectorAll("#deck .zone svg")[k].cloneNode(true)));
  zones.caption.append(document.querySelector("#deck-inside > svg").cloneNode(true));
  both.append(zones, table(["Where zones change, to be measured on the roof"], said, { foot }));
  return both;
}
