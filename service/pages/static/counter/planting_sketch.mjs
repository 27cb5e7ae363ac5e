// The plot with its trees to scale, seen from above: each crown a circle with the number of its line.
import { figure, rect, scale, sheet, text } from "../lib/chart.mjs";
import { drawn } from "../lib/dom.mjs";
import { both } from "../lib/units.mjs";
import { number, t } from "../lib/words.mjs";

const [WIDTH, MARGIN, MOST_HEIGHT] = [600, 44, 620];

export function plantingSketch(plot, title = t("list.sketch")) {
  const perFoot = Math.min((WIDTH - 2 * MARGIN) / plot.width_ft, (MOST_HEIGHT - 2 * MARGIN) / plot.depth_ft);
  const height = plot.depth_ft * perFoot + 2 * MARGIN;
  const x = scale([0, plot.width_ft], [MARGIN, MARGIN + plot.width_ft * perFoot]);
  const y = scale([0, plot.depth_ft], [height - MARGIN, MARGIN]);
  const ground = [rect(x(0), y(plot.depth_ft), plot.width_ft * perFoot, plot.depth_ft * perFoot, { class: "plot" }),
    text(x(plot.width_ft / 2), height - 14, both(plot.width_ft, "ft"), { "text-anchor": "middle" }),
    text(16, y(plot.depth_ft / 2), both(plot.depth_ft, "ft"), { "text-anchor": "middle", transform: `rotate(-90 16 ${y(plot.depth_ft / 2)})` })];
  const trees = plot.trees.map((tree) => [
    drawn("circle", { cx: x(tree.x_ft), cy: y(tree.y_ft), r: (tree.spread_ft / 2) * perFoot, class: "crown" }),
    drawn("circle", { cx: x(tree.x_ft), cy: y(tree.y_ft), r: 4, class: "trunk" }),
    text(x(tree.x_ft), y(tree.y_ft) - 9, tree.line, { "text-anchor": "middle", class: "name" })]);
  const name = (tree) => tree.cultivars.map((one) => one.name).join(" / ");
  const rows = plot.trees.map((tree) => [number(tree.line, 0), name(tree), both(tree.x_ft, "ft"), both(tree.y_ft, "ft"), both(tree.spread_ft, "ft")]);
  const over = plot.left_over.length ? t("list.no_room", { lines: plot.left_over.map((one) => `${one.line} (${one.trees})`).join(", ") }) : null;
  const drawing = sheet(x(plot.width_ft) + MARGIN, height, title, ground, trees);
  drawing.classList.add("whole");
  return figure(title, drawing,
    [["line", "tree", "from_left", "from_front", "spread"].map((head) => t(`list.col_${head}`)), ...rows], over);
}
