// The values of the form for a label record: written into it from a record, and read out of it again.
// An input carries the JSON pointer of its value in data-name; in an entry of a list, {n} stands for its place.
"use strict";

const labelForm = document.getElementById("record");
const READ = {
  text: (text) => text,
  number: (text) => (Number.isNaN(Number(text)) ? text : Number(text)),
  whole: (text) => (Number.isNaN(Number(text)) ? text : Number(text)),
  flag: (text) => text === "true",
  words: (text) => text.split(",").map((word) => word.trim()).filter(Boolean),
};
let entriesMade = 0;

function entriesOf(group) {
  return [...group.querySelector(".entries").children];
}

function addEntry(group) {
  const entry = group.querySelector("template").content.firstElementChild.cloneNode(true);
  const own = `e${entriesMade += 1}`;
  for (const one of entry.querySelectorAll("[id], [for], [aria-describedby]")) {
    for (const name of ["id", "for", "aria-describedby"]) {
      if (one.hasAttribute(name)) one.setAttribute(name, one.getAttribute(name).replaceAll("{n}", own));
    }
  }
  group.querySelector(".entries").append(entry);
  countEntries(group);
  return entry;
}

function countEntries(group) {
  entriesOf(group).forEach((entry, place) => { entry.firstElementChild.textContent = `Entry ${place + 1}`; });
}

// Every input with the pointer that its value has now; an entry of a list has the place in which it stands.
function* inputs() {
  for (const input of labelForm.querySelectorAll("[data-kind]")) {
    const group = input.closest("[data-list]");
    const entry = input.closest(".entry");
    const place = entry ? entriesOf(group).indexOf(entry) : 0;
    yield [input, input.dataset.name.replace("{n}", place)];
  }
}

function valueOf(input) {
  if (input.dataset.kind === "checks") {
    const chosen = [...input.querySelectorAll("input:checked")].map((box) => box.value);
    return chosen.length ? chosen : undefined;
  }
  const text = input.value.trim();
  return text ? READ[input.dataset.kind](text) : undefined;
}

function readRecord() {
  const record = {};
  for (const group of labelForm.querySelectorAll("[data-list]")) {
    const entries = entriesOf(group);
    if (entries.length) put(record, group.dataset.list, entries.map(() => ({})));
  }
  for (const [input, pointer] of inputs()) {
    const value = valueOf(input);
    if (value !== undefined) put(record, pointer, value);
  }
  return record;
}

function put(record, pointer, value) {
  const steps = pointer.slice(1).split("/");
  const last = steps.pop();
  let place = record;
  for (const step of steps) place = place[step] ??= {};
  place[last] = value;
}

function under(record, pointer) {
  return pointer.slice(1).split("/").reduce((place, step) => place?.[step], record);
}

function fillRecord(record) {
  for (const group of labelForm.querySelectorAll("[data-list]")) {
    group.querySelector(".entries").replaceChildren();
    for (const _ of under(record, group.dataset.list) ?? []) addEntry(group);
  }
  for (const [input, pointer] of inputs()) show(input, under(record, pointer));
}

function show(input, value) {
  if (input.dataset.kind === "checks") {
    for (const box of input.querySelectorAll("input")) box.checked = (value ?? []).includes(box.value);
  } else {
    input.value = value === null || value === undefined ? "" : Array.isArray(value) ? value.join(", ") : String(value);
  }
}

labelForm.addEventListener("click", ({ target }) => {
  const group = target.closest("[data-list]");
  if (target.matches(".add")) addEntry(group).querySelector("input, select, textarea").focus();
  if (target.matches(".remove")) {
    target.closest(".entry").remove();
    countEntries(group);
    group.querySelector(".add").focus();
  }
});
