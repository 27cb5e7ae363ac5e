// Something is wrong: which tree, where it shows, what it is like; then a few questions with drawings, and what it most
// likely is. What may be put on it is not told here: that is talked about at the counter, with the label at hand.
import { json, reference, send } from "../lib/ask.mjs";
import { button, el, fill, foreign, list } from "../lib/dom.mjs";
import { language, t } from "../lib/words.mjs";
import { card, cautions, line } from "./answer.mjs";
import { where } from "./pictures.mjs";
import { crops, inOurs, siteOfTrouble, today } from "./store.mjs";
import { askCounter } from "./ticket.mjs";
import { tiles } from "./tiles.mjs";

const MOST_QUESTIONS = 7;
const PLACES = ["growth_and_leaves", "fruit_damage", "trunk", "cropping", "structure"];
const SURE = ["likely", "very_likely"];

export function whichSickTree() {
  return async (visit) => ({ title: t("kiosk.which_tree"), parts: tiles(await crops(), (crop) => visit.go(whereItShows(crop))) });
}

async function complaintsOf(crop) {
  const { value } = await reference(`/v1/complaints?${new URLSearchParams({ crop, limit: 200 })}`);
  return value.items;
}

function whereItShows(crop) {
  return async (visit) => {
    const heard = new Set((await complaintsOf(crop)).map(({ group }) => group));
    const options = PLACES.filter((group) => heard.has(group)).map((group) => ({ value: group, picture: where(group), word: t(`kiosk.where_${group}`) }));
    const elsewhere = { value: null, word: t("kiosk.something_else") };
    return { title: t("kiosk.where"), parts: tiles([...options, elsewhere], (group) => visit.go(group ? whatItIs(crop, group) : dialogue({ crop }))) };
  };
}

function whatItIs(crop, group) {
  return async (visit) => {
    const heard = (await complaintsOf(crop)).filter((one) => one.group === group);
    const options = heard.map((one) => ({ value: one.id, word: inOurs(one), picture: drawing(one.shows[0] ?? one.signs[0]) }));
    const other = { value: null, word: t("kiosk.none_of_these") };
    const choose = (complaint) => visit.go(dialogue(complaint ? { crop, complaint } : { crop }));
    return { title: t("kiosk.what_like"), parts: tiles([...options, other], choose) };
  };
}

// The drawing of a sign, which comes after the words that it stands beside; without a connection the words stand alone.
function drawing(sign) {
  const place = el("span", { class: "drawn", "aria-hidden": "true" });
  if (sign) {
    send(`/v1/signs/${sign}/drawing`, { accept: "image/svg+xml" }).then((told) => told.text())
      .then((text) => fill(place, untitled(foreign(text))), () => {});
  }
  return place;
}

// The words beside it say what it shows, in the words of the question.
function untitled(svg) {
  svg.querySelector("title")?.remove();
  svg.removeAttribute("role");
  return svg;
}

async function questionOf({ crop, complaint, present = [], absent = [], cannot_tell: skipped = [] }) {
  const signs = Object.entries({ present, absent, cannot_tell: skipped }).filter(([, given]) => given.length);
  return { crop, date: today(), site: await siteOfTrouble(), ...(complaint ? { complaint } : {}),
    ...(signs.length ? { signs: Object.fromEntries(signs) } : {}) };
}

const seen = ({ present = [], absent = [], cannot_tell: skipped = [] }) => [...present, ...absent, ...skipped];

// One question at a time until one cause stands out; `told.enough` ends it at once.
function dialogue(told) {
  return async (visit) => {
    const asked = await questionOf(told);
    const heard = await json("/v1/diagnoses", { method: "POST", body: { ...asked, language: language() } });
    const { answer } = heard;
    const confirm = (answer.complaint?.confirm ?? []).filter(({ sign }) => !seen(told).includes(sign));
    const ask = [...confirm, ...answer.ask_next].find(({ needs }) => needs === null);
    const ends = told.enough || !ask || SURE.includes(answer.certainty) || seen(told).length >= MOST_QUESTIONS;
    return ends ? result(visit, asked, heard) : signScreen(visit, ask, told);
  };
}

function signScreen(visit, { sign, question }, told) {
  const says = (how) => () => visit.go(dialogue({ ...told, [how]: [...(told[how] ?? []), sign] }));
  const big = drawing(sign);
  big.classList.add("big");
  return {
    title: question,
    parts: [big, el("p", { class: "yes-no" }, button(t("kiosk.yes"), says("present"), { class: "next" }), button(t("kiosk.no"), says("absent"), { class: "next" }),
      button(t("kiosk.cannot_tell"), says("cannot_tell"), { class: "plain" })),
    el("p", {}, button(t("kiosk.enough"), () => visit.go(dialogue({ ...told, enough: true })), { class: "plain" }))],
  };
}

function result(visit, asked, { answer, cautions: told }) {
  const [first] = answer.suspects;
  const sure = first && SURE.includes(answer.certainty);
  const pointer = sure && answer.treat !== "no" ? [["treatment-pointers", { crop: asked.crop, disorder: first.disorder, date: asked.date }]] : [];
  return {
    title: [t(`kiosk.is_${answer.certainty ?? "not_enough"}`), sure && first.name].filter(Boolean).join(": "),
    parts: [sure ? suspect(first) : card("unknown", t("kiosk.could_be"), list(answer.suspects.slice(0, 3), ({ name }) => name)),
      el("p", {}, answer.text), ruledOut(answer), sample(answer), cautions(told.map(({ text }) => text)),
      askCounter(visit, "trouble", [["diagnoses", asked], ...pointer], t("kiosk.what_helps"))],
  };
}

function suspect({ measures }) {
  return measures.length ? card("do", t("kiosk.you_can"), list(measures, ({ text }) => text)) : null;
}

// What people often take it for, where that is ruled out by the kind of tree.
function ruledOut({ ruled_out: out }) {
  return out.filter((one) => one.not_a_host && one.often_confused).slice(0, 1).map((one) => line("stop", one.why));
}

function sample({ sample: wanted, refer }) {
  if (refer.move_material === "never") return card("stop", t("kiosk.leave_there"), refer.to ? el("p", {}, t(`kiosk.refer_${refer.to}`)) : null);
  return [wanted?.bring ? card("note", t("kiosk.bring"), el("p", {}, el("strong", {}, wanted.bring)), el("p", {}, wanted.how)) : null,
    refer.to ? line("note", t(`kiosk.refer_${refer.to}`)) : null];
}
