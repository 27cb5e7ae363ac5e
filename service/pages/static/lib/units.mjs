// US units with SI beside, and what people type for a number, a length or a day of the year.
import { number } from "./words.mjs";

const SI = {
  ft: [0.3048, "m"], in: [2.54, "cm"], lb: [0.45359237, "kg"], oz: [28.349523125, "g"], gal: [3.785411784, "L"],
  "sq ft": [0.09290304, "m²"], mph: [1.609344, "km/h"],
};
const TYPED_SI = { m: ["ft", 0.3048], cm: ["in", 2.54], "°c": ["°F", null], c: ["°F", null] };
const MONTHS = ["jan ene", "feb", "mar", "apr abr", "may", "jun", "jul", "aug ago", "sep", "oct", "nov", "dec dic"];

export function inSi(value, unit) {
  if (unit === "°F") return `${number((value - 32) / 1.8)} °C`;
  if (!SI[unit]) return null;
  const [factor, name] = SI[unit];
  return `${number(value * factor, value * factor < 10 ? 1 : 0)} ${name}`;
}

export function both(value, unit) {
  if (value === null || value === undefined) return null;
  const beside = inSi(value, unit);
  return `${number(value)} ${unit}${beside ? ` (${beside})` : ""}`;
}

// A range such as {low: 8, high: 10}; an open end is left out.
export function span(range, unit) {
  const ends = [...new Set([range?.low, range?.high].filter((end) => end !== null && end !== undefined))];
  if (!ends.length) return null;
  const si = ends.map((end) => inSi(end, unit));
  const beside = si[0] && [...si.slice(0, -1).map((each) => each.split(" ")[0]), si.at(-1)].join("–");
  return `${ends.map((end) => number(end)).join("–")} ${unit}${beside ? ` (${beside})` : ""}`;
}

// What was typed as a number in the wanted unit; text that is no number comes back as it is, for the service to refuse.
export function readNumber(text, unit) {
  const match = /^(-?[\d.,]+)\s*([^\d\s.,]*)$/.exec(text.trim());
  if (!match) return text;
  const value = Number(plainDigits(match[1]));
  const [to, factor] = TYPED_SI[match[2].toLowerCase()] ?? [];
  if (Number.isNaN(value)) return text;
  if (!match[2] || match[2].toLowerCase() === unit?.toLowerCase() || match[2] === "'" || match[2] === '"') return value;
  if (to !== unit) return text;
  return Math.round((factor ? value / factor : value * 1.8 + 32) * 100) / 100;
}

function plainDigits(text) {
  if (/^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) return text.replaceAll(",", "");
  return /^-?\d+,\d+$/.test(text) ? text.replace(",", ".") : text;
}

// "Apr 10", "10 abr", "4/10" or "04-10" as 04-10; anything else comes back as it is.
export function readMonthDay(text) {
  const plain = text.trim().toLowerCase();
  const digits = /^(\d{1,2})[-/](\d{1,2})$/.exec(plain);
  if (digits) return `${digits[1].padStart(2, "0")}-${digits[2].padStart(2, "0")}`;
  const named = /^(?:(\d{1,2})\s*(?:de\s+)?([a-z]{3,})\.?|([a-z]{3,})\.?\s*(\d{1,2}))$/.exec(plain);
  if (!named) return text.trim();
  const start = (named[2] ?? named[3]).slice(0, 3);
  const month = MONTHS.findIndex((names) => names.split(" ").includes(start)) + 1;
  return month ? `${String(month).padStart(2, "0")}-${(named[1] ?? named[4]).padStart(2, "0")}` : text.trim();
}
