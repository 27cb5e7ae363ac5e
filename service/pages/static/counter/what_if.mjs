// What if the winter were milder, the trees lower, the plot wider? Asks again with other values and says what changes.
import { Away, Problem, json } from "../lib/ask.mjs";
import { button, el, fill, freshId, list } from "../lib/dom.mjs";
import { mark } from "../lib/marks.mjs";
import { inSi } from "../lib/units.mjs";
import { language, number, t } from "../lib/words.mjs";

const STEPS = { chill_hours: [100, "hours"], max_height_ft: [1, "ft"], width_ft: [2, "ft"], depth_ft: [2, "ft"] };
const WAIT_MS = 350;
const MANY = 50;

export function whatIf(told, context) {
  const asked = { ...told.asked, limit: MANY, set_aside_limit: 0, keep: false, language: language() };
  const site = { ...asked.site };
  const result = el("div", { role: "status" });
  const original = json("/v1/variety-suggestions", { method: "POST", body: asked });
  original.catch(() => {});
  let latest = 0;
  let timer = null;

  async function tryOut() {
    const mine = latest += 1;
    result.replaceChildren(t("shell.asking"));
    try {
      const body = { ...asked, site };
      const [before, now] = await Promise.all([original, json("/v1/variety-suggestions", { method: "POST", body })]);
      if (mine === latest) fill(result, changes(before.answer, now.answer), keep(site, asked.site ?? {}, context));
    } catch (fault) {
      if (mine !== latest) return;
      if (fault instanceof Away) result.textContent = t("news.away");
      else if (fault instanceof Problem) result.textContent = fault.errors.map(({ detail }) => detail).join(" ");
      else throw fault;
    }
  }
  const change = (name, value) => {
    if (value === null) delete site[name]; else site[name] = value;
    clearTimeout(timer);
    timer = setTimeout(tryOut, WAIT_MS);
  };
  return el("details", { class: "what-if" }, el("summary", {}, mark("unknown"), t("whatif.title")), el("p", {}, t("whatif.how")),
    el("div", { class: "steppers" }, Object.keys(STEPS).map((name) => stepper(name, site[name], change))), result);
}

function stepper(name, start, change) {
  const [step, unit] = STEPS[name];
  const id = freshId(name);
  const input = el("input", { id, inputmode: "decimal", value: start ?? "", autocomplete: "off" });
  const si = el("output", { class: "si", for: id });
  const value = () => (input.value.trim() === "" || Number.isNaN(Number(input.value)) ? null : Number(input.value));
  const told = () => { si.textContent = value() !== null && inSi(value(), unit) ? `= ${inSi(value(), unit)}` : ""; };
  const move = (by) => {
    input.value = Math.max(0, (value() ?? 0) + by);
    told();
    change(name, value());
  };
  input.addEventListener("input", () => { told(); change(name, value()); });
  told();
  const label = t(`label.${name}`);
  return el("div", { class: "stepper field" }, el("label", { for: id }, label), el("span", {},
    button("−", () => move(-step), { class: "plain", "aria-label": t("whatif.less", { label }) }), input,
    button("+", () => move(step), { class: "plain", "aria-label": t("whatif.more", { label }) }), t(`unit.${unit}`), si));
}

function keep(site, before, context) {
  const other = Object.keys(STEPS).filter((name) => site[name] !== before[name]);
  if (!other.length) return null;
  const values = Object.fromEntries(other.map((name) => [`/site/${name}`, site[name] === undefined ? "" : String(site[name])]));
  return button(t("whatif.keep"), () => context.change(values), { class: "plain" });
}

const named = (one) => `${one.name}, ${one.crop_name}`;

function changes(before, now) {
  const [old, fresh] = [before, now].map(({ suggestions }) => new Map(suggestions.map((one) => [one.cultivar, one])));
  const come = [...fresh.values()].filter((one) => !old.has(one.cultivar));
  const gone = [...old.values()].filter((one) => !fresh.has(one.cultivar));
  const moved = [...fresh.values()].filter((one) => old.has(one.cultivar) && old.get(one.cultivar).fit !== one.fit);
  const rooted = [...fresh.values()].filter((one) => old.has(one.cultivar) && old.get(one.cultivar).rootstock?.id !== one.rootstock?.id);
  const crops = now.crops.map((one) => [one, before.crops.find((other) => other.crop === one.crop)])
    .filter(([one, other]) => one.fitting !== other?.fitting);
  const set = ({ planting_set: told }) => told?.best.trees.map(named).join("; ") ?? t("whatif.no_set");
  if (!come.length && !gone.length && !moved.length && !crops.length && !rooted.length && set(before) === set(now)) {
    return el("p", {}, el("strong", {}, t("whatif.nothing")));
  }
  return [
    set(before) !== set(now) && el("p", {}, el("strong", {}, t("whatif.set")), ` ${set(now)}`),
    part("do", "whatif.come", come), part("stop", "whatif.gone", gone),
    crops.length > 0 && [el("h4", {}, t("whatif.crops")), list(crops, ([one, other]) =>
      `${one.crop_name}: ${number(other?.fitting ?? 0, 0)} → ${number(one.fitting, 0)} ${t("whatif.of", { judged: one.judged })}`)],
    moved.length > 0 && [el("h4", {}, t("whatif.moved")), list(moved.slice(0, 12), (one) => {
      const was = old.get(one.cultivar).fit;
      return `${one.fit > was ? "▲" : "▼"} ${named(one)}: ${was} → ${one.fit}`;
    })],
    rooted.length > 0 && [el("h4", {}, t("whatif.rooted")), list(rooted.slice(0, 12), (one) =>
      `${named(one)}: ${old.get(one.cultivar).rootstock?.name ?? "–"} → ${one.rootstock?.name ?? "–"}`)],
  ];
}

function part(kind, words, some) {
  if (!some.length) return null;
  return [el("h4", {}, mark(kind), t(words, { count: some.length })), el("p", {}, some.slice(0, 12).map(named).join("; "), some.length > 12 && " …")];
}
