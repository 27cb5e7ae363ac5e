// What the service knows by lists (signs, complaints, disorders, products): every page of a list at once; without a
// connection those last fetched.
import { reference } from "./ask.mjs";
import { language } from "./words.mjs";

const MOST = 200;

export async function everything(path) {
  const items = [];
  let cursor = null;
  do {
    const query = new URLSearchParams({ limit: MOST, ...(cursor ? { cursor } : {}) });
    const { value } = await reference(`${path}${path.includes("?") ? "&" : "?"}${query}`);
    items.push(...value.items);
    cursor = value.next_cursor;
  } while (cursor);
  return items;
}

// The same, empty where nothing was ever fetched.
export async function whateverIsKnown(path) {
  return everything(path).catch(() => []);
}

// The text of an entry in the language of the page: `name` beside `name_es`, `text` beside `text_es`.
export function inOurs(entry, field = "name") {
  return (language() === "es" && entry[`${field}_es`]) || entry[field];
}
