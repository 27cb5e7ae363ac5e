// What the kiosk knows of its store: the crops that it may name, and the climate near it, which stands in for the
// customer's own. Both are asked for when a screen needs them.
import { reference } from "../lib/ask.mjs";
import { language } from "../lib/words.mjs";
import { fruit } from "./pictures.mjs";

const CLIMATE = ["hardiness_zone", "latitude", "last_spring_frost", "first_autumn_frost", "summer"];
const CHILL = ["chill_hours", "chill_portions"];
const RAIN = ["rain", "rains_begin"];

export function inOurs(entry, field = "name") {
  return (language() === "es" && entry[`${field}_es`]) || entry[field];
}

export async function crops() {
  const { value } = await reference("/v1/names");
  return value.crops.map((one) => ({ value: one.id, word: inOurs(one), picture: fruit(one.id) }))
    .sort((one, other) => one.word.localeCompare(other.word));
}

export async function cropWord(id) {
  return (await crops()).find(({ value }) => value === id)?.word ?? id;
}

async function climate() {
  const { value } = await reference("/v1/store-climate");
  return value;
}

export async function storeName() {
  return (await climate()).name;
}

async function part(names) {
  const known = await climate();
  return Object.fromEntries(names.filter((name) => known[name] !== null && known[name] !== undefined).map((name) => [name, known[name]]));
}

export const siteToPlant = () => part([...CLIMATE, ...CHILL]);
export const siteOfTree = () => part([...CLIMATE, ...RAIN]);
export const siteOfTrouble = () => part(CLIMATE);

// The day by the clock of the kiosk, as the service takes it.
export function today() {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}

export function daysLater(day, count) {
  const later = new Date(`${day}T12:00:00Z`);
  later.setUTCDate(later.getUTCDate() + count);
  return later.toISOString().slice(0, 10);
}
