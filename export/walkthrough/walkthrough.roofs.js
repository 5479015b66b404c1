/* Two roofs on one house, as planned and one size up: two panes, one camera, one wind. */
"use strict";

const WIND_COLOURS = 2;

class Roofs {
  constructor(walk) {
    this.walk = walk;
    this.button = byId("two-roofs");
    this.titles = every(".pane-title");
    if (!this.button) return;
    walk.picture.add(walk.data.stronger.layers.map((layer) => ({ ...walk.unpack(layer), roof: 1 })));
    this.colours = walk.data.stronger.colourings.map((text, i) => (text ? numbers(text, Uint8Array) : walk.colours[i]));
    this.button.addEventListener("click", () => this.show(walk.panes.length === 1));
  }

  /* Both roofs, bare to their trusses and coloured by the wind that they are good to; or the one as planned. */
  show(both) {
    const { walk } = this;
    walk.panes = both ? [{ roof: 0 }, { roof: 1 }] : [{ roof: 0 }];
    this.button.setAttribute("aria-pressed", both);
    this.button.textContent = both ? "Show one roof" : "Show both roofs";
    this.titles.forEach((title) => (title.hidden = !both));
    document.documentElement.classList.toggle("both-roofs", both);
    if (both) {
      walk.step(walk.data.trusses_stage);
      walk.colour(WIND_COLOURS);
    }
    walk.blow(walk.mph);
    walk.look("corner");
    byId("model").scrollIntoView({ block: "nearest" });
  }

  paint(i) {
    if (this.colours) this.walk.picture.paint(this.colours[i], 1);
  }

  /* The name of each pane with its count, at the pane's corner. */
  name() {
    const { walk } = this;
    if (walk.panes.length === 1) return;
    walk.panes.forEach(({ left, top, width, roof }, k) => {
      Object.assign(this.titles[k].style, { left: `${left + 8}px`, top: `${top + 8}px`, maxWidth: `${width - 16}px` });
      const { n, of } = walk.past(roof);
      this.titles[k].lastChild.textContent = ` ${n} of ${of} past`;
    });
  }

  /* What a card adds for a mark whose strap differs on the other roof. */
  said(i) {
    return (this.walk.data.stronger && this.walk.data.stronger.said[i]) || "";
  }
}
