// The frame of every answer: first what to do, then why (folded: rules, facts, sources), then the cautions, which
// nobody can fold away. What is old or was answered by an older rulebook says so at the top.
import { listen, newestRulebook, onLine } from "./ask.mjs";
import { el, fill, folded, list } from "./dom.mjs";
import { mark, markOf, verdict } from "./marks.mjs";
import { momentText, t } from "./words.mjs";

// `first`: what to do. `more`: what follows the cautions. `why` is left out where each part of `more` has its own.
export function frame(place, told, { first = [], more = [], why = true } = {}) {
  return fill(place, age(told), el("div", { class: "first" }, first), why && reasons(told.conclusions), notJudged(told),
    cautions(told), more);
}

export function cautions({ cautions: told }) {
  if (!told.length) return null;
  return el("section", { class: "cautions" }, el("h3", {}, mark("care"), t("advice.cautions")),
    list(told, ({ text }) => text));
}

// When it was answered, where that may be out of date: without a line, or after the rules have changed.
export function age(told) {
  if (!told.at) return null;
  const place = el("div", {});
  const say = () => {
    const words = told.rulebook !== newestRulebook() ? "advice.older_rules" : onLine() ? null : "advice.while_away";
    fill(place, words && el("p", { class: "stale" }, mark("wait"), t(words, { time: momentText(told.at) })));
  };
  say();
  const deaf = listen(() => (place.isConnected ? say() : deaf()));
  return place;
}

export function notJudged({ not_judged: told }) {
  if (!told.length) return null;
  return folded([mark("unknown"), t("advice.not_judged", { count: told.length })],
    list(told, ({ meaning, needs }) => [el("strong", {}, meaning), needs && ` ${t("advice.needs", { needs })}`]));
}

// Conclusions, the strongest first as the service orders them, each with its reason, facts and sources.
export function reasons(conclusions, summary = t("advice.why")) {
  return conclusions.length ? folded([mark("note"), `${summary} (${conclusions.length})`],
    el("ul", { class: "reasons" }, conclusions.map((one) => el("li", {}, reason(one))))) : null;
}

export function reason(one) {
  return [el("p", {}, mark(markOf(one.outcome)), one.text), el("p", { class: "why" }, one.why),
    one.facts?.length ? el("p", { class: "facts" }, t("advice.because"), " ",
      one.facts.map(({ meaning, shown }) => `${meaning}: ${shown}`).join(" · ")) : null,
    el("p", { class: "sources" }, sources(one), " ", el("a", { href: `/v1/rules/${one.rule}`, target: "_blank" },
      t("advice.rule", { rule: one.rule })))];
}

function sources({ sources: cited, basis }) {
  const said = cited.map(({ title, publisher, year, where, from_memory: recalled }) =>
    [title, publisher, year, where, recalled && t("advice.recalled")].filter(Boolean).join(", "));
  return `${t("advice.source")} ${[...said, basis].filter(Boolean).join("; ")}`;
}

// The whole conclusions behind the short reasons of one part of an answer.
export function behind(short, conclusions, about) {
  const rules = new Set(short.map(({ rule }) => rule));
  const mine = conclusions.filter((one) => rules.has(one.rule) && (about === undefined || one.about === about));
  return [...new Map(mine.map((one) => [one.rule, one])).values()];
}

// Short reasons as lines with their marks: what to do before what to know.
export function lines(short) {
  return list(short, ({ outcome, text }) => [mark(markOf(outcome)), text], { class: "lines" });
}

export { mark, verdict };
