// Look over my list: pasted text or a file, read back line by line, judged as a whole, with the cheapest way to mend it.
import { behind, frame, lines, reasons } from "../lib/advice.mjs";
import { Away, Problem, json, question, questionWith, send } from "../lib/ask.mjs";
import { button, el, fill, folded, list } from "../lib/dom.mjs";
import { field, fields as fieldsOf, placeFor } from "../lib/forms.mjs";
import { harvestChart } from "../lib/harvest_chart.mjs";
import { mark, verdict } from "../lib/marks.mjs";
import { language, number, t } from "../lib/words.mjs";
import { KIND, lineCard } from "./list_lines.mjs";
import { plantingSketch } from "./planting_sketch.mjs";

export const id = "list";
export const title = "task.list";
export const renamed = { "/question": "/file" };
const Q = "planting-lists";
const PATH = `/v1/${Q}`;
const WHOLE = { passes: "do", passes_with_care: "care", does_not_pass: "stop" };
const PHOTO = /^(image|video)\/|\.(jpe?g|png|heic|heif|webp|gif|tiff?|bmp|mov|mp4)$/i;
const AGAIN_MS = 1500;
const DOWNLOADS = [["xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "list.xlsx"],
  ["pdf", "application/pdf", "list.pdf"], ["mail", "message/rfc822", "list.eml"], ["plain", "text/plain", "list.txt"]];

let chosen = null;

export function fields() {
  const file = el("input", { type: "file", id: "list-file", "aria-describedby": "list-file-hint list-file-error",
    accept: ".csv,.tsv,.txt,.xlsx,.ods,.eml", on: { change: () => { chosen = file.files[0] ?? null; } } });
  chosen = null;
  const place = el("div", { class: "field", "data-list": "/file" }, el("label", { for: "list-file" }, t("list.file")), file,
    el("small", { id: "list-file-hint" }, t("list.file_hint")), el("strong", { class: "error", id: "list-file-error" }));
  Object.assign(place, { first: 0, shrinkTo: () => {} }); // what the form asks of a place for several values
  return [field(Q, "/text", { kind: "long", rows: 7, hint: t("list.text_hint") }), place,
    field(Q, "/state"), folded(t("shell.more_fields"), fieldsOf(Q, ["/wishes/harvest_months", "/wishes/max_trees"]))];
}

export async function ask(site, form) {
  const terms = { language: language(), ...form, site: placeFor(Q, site) };
  if (!chosen) return question(PATH, terms, { task: id });
  if (PHOTO.test(chosen.type) || PHOTO.test(chosen.name)) throw refused("/file", t("list.no_photo"));
  if (terms.text) throw refused("/file", t("list.one_of_both"));
  const body = new FormData();
  body.set("file", chosen);
  body.set("question", JSON.stringify(terms));
  const told = await questionWith(body, PATH, terms, { task: id });
  if (told.answer) told.asked = { ...terms, rows: told.answer.lines.map(asRow) };
  return questionKept(told);
}

// What is asked again for a download or a hand-out: the rows as they were written, without notes.
function asRow(one) {
  const row = { variety: one.read_as.map(({ written }) => written).join(" / ") || one.written, quantity: one.quantity,
    rootstock: one.rootstock?.written, size: one.size?.written, price: one.price?.written };
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null && value !== undefined));
}

async function questionKept(told) {
  const { large } = await import("../lib/store.mjs");
  await large.set(`answer.${id}`, told);
  return told;
}

function refused(pointer, detail) {
  return new Problem(422, { detail, errors: [{ pointer, detail }] });
}

export function show(told, place, context) {
  if (!told.answer) { follow(told, place); return; }
  const { answer, conclusions } = told;
  const mend = told.asked.text ? (line, written, name) =>
    context.change({ "/text": told.asked.text.replace(line.written, line.written.replace(written, name)) }) : null;
  const urgent = answer.list_findings.filter(({ outcome }) => outcome !== "say");
  frame(place, told, {
    first: [headline(answer), lines(urgent), repair(answer.repair), counts(answer.totals)],
    why: false,
    more: [answer.sketch ? plantingSketch(answer.sketch) : el("p", {}, mark("unknown"), t("list.no_sketch")), harvest(answer),
      el("h2", {}, t("list.lines")), el("div", { class: "cards" }, sorted(answer.lines).map((one) => lineCard(one, told, mend))),
      order(answer), howRead(answer.read), downloads(told), reasons(behind(answer.list_findings, conclusions)),
      el("p", {}, button(t("remedy.take_home"), () => context.go("handout"), { class: "plain" }))],
  });
}

