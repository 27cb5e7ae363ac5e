// The wires of a tree on wires, from the ground up, to scale, with the heights to fix them at.
import { figure, line, path, rect, scale, sheet, text } from "../lib/chart.mjs";
import { number, t } from "../lib/words.mjs";

const [WIDTH, TOP, FLOOR, HEIGHT, LEFT, RIGHT] = [900, 30, 330, 360, 60, 640];

// `wires`: [{height_in, height_cm}] from the lowest.
export function wiresDrawing(wires) {
  if (!wires.length) return null;
  const highest = wires.at(-1).height_in;
  const y = scale([0, highest], [FLOOR, TOP]);
  const label = ({ height_in: inches, height_cm: centimetres }) => `${number(inches)} in (${number(centimetres, 0)} cm)`;
  const middle = (LEFT + RIGHT) / 2;
  const arms = wires.map((one) => path(`M${middle} ${y(one.height_in) + 8} Q${middle + 40} ${y(one.height_in) - 2} ${RIGHT - 110} ${y(one.height_in)} ` +
    `M${middle} ${y(one.height_in) + 8} Q${middle - 40} ${y(one.height_in) - 2} ${LEFT + 110} ${y(one.height_in)}`, { class: "wood", "stroke-width": 5 }));
  const strung = wires.map((one, index) => [line(LEFT, y(one.height_in), RIGHT, y(one.height_in), { class: "wire" }),
    text(RIGHT + 22, y(one.height_in) + 5, t("pruning.wire", { number: index + 1, height: label(one) }), { class: "name" })]);
  const drawing = sheet(WIDTH, HEIGHT, t("pruning.wires"), [LEFT, RIGHT].map((x) => rect(x - 6, TOP - 18, 12, FLOOR - TOP + 18, { class: "post" })),
    path(`M${middle} ${FLOOR} V${TOP + 4}`, { class: "wood", "stroke-width": 10 }), arms, strung,
    line(20, FLOOR, RIGHT + 40, FLOOR, { class: "ground" }), text(RIGHT + 50, FLOOR + 5, t("pruning.ground")));
  return figure(t("pruning.wires"), drawing, [[t("pruning.wire_number"), t("pruning.wire_height")], ...wires.map((one, index) => [String(index + 1), label(one)])]);
}
