// Too much fruit: what stays, what comes off, by which measure, when, and in which steps.
import { behind, frame, lines, reasons } from "../lib/advice.mjs";
import { question } from "../lib/ask.mjs";
import { el, list, steps } from "../lib/dom.mjs";
import { entries, field, fields as fieldsOf, moreFields } from "../lib/forms.mjs";
import { mark, tag, verdict } from "../lib/marks.mjs";
import { chosenCrop, cropField, cultivarField } from "../lib/names.mjs";
import { both } from "../lib/units.mjs";
import { choice, number, t } from "../lib/words.mjs";
import { branchSketch } from "./branch_sketch.mjs";
import { shortList } from "./variety_card.mjs";

export const id = "thinning";
export const title = "task.thinning";
const Q = "thinning-plans";
const KIND = { thin: "do", remove_all: "do", leave: "note", wait: "wait" };
const MORE = ["/fruit", "/age_years", "/height_ft", "/spread_ft", "/trunk_girth_in", "/ripening", "/fruit_diameter_in",
  "/natural_drop", "/frost_past", "/vigour", "/last_crop", "/bearing", "/fruit_size", "/hybrid_type", "/split_pits",
  "/codling_moth", "/brown_rot", "/large_fruit", "/lowest_branch_ft"];

export function fields() {
  const parts = ["length_in", "diameter_in", "fruit", "places"].map((name) => (pointer) =>
    field(Q, `${pointer}/${name}`, name === "fruit" ? { label: t("label.branch_fruit") } : {}));
  return [cropField(Q), cultivarField(Q, "/cultivar", { crop: chosenCrop }),
    fieldsOf(Q, ["/days_after_full_bloom", "/stage", "/set"]),
    entries("/branches", parts, { legend: t("thinning.a_branch"), add: t("thinning.add_branch"), first: 1 }),
    moreFields(Q, MORE)];
}

export function ask(site, form) {
  return question(`/v1/${Q}`, form, { task: id });
}

export function show(told, place) {
  const { answer, conclusions } = told;
  const several = answer.varieties.map((one) => el("section", {}, el("h3", {}, one.name ?? one.cultivar), plan(one, told)));
  frame(place, told, { first: [headline(answer), several.length ? several : plan(answer, told), said("do", "thinning.steps", answer.steps)],
    more: [said("care", "thinning.doubts", answer.doubts), said("unknown", "thinning.assumed", answer.assumed),
      said("note", "thinning.one_more", answer.one_more_measurement), reasons(behind(answer.reasons, conclusions), t("thinning.behind"))] });
}

function headline(answer) {
  const urgency = answer.urgency && answer.urgency !== "none" ? ` · ${choice(answer.urgency)}` : "";
  const line = verdict(KIND[answer.action] ?? "unknown", t(`thinning.do_${answer.action ?? "unknown"}`) + urgency);
  line.classList.add("big");
  return el("h2", {}, line.childNodes.length ? [...line.childNodes] : "");
}

function plan(answer, { asked }) {
  const counts = [
    [t("thinning.keep"), answer.keep !== null && number(answer.keep, 0)],
    [t("thinning.off"), answer.remove !== null && `${number(answer.remove, 0)}${answer.share_removed !== null ? ` (${number(answer.share_removed * 100, 0)}%)` : ""}`],
    [t("thinning.spacing"), spacing(answer)],
    [t("thinning.rounds"), answer.passes !== null && number(answer.passes, 0)],
    [t("thinning.limited"), answer.limited_by && choice(answer.limited_by)],
  ].filter(([, value]) => value);
  return [shortList(counts), lines(answer.reasons.filter(({ outcome }) => outcome !== "say")), answer.branches.map((one) => branch(one, asked))];
}

function spacing({ spacing_in: usual, spacing_from_in: from, spacing_to_in: to }) {
  if (usual === null) return null;
  return from !== null && to !== null && from !== to
    ? t("thinning.spacing_range", { usual: both(usual, "in"), from: both(from, "in"), to: both(to, "in") }) : both(usual, "in");
}

function branch(one, asked) {
  const support = one.support && one.support !== "none" && t("thinning.support", { what: choice(one.support) });
  return tag(support ? "care" : "do", branchSketch(one, asked.branches?.[one.branch - 1]) ?? el("h3", {}, t("thinning.branch", one)),
    support && verdict("care", support), lines(one.reasons));
}

function said(kind, words, sentences) {
  if (!sentences.length) return null;
  const show = kind === "do" ? steps : list;
  return el("section", {}, el("h3", {}, mark(kind), t(words)), show(sentences, ({ text }) => text));
}
