/* The text with the least contrast to what is painted behind it, as [ratio, element].
   Relative luminance and contrast ratio: W3C, WCAG 2.1, definitions (formula from memory). */
() => {
  const parts = (colour) => (colour.match(/[\d.]+/g) || []).map(Number);
  const linear = (v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
  const light = (colour) =>
    parts(colour).slice(0, 3).reduce((sum, v, i) => sum + linear(v / 255) * [0.2126, 0.7152, 0.0722][i], 0);
  const behind = (element) => {
    for (let e = element; e; e = e.parentElement) {
      const colour = getComputedStyle(e).backgroundColor;
      const [, , , alpha] = parts(colour);
      if (alpha === undefined || alpha > 0) return colour;
    }
    return "rgb(255,255,255)";
  };
  let least = [99, ""];
  for (const e of document.querySelectorAll("body *")) {
    const own = [...e.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim());
    if (!own || !e.getClientRects().length || e.disabled || e.closest("svg")) continue;
    const [high, low] = [light(getComputedStyle(e).color), light(behind(e))].sort((a, b) => b - a);
    const ratio = (high + 0.05) / (low + 0.05);
    if (ratio < least[0]) least = [ratio, e.outerHTML.slice(0, 80)];
  }
  return least;
}
