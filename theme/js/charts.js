// The round in work, marked in the drawings of its piece: their address may name a round.

import { doneIn } from "./place.js";

/** Mark the round in the drawings of its piece, and none in the others. */
export function markInChart(keeping, here) {
  for (const image of document.querySelectorAll(".drawing[data-piece] img")) {
    const piece = image.closest(".drawing").dataset.piece;
    const round = here && here.piece.id === piece ? roundOf(keeping, here) : "";
    const [file, old = ""] = image.getAttribute("src").split("#");
    if (round !== old) image.setAttribute("src", round ? `${file}#${round}` : file);
  }
}

/** What a drawing calls the round: "r7", or "r7-b" where a number comes back. */
function roundOf(keeping, { row, key }) {
  const first = Number(row.label.match(/\d+/)[0]);
  const number = first + Math.min(doneIn(keeping.place, key), row.rounds - 1);
  const again = row.id.match(/-r\d+(?:-r\d+)?(-[b-z])$/);
  return `r${number}${again ? again[1] : ""}`;
}
