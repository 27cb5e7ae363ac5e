// …
import { question } from "../lib/ask.mjs";
import { frame } from "../lib/advice.mjs";
import { steps } from "../lib/dom.mjs";
import { fields as fieldsOf } from "../lib/forms.mjs";

export const id = "year";
export const title = "task.year";
const Q = "thinning-plans";

export function fields() {
  return fieldsOf(Q, ["/crop", "/cultivar", "/set"]);
}

export function ask(site, form) {
  return question(`/v1/${Q}`, form, { task: id });
}

export function show(told, place) {
  frame(place, told, { first: steps(told.answer.steps, ({ text }) => text) });
}
