// The names that questions may use, offered while somebody types; without a connection those last fetched.
import { reference } from "./ask.mjs";
import { el, freshId } from "./dom.mjs";
import { field } from "./forms.mjs";
import { language } from "./words.mjs";

let known = { value: { crops: [], cultivars: [], rootstocks: [], regions: [] }, at: null, stale: false };

// The names with the moment when they were fetched and whether they are stale; empty where there are none at all.
export async function loadNames() {
  known = await reference("/v1/names").catch(() => known);
  return known;
}

export function nameOf({ name, name_es: spanish }) {
  return language() === "es" && spanish ? spanish : name;
}

function pairs(kind) {
  return known.value[kind].map((one) => [one.id, nameOf(one)]).sort(([, one], [, other]) => one.localeCompare(other));
}

export function cropName(id) {
  const found = known.value.crops.find((one) => one.id === id);
  return found ? nameOf(found) : id;
}

export function cultivarsOf(crop) {
  return known.value.cultivars.filter((one) => !crop || one.crop === crop);
}

// A choice among the crops; a text field where no names are known.
export function cropField(question, pointer = "/crop", more = {}) {
  const values = pairs("crops");
  return field(question, pointer, values.length ? { kind: "choice", values, ...more } : more);
}

export function cropsField(question, pointer, more = {}) {
  const values = pairs("crops");
  return field(question, pointer, values.length ? { kind: "checks", values, ...more } : more);
}

export function regionField(question, pointer, more = {}) {
  return field(question, pointer, { kind: "choice", values: pairs("regions"), ...more });
}

// A field for one or several cultivars with their names offered; `crop()` tells the crop that is chosen at the time.
export function cultivarField(question, pointer, { crop = () => "", ...more } = {}) {
  const id = freshId("names");
  const offered = el("datalist", { id });
  const made = field(question, pointer, { list: id, ...more });
  made.append(offered);
  made.addEventListener("focusin", () => {
    const chosen = crop(made);
    offered.replaceChildren(...cultivarsOf(chosen).map((one) =>
      el("option", { value: one.name }, chosen ? null : cropName(one.crop))));
  });
  return made;
}

// The crop that is chosen in the form, or in the same entry, of a field.
export function chosenCrop(holder) {
  const around = holder.closest(".entry, form");
  return around?.querySelector('[data-name$="/crop"] select, [data-name$="/crop"] input')?.value ?? "";
}
