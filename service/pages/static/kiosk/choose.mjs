// Choose a tree: which fruit, how much room, how much sun; then the three that suit a garden near this store best.
import { json } from "../lib/ask.mjs";
import { list } from "../lib/dom.mjs";
import { both, span } from "../lib/units.mjs";
import { dayText, language, t } from "../lib/words.mjs";
import { card, cautions, line, notJudged, why } from "./answer.mjs";
import { plot, sun } from "./pictures.mjs";
import { crops, siteToPlant, storeName } from "./store.mjs";
import { askCounter } from "./ticket.mjs";
import { next, tiles, toggles } from "./tiles.mjs";

const SHOWN = 3;
const PLOTS_FT = { small: 10, middle: 20, large: 40 };
const SUN_HOURS = { full: 8, half: 5, little: 3 };

export function chooseFruit() {
  const held = new Set();
  return async (visit) => ({
    title: t("kiosk.which_fruit"),
    parts: [toggles(await crops(), held), tiles([{ value: [], word: t("kiosk.any") }], (all) => visit.go(chooseRoom(all)), { kind: "few" }),
      next(() => visit.go(chooseRoom([...held])))],
  });
}

function chooseRoom(wanted) {
  return (visit) => {
    const options = Object.entries(PLOTS_FT).map(([value, feet]) => ({ value, picture: plot(feet), word: t(`kiosk.room_${value}`),
      note: t("kiosk.room_about", { side: both(feet, "ft") }) }));
    return { title: t("kiosk.how_much_room"), parts: tiles([...options, unknown()], (room) => visit.go(chooseSun({ wanted, room })), { kind: "few" }) };
  };
}

function chooseSun(told) {
  return (visit) => {
    const options = Object.entries(SUN_HOURS).map(([value, hours]) => ({ value, picture: sun(value), word: t(`kiosk.sun_${value}`),
      note: t("kiosk.sun_about", { hours }) }));
    return { title: t("kiosk.how_much_sun"), parts: tiles([...options, unknown()], (light) => visit.go(suited({ ...told, light })), { kind: "few" }) };
  };
}

const unknown = () => ({ value: null, word: t("kiosk.do_not_know") });

async function asked({ wanted, room, light }) {
  const site = await siteToPlant();
  if (room) Object.assign(site, { width_ft: PLOTS_FT[room], depth_ft: PLOTS_FT[room] });
  if (light) site.sun_hours = SUN_HOURS[light];
  return { site, ...(wanted.length ? { wishes: { crops: wanted } } : {}) };
}

function suited(told) {
  return async (visit) => {
    const body = await asked(told);
    const answer = await json("/v1/variety-suggestions", { method: "POST", body: { ...body, limit: SHOWN, set_aside_limit: 0, language: language() } });
    const some = answer.answer.suggestions;
    const near = await storeName();
    return {
      title: some.length ? t("kiosk.these_suit") : t("kiosk.none_suit"),
      parts: [line("note", t("kiosk.reckoned_near", { name: near ?? t("site.the_store") })), some.map(tree),
        cautions(answer.cautions.map(({ text }) => text)), notJudged(answer),
        askCounter(visit, "choose", [["variety-suggestions", body]])],
    };
  };
}

function tree(one) {
  const { harvest, mature_height_ft: height } = one;
  const facts = [
    harvest && t("kiosk.picked", { days: [...new Set([harvest.from, harvest.to])].map(dayText).join(" – ") }),
    height && t("kiosk.grows", { height: span(height, "ft") }),
    pollen(one.pollination),
  ];
  return card(one.fits ? "do" : "care", `${one.name}, ${one.crop_name}`, list(facts.filter(Boolean), (text) => text),
    why(one.reasons.filter(({ outcome }) => outcome !== "say")));
}

function pollen({ partners_needed: needed, partners }) {
  if (needed === 0) return t("kiosk.alone");
  if (!needed) return null;
  const names = partners.slice(0, 2).map(({ name }) => name).join(t("kiosk.or"));
  return names ? t("kiosk.partner", { names }) : t("kiosk.partner_unknown");
}
