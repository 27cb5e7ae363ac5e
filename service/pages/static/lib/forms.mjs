// Forms whose controls carry the JSON pointer of their value: built from what the service says of its fields, read into
// the body of a request, kept as they were typed, and marked where the service refuses something.
import { json } from "./ask.mjs";
import { control, isGroup, putInto, typedIn, valueOf } from "./controls.mjs";
import { button, el, folded, freshId } from "./dom.mjs";
import { large } from "./store.mjs";
import { firstOf, t } from "./words.mjs";

let known = {};

export async function loadFields() {
  try {
    known = await json("/fields.json");
    await large.set("fields", known);
  } catch { known = await large.get("fields") ?? known; }
}

// Of what was typed of the place, the part that a question takes.
export function placeFor(question, site) {
  return Object.fromEntries(Object.entries(site).filter(([name]) => known[question]?.[`/site/${name}`]));
}

// A field of a question. `more` may give label, hint, values, list (id of a datalist), kind, unit.
export function field(question, pointer, more = {}) {
  const last = pointer.split("/").pop();
  const short = question.split("-")[0];
  const told = { kind: "text", field: last, ...known[question]?.[pointer], ...more };
  const id = freshId(last);
  const label = more.label ?? firstOf(`label.${short}.${last}`, `label.${last}`) ?? last.replaceAll("_", " ");
  const hint = more.hint ?? firstOf(`hint.${short}.${last}`, `hint.${last}`);
  const described = [hint && `${id}-hint`, `${id}-error`].filter(Boolean).join(" ");
  const data = { "data-name": pointer, "data-kind": told.kind, "data-unit": told.unit };
  const rest = [hint && el("small", { id: `${id}-hint` }, hint), el("strong", { class: "error", id: `${id}-error` })];
  const said = [label, told.needed && el("span", { class: "needed" }, ` (${t("shell.needed")})`)];
  const made = control(told, { id, described });
  if (isGroup(told)) {
    return el("fieldset", { class: "field", ...data, "aria-describedby": described }, el("legend", {}, said), made, rest);
  }
  return el("div", { class: `field ${told.kind}`, ...data }, el("label", { for: id }, said), made, rest);
}

export function fields(question, pointers, more = {}) {
  return el("div", { class: "grid" }, pointers.map((pointer) => field(question, pointer, more[pointer])));
}

export function moreFields(question, pointers, more = {}) {
  return folded(t("shell.more_fields"), fields(question, pointers, more));
}

// A list of entries with fields of their own at its pointer; each part makes a field from the pointer of its entry.
export function entries(pointer, parts, { legend, add, first = 1 }) {
  const held = el("div", { class: "entries" });
  const place = el("div", { class: "many", "data-list": pointer }, el("h3", {}, legend),
    el("strong", { class: "error" }), held, button(add, () => { place.grow(); changed(); focusLast(); }, { class: "plain" }));
  const changed = () => place.dispatchEvent(new Event("input", { bubbles: true }));
  const focusLast = () => held.lastElementChild.querySelector("input, select")?.focus();

  place.grow = () => {
    const entry = el("fieldset", { class: "entry" }, el("legend", {}),
      el("div", { class: "grid" }, parts.map((part) => part(`${pointer}/{n}`))),
      button(t("shell.remove"), () => { entry.remove(); count(); changed(); }, { class: "plain" }));
    held.append(entry);
    count();
  };
  place.shrinkTo = (wanted) => {
    while (held.children.length > wanted) held.lastElementChild.remove();
    while (held.children.length < wanted) place.grow();
  };
  const count = () => [...held.children].forEach((entry, index) => {
    entry.querySelector("legend").textContent = `${legend} ${index + 1}`;
    for (const holder of entry.querySelectorAll("[data-name]")) holder.dataset.at = index;
  });
  place.first = first;
  place.shrinkTo(first);
  return place;
}

function holders(form) {
  return [...form.querySelectorAll("[data-name]")];
}

