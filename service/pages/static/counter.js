// Sends the form to /v1/variety-suggestions and shows the answer. Each input's name is the JSON pointer of its value.
"use strict";

const form = document.getElementById("question");
const answerPlace = document.getElementById("answer");
const general = document.getElementById("general");
const state = document.getElementById("state");

const READ = {
  text: (text) => text,
  number: (text) => (Number.isNaN(Number(text)) ? text : Number(text)),
  whole: (text) => (Number.isNaN(Number(text)) ? text : Number(text)),
  flag: (text) => text === "true",
  list: (text) => text.split(",").map((word) => word.trim()).filter(Boolean),
  wholes: (text) => READ.list(text).map(READ.number),
};

function question() {
  const asked = {};
  for (const input of form.querySelectorAll("[data-kind]")) {
    const text = input.value.trim();
    if (!text) continue;
    const steps = input.name.slice(1).split("/");
    const last = steps.pop();
    let place = asked;
    for (const step of steps) place = place[step] ??= {};
    place[last] = READ[input.dataset.kind](text);
  }
  return asked;
}

function clearErrors() {
  general.textContent = "";
  for (const place of form.querySelectorAll(".error")) place.textContent = "";
  for (const input of form.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
}

function showProblem(problem) {
  const astray = [];
  let first = null;
  for (const { pointer, detail } of problem.errors ?? []) {
    const input = [...form.querySelectorAll("[data-kind]")].find(
      (one) => pointer === one.name || pointer.startsWith(one.name + "/"));
    if (!input) { astray.push(detail); continue; }
    input.setAttribute("aria-invalid", "true");
    const place = document.getElementById(input.id + "-error");
    place.textContent = [place.textContent, detail].filter(Boolean).join(" ");
    first ??= input;
  }
  general.textContent = astray.length || !first ? [problem.detail, ...astray].join(" ") : "";
  first?.focus();
}

function make(tag, text, ...children) {
  const made = document.createElement(tag);
  if (text) made.textContent = text;
  made.append(...children.filter(Boolean));
  return made;
}

function list(items, show) {
  return make("ul", "", ...items.map((item) => make("li", "", ...[show(item)].flat())));
}

function folded(summary, ...children) {
  return make("details", "", make("summary", summary), ...children);
}

function span(range, unit) {
  if (!range || (range.low === null && range.high === null)) return null;
  const ends = [range.low, range.high].filter((end) => end !== null);
  return `${[...new Set(ends)].join("–")} ${unit}`;
}

function partners({ partners_needed: needed, partners: some }) {
  if (!needed) return null;
  const names = some.map((partner) => partner.name).join(", ");
  return (needed === 1 ? "needs a partner" : `needs ${needed} partners`) + (names && `, such as ${names}`);
}

function facts(one) {
  return [
    one.rootstock && `on ${[one.rootstock, ...one.other_rootstocks].map((root) => root.name).join(" or ")}`,
    span(one.mature_height_ft, one.rootstock ? `ft high on ${one.rootstock.name}` : "ft high"),
    one.spacing_ft !== null && one.spacing_ft !== undefined && `${one.spacing_ft} ft apart`,
    one.harvest && `picked ${one.harvest.from} to ${one.harvest.to}`,
    partners(one.pollination),
  ].filter(Boolean).join(" · ");
}

function reasonsFor(one, conclusions) {
  const whole = new Map(conclusions.filter((c) => c.about === one.cultivar).map((c) => [c.rule, c]));
  return list(one.reasons, (reason) => {
    const more = whole.get(reason.rule);
    if (!more) return make("span", reason.text);
    const said = more.sources.map((s) => s.title + (s.from_memory ? " (recalled, not seen)" : "")).join("; ");
    return [make("span", reason.text), folded("why", make("p", more.why), make("p", said || more.basis || ""))];
  });
}

function suggestion(one, conclusions) {
  const title = make("h3", `${one.name}, ${one.crop_name}`);
  const fit = make("p", one.fits ? `Fit ${one.fit} of 100` : "Does not fit this place");
  const first = one.reasons.length ? make("p", one.reasons[0].text) : null;
  return make("article", "", title, fit, make("p", facts(one)), first,
    folded("All reasons, with why", reasonsFor(one, conclusions)));
}

function plantingSet(set) {
  if (!set) return null;
  const line = (plan) => plan.trees.map((tree) => `${tree.name} (${tree.crop_name})`).join(", ");
  return make("section", "", make("h2", "What to plant together"), make("p", line(set.best)),
    set.second && folded("The second best set", make("p", line(set.second))));
}

function show({ answer, conclusions, cautions, not_judged }) {
  const about = (one) => suggestion(one, conclusions);
  answerPlace.replaceChildren(...[
    cautions.length ? make("section", "", make("h2", "Take care"), list(cautions, (c) => make("span", c.text))) : null,
    plantingSet(answer.planting_set),
    make("h2", answer.suggestions.length ? "These suit the place" : "Nothing in the catalogue suits this place"),
    ...answer.considered.map(about),
    ...answer.suggestions.map(about),
    not_judged.length ? folded(`Not judged, because it is not known (${not_judged.length})`,
      list(not_judged, (fact) => make("span", fact.needs ? `${fact.meaning}: ${fact.needs}` : fact.meaning))) : null,
    answer.set_aside.length ? folded(`Set aside (${answer.set_aside.length + answer.set_aside_more})`,
      list(answer.set_aside, (one) => make("span", `${one.name}, ${one.crop_name}: ` +
        one.reasons.map((reason) => reason.text).join(" ")))) : null,
  ].filter(Boolean));
  answerPlace.hidden = false;
  answerPlace.focus();
}

async function ask() {
  const response = await fetch("/v1/variety-suggestions", {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(question()),
  });
  const told = await response.json();
  if (response.ok) show(told);
  else { answerPlace.hidden = true; showProblem(told); }
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  clearErrors();
  state.textContent = "Asking …";
  try {
    await ask();
  } catch {
    general.textContent = "The service cannot be reached. What you typed is still here; try again in a moment.";
  }
  state.textContent = "";
});
