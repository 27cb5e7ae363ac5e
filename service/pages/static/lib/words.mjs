// The text of the pages in English or Spanish, the same on every page of this device until somebody switches.
import { local } from "./store.mjs";

const LANGUAGES = ["en", "es"];
let words = {};
let spoken = "en";

export function language() {
  return spoken;
}

export function preferred() {
  const chosen = local.get("language");
  if (LANGUAGES.includes(chosen)) return chosen;
  return navigator.languages.map((one) => one.slice(0, 2)).find((one) => LANGUAGES.includes(one)) ?? "en";
}

export async function speak(wanted, { remember = false } = {}) {
  const told = await fetch(`/words/${wanted}.json`);
  if (!told.ok) throw new Error(`no words: ${told.status}`);
  words = await told.json();
  further.clear();
  spoken = wanted;
  if (remember) local.set("language", wanted);
  document.documentElement.lang = wanted;
  for (const place of document.querySelectorAll("[data-t]")) place.textContent = t(place.dataset.t);
}

// Words that only some tasks need, in the language of the page; without a line the page does without them.
const further = new Set();

export async function speakAlso(path) {
  const name = `${path}/${spoken}`;
  if (further.has(name)) return;
  const told = await fetch(`/words/${name}.json`).catch(() => null);
  if (!told?.ok) return;
  words = { ...await told.json(), ...words };
  further.add(name);
}

export function has(key) {
  return Object.hasOwn(words, key);
}

// The text of a key with values in its braces; with `count: 1` the form for one is taken where there is one.
export function t(key, values = {}) {
  const form = values.count === 1 && has(`${key}_one`) ? `${key}_one` : key;
  return (words[form] ?? key).replaceAll(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

// The first of several keys that has a text; null where none has.
export function firstOf(...keys) {
  const found = keys.find(has);
  return found ? t(found) : null;
}

export function choice(word, field = "") {
  return firstOf(`value.${field}_${word}`, `choice.${word}`) ?? String(word).replaceAll("_", " ");
}

export function number(value, digits = 1) {
  return new Intl.NumberFormat(spoken === "es" ? "es-MX" : "en-US", { maximumFractionDigits: digits }).format(value);
}

function day(date, shape) {
  return new Intl.DateTimeFormat(spoken === "es" ? "es-MX" : "en-US", { timeZone: "UTC", ...shape }).format(date);
}

export function monthName(month, length = "long") {
  return day(new Date(Date.UTC(2024, month - 1, 15)), { month: length });
}

// "04-10" or "2026-04-10" as people say it.
export function dayText(text) {
  if (!text) return "";
  const full = text.length > 5;
  const date = new Date(`${full ? text : `2024-${text}`}T12:00:00Z`);
  return day(date, { month: "short", day: "numeric", ...(full ? { year: "numeric" } : {}) });
}

export function momentText(time) {
  const date = new Date(time);
  const today = date.toDateString() === new Date().toDateString();
  return new Intl.DateTimeFormat(spoken === "es" ? "es-MX" : "en-US",
    { hour: "numeric", minute: "2-digit", ...(today ? {} : { month: "short", day: "numeric" }) }).format(date);
}
