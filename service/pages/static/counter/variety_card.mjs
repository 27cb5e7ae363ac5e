// One cultivar for a place as a card: whether it fits, what to do, the figures, and why.
import { behind, lines, reasons } from "../lib/advice.mjs";
import { el } from "../lib/dom.mjs";
import { tag, verdict } from "../lib/marks.mjs";
import { both, span } from "../lib/units.mjs";
import { choice, dayText, number, t } from "../lib/words.mjs";

export function fitVerdict(one) {
  return one.fits ? verdict("do", t("varieties.fits", { fit: one.fit })) : verdict("stop", t("varieties.does_not_fit"));
}

export function pollen({ pollination: told }) {
  if (!told.partners_needed) return told.self_fertility ? choice(told.self_fertility) : null;
  const named = told.standing.length ? told.standing : told.partners;
  const words = told.standing.length ? "varieties.partner_stands" : "varieties.needs_partner";
  return t(words, { count: told.partners_needed, names: named.map(({ name }) => name).join(", ") || t("shell.not_known") });
}

export function picked({ harvest }) {
  return harvest && `${dayText(harvest.from)} – ${dayText(harvest.to)}`;
}

// The figures of a cultivar as pairs of a name and a text; what is not known is left out.
export function figures(one) {
  return [
    [t("varieties.root"), one.rootstock && [one.rootstock, ...one.other_rootstocks].map(({ name }) => name).join(", ")],
    [t("varieties.height"), span(one.mature_height_ft, "ft")],
    [t("varieties.spacing"), both(one.spacing_ft, "ft")],
    [t("varieties.room"), one.trees_that_fit !== null && number(one.trees_that_fit, 0)],
    [t("varieties.trained"), one.training && choice(one.training)],
    [t("varieties.bears"), one.years_to_bear !== null && t("varieties.years", { count: one.years_to_bear, years: number(one.years_to_bear) })],
    [t("varieties.pollen"), pollen(one)],
    [t("varieties.picked"), picked(one)],
  ].filter(([, value]) => value);
}

export function shortList(pairs) {
  return el("dl", { class: "short" }, pairs.map(([name, value]) => [el("dt", {}, name), el("dd", {}, value)]));
}

// `extra` stands below the figures, such as a box to put it side by side.
export function card(one, conclusions, ...extra) {
  const urgent = one.reasons.filter(({ outcome }) => ["forbid", "set_aside", "advise", "caution"].includes(outcome));
  return tag(one.fits ? "do" : "stop", el("h3", {}, `${one.name}, ${one.crop_name}`), fitVerdict(one),
    lines(urgent.slice(0, 4)), shortList(figures(one)), extra,
    reasons(behind(one.reasons, conclusions, one.cultivar), t("varieties.all_reasons")));
}
