// The lines of a planting list: what was written, what it was read as, the verdict, and what to do about it.
import { behind, lines, reasons } from "../lib/advice.mjs";
import { button, el, folded } from "../lib/dom.mjs";
import { mark, tag, verdict } from "../lib/marks.mjs";
import { both } from "../lib/units.mjs";
import { dayText, number, t } from "../lib/words.mjs";

export const KIND = { fits: "do", caution: "care", does_not_fit: "stop", not_recognised: "unknown" };

export function lineCard(one, told, mend) {
  const kind = KIND[one.verdict];
  const names = one.read_as.map((name) => name.name ?? name.written).join(" / ");
  return tag(kind, verdict(kind, t(`list.line_${one.verdict}`)), el("h3", {}, `${number(one.line, 0)}. ${names}`, one.trees > 1 && ` × ${number(one.trees, 0)}`,
    one.rootstock && `, ${one.rootstock.name ?? one.rootstock.written}`),
    el("p", { class: "known" }, t("list.written", { text: one.written })),
    one.read_as.map((name) => otherNames(name, one, mend)),
    lines(one.findings.filter(({ outcome }) => outcome !== "say")), one.judged.map(judged),
    folded([mark("note"), t("list.why")], lines([...one.findings.filter(({ outcome }) => outcome === "say"), ...one.judged.flatMap((tree) => tree.reasons)]),
      reasons(behind(one.findings, told.conclusions))));
}

// A guess or an unknown name, with what else may be meant; choosing one writes it into the list.
function otherNames(name, one, mend) {
  if (name.how === "exact" || name.how === "synonym") return null;
  const options = [...new Set([name.name, ...name.alternatives.map((other) => other.name)].filter(Boolean))];
  if (!options.length) return null;
  return el("p", { class: "send" }, el("span", {}, mark("unknown"), t("list.meant", { name: name.written })),
    options.map((other) => (mend ? button(other, () => mend(one, name.written, other), { class: "plain" }) : el("span", {}, other))));
}

function judged(tree) {
  const parts = [tree.rootstock && t("list.on", { root: tree.rootstock.name }), tree.spacing_ft && t("list.apart", { feet: both(tree.spacing_ft, "ft") }),
    tree.harvest && t("list.picked", { days: [...new Set([tree.harvest.from, tree.harvest.to])].map(dayText).join(" – ") }),
    tree.pollination?.first_partner && t("list.pollen", { name: tree.pollination.first_partner }),
    tree.in_stock !== null && tree.in_stock !== undefined && t("list.in_stock", { count: number(tree.in_stock, 0) })].filter(Boolean);
  return [parts.length > 0 && el("p", {}, `${tree.name}: ${parts.join(" · ")}`),
    tree.substitutes.length > 0 && el("p", {}, mark("do"), t("list.instead", { names: tree.substitutes.map((one) =>
      one.rootstock ? `${one.name} (${one.rootstock.name})` : one.name).join(", ") }))];
}
