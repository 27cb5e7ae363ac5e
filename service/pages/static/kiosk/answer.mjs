// What answers of the kiosk share: cautions that nobody can fold away, reasons without links, lines with their marks.
import { el, folded, list } from "../lib/dom.mjs";
import { mark, markOf } from "../lib/marks.mjs";
import { t } from "../lib/words.mjs";

export function cautions(texts) {
  const different = [...new Set(texts)];
  return different.length ? el("section", { class: "cautions" }, el("h2", {}, mark("care"), t("advice.cautions")),
    list(different, (text) => text)) : null;
}

export function why(reasons) {
  return reasons.length ? folded([mark("note"), t("kiosk.why")], list(reasons, ({ outcome, text }) => [mark(markOf(outcome)), text],
    { class: "lines" })) : null;
}

export function line(kind, ...words) {
  return el("p", { class: "line" }, mark(kind), el("span", {}, ...words));
}

export function card(kind, title, ...parts) {
  return el("article", { class: `tag ${kind}` }, el("h2", {}, mark(kind), title), parts);
}

// How much could not be judged; the counter can ask for it.
export function notJudged({ not_judged: told }) {
  return told.length ? line("unknown", t("kiosk.not_judged", { count: told.length })) : null;
}
