// A branch from the trunk to its tip, to scale along its length: full discs are fruit to keep, broken rings come off.
import { figure, line, path, scale, sheet, text } from "../lib/chart.mjs";
import { drawn } from "../lib/dom.mjs";
import { both } from "../lib/units.mjs";
import { number, t } from "../lib/words.mjs";

const [LEFT, RIGHT, LEVEL, WIDTH, HEIGHT] = [40, 870, 84, 900, 170];
const MOST_DRAWN = 60;
const THIRDS = ["inner", "middle", "outer"];

const rise = (at) => LEVEL - 26 * ((at - LEFT) / (RIGHT - LEFT)) ** 1.5;

function wood(diameter = 0.6) {
  const thick = Math.min(16, Math.max(5, diameter * 12));
  const top = `M${LEFT} ${LEVEL - thick} Q${(LEFT + RIGHT) / 2} ${rise((LEFT + RIGHT) / 2) - thick} ${RIGHT} ${rise(RIGHT) - 1}`;
  return path(`${top} Q${(LEFT + RIGHT) / 2} ${rise((LEFT + RIGHT) / 2) + thick / 2} ${LEFT} ${LEVEL + thick} Z`, { class: "bough" });
}

// Places evenly in a third, from the trunk out.
function places(count, third) {
  const width = (RIGHT - LEFT) / 3;
  return Array.from({ length: count }, (_, index) => LEFT + third * width + (width * (index + 0.5)) / count);
}

function kept(thirds) {
  return THIRDS.flatMap((name, third) => places(thirds[name], third)).map((x) => drawn("circle", { class: "fruit", cx: x, cy: rise(x) + 16, r: 10 }));
}

function gone(count) {
  const shown = Math.min(count, MOST_DRAWN);
  const x = scale([0, Math.max(shown, 1)], [LEFT + 10, RIGHT]);
  return Array.from({ length: shown }, (_, index) => drawn("circle", { class: "gone", cx: x(index + 0.5), cy: rise(x(index + 0.5)) - 20 - (index % 2) * 12, r: 5 }));
}

// `one`: the branch of the answer; `asked`: the same branch as it was told.
export function branchSketch(one, asked = {}) {
  const thirds = one.keep_by_third;
  const title = t("thinning.branch", { branch: one.branch, keep: one.keep ?? "?", remove: one.remove ?? "?" });
  if (!thirds) return null;
  const width = (RIGHT - LEFT) / 3;
  const marks = THIRDS.map((name, third) => [
    line(LEFT + third * width, LEVEL + 34, LEFT + third * width, LEVEL + 46, { class: "lead" }),
    text(LEFT + (third + 0.5) * width, LEVEL + 50, t(`thinning.keep_${name}`, { count: thirds[name] }), { "text-anchor": "middle" }),
  ]);
  const length = asked.length_in && text((LEFT + RIGHT) / 2, HEIGHT - 8, t("thinning.length", { length: both(asked.length_in, "in") }), { "text-anchor": "middle", class: "small" });
  const drawing = sheet(WIDTH, HEIGHT, title, drawn("rect", { class: "trunk", x: 0, y: 8, width: LEFT, height: HEIGHT - 30 }),
    wood(asked.diameter_in), gone(one.remove ?? 0), kept(thirds), marks, length || "");
  return figure(title, drawing, [[t("thinning.part"), t("thinning.keep")], ...THIRDS.map((name) => [t(`thinning.part_${name}`), number(thirds[name], 0)])],
    t("thinning.sketch_says"));
}
