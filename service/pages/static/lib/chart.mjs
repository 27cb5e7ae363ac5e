// Small drawings in SVG: scales, axes, bars and words; each stands in a figure with its title and the same as a table.
import { drawn, el, folded, freshId } from "./dom.mjs";
import { t } from "./words.mjs";

export function scale([from, to], [low, high]) {
  return (value) => low + ((value - from) / (to - from || 1)) * (high - low);
}

// Round steps for an axis from zero up.
export function ticks(most, about = 5) {
  const rough = most / about;
  const power = 10 ** Math.floor(Math.log10(rough || 1));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((one) => one >= rough) ?? rough;
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, index) => index * step);
}

export function text(x, y, words, attributes = {}) {
  return drawn("text", { x, y, ...attributes }, String(words));
}

export function line(x1, y1, x2, y2, attributes = {}) {
  return drawn("line", { x1, y1, x2, y2, ...attributes });
}

export function rect(x, y, width, height, attributes = {}) {
  return drawn("rect", { x, y, width: Math.max(0, width), height: Math.max(0, height), ...attributes });
}

export function path(d, attributes = {}) {
  return drawn("path", { d, ...attributes });
}

// A drawing of a width and height in its own units; a wide one scrolls sideways on a small screen.
export function sheet(width, height, title, ...parts) {
  const id = freshId("drawing");
  return drawn("svg", { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-labelledby": id, class: "chart" },
    drawn("title", { id }, title), parts);
}

// `rows` tell the same to those who do not see the drawing: the first names the columns.
export function figure(title, drawing, rows = [], note = null) {
  const [head, ...body] = rows;
  const table = head && folded(t("chart.as_table"), el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": title },
    el("table", {}, el("thead", {}, el("tr", {}, head.map((cell) => el("th", { scope: "col" }, cell)))),
      el("tbody", {}, body.map((row) => el("tr", {}, row.map((cell) => el("td", {}, cell))))))));
  return el("figure", {}, el("figcaption", {}, title), el("div", { class: "drawing", tabindex: "0", role: "group", "aria-label": title }, drawing), note && el("p", {}, note), table);
}
