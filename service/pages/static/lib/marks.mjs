// Colour never speaks alone: every mark has a shape of its own and stands beside a word.
import { drawn, el } from "./dom.mjs";

const SHAPES = {
  do: ["M12 2a10 10 0 1 1 0 20 10 10 0 0 1 0-20z", "M7 12.5l3.5 3.5L17 8.5"],
  care: ["M12 2 23 21H1z", "M12 9v6M12 17.6v1.2"],
  stop: ["M7.5 1.5h9l6 6v9l-6 6h-9l-6-6v-9z", "M6.5 12h11"],
  wait: ["M3 3h18v18H3z", "M12 7v5.5l4 2"],
  unknown: ["M12 2a10 10 0 1 1 0 20 10 10 0 0 1 0-20z", "M9.3 9.2c.2-3.4 5.6-3.2 5.5 0 0 2.2-2.7 2.3-2.7 4.6M12 16.6v1.3"],
  note: ["M4 2h12l4 4v16H4z", "M8 9h8M8 13h8M8 17h5"],
};

export function mark(kind) {
  const [shape, sign] = SHAPES[kind];
  return drawn("svg", { class: `mark ${kind}`, viewBox: "0 0 24 24", "aria-hidden": "true" },
    drawn("path", { class: "shape", d: shape }), drawn("path", { class: "sign", d: sign }));
}

// A verdict: shape and word in one line.
export function verdict(kind, word) {
  return el("p", { class: `verdict ${kind}` }, mark(kind), el("strong", {}, word));
}

// A card hung on like a nursery tag; its edge is solid, dashed or double by kind.
export function tag(kind, ...children) {
  return el("article", { class: `tag ${kind}` }, ...children);
}

const OF_OUTCOME = { forbid: "stop", set_aside: "stop", advise: "do", caution: "care", prefer: "do", mark_down: "care",
  say: "note", point_to: "note" };

export function markOf(outcome) {
  return OF_OUTCOME[outcome] ?? "note";
}