function headline(answer) {
  const line = verdict(WHOLE[answer.verdict], t(`list.${answer.verdict}`));
  line.classList.add("big");
  return el("h2", {}, [...line.childNodes]);
}

function sorted(all) {
  const rank = ["not_recognised", "does_not_fit", "caution", "fits"];
  return [...all].sort((one, other) => rank.indexOf(one.verdict) - rank.indexOf(other.verdict) || one.line - other.line);
}

function counts({ lines_by_verdict: by, trees, prices }) {
  return el("p", { class: "send" }, Object.entries(by).filter(([, count]) => count).map(([name, count]) =>
    el("span", {}, mark(KIND[name]), `${number(count, 0)} ${t(`list.line_${name}`)}`)), el("span", {}, t("list.trees", { count: trees })),
    prices.map(({ currency, amount }) => el("span", {}, `${number(amount, 2)} ${currency === "not_said" ? "" : currency}`)));
}

function repair(told) {
  if (!told) return null;
  if (!told.found) return el("p", {}, mark("stop"), t(`list.repair_${told.reason}`));
  const names = (one) => one.cultivars.map(({ name }) => name).join(" / ");
  const change = (one) => t(`list.change_${one.change}`, { line: one.line, name: names(one), root: one.rootstock?.name ?? "" });
  const added = told.added.map((one) => t("list.add", { name: `${one.name}, ${one.crop_name}`, root: one.rootstock?.name ?? "" }));
  const changes = [...told.lines.filter((one) => one.change !== "keep").map(change), ...added];
  return el("section", { class: "tag do" }, el("h3", {}, mark("do"), t("list.repair")), list(changes, (words) => words),
    told.sketch && folded(t("list.sketch_after"), plantingSketch(told.sketch, t("list.sketch_after"))));
}

function harvest({ harvest: told, lines: all }) {
  if (!told) return null;
  const crop = (line) => all.find((one) => one.line === line)?.judged[0]?.crop_name ?? "";
  return harvestChart(told.times.map((one) => ({ name: `${one.line}. ${one.name}`, crop_name: crop(one.line), harvest: one })));
}

function order({ planting_order: turns }) {
  return turns.length ? folded(t("list.order"), el("ol", { class: "steps" }, turns.map((one) =>
    el("li", {}, `${one.names.join(" / ")}${one.season ? ` · ${t(`list.season_${one.season}`)}` : ""}`)))) : null;
}

function howRead({ skipped, limits_hit: limits }) {
  if (!skipped.length && !limits.length) return null;
  return folded([mark("note"), t("list.skipped", { count: skipped.length })], list(limits, (text) => text), list(skipped, ({ written }) => written));
}

function downloads(told) {
  const state = el("span", { role: "status" });
  const save = async (accept, name) => {
    state.textContent = t("shell.asking");
    try {
      const file = await (await send(PATH, { method: "POST", body: { ...told.asked, keep: false }, accept })).blob();
      const address = URL.createObjectURL(file);
      el("a", { href: address, download: name }).click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
      state.textContent = "";
    } catch (fault) { state.textContent = fault instanceof Away ? t("news.away") : t("list.no_download"); }
  };
  return el("p", { class: "send" }, DOWNLOADS.map(([words, accept, name]) => button(t(`list.get_${words}`), () => save(accept, name), { class: "plain" })), state);
}

// A long list is kept and checked in its own time; the page says how far it is.
async function follow(told, place) {
  const line = el("p", { role: "status" });
  fill(place, el("h2", {}, mark("wait"), t("list.long")), line);
  let now = told;
  while (place.contains(line)) {
    line.textContent = t("list.progress", { done: number(now.lines_done, 0), all: now.lines_expected ? number(now.lines_expected, 0) : "?" });
    if (now.ended_at) break;
    await new Promise((go) => setTimeout(go, AGAIN_MS));
    now = await json(`${PATH}/${told.id}`).catch(() => now);
  }
  if (!now.ended_at || !place.contains(line)) return;
  const counted = Object.entries(now.lines_by_verdict).map(([name, count]) => [name, count]).filter(([, count]) => count);
  fill(place, verdict(WHOLE[now.verdict] ?? "stop", now.verdict ? t(`list.${now.verdict}`) : now.errors.map(({ detail }) => detail).join(" ")),
    el("ul", { class: "lines" }, counted.map(([name, count]) => el("li", {}, mark(KIND[name]), `${number(count, 0)} ${t(`list.line_${name}`)}`))));
}
