// Shows the shelf, takes products off it, and takes a file: first what it would change, then all of it or nothing.
"use strict";

const table = document.getElementById("products");
const general = document.getElementById("general");
const fileInput = document.getElementById("file");
const fileError = document.getElementById("file-error");
const state = document.getElementById("state");
const outcome = document.getElementById("outcome");
const AWAY = "The service cannot be reached; try again in a moment.";
const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

function make(tag, text, ...children) {
  const made = document.createElement(tag);
  made.textContent = text;
  made.append(...children);
  return made;
}

async function wholeShelf() {
  const products = [];
  let cursor = "";
  do {
    const response = await fetch(`/v1/shelf-products?limit=200${cursor && `&cursor=${cursor}`}`);
    const told = await response.json();
    if (!response.ok) throw new Error(told.detail);
    products.push(...told.items);
    cursor = told.next_cursor;
  } while (cursor);
  return products;
}

function row({ id, version, label, findings }) {
  const link = make("a", label.product_name ?? id);
  link.href = `/shelf/products/${encodeURIComponent(id)}`;
  const off = make("button", `Take off ${id}`);
  off.type = "button";
  off.addEventListener("click", () => takeOff(id, label.product_name ?? id));
  const actives = label.active_ingredients.map((one) => one.iso_name).join(", ");
  const cells = [id, link, label.epa_reg_no ?? "", actives, version, findings.length || "", off];
  return make("tr", "", ...cells.map((cell) => make("td", "", cell)));
}

async function showShelf() {
  table.replaceChildren(...(await wholeShelf()).map(row));
}

async function takeOff(id, name) {
  if (!window.confirm(`Take ${name} off the shelf? Its versions are kept.`)) return;
  await fetch(`/v1/shelf-products/${encodeURIComponent(id)}`, { method: "DELETE" });
  await showShelf();
}

function shown(value) {
  return value === null ? "nothing" : Array.isArray(value) ? value.join(", ") : String(value);
}

function product({ id, product_name: name, does, version, changes, findings }) {
  const lines = changes.map((one) => make("li", `${one.field}: ${shown(one.before)} → ${shown(one.after)}`));
  const more = findings.length ? `, ${findings.length} to see to` : "";
  return make("li", `${id}, ${name ?? "no name"}: ${does}, version ${version}${more}`, make("ul", "", ...lines));
}

function showOutcome(told) {
  const title = told.dry_run ? "This would change; nothing has been changed yet" : "Done";
  const moving = told.products.filter((one) => one.does !== "unchanged");
  outcome.replaceChildren(make("h2", title),
    make("p", `${told.new} new, ${told.changed} changed, ${told.unchanged} as they were.`),
    make("ul", "", ...moving.map(product)));
  outcome.hidden = false;
  outcome.focus();
}

function showFaults({ detail, errors = [] }) {
  fileError.textContent = errors.length ? errors.length === 1 ? "One fault; nothing was taken." : `${errors.length} faults; nothing was taken.` : detail;
  outcome.replaceChildren(make("h2", "Faults in the file"), make("ul", "", ...errors.map((one) => make("li", one.detail))));
  outcome.hidden = !errors.length;
  fileInput.setAttribute("aria-invalid", "true");
}

async function send(dryRun) {
  const file = fileInput.files[0];
  if (!file) { fileError.textContent = "Choose a file first."; fileInput.focus(); return; }
  const response = await fetch(`/v1/shelf-imports?dry_run=${dryRun}`, {
    method: "POST",
    headers: { "Content-Type": file.name.toLowerCase().endsWith(".xlsx") ? XLSX : "text/csv" },
    body: file,
  });
  const told = await response.json();
  if (!response.ok) { showFaults(told); return; }
  showOutcome(told);
  if (!told.dry_run) await showShelf();
}

document.getElementById("import").addEventListener("submit", async (event) => {
  event.preventDefault();
  fileError.textContent = "";
  fileInput.removeAttribute("aria-invalid");
  state.textContent = "Reading …";
  try { await send(event.submitter?.value ?? "true"); } catch { fileError.textContent = AWAY; }
  state.textContent = "";
});
showShelf().catch(() => { general.textContent = AWAY; });
