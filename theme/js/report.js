// A report of a mistake: a text with pattern, version, piece and round in it, to copy or to mail.
// Nothing is sent from here.

import { button, make } from "./dom.js";
import { seen } from "./rounds.js";

/** @param {Keeping} keeping @param {Piece} piece @param {Row} row */
export function reportForm(keeping, piece, row) {
  const id = `report-${row.id}`;
  const field = make("textarea", { id, rows: "9" });
  field.value = reportText(keeping.bar.dataset, piece, row);
  const said = make("span", { role: "status" });
  const copy = button("Copy the text", async () => {
    said.textContent = (await copied(field)) ? "Copied." : "Select the text and copy it by hand.";
  });
  const buttons = make("p", { class: "buttons" }, copy);
  const link = make("a", { class: "button" });
  const { contact } = keeping.bar.dataset;
  if (contact.startsWith("mailto:")) {
    link.append("Write a mail with it");
    const fill = () => link.setAttribute("href", mailTo(contact, field.value));
    field.addEventListener("input", fill);
    fill();
    buttons.append(link);
  } else if (contact) {
    link.append("Open the page for reports");
    link.setAttribute("href", contact);
    link.setAttribute("rel", "noopener noreferrer");
    buttons.append(link);
  }
  const form = make("div", { class: "reporting" });
  const close = button("Close", () => {
    form.remove();
    row.element.querySelector(".no").focus();
  });
  close.className = "quiet";
  buttons.append(close, said);
  form.append(make("label", { for: id }, "Your report"), field, buttons);
  return form;
}

/** @param {DOMStringMap} pattern */
function reportText(pattern, piece, row) {
  const version = pattern.version ? ` ${pattern.version}` : "";
  const count = seen(row.element.querySelector(".count"));
  const lines = [
    `Mistake in ${pattern.title}${version}`,
    `Piece and round: ${piece.name}, ${row.shown}`,
    `The page says: ${row.work} (${count.replace(/[^\d,–].*$/, "").trim()})`,
  ];
  if (location.protocol.startsWith("http")) {
    lines.push(`At: ${location.href.replace(/[?#].*$/, "")}#${row.id}`);
  }
  return [...lines, "", "What is wrong: ", "", "What I did instead: ", ""].join("\n");
}

/** A mail's subject is the first line of the report (RFC 6068 says how both are written). */
function mailTo(contact, text) {
  const [subject] = text.split("\n");
  const body = text.replace(/\r?\n/g, "\r\n");
  return `${contact}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body)}`;
}

async function copied(field) {
  try {
    await navigator.clipboard.writeText(field.value);
    return true;
  } catch {
    field.select(); // from disk a page has no clipboard of its own
    return document.execCommand("copy");
  }
}
