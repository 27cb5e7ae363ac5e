// What should I plant? A set to plant together, the fittest cultivars, those asked about, and what changes if.
import { frame } from "../lib/advice.mjs";
import { question } from "../lib/ask.mjs";
import { button, el, fill, folded, list } from "../lib/dom.mjs";
import { entries, field, moreFields, placeFor } from "../lib/forms.mjs";
import { harvestChart } from "../lib/harvest_chart.mjs";
import { mark, verdict } from "../lib/marks.mjs";
import { chosenCrop, cropField, cropsField, cultivarField } from "../lib/names.mjs";
import { both } from "../lib/units.mjs";
import { t } from "../lib/words.mjs";
import { chillPlace } from "./chill_need.mjs";
import { card, picked, shortList } from "./variety_card.mjs";
import { whatIf } from "./what_if.mjs";

export const id = "varieties";
export const title = "task.varieties";
const Q = "variety-suggestions";
const BESIDE = 4;

export function fields() {
  const parts = [
    (pointer) => cropField(Q, `${pointer}/crop`), (pointer) => cultivarField(Q, `${pointer}/cultivar`, { crop: chosenCrop }),
    (pointer) => field(Q, `${pointer}/distance_ft`),
  ];
  return [cropsField(Q, "/wishes/crops"), cultivarField(Q, "/consider"), field(Q, "/wishes/max_trees"),
    moreFields(Q, ["/wishes/harvest_months", "/wishes/uses"]),
    folded(t("varieties.standing"), entries("/existing_trees", parts, { legend: t("varieties.standing_tree"), add: t("varieties.add_tree"), first: 0 }))];
}

export function ask(site, form) {
  return question(`/v1/${Q}`, { ...form, site: placeFor(Q, site) }, { task: id });
}

export function show(told, place, context) {
  const { answer, conclusions } = told;
  const chosen = answer.considered.length ? answer.considered : answer.planting_set?.best.trees ?? answer.suggestions;
  const bar = el("div", { class: "send", role: "status" });
  const picks = new Set();
  const box = (one) => sideBySide(one, picks, bar, context);
  frame(place, told, {
    first: [el("h2", {}, t("advice.do_first")), plantingSet(answer), answer.considered.map((one) => card(one, conclusions, box(one)))],
    why: false,
    more: [whatIf(told, context), chillPlace(chosen, told.asked.site, context.page.winters), el("h2", {}, heading(answer)), bar,
      el("div", { class: "cards" }, answer.suggestions.map((one) => card(one, conclusions, box(one)))), outlook(answer), setAside(answer)],
  });
}

function heading({ suggestions }) {
  return suggestions.length ? t("varieties.suit") : t("varieties.none_suit");
}

function plantingSet({ planting_set: set }) {
  if (!set) return verdict("unknown", t("varieties.no_set"));
  const { best, second } = set;
  return [el("p", { class: "verdict big" }, mark("do"), el("strong", {}, t("varieties.plant", { count: best.trees.length }))),
    el("div", { class: "beside" }, best.trees.map(planted)), harvestChart(best.trees),
    second && folded(t("varieties.second"), list(second.trees, (tree) => `${tree.name}, ${tree.crop_name}`))];
}

function planted(tree) {
  return el("article", { class: "tag do" }, el("h3", {}, `${tree.name}, ${tree.crop_name}`), shortList([
    [t("varieties.root"), tree.rootstock?.name], [t("varieties.spacing"), both(tree.spacing_ft, "ft")], [t("varieties.picked"), picked(tree)],
  ].filter(([, value]) => value)));
}

function sideBySide(one, picks, bar, context) {
  const box = el("input", { type: "checkbox", on: { change: () => {
    if (box.checked) picks.add(one.name); else picks.delete(one.name);
    const compare = () => {
      context.page.tasks.compare = { "/consider": [...picks] };
      context.page.askAtOnce = "compare";
      context.save();
      context.go("compare");
    };
    fill(bar, picks.size > BESIDE && el("p", { class: "error" }, t("compare.most")), picks.size > 0 && button(t("compare.put", { count: picks.size }),
      compare, { disabled: picks.size > BESIDE || picks.size < 2 }));
  } } });
  return el("label", { class: "pick" }, box, t("compare.pick"));
}

function outlook({ crops }) {
  const row = (one) => [one.crop_name, `${one.fitting} / ${one.judged}`, one.best ? `${one.best.name} (${one.best.fit})` : "–"];
  return folded(t("varieties.crops"), el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": t("varieties.crops") },
    el("table", {}, el("thead", {}, el("tr", {}, ["crop", "fitting", "best"].map((name) => el("th", { scope: "col" }, t(`varieties.col_${name}`))))),
      el("tbody", {}, crops.map((one) => el("tr", {}, row(one).map((cell) => el("td", {}, cell))))))));
}

function setAside({ set_aside: out, set_aside_more: more }) {
  return out.length ? folded([mark("stop"), t("varieties.set_aside", { count: out.length + more })],
    list(out, (one) => [el("strong", {}, `${one.name}, ${one.crop_name}`), `: ${one.reasons.map(({ text }) => text).join(" ")}`])) : null;
}
