// Up to four cultivars side by side for this place, with their harvests and what winters they ask for.
import { behind, frame, lines, reasons } from "../lib/advice.mjs";
import { question } from "../lib/ask.mjs";
import { el } from "../lib/dom.mjs";
import { placeFor } from "../lib/forms.mjs";
import { harvestChart } from "../lib/harvest_chart.mjs";
import { cultivarField } from "../lib/names.mjs";
import { t } from "../lib/words.mjs";
import { chillPlace } from "./chill_need.mjs";
import { figures, fitVerdict } from "./variety_card.mjs";

export const id = "compare";
export const title = "task.compare";
const Q = "variety-suggestions";

export function fields() {
  return cultivarField(Q, "/consider", { label: t("compare.which"), hint: t("compare.most"), needed: true, most: 4 });
}

export function ask(site, form) {
  const asked = { consider: form.consider ?? [], site: placeFor(Q, site), limit: 1, set_aside_limit: 0 };
  return question(`/v1/${Q}`, asked, { task: id });
}

export function show(told, place, context) {
  const some = told.answer.considered.slice(0, 4);
  frame(place, told, {
    first: [el("h2", {}, some.length ? t("task.compare") : t("compare.none")), some.length ? table(some, told.conclusions) : null],
    why: false,
    more: some.length ? [harvestChart(some), chillPlace(some, told.asked.site, context.page.winters)] : [],
  });
}

function table(some, conclusions) {
  const known = some.map((one) => new Map(figures(one)));
  const names = [...new Set(known.flatMap((each) => [...each.keys()]))];
  const of = (one, ...outcomes) => lines(one.reasons.filter(({ outcome }) => outcomes.includes(outcome))) ?? "–";
  const row = (name, cells) => el("tr", {}, el("th", { scope: "row" }, name), cells.map((cell) => el("td", {}, cell)));
  return el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": t("task.compare") }, el("table", { class: "side" },
    el("thead", {}, el("tr", {}, el("td", {}), some.map((one) => el("th", { scope: "col" }, `${one.name}, ${one.crop_name}`)))),
    el("tbody", {}, row(t("compare.here"), some.map(fitVerdict)), names.map((name) => row(name, known.map((each) => each.get(name) ?? t("shell.not_known")))),
      row(t("compare.for_it"), some.map((one) => of(one, "prefer"))),
      row(t("compare.against"), some.map((one) => of(one, "forbid", "set_aside", "mark_down", "caution"))),
      row(t("compare.do"), some.map((one) => of(one, "advise"))),
      row(t("compare.why"), some.map((one) => reasons(behind(one.reasons, conclusions, one.cultivar)))))));
}
