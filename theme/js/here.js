// Where a maker is: the bar that is always in view, and what stands in the row itself.

import { markInChart } from "./charts.js";
import { button, make } from "./dom.js";
import { doneIn } from "./place.js";
import { reportForm } from "./report.js";

/** Show the place in the bar and in its row. */
export function showHere(keeping, here) {
  fillBar(keeping, here);
  markInChart(keeping, here);
  const old = document.getElementById("here");
  if (!here) old?.remove();
  else if (old?.dataset.key !== here.key || !here.row.element.contains(old)) {
    old?.remove();
    closeTools(here.row);
    insert(here.row, hereIn(keeping, here));
  } else setStopped(keeping, here, old);
}

function fillBar(keeping, here) {
  const { bar, place, undone } = keeping;
  const undo = bar.querySelector(".undo");
  undo.hidden = undone.length === 0;
  bar.hidden = !here && undo.hidden;
  document.documentElement.toggleAttribute("data-placed", !bar.hidden);
  const parts = ["s", "no", "do", "count", "tick"].map((name) => bar.querySelector(`.${name}`));
  const [drawn, name, work, count, box] = parts;
  box.hidden = !here;
  drawn.replaceChildren();
  if (!here) {
    name.textContent = Object.keys(place.done).length ? "All rounds are done" : "Nothing is ticked";
    name.href = document.getElementById("assembly") ? "#assembly" : "#pieces";
    work.textContent = "";
    count.textContent = "";
    return;
  }
  const { piece, copy, row, key } = here;
  const svg = row.element.querySelector("svg.bar")?.cloneNode(true);
  if (svg) drawn.append(svg);
  name.textContent = `${keeping.titled(here)} of ${lastOf(piece)}`;
  name.href = `#${row.id}`;
  const words = row.element.querySelector(".do").cloneNode(true);
  work.replaceChildren(...(words.querySelector(".ab") ?? words).childNodes); // no room for sentences
  count.textContent = row.stitches ? row.stitches.toLocaleString("en") : "–";
  box.checked = false;
  const round = row.roundAfter(doneIn(place, key));
  const which = piece.make > 1 ? ` ${copy} of ${piece.make}` : "";
  box.setAttribute("aria-label", `${piece.name}${which}, ${round}, ${row.stitches} stitches, done`);
}

/** The number of a piece's last round. */
function lastOf(piece) {
  const numbers = piece.rows.at(-1).shown.match(/\d+/g);
  return numbers ? numbers.at(-1) : String(piece.rows.length);
}

/** What stands in the row in work. */
function hereIn(keeping, here) {
  const block = make("div", { class: "here", id: "here", "data-key": here.key });
  block.append(make("p", {}, make("b", {}, "You are here")));
  if (keeping.keptVersion !== keeping.version) {
    const changes = make("a", { href: "#changes" }, "what changed");
    const said = `Your ticks are of version ${keeping.keptVersion}; this is ${keeping.version}: see `;
    block.append(make("p", {}, said, document.getElementById("changes") ? changes : "its rounds", "."));
  }
  if (here.row.stitches > 1) {
    const field = make("input", {
      type: "number", inputmode: "numeric", min: "0", max: String(here.row.stitches), id: "stopped",
    });
    field.addEventListener("change", () => {
      const stitch = Math.min(Math.max(0, Math.round(Number(field.value)) || 0), here.row.stitches);
      keeping.change([["stopped", here.key, stitch]], stitch ? `Stopped at stitch ${stitch}.` : "");
    });
    block.append(make("p", { class: "stop" }, make("label", { for: "stopped" }, "Stopped at stitch"), field));
  }
  block.append(make("p", {}, reportButton(keeping, here.piece, here.row)));
  setStopped(keeping, here, block);
  return block;
}

function setStopped(keeping, here, block) {
  const field = block.querySelector("input");
  if (field && field !== document.activeElement) field.value = keeping.place.stopped[here.key] ?? "";
  else if (field && !keeping.place.stopped[here.key]) field.value = "";
}

/** Put a block among the remarks of a row. */
function insert(row, block) {
  let remark = row.element.querySelector(":scope > .remark");
  if (!remark) {
    remark = make("div", { class: "remark" });
    row.element.append(remark, make("div", { class: "gap" }, row.sides()));
  }
  remark.append(block);
}

/** What can be done at a row that was chosen by its number. */
export function showTools(keeping, piece, row) {
  if (row.element.querySelector("#tools")) return;
  closeTools(null);
  if (row.element.hasAttribute("data-here")) return;
  const block = make("div", { class: "tools", id: "tools" });
  const go = button("Go on from here", () => {
    keeping.goOnFrom(piece, row);
    row.box.focus({ preventScroll: true });
  });
  block.append(make("p", { class: "buttons" }, go, reportButton(keeping, piece, row)));
  insert(row, block);
}

/** @param {Row | null} row of which the tools are closed; of whichever row has them for null */
function closeTools(row) {
  const open = document.getElementById("tools");
  if (open && (!row || row.element.contains(open))) open.remove();
}

function reportButton(keeping, piece, row) {
  const one = button("Report a mistake", () => {
    const open = row.element.querySelector(":scope > .reporting");
    const form = open ?? reportForm(keeping, piece, row);
    if (!open) row.element.append(form);
    form.querySelector("textarea").focus();
  });
  one.className = "quiet";
  return one;
}
