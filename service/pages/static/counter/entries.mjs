// What is known of one entry of the look-ups: facts as rows, each with who says so, and unknown left out.
import { el, folded, list } from "../lib/dom.mjs";
import { inOurs, whateverIsKnown } from "../lib/known.mjs";
import { mark, verdict } from "../lib/marks.mjs";
import { cropName } from "../lib/names.mjs";
import { span } from "../lib/units.mjs";
import { choice, dayText, firstOf, number, t } from "../lib/words.mjs";
import { signName } from "./evidence.mjs";

const disorders = new Map((await whateverIsKnown("/v1/disorders")).map((one) => [one.id, one]));
const UNITS = { hours: "unit.hours", portions: "unit.portions", percent: "unit.percent", years: "unit.years", days: "unit.days" };

function disorderName(id) {
  return disorders.has(id) ? inOurs(disorders.get(id)) : choice(id);
}

function rows(pairs) {
  return el("dl", { class: "label" }, pairs.filter(([, value]) => value && (!Array.isArray(value) || value.length)).map(([name, value]) =>
    [el("dt", {}, firstOf(`lookup.${name}`, `label.${name}`) ?? name.replaceAll("_", " ")), el("dd", {}, value)]));
}

// A fact with its value, unit and sources as the catalogue keeps it; anything else is no fact.
function fact(told) {
  if (told === null || typeof told !== "object" || !("value" in told)) return null;
  return [shown(told.value, told.unit), " ", el("small", {}, [told.sources.join(", "), told.from_memory && t("advice.recalled"), told.note]
    .filter(Boolean).join(" · "))];
}

function shown(value, unit) {
  const name = UNITS[unit] ? t(UNITS[unit]) : unit === "zone" || unit === "count" ? "" : unit ?? "";
  if (Array.isArray(value)) return value.map((one) => shown(one)).join(", ");
  if (typeof value === "number") return `${number(value)} ${name}`.trim();
  if (typeof value === "boolean") return t(value ? "shell.yes" : "shell.no");
  if (typeof value === "object" && value !== null) return ranged(value, unit, name);
  return choice(value);
}

function ranged(value, unit, name) {
  if ("low" in value || "high" in value) {
    if (unit === "ft" || unit === "in") return span(value, unit) ?? "";
    const ends = [value.low, value.high].filter((end) => end !== null && end !== undefined).map((end) => number(end));
    const open = value.low === null ? "≤ " : value.high === null ? "≥ " : "";
    return `${open}${[...new Set(ends)].join("–")} ${name}`.trim();
  }
  if (value.amount) return [shown(value.amount, unit), value.model && `(${choice(value.model)})`].filter(Boolean).join(" ");
  if (unit === "day_of_year") return days(value);
  if (value.alleles) return value.alleles.join(" ");
  const said = Object.entries(value).filter(([, inner]) => inner !== null);
  return said.map(([part, inner]) => `${choice(part)}: ${shown(inner)}`).join(", ");
}

// A span of days of the year, by number.
function days(value) {
  const day = (count) => dayText(new Date(Date.UTC(2023, 0, count)).toISOString().slice(5, 10));
  const ends = [value.from_day, value.to_day].filter((end) => typeof end === "number").map(day);
  return [[...new Set(ends)].join(" – "), value.place && `(${value.place})`].filter(Boolean).join(" ");
}

function facts(one, skip = []) {
  return Object.entries(one).filter(([name, told]) => !skip.includes(name) && fact(told)).map(([name, told]) => [name, fact(told)]);
}

export function cultivarEntry(one) {
  const resistance = Object.entries(one.resistance ?? {}).map(([disease, told]) => [el("strong", {}, disorderName(disease)), ": ", fact(told)]);
  return [rows([["synonyms", one.synonyms.join(", ")], ...facts(one)]),
    resistance.length > 0 && folded(t("lookup.resistance"), list(resistance, (parts) => parts)), source(one)];
}

export function rootstockEntry(one) {
  return [rows([["crops", one.crops.map(cropName).join(", ")], ["synonyms", one.synonyms.join(", ")], ...facts(one)]), source(one)];
}

export function signEntry(one) {
  return el("div", { class: "sign" }, el("img", { src: one.drawing, alt: "", width: 120, height: 120, loading: "lazy" }),
    el("div", {}, el("p", { class: "do" }, inOurs(one, "ask")), rows([["part", choice(one.part, "part")], ["needs", one.needs && choice(one.needs, "tool")],
      ["said", inOurs(one, "synonyms").join("; ")]])));
}

export function disorderEntry(one) {
  const hosts = Object.entries(one.hosts).map(([crop, level]) => `${cropName(crop)} (${choice(level, "host")})`);
  const signs = (ids) => ids.map(signName).join("; ");
  return [one.regulated !== "none" && verdict("stop", t("trouble.regulated")), one.do_not_move && verdict("stop", t("trouble.move_never")),
    rows([["kind_of_cause", choice(one.kind)], ["scientific", one.scientific_names.join(", ")], ["hosts", hosts.join(", ")],
      ["typical", signs(one.typical)], ["sometimes", signs(one.sometimes)], ["rules_out", signs(one.rules_out)],
      ["stages", one.stages.map((stage) => choice(stage)).join(", ")], ["bring", inOurs(one.bring, "text")], ["sample", inOurs(one.sample.how, "text")]]),
    one.measures.length > 0 && [el("h4", {}, t("trouble.measures")), list(one.measures, ({ what }) => inOurs(what, "text"))],
    one.look_alikes.length > 0 && folded(t("lookup.look_alikes", { count: one.look_alikes.length }), list(one.look_alikes, (other) =>
      [el("strong", {}, `${disorderName(other.disorder)}: `), inOurs(other.check, "text"), ` (${inOurs(other.this_shows, "text")} / ${inOurs(other.other_shows, "text")})`])),
    source(one)];
}

// What the label of a product says; how much is used stands on the container alone.
export function labelEntry({ id, version, label }) {
  const printed = label.sites.map((site) => [site.crop_as_printed, site.phi_text, site.max_apps_per_year && t("lookup.a_year", { count: site.max_apps_per_year })]
    .filter(Boolean).join(" · "));
  return [label.demo && el("p", {}, mark("note"), t("remedy.invented")), label.signal_word && verdict("care", label.signal_word),
    rows([["actives", label.active_ingredients.map(({ iso_name: name, percent }) => `${name}${percent ? ` ${number(percent)} %` : ""}`).join(", ")],
      ["registration_number", label.epa_reg_no], ["label_date", label.label_version_date], ["states", label.states_registered?.join(", ")],
      ["wear", label.ppe?.join(", ")], ["reentry", label.reentry_text]]),
    printed.length > 0 && [el("h4", {}, t("lookup.printed_crops")), list(printed, (words) => words)],
    el("p", {}, mark("note"), t("lookup.no_amount")), el("p", {}, el("a", { href: `/shelf/products/${id}` }, t("lookup.record", { version })))];
}

function source(one) {
  return one.sources?.length ? el("p", { class: "sources" }, `${t("advice.source")} `, one.sources.map((name, index) =>
    [index > 0 && ", ", el("a", { href: `/v1/sources/${name}`, target: "_blank" }, name)]), one.from_memory && ` · ${t("advice.recalled")}`) : null;
}
