// How do I prune it? When, what to cut in the order of work, what to leave for now, and the wires of a trained tree.
import { behind, frame, lines, reasons } from "../lib/advice.mjs";
import { question } from "../lib/ask.mjs";
import { el, folded, list, steps } from "../lib/dom.mjs";
import { entries, field, fields as fieldsOf, moreFields, placeFor } from "../lib/forms.mjs";
import { mark, tag, verdict } from "../lib/marks.mjs";
import { chosenCrop, cropField, cultivarField } from "../lib/names.mjs";
import { both } from "../lib/units.mjs";
import { choice, dayText, t } from "../lib/words.mjs";
import { shortList } from "./variety_card.mjs";
import { wiresDrawing } from "./wires_drawing.mjs";

export const id = "pruning";
export const title = "task.pruning";
export const renamed = { "/max_height_ft": "/site/max_height_ft" };
const Q = "pruning-plans";
const KIND = { now: "do", small_cuts_only: "care", not_now: "wait", wait: "wait", never: "stop" };
const MORE = ["/vigour", "/shoot_length_in", "/years_unpruned", "/bears", "/just_planted", "/branched", "/harvested", "/stage",
  "/fruit_wanted", "/weather/wet", "/weather/dry_days_ahead", "/weather/high_f", "/weather/low_f", "/shared_hole/trees",
  "/shared_hole/gap_in"];

export function fields() {
  const grafted = [(pointer) => field(Q, `${pointer}/name`), (pointer) => field(Q, `${pointer}/shoot_length_in`)];
  return [cropField(Q), cultivarField(Q, "/cultivar", { crop: chosenCrop }),
    fieldsOf(Q, ["/date", "/age_years", "/height_ft", "/training", "/observations"]), moreFields(Q, MORE),
    folded(t("pruning.grafted"), entries("/varieties", grafted, { legend: t("pruning.a_variety"), add: t("pruning.add_variety"), first: 0 }))];
}

export function ask(site, form) {
  const height = site.max_height_ft === undefined ? {} : { max_height_ft: site.max_height_ft };
  return question(`/v1/${Q}`, { ...form, ...height, site: placeFor(Q, site) }, { task: id });
}

export function show(told, place) {
  const { answer, conclusions } = told;
  const { when } = answer;
  const head = when.verdict ? verdict(KIND[when.verdict], t(`pruning.verdict_${when.verdict}`)) : verdict("note", t("pruning.days_below"));
  frame(place, told, {
    first: [el("h2", {}, [...head.childNodes]), el("p", {}, when.text), steps(answer.steps, ({ text }) => text)],
    more: [wiresDrawing(answer.wires), part("pruning.cuts", answer.cuts, cut), part("pruning.not_now", answer.not_now, later),
      renovation(answer.renovation), part("pruning.varieties", answer.varieties, graft),
      answer.summer_checks.length ? folded(t("pruning.summer"), answer.summer_checks.map(check)) : null,
      reasons(behind(answer.reasons, conclusions, null), t("pruning.whole_tree"))],
  });
}

function part(words, some, show) {
  return some.length ? el("section", {}, el("h3", {}, t(words)), some.map(show)) : null;
}

function days(told) {
  return told && told.from ? `${dayText(told.from)} – ${dayText(told.to)}` : null;
}

function figures(one) {
  return shortList([[t("pruning.where"), one.where], [t("pruning.how_much"), one.how_much], [t("pruning.days"), days(one.days)]]
    .filter(([, value]) => value));
}

function cut(one) {
  return tag(one.verdict === "wait" ? "care" : "do", el("h4", {}, mark(KIND[one.verdict] ?? "do"), one.what), figures(one),
    el("p", {}, one.why), lines(one.reasons.filter(({ outcome }) => outcome !== "say")));
}

function later(one) {
  const never = one.verdict === "never";
  const back = days(one.come_back) ? t("pruning.come_back", { days: days(one.come_back) }) : one.waits_for === "weather" ? t("pruning.for_weather") : null;
  return tag(never ? "stop" : "care", verdict(never ? "stop" : "wait", `${one.what}: ${t(never ? "pruning.never" : "pruning.wait")}`),
    back && el("p", {}, el("strong", {}, back)), el("p", {}, one.why));
}

function check(one) {
  return el("div", {}, el("h4", {}, one.what), figures(one));
}

function graft(one) {
  return tag("do", el("h4", {}, one.variety), one.cut && el("p", {}, t("pruning.cut_hard", { how: choice(one.cut) })), lines(one.reasons));
}

function renovation(years) {
  return years.length ? el("section", {}, el("h3", {}, t("pruning.renovation")), list(years, (one) =>
    [el("strong", {}, t("pruning.year", { year: one.year, height: both(one.height_ft, "ft") })), ` ${one.text}`])) : null;
}
