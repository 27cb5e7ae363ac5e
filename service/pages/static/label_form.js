// Loads a product of the shelf into the form, and saves it: a new product by POST, a change by PUT on what was read.
// What was typed stays where a record is refused, and each fault stands at its field.
"use strict";

const general = document.getElementById("general");
const state = document.getElementById("state");
const outcome = document.getElementById("outcome");
const versions = document.getElementById("version");
const AWAY = "The service cannot be reached. What you typed is still here; try again in a moment.";
let readVersion = null;

function address(noun, ...more) {
  return ["/v1", noun, encodeURIComponent(labelForm.dataset.product), ...more].join("/");
}

async function load(version) {
  const response = await fetch(version ? address("label-versions", version) : address("shelf-products"));
  const told = await response.json();
  if (!response.ok) { general.textContent = told.detail; return; }
  readVersion = told.versions;
  fillRecord(told.label);
  document.getElementById("id").readOnly = true;
  await listVersions(told.version);
  tell(told, version && version !== told.versions ? `This is version ${told.version} of ${told.versions}; saved, it becomes the newest.` : "");
}

async function listVersions(shown) {
  const { items } = await (await fetch(address("label-versions"))).json();
  versions.replaceChildren(...items.map(({ version, entered_at: at }) =>
    new Option(`${version}, entered ${at.replace("T", " ")}`, version, false, version === shown)));
  document.getElementById("versions").hidden = items.length < 2;
}

function make(tag, text, ...children) {
  const made = document.createElement(tag);
  made.textContent = text;
  made.append(...children);
  return made;
}

function tell({ findings, notes = [] }, first) {
  const seen = findings.map(({ kind, field, says }) => make("li", `${field} (${kind.replace("_", " ")}): ${says}`));
  const parts = [];
  if (first) parts.push(make("p", first));
  if (notes.length) parts.push(make("h2", "Not kept"), make("ul", "", ...notes.map((one) => make("li", `${one.pointer}: ${one.detail}`))));
  if (seen.length) parts.push(make("h2", `To see to (${seen.length})`), make("ul", "", ...seen));
  outcome.replaceChildren(...parts);
  outcome.hidden = !parts.length;
}

function clearErrors() {
  general.textContent = "";
  for (const place of labelForm.querySelectorAll(".error")) place.textContent = "";
  for (const input of labelForm.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
}

function placeOf(pointer, known) {
  return known.find(([, own]) => pointer === own || pointer.startsWith(`${own}/`))?.[0]
    ?? [...labelForm.querySelectorAll("[data-list]")].find((group) => pointer.startsWith(group.dataset.list));
}

function showProblem(problem) {
  const known = [...inputs()];
  const astray = [];
  let first = null;
  for (const { pointer, detail } of problem.errors ?? []) {
    const input = placeOf(pointer, known);
    if (!input) { astray.push(detail); continue; }
    input.setAttribute("aria-invalid", "true");
    const place = document.getElementById(`${input.id}-error`);
    place.textContent = [place.textContent, detail].filter(Boolean).join(" ");
    first ??= input;
  }
  general.textContent = astray.length || !first ? [problem.detail, ...astray].join(" ") : "";
  (first?.matches("fieldset") ? first.querySelector("input, button") : first)?.focus();
}

async function save() {
  const known = labelForm.dataset.product;
  const response = await fetch(known ? `${address("shelf-products")}?based_on=${readVersion}` : "/v1/shelf-products", {
    method: known ? "PUT" : "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(readRecord()),
  });
  const told = await response.json();
  if (!response.ok) { outcome.hidden = true; showProblem(told); return; }
  labelForm.dataset.product = told.id;
  readVersion = told.versions;
  document.getElementById("id").value = told.id;
  document.getElementById("id").readOnly = true;
  history.replaceState(null, "", `/shelf/products/${encodeURIComponent(told.id)}`);
  await listVersions(told.version);
  tell(told, `Saved as version ${told.version}.`);
  outcome.focus();
}

async function doing(what, act) {
  clearErrors();
  state.textContent = what;
  try { await act(); } catch { general.textContent = AWAY; }
  state.textContent = "";
}

labelForm.addEventListener("submit", (event) => {
  event.preventDefault();
  doing("Saving …", save);
});
versions.addEventListener("change", () => doing("Reading …", () => load(Number(versions.value))));
if (labelForm.dataset.product) doing("Reading …", () => load(null));
