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
  for (const box of deckBoxes()) box.addEventListener("change", () => {
    saved.deck[box.dataset.zone] = { asked: box.dataset.asked, done: box.checked, by: saved.by, when: now() };
    keep();
    drawDeck();
  });
  drawDeck();
}

function deckOnPaper() {
  const copy = element("section", undefined, "together deck");
  copy.append(element("h2", "Deck: nails by zone"), ...[...at("deck-inside").children].map(node => node.cloneNode(true)),
    element("p", plan.caution, "caution"));
  return copy;
}
