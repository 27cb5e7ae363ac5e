// One control for each kind of field. Each says its pointer (data-name) and its kind, and can tell and take what was
// typed as text or a list of texts, so that half-filled pages survive.
import { el, freshId } from "./dom.mjs";
import { choice, monthName, t } from "./words.mjs";
import { inSi, readMonthDay, readNumber } from "./units.mjs";
import { tokens } from "./tokens.mjs";

const FEW = 5;

export function control(told, { id, described }) {
  const make = MAKERS[told.kind] ?? typed;
  return make(told, { id, described });
}

// Whether the control is a group of buttons, which is named by a legend and not by a label.
export function isGroup({ kind, values = [] }) {
  return kind === "flag" || kind === "checks" || kind === "months" || (kind === "choice" && values.length <= FEW);
}

function typed(told, { id, described }) {
  const numeric = told.kind === "number" || told.kind === "whole";
  return el("input", { id, "aria-describedby": described, autocomplete: "off", list: told.list,
    type: told.kind === "date" ? "date" : "text", inputmode: numeric ? "decimal" : null,
    autocapitalize: "off", spellcheck: "false" });
}

function long(told, { id, described }) {
  return el("textarea", { id, "aria-describedby": described, rows: told.rows ?? 3 });
}

function measured(told, names) {
  const input = typed(told, names);
  const beside = el("output", { class: "si", for: names.id });
  const show = () => {
    const value = readNumber(input.value, told.unit);
    const si = input.value && typeof value === "number" ? inSi(value, told.unit) : null;
    beside.textContent = si ? `= ${si}` : "";
  };
  input.addEventListener("input", show);
  input.addEventListener("taken", show);
  return el("span", { class: "measured" }, input, told.unit && told.unit !== "count" &&
    el("span", { class: "unit" }, t(`unit.${told.unit}`).replace(/^unit\./, "")), beside);
}

function chosen(told, names) {
  if (told.values.length <= FEW) return buttons("radio", [["", t("shell.not_known")], ...shown(told)], names);
  return el("select", { id: names.id, "aria-describedby": names.described },
    el("option", { value: "" }, t("shell.not_known")), shown(told).map(([value, word]) => el("option", { value }, word)));
}

function shown(told) {
  return told.values.map((value) => (Array.isArray(value) ? value : [String(value), choice(value, told.field)]));
}

function flag(told, names) {
  return buttons("radio", [["", t("shell.not_known")], ["true", t("shell.yes")], ["false", t("shell.no")]], names);
}

function checks(told, names) {
  return buttons("checkbox", shown(told), names);
}

function months(told, names) {
  const all = Array.from({ length: 12 }, (_, index) => [String(index + 1), monthName(index + 1, "short")]);
  return buttons("checkbox", all, names);
}

function buttons(type, values, { id }) {
  const name = freshId("choice");
  return el("span", { class: "buttons", id }, values.map(([value, word]) => el("label", {},
    el("input", { type, name, value, checked: type === "radio" && value === "" }), el("span", {}, word))));
}

const MAKERS = { text: typed, date: typed, month_day: typed, number: measured, whole: measured, long, choice: chosen, flag,
  checks, months, words: tokens };

// What a control holds as it was typed: a text, or a list of texts.
export function typedIn(holder) {
  const boxes = [...holder.querySelectorAll("input[type=radio], input[type=checkbox]")];
  if (boxes.length) {
    const on = boxes.filter((box) => box.checked).map((box) => box.value);
    return boxes[0].type === "radio" ? on[0] ?? "" : on;
  }
  if (holder.dataset.kind === "words") return holder.querySelector(".tokens").held();
  return holder.querySelector("input, select, textarea").value.trim();
}

export function putInto(holder, value) {
  const boxes = [...holder.querySelectorAll("input[type=radio], input[type=checkbox]")];
  if (boxes.length) {
    const wanted = [value ?? ""].flat().map(String);
    for (const box of boxes) box.checked = wanted.includes(box.value);
  } else if (holder.dataset.kind === "words") {
    holder.querySelector(".tokens").hold(value ?? []);
  } else {
    const input = holder.querySelector("input, select, textarea");
    input.value = value ?? "";
    input.dispatchEvent(new Event("taken"));
  }
}

const READ = {
  number: (text, unit) => readNumber(text, unit),
  whole: (text, unit) => readNumber(text, unit),
  flag: (text) => text === "true",
  month_day: readMonthDay,
  months: (texts) => texts.map(Number),
  numbers: (text) => text.split(",").map((one) => readNumber(one)),
};

// The value that a control sends; undefined where nothing was typed, which the service takes as unknown.
export function valueOf(holder) {
  const typedText = typedIn(holder);
  if (typedText === "" || (Array.isArray(typedText) && !typedText.length)) return undefined;
  return READ[holder.dataset.kind]?.(typedText, holder.dataset.unit) ?? typedText;
}
