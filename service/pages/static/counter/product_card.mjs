// One product and what its label says to this use: the verdict as shape and word, why, what is missing, when fruit may
// be picked again, and where on the label the amount stands. An amount is never shown.
import { el, folded, list } from "../lib/dom.mjs";
import { mark, markOf, tag, verdict } from "../lib/marks.mjs";
import { choice, dayText, number, t } from "../lib/words.mjs";

export const KIND = { allowed: "do", caution: "care", forbidden: "stop" };
const FIRST_REASONS = 2;

export function productCard(one) {
  const kind = KIND[one.verdict];
  const [first, rest] = [one.why.slice(0, FIRST_REASONS), one.why.slice(FIRST_REASONS)];
  return tag(kind, verdict(kind, t(`remedy.${one.verdict}`)), el("h3", {}, one.name), el("p", { class: "known" }, named(one)),
    one.demo && el("p", {}, mark("note"), t("remedy.invented")),
    one.next_steps.map((step) => verdict("stop", t(`remedy.${step}`))),
    list(first, ({ outcome, text }) => [mark(markOf(outcome)), text], { class: "lines" }),
    one.waits_for.length > 0 && el("p", {}, mark("wait"), t("remedy.waits_for", { needs: needsOf(one.waits_for).join("; ") })),
    one.verdict !== "forbidden" && onUse(one),
    folded([mark("note"), t("remedy.why", { count: one.why.length })], el("ul", { class: "reasons" },
      [...first, ...rest].map((reason) => el("li", {}, el("p", {}, mark(markOf(reason.outcome)), reason.text),
        el("p", { class: "sources" }, `${t("advice.source")} ${reason.authority.join("; ")} `,
          el("a", { href: `/v1/rules/${reason.rule}`, target: "_blank" }, t("advice.rule", { rule: reason.rule }))))))));
}

export function needsOf(waiting) {
  return [...new Set(waiting.flatMap(({ needs }) => needs))];
}

function named(one) {
  return [one.actives.join(", "), one.epa_reg_no && t("remedy.registration", { number: one.epa_reg_no }),
    one.rating !== "not_rated" && one.rating !== "no_data" && t("remedy.rating", { rating: t(`remedy.rated_${one.rating}`) })]
    .filter(Boolean).join(" · ");
}

// What must be seen at once stands open; the rest of what the label says is folded.
function onUse(one) {
  const first = [["picked", one.earliest_harvest && dayText(one.earliest_harvest)], ["amount", one.label.where]];
  const rest = [
    ["last_use", one.last_use_before_harvest && dayText(one.last_use_before_harvest)], ["reentry", one.reentry],
    ["wear", one.ppe.map((what) => choice(what)).join(", ")],
    ["left", one.uses.allowed !== null && t("remedy.uses", { left: number(one.uses.left ?? 0), allowed: number(one.uses.allowed) })],
    ["opens", one.opens_again_text], ["rotation", one.rotation.groups.length > 0 && one.rotation.text],
    ["only_if", needsOf(one.only_if).join("; ")],
  ];
  return [rows(first), folded([mark("note"), t("remedy.on_label")], rows(rest))];
}

function rows(all) {
  return el("dl", { class: "label" }, all.filter(([, value]) => value).map(([name, value]) =>
    [el("dt", {}, t(`remedy.${name}`)), el("dd", {}, value)]));
}
