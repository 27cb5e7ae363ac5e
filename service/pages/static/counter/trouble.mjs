// Something is wrong with the tree: a short dialogue. What they say is offered back for agreement, drawings are pointed
// at, and each answer asks again, until one cause stands out or a sample must settle it.
import { behind, frame, reasons } from "../lib/advice.mjs";
import { question } from "../lib/ask.mjs";
import { button, el, folded } from "../lib/dom.mjs";
import { field, moreFields, placeFor } from "../lib/forms.mjs";
import { inOurs, whateverIsKnown } from "../lib/known.mjs";
import { mark, verdict } from "../lib/marks.mjs";
import { chosenCrop, cropField, cultivarField } from "../lib/names.mjs";
import { number, t } from "../lib/words.mjs";
import { evidenceFields, isAnswered, pointing, signQuestion } from "./evidence.mjs";
import { ruledOut, sampleAndRefer, suspectCard, tellApart } from "./suspects.mjs";

export const id = "trouble";
export const title = "task.trouble";
const Q = "diagnoses";
const KIND = { very_likely: "do", likely: "do", possible: "unknown", not_enough: "unknown" };
const TREE = ["/age_years", "/size", "/vigour", "/last_crop", "/bearing"];
const CARE = ["watering", "feeding", "pruning", "weedkiller", "sprayed", "grass_to_trunk", "dormant_spray", "overhead_water",
  "thinned"].map((name) => `/care/${name}`);
const WEATHER = ["wet_spring", "hail", "drought", "waterlogged", "rain_near_harvest", "high_wind", "high_f", "winter_low_f"]
  .map((name) => `/weather/${name}`);
const BLOOM = ["frost", "low_f", "amount", "bees", "cold_or_wet"].map((name) => `/bloom/${name}`);
const FIRST_SUSPECTS = 3;

const complaints = await whateverIsKnown("/v1/complaints");

export function fields(context) {
  const values = complaints.map((one) => [one.id, inOurs(one)]).sort(([, one], [, other]) => one.localeCompare(other));
  return [cropField(Q), cultivarField(Q, "/cultivar", { crop: chosenCrop }), field(Q, "/words"),
    evidenceFields(context), pointing(context), field(Q, "/stage"), field(Q, "/complaint", { kind: "choice", values }),
    moreFields(Q, [...TREE, "/date", ...CARE]), folded(t("trouble.weather"), el("div", { class: "grid" },
      [...WEATHER, ...BLOOM].map((pointer) => field(Q, pointer))))];
}

export function ask(site, form) {
  return question(`/v1/${Q}`, { ...form, site: placeFor(Q, site) }, { task: id });
}

export function show(told, place, context) {
  const { answer } = told;
  const [first, ...others] = answer.ask_next;
  frame(place, told, {
    first: [headline(answer), reading(answer.reading, context), confirming(answer.complaint, context), sampleAndRefer(answer),
      first && el("section", {}, el("h2", {}, t("trouble.look")), signQuestion(first, context, { big: true }),
        others.length > 0 && folded(t("trouble.look_more", { count: others.length }), others.map((one) => signQuestion(one, context))))],
    why: false,
    more: [suspects(answer, told, context), tellApart(answer.tell_apart, context), ruledOut(answer, told),
      reasons(behind(answer.reasons, told.conclusions))],
  });
}

function headline({ certainty, text, suspects: found }) {
  const known = certainty && certainty !== "not_enough" && found.length;
  const line = verdict(KIND[certainty] ?? "unknown", known ? `${t(`trouble.is_${certainty}`)}: ${found[0].name}` : t("trouble.is_not_enough"));
  line.classList.add("big");
  return [el("h2", {}, [...line.childNodes]), el("p", {}, text)];
}

// What the words may mean. Nothing of it counts before the customer agrees.
function reading(read, context) {
  if (!read) return null;
  const agree = (complaint) => () => context.change({ "/complaint": complaint, "/words": "" });
  return el("section", { class: "tag note" }, el("h2", {}, mark("unknown"), t("trouble.meant")), el("p", {}, `“${read.words}”`),
    read.complaints.length > 0 && el("p", { class: "send" }, read.complaints.map((one) => button(one.name, agree(one.complaint)))),
    read.signs.map((one) => signQuestion(one, context)),
    !read.complaints.length && !read.signs.length && el("p", {}, t("trouble.not_understood")),
    el("p", {}, button(t("trouble.no_more_words"), () => context.change({ "/words": "" }), { class: "plain" })));
}

function confirming(complaint, context) {
  const open = complaint?.confirm.filter(({ sign }) => !isAnswered(sign, context)) ?? [];
  return open.length ? el("section", {}, el("h2", {}, t("trouble.confirm", { name: complaint.name })),
    open.map((one) => signQuestion(one, context))) : null;
}

function suspects(answer, told, context) {
  const cards = answer.suspects.map((one) => suspectCard(one, told, context));
  if (!cards.length) return null;
  const rest = cards.slice(FIRST_SUSPECTS);
  return el("section", {}, el("h2", {}, t("trouble.suspects")), cards.slice(0, FIRST_SUSPECTS),
    rest.length > 0 && folded(t("trouble.more_suspects", { count: rest.length }), rest),
    answer.something_else >= 0.01 && el("p", { class: "known" },
      t("trouble.something_else", { percent: number(answer.something_else * 100, 0) })));
}