function pointerOf(holder) {
  return holder.dataset.name.replace("{n}", holder.dataset.at ?? "");
}

// Takes away entries in which nothing was typed, so that the places of a request are those on the page.
export function tidy(form) {
  for (const place of form.querySelectorAll("[data-list]")) {
    for (const entry of place.querySelectorAll(".entry")) {
      const empty = holders(entry).every((holder) => valueOf(holder) === undefined);
      if (empty && entry.parentElement.children.length > Math.max(place.first, 1)) entry.querySelector(":scope > button").click();
    }
  }
}

// The body of the request: only what was typed, at its pointers.
export function read(form) {
  const body = {};
  for (const holder of holders(form)) {
    const value = valueOf(holder);
    if (value !== undefined) put(body, pointerOf(holder), value);
  }
  return dense(body);
}

function put(body, pointer, value) {
  const path = pointer.slice(1).split("/");
  const last = path.pop();
  path.reduce((place, step, index) => (place[step] ??= /^\d+$/.test(path[index + 1] ?? last) ? [] : {}), body)[last] = value;
}

function dense(value) {
  if (Array.isArray(value)) return value.filter((one) => one !== undefined && one !== null).map(dense);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, dense(inner)]));
}

// All that was typed, by pointer, to be put back later.
export function typedOf(form) {
  const typed = holders(form).map((holder) => [pointerOf(holder), typedIn(holder)]);
  return Object.fromEntries(typed.filter(([, value]) => value.length));
}

export function putBack(form, typed = {}) {
  for (const place of form.querySelectorAll("[data-list]")) {
    const own = Object.keys(typed).filter((pointer) => pointer.startsWith(`${place.dataset.list}/`));
    const most = Math.max(-1, ...own.map((pointer) => Number(pointer.slice(place.dataset.list.length + 1).split("/")[0])));
    place.shrinkTo(Math.max(place.first, most + 1));
  }
  for (const holder of holders(form)) putInto(holder, typed[pointerOf(holder)]);
  countFolded(form);
}

// Says at each folded part how much was typed in it.
export function countFolded(form) {
  for (const folds of form.querySelectorAll("details")) {
    const filled = holders(folds).filter((holder) => valueOf(holder) !== undefined).length;
    folds.querySelector("summary").toggleAttribute("data-filled", filled > 0);
    folds.querySelector("summary").dataset.filled = filled ? t("shell.filled_in", { count: filled }) : "";
  }
}

export function clearErrors(...forms) {
  for (const form of forms) {
    for (const place of form.querySelectorAll(".error")) place.textContent = "";
    for (const one of form.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
  }
}

// Puts each error at its field in the first form that has it and goes to the first; gives back what found no field.
export function showErrors(problem, forms, renamed = {}) {
  const all = forms.flatMap((form) => [...holders(form), ...form.querySelectorAll("[data-list]")]);
  const astray = [];
  let first = null;
  for (const { pointer, detail } of problem.errors) {
    const place = placeOf(renamed[pointer] ?? pointer, all);
    if (!place) { astray.push(detail); continue; }
    const told = place.querySelector(".error");
    told.textContent = [told.textContent, detail].filter(Boolean).join(" ");
    const inputs = place.querySelectorAll("input, select, textarea");
    if (place.dataset.name) inputs.forEach((input) => input.setAttribute("aria-invalid", "true"));
    for (let around = place.parentElement; around; around = around.parentElement) if (around.open === false) around.open = true;
    first ??= inputs[0] ?? place.querySelector("button");
  }
  first?.focus();
  return astray.length || !first ? [problem.message, ...astray] : [];
}

function placeOf(pointer, all) {
  const own = (one) => (one.dataset.name ? pointerOf(one) : one.dataset.list);
  return all.find((one) => own(one) === pointer)
    ?? all.filter((one) => pointer.startsWith(`${own(one)}/`)).sort((one, other) => own(other).length - own(one).length)[0];
}
