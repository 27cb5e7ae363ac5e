// My tree now: which tree, how old, how it looks today; then what to do this week and in those that follow.
import { Problem, json } from "../lib/ask.mjs";
import { el, list } from "../lib/dom.mjs";
import { both } from "../lib/units.mjs";
import { dayText, language, t } from "../lib/words.mjs";
import { card, cautions, line } from "./answer.mjs";
import { look } from "./pictures.mjs";
import { cropWord, crops, daysLater, siteOfTree, today } from "./store.mjs";
import { askCounter } from "./ticket.mjs";
import { next, stepper, tiles } from "./tiles.mjs";

const OLDEST = 60;
const AHEAD_DAYS = 42;
const MOST_TASKS = 8;
const MOST_CUTS = 5;
// How the tree looks, in the words that each question has for it; the season has two for small fruit, by crop.
const LOOKS = {
  bare: { pruning: "dormant", season: [] },
  buds: { pruning: "bud_swell", season: ["bud_swell"] },
  flowers: { pruning: "bloom", season: ["bloom"], thinning: "bloom" },
  petals_fall: { pruning: "in_leaf", season: ["petal_fall"], thinning: "petal_fall" },
  small_fruit: { pruning: "in_leaf", season: ["fruit_set", "shuck_split"], thinning: "fruit_set" },
  ripe_fruit: { pruning: "in_leaf", season: ["harvest"], thinning: "ripe" },
  leaves_only: { pruning: "in_leaf", season: [] },
  leaves_fall: { pruning: "leaf_fall", season: [] },
};
const VERDICT = { now: "do", small_cuts_only: "care", not_now: "stop" };

export function whichTree() {
  return async (visit) => ({ title: t("kiosk.which_tree"), parts: tiles(await crops(), (crop) => visit.go(howOld({ crop }))) });
}

function howOld(told) {
  const count = stepper({ low: 1, high: OLDEST, start: 3, say: (years) => t("kiosk.summers", { count: years }) });
  return (visit) => ({
    title: t("kiosk.how_old"),
    parts: [count.place, next(() => visit.go(howItLooks({ ...told, age_years: count.value() }))),
      tiles([{ value: null, word: t("kiosk.do_not_know") }], () => visit.go(howItLooks(told)), { kind: "few" })],
  });
}

function howItLooks(told) {
  return (visit) => {
    const options = Object.keys(LOOKS).map((value) => ({ value, picture: look(value), word: t(`kiosk.look_${value}`) }));
    const choose = (seen) => visit.go(now({ ...told, seen }));
    return { title: t("kiosk.how_looks"), parts: tiles([...options, { value: null, word: t("kiosk.do_not_know") }], choose) };
  };
}

const ask = (question, body) => json(`/v1/${question}`, { method: "POST", body: { ...body, language: language() } });
const ageOf = ({ age_years: age }) => (age ? { age_years: age } : {});

// The plan of the season; of the words for a look the first that the crop has, or none.
async function season(told, site) {
  for (const stage of [...(LOOKS[told.seen]?.season ?? []), null]) {
    const seen = stage ? { seen: { stage, day: today() } } : {};
    const asked = { trees: [{ crop: told.crop, ...ageOf(told), ...seen }], start: today(), site };
    try {
      return [asked, await ask("season-plans", asked)];
    } catch (fault) {
      if (!stage || !(fault instanceof Problem) || !fault.errors.some(({ pointer }) => pointer.includes("/seen"))) throw fault;
    }
  }
}

function now(told) {
  return async (visit) => {
    const site = await siteOfTree();
    const words = LOOKS[told.seen] ?? {};
    const tree = { crop: told.crop, ...ageOf(told) };
    const toPrune = { ...tree, date: today(), site, ...(words.pruning ? { stage: words.pruning } : {}) };
    const toThin = words.thinning ? { ...tree, stage: words.thinning } : null;
    const [[toPlan, plan], pruning, thinning] = await Promise.all([season(told, site), ask("pruning-plans", toPrune),
      toThin ? ask("thinning-plans", toThin) : null]);
    const tasks = soon(plan.answer.trees[0].tasks);
    const questions = [["season-plans", toPlan], ["pruning-plans", toPrune], ...(toThin ? [["thinning-plans", toThin]] : [])];
    return {
      title: t("kiosk.now_title", { tree: await cropWord(told.crop) }),
      parts: [el("p", { class: "day" }, dayText(today())), pruned(pruning.answer), thinning && thinned(thinning.answer),
        tasks.length ? [tasks.filter(isPlain).map(task), pests(tasks)] : line("do", t("kiosk.nothing_soon")),
        cautions([...tasks.filter(isPlain).flatMap((one) => one.cautions), ...[pruning, thinning].flatMap((one) => one?.cautions ?? []).map(({ text }) => text)]),
        askCounter(visit, "my_tree", questions)],
    };
  };
}

// Work that may be done now or begins within six weeks, that of today first.
function soon(tasks) {
  const until = daysLater(today(), AHEAD_DAYS);
  return tasks.filter(({ from, to }) => to >= today() && from <= until).sort((one, other) => one.from.localeCompare(other.from))
    .slice(0, MOST_TASKS);
}

// What is put on trees is talked about at the counter, with the label at hand.
const isPlain = ({ kind }) => kind !== "pests";

function task(one) {
  const when = one.from <= today() ? t("kiosk.until", { day: dayText(one.to) }) : t("kiosk.from_to", { from: dayText(one.from), to: dayText(one.to) });
  const kind = { do: "do", if_seen: "note", do_not: "stop" }[one.standing];
  return card(kind, one.what, el("p", { class: "day" }, when), el("p", {}, one.text));
}

function pests(tasks) {
  const some = tasks.filter((one) => !isPlain(one));
  return some.length ? card("note", t("kiosk.pests"), list(some, ({ what }) => what), el("p", {}, t("kiosk.counter_knows"))) : null;
}

function pruned({ when, cuts }) {
  const kind = VERDICT[when.verdict] ?? "unknown";
  return card(kind, t(`kiosk.prune_${VERDICT[when.verdict] ? when.verdict : "unknown"}`), el("p", {}, when.text),
    list(cuts.filter(({ verdict }) => verdict === "now").slice(0, MOST_CUTS), ({ what, where }) => [el("strong", {}, what), `: ${where}`]));
}

const THIN = { thin: "do", remove_all: "do", leave: "note", wait: "wait" };

function thinned({ action, spacing_in: spacing, reasons, steps: how }) {
  const kind = THIN[action] ?? "unknown";
  return card(kind, t(`kiosk.thin_${THIN[action] ? action : "unknown"}`), reasons.slice(0, 1).map(({ text }) => el("p", {}, text)),
    action === "thin" && spacing ? line("do", t("kiosk.thin_every", { spacing: both(spacing, "in") })) : null,
    action === "thin" ? list(how.slice(0, 2), ({ text }) => text) : null);
}
