// The causes that may be behind it, those that cannot be, and what tells the two likeliest apart.
import { behind, lines, reasons } from "../lib/advice.mjs";
import { button, el, folded, list } from "../lib/dom.mjs";
import { mark, tag, verdict } from "../lib/marks.mjs";
import { choice, number, t } from "../lib/words.mjs";
import { signQuestion } from "./evidence.mjs";

const KIND = { very_likely: "care", likely: "care", possible: "unknown", not_enough: "unknown" };

export function suspectCard(one, told, context) {
  const { answer, conclusions } = told;
  const percent = number(one.likelihood * 100, 0);
  return tag(KIND[one.certainty] ?? "note", el("h3", {}, one.name),
    el("p", { class: "likely" }, el("meter", { min: 0, max: 1, value: one.likelihood, "aria-label": t("trouble.likelihood", { name: one.name }) }),
      t("trouble.about", { percent }), one.certainty && ` · ${t(`trouble.is_${one.certainty}`)}`),
    one.regulated !== "none" && verdict("stop", t("trouble.regulated")),
    spoken("do", "trouble.for", one.for), spoken("stop", "trouble.against", one.against),
    one.measures.length > 0 && [el("h4", {}, t("trouble.measures")), list(one.measures, ({ text }) => text)],
    lines(one.reasons.filter(({ outcome }) => outcome !== "say")),
    answer.treat === "yes" && el("p", {}, button(t("trouble.to_remedy"), () => toRemedy(one, answer, context))),
    reasons(behind(one.reasons, conclusions)));
}

function spoken(kind, words, signs) {
  return signs.length ? el("p", {}, mark(kind), el("strong", {}, t(words)), " ",
    signs.map(({ name, how }) => `${name}${how === "not_found" ? ` (${t("trouble.not_found")})` : ""}`).join("; ")) : null;
}

// Goes on to what can be used, with crop and cause filled in; what stands there otherwise stays.
function toRemedy(one, answer, context) {
  const mine = context.page.tasks;
  mine.remedy = { ...mine.remedy, "/crop": answer.crop, "/cultivar": answer.name ?? "", "/disorder": one.name };
  for (const pointer of ["/stage", "/date"]) if (mine.trouble?.[pointer]) mine.remedy[pointer] ??= mine.trouble[pointer];
  context.page.askAtOnce = "remedy";
  context.save();
  context.go("remedy");
}

export function tellApart(pair, context) {
  if (!pair) return null;
  const rows = [[pair.first, pair.first_shows], [pair.second, pair.second_shows]];
  return el("section", {}, el("h2", {}, t("trouble.apart")), pair.check && el("p", { class: "do" }, pair.check),
    el("div", { class: "beside" }, rows.map(([cause, shows]) => tag("note", el("h3", {}, cause.name), shows && el("p", {}, shows)))),
    pair.signs.length > 0 && folded(t("trouble.apart_signs", { count: pair.signs.length }), pair.signs.map((one) => signQuestion(one, context))));
}

export function ruledOut(answer, told) {
  const [loud, quiet] = [answer.ruled_out.filter((one) => one.often_confused), answer.ruled_out.filter((one) => !one.often_confused)];
  const card = (one) => tag("stop", el("h3", {}, mark("stop"), t("trouble.not", { name: one.name })), el("p", {}, one.why),
    one.look_instead.length > 0 && el("p", {}, t("trouble.instead", { names: one.look_instead.map(({ name }) => name).join(", ") })),
    reasons(behind(one.reasons, told.conclusions)));
  return [loud.map(card), quiet.length > 0 && folded([mark("stop"), t("trouble.ruled_out", { count: quiet.length })], quiet.map(card))];
}

export function sampleAndRefer({ sample, refer }) {
  return [refer.to && verdict("care", t("trouble.refer", { who: choice(refer.to, "to") })),
    refer.move_material && refer.move_material !== "freely" && verdict("stop", t(`trouble.move_${refer.move_material}`)),
    sample && folded([mark("note"), t("trouble.bring")], sample.bring && el("p", { class: "do" }, sample.bring), el("p", {}, sample.how),
      el("p", {}, mark("wait"), t("trouble.too_late", { when: sample.too_late })))];
}
