// What is there to do this year? Dated work for one or several trees, as a strip, month by month, and as a calendar.
import { behind, frame, reasons } from "../lib/advice.mjs";
import { Away, question, send } from "../lib/ask.mjs";
import { button, el, fill, folded, foreign, list } from "../lib/dom.mjs";
import { entries, field, placeFor } from "../lib/forms.mjs";
import { mark, tag } from "../lib/marks.mjs";
import { chosenCrop, cropField, cultivarField } from "../lib/names.mjs";
import { both } from "../lib/units.mjs";
import { dayText, monthName, number, t } from "../lib/words.mjs";

export const id = "year";
export const title = "task.year";
const Q = "season-plans";
const KIND = { do: "do", if_seen: "note", do_not: "stop" };
const NEXT = 6;
const OF_TREE = ["age_years", "height_ft", "seen/full_bloom", "seen/stage", "seen/day", "floor", "bears", "troubles", "to_plant", "just_planted"];

export function fields() {
  const parts = [(pointer) => cropField(Q, `${pointer}/crop`), (pointer) => cultivarField(Q, `${pointer}/cultivar`, { crop: chosenCrop }),
    (pointer) => field(Q, `${pointer}/label`), (pointer) => folded(t("shell.more_fields"), el("div", { class: "grid" },
      OF_TREE.map((name) => field(Q, `${pointer}/${name}`))))];
  return [entries("/trees", parts, { legend: t("year.a_tree"), add: t("year.add_tree") }),
    el("div", { class: "grid" }, field(Q, "/start"), field(Q, "/fertiliser_percent"))];
}

export function ask(site, form) {
  return question(`/v1/${Q}`, { ...form, site: placeFor(Q, site) }, { task: id });
}

export function show(told, place) {
  const { trees } = told.answer;
  const tasks = trees.flatMap((tree) => tree.tasks.map((task) => ({ ...task, named: tree.named, alone: trees.length === 1 })));
  tasks.sort((one, other) => one.from.localeCompare(other.from));
  frame(place, told, {
    first: [el("h2", {}, t("year.next")), tasks.slice(0, NEXT).map(work), downloads(told), strip(told)],
    more: [months(tasks.slice(NEXT)), trees.map((tree) => ofTree(tree, told, trees.length === 1))],
  });
}

function work(one) {
  const estimated = one.basis === "estimated" && t("year.give_or_take", { days: one.spread_days });
  const when = [dayText(one.from), one.to !== one.from && dayText(one.to)].filter(Boolean).join(" – ");
  const standing = one.standing === "do" ? null : el("strong", {}, `${t(`year.${one.standing}`)} `);
  return tag(KIND[one.standing], el("h3", {}, mark(KIND[one.standing]), one.alone ? one.what : `${one.what} · ${one.named}`),
    el("p", {}, el("strong", {}, when), estimated && ` ${estimated}`, one.every_days && ` · ${t("year.every", { count: one.every_days })}`),
    el("p", {}, standing, one.text), list(one.cautions, (text) => [mark("care"), text], { class: "lines" }), folded(t("year.why"), el("p", {}, one.why)));
}

function months(tasks) {
  const grouped = Map.groupBy ? Map.groupBy(tasks, ({ from }) => from.slice(0, 7)) : grouping(tasks);
  return [...grouped].map(([month, some]) => folded(`${monthName(Number(month.slice(5)))} ${month.slice(0, 4)} (${some.length})`, some.map(work)));
}

function grouping(tasks) {
  const grouped = new Map();
  for (const task of tasks) grouped.set(task.from.slice(0, 7), [...grouped.get(task.from.slice(0, 7)) ?? [], task]);
  return grouped;
}

function inKind(told, accept) {
  return send(`/v1/${Q}`, { method: "POST", body: { ...told.asked, keep: false }, accept });
}

function strip(told) {
  const place = el("div", { class: "strip", tabindex: "0", role: "region", "aria-label": t("year.strip") }, t("shell.asking"));
  inKind(told, "image/svg+xml").then((answer) => answer.text()).then((drawing) => fill(place, foreign(drawing)),
    (fault) => { place.textContent = fault instanceof Away ? t("year.no_strip") : ""; });
  return el("figure", {}, el("figcaption", {}, t("year.strip")), place);
}

function downloads(told) {
  const state = el("span", { role: "status" });
  const save = async (accept, name) => {
    state.textContent = t("shell.asking");
    try {
      const address = URL.createObjectURL(await (await inKind(told, accept)).blob());
      el("a", { href: address, download: name }).click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
      state.textContent = "";
    } catch { state.textContent = t("news.away"); }
  };
  return el("p", { class: "send" }, button(t("year.calendar"), () => save("text/calendar", "season-plan.ics"), { class: "plain" }),
    button(t("year.page"), () => save("image/svg+xml", "season-plan.svg"), { class: "plain" }), state);
}

function ofTree(tree, told, alone) {
  const bloom = tree.bloom.date ? t(`year.bloom_${tree.bloom.basis}`, { day: dayText(tree.bloom.date), days: tree.bloom.spread_days ?? 0 }) : t("year.bloom_none");
  return el("section", {}, el("h3", {}, alone ? t("year.tree") : tree.named), el("p", {}, bloom),
    tree.undated.length ? folded(t("year.undated", { count: tree.undated.length }), list(tree.undated, ({ what, text }) => [el("strong", {}, what), ` ${text}`])) : null,
    tree.nitrogen && el("p", {}, t("year.nitrogen", { year: both(tree.nitrogen.year_oz, "oz"), doses: tree.nitrogen.doses, dose: both(tree.nitrogen.dose_oz, "oz") })),
    water(tree.water), reasons(behind(tree.reasons, told.conclusions), t("year.behind")));
}

function water(told) {
  if (!told.length) return null;
  const month = (text) => `${monthName(Number(text.slice(5)))} ${text.slice(0, 4)}`;
  return folded(t("year.water"), el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": t("year.water") }, el("table", {},
    el("thead", {}, el("tr", {}, ["month", "a_day", "each_time"].map((name) => el("th", { scope: "col" }, t(`year.${name}`))))),
    el("tbody", {}, told.map((one) => el("tr", {}, [month(one.month), both(one.gallons_a_day, "gal"),
      one.gallons_each_time === null ? "–" : both(one.gallons_each_time, "gal")].map((cell) => el("td", {}, cell))))))));
}
